//! # V value of a centre-axle trailer

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure v_value` tells of it.
pub const PAGE: Page = Page {
    name: "v_value",
    title: "V value of a centre-axle trailer",
    situation: "A trailer with a stiff drawbar nods over bumps and beats on the coupling. The \
                longer its body is against its drawbar, the harder.",
    formula: "V = a (x² / l²) C, with x² / l² not taken below 1",
    symbols: &[
        ("V", "force up and down at the coupling, kN"),
        (
            "a",
            "1.8 m/s² with an air-sprung rear axle of the truck, else 2.4",
        ),
        ("x", "length of the trailer's body, m"),
        ("l", "from the coupling to the middle of the axles, m"),
        ("C", "what the trailer's axles carry together, t"),
    ],
    holds: "all more than 0",
    assumes: "A stiff drawbar.",
    never: "For trailers of 3.5 t and less, whose coupling is rated by D and nose weight.",
    source: "UN R55 and Directive 94/20/EC, as a secondary page quotes them",
};

/// A centre-axle trailer.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CentreAxleTrailer {
    /// What its axles carry together, t.
    pub axle_sum_t: f64,
    /// Length of its body, m.
    pub body_m: f64,
    /// From the coupling to the middle of its axles, m.
    pub drawbar_m: f64,
    /// Whether the truck's rear axle is sprung by air, or as softly.
    #[serde(default)]
    pub air_sprung: bool,
}

/// The force a coupling must be good for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct VValue {
    /// V value, kN.
    pub v_kn: f64,
}

/// The V value that a centre-axle trailer asks of its coupling.
///
/// # Errors
/// [`NoNumber`] for a number that is not more than nothing.
pub fn v_value(inputs: &CentreAxleTrailer) -> Result<VValue, NoNumber> {
    let (axles, body, drawbar) = (inputs.axle_sum_t, inputs.body_m, inputs.drawbar_m);
    Ranges::new()
        .positive("axle_sum_t", axles)
        .positive("body_m", body)
        .positive("drawbar_m", drawbar)
        .checked()?;
    let beats = if inputs.air_sprung { 1.8 } else { 2.4 };
    let long = body * body / (drawbar * drawbar);
    Ok(VValue {
        v_kn: finite("the V value", beats * long.max(1.0) * axles)?,
    })
}
