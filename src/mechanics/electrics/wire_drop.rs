//! # Volts lost in a wire

use crate::mechanics::electrics::awg::{look_at_gauge, there_and_back_ohm};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure wire_drop` tells of it.
pub const PAGE: Page = Page {
    name: "wire_drop",
    title: "Volts lost in a wire",
    situation: "A current loses volts along the wire to the brakes, and as many again on its way \
                back by the ground wire. What is lost there does not pull the magnets.",
    formula: "U = I (R_out + R_back)",
    symbols: &[
        ("I", "current, A"),
        (
            "R_out, R_back",
            "resistance of the wire out and of the wire back, ohm",
        ),
        ("U", "volts lost, V"),
    ],
    holds: "gauges 0 to 40, any length",
    assumes: "Sound copper at 20 C; plugs, splices and grounds lose nothing.",
    never: "To find a bad ground: measure it with the brakes on.",
    source: "Ohm's law, any textbook of electricity",
};

/// A current in a wire.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WireLoaded {
    /// Current, A.
    pub current_a: f64,
    /// Length of the wire one way, ft.
    pub one_way_ft: f64,
    /// Gauge of the wire out.
    pub gauge: f64,
    /// Gauge of the wire back; the same unless given.
    #[serde(default)]
    pub return_gauge: Option<f64>,
}

/// What it loses.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WireDrop {
    /// Volts lost out and back, V.
    pub drop_v: f64,
}

/// The volts lost in a wire out and back.
///
/// # Errors
/// [`NoNumber`] outside the ranges.
pub fn wire_drop(inputs: &WireLoaded) -> Result<WireDrop, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .not_negative("current_a", inputs.current_a)
        .not_negative("one_way_ft", inputs.one_way_ft);
    look_at_gauge(&mut ranges, "gauge", inputs.gauge);
    if let Some(gauge) = inputs.return_gauge {
        look_at_gauge(&mut ranges, "return_gauge", gauge);
    }
    ranges.checked()?;
    let ohm = there_and_back_ohm(inputs.one_way_ft, inputs.gauge, inputs.return_gauge)?;
    Ok(WireDrop {
        drop_v: finite("the loss", inputs.current_a * ohm)?,
    })
}
