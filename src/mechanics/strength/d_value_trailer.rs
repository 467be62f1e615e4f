//! # Heaviest trailer a D value allows

use crate::mechanics::strength::d_value::G_M_S2;
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure d_value_trailer` tells of it.
pub const PAGE: Page = Page {
    name: "d_value_trailer",
    title: "Heaviest trailer a D value allows",
    situation: "A coupling carries a D value on its plate. Behind a truck of known rating that \
                allows a trailer of so much.",
    formula: "R = T D / (g T - D)",
    symbols: &[
        ("R", "most the trailer may weigh by the coupling, t"),
        ("T", "most the truck may weigh, t"),
        ("D", "D value of the coupling, kN"),
        ("g", "9.81 m/s², as the regulation rounds it"),
    ],
    holds: "D less than g T; from there on any trailer is allowed by it",
    assumes: "A trailer on a drawbar that puts no weight on the truck.",
    never: "In place of the other ratings, of which the lowest decides.",
    source: "UN R55 paragraph 2, solved for R; a printed form with R below the line is wrong",
};

/// A truck and a coupling.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DValueTrailer {
    /// Most the truck may weigh, t.
    pub truck_t: f64,
    /// D value on the coupling's plate, kN.
    pub d_kn: f64,
}

/// The trailer they allow.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct MostTrailer {
    /// Most the trailer may weigh, t.
    pub trailer_t: f64,
}

/// The heaviest trailer that a coupling's D value allows.
///
/// # Errors
/// [`NoNumber`] for a number that is not more than nothing, and for a D value that no trailer
/// reaches.
pub fn d_value_trailer(inputs: &DValueTrailer) -> Result<MostTrailer, NoNumber> {
    let (truck, force) = (inputs.truck_t, inputs.d_kn);
    Ranges::new()
        .positive("truck_t", truck)
        .positive("d_kn", force)
        .checked()?;
    let left = G_M_S2 * truck - force;
    if left <= 0.0 {
        return Err(NoNumber::because(
            "no trailer behind this truck reaches the coupling's D value; another rating decides",
        ));
    }
    Ok(MostTrailer {
        trailer_t: finite("the trailer", truck * force / left)?,
    })
}
