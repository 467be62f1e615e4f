//! # Dc value of a centre-axle trailer

use crate::mechanics::strength::d_value::shared;
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure dc_value` tells of it.
pub const PAGE: Page = Page {
    name: "dc_value",
    title: "Dc value of a centre-axle trailer",
    situation: "A trailer with its axles near the middle presses on the coupling a little. The \
                force along is then reckoned with the weight on its axles alone.",
    formula: "Dc = g T C / (T + C)",
    symbols: &[
        ("Dc", "force between truck and trailer, kN"),
        ("T", "most the truck may weigh, t"),
        ("C", "what the trailer's axles carry together, t"),
        ("g", "9.81 m/s², as the regulation rounds it"),
    ],
    holds: "T and C more than 0",
    assumes: "A stiff drawbar; the V value is looked at beside it.",
    never: "For trailers of 3.5 t and less, whose coupling is rated by D and nose weight.",
    source: "UN R55 and Directive 94/20/EC, as a secondary page quotes them",
};

/// A truck and a centre-axle trailer.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CentreAxle {
    /// Most the truck may weigh, t.
    pub truck_t: f64,
    /// What the trailer's axles carry together, t.
    pub axle_sum_t: f64,
}

/// The force a coupling must be good for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct DcValue {
    /// Dc value, kN.
    pub dc_kn: f64,
}

/// The Dc value that truck and trailer ask of their coupling.
///
/// # Errors
/// [`NoNumber`] for a mass that is not more than nothing.
pub fn dc_value(inputs: &CentreAxle) -> Result<DcValue, NoNumber> {
    let (truck, axles) = (inputs.truck_t, inputs.axle_sum_t);
    Ranges::new()
        .positive("truck_t", truck)
        .positive("axle_sum_t", axles)
        .checked()?;
    Ok(DcValue {
        dc_kn: finite("the Dc value", shared(truck, axles))?,
    })
}
