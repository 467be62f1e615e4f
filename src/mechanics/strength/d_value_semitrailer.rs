//! # D value of a semitrailer on a fifth wheel

use crate::mechanics::strength::DValue;
use crate::mechanics::strength::d_value::G_M_S2;
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::Deserialize;

/// What `hames figure d_value_semitrailer` tells of it.
pub const PAGE: Page = Page {
    name: "d_value_semitrailer",
    title: "D value of a semitrailer on a fifth wheel",
    situation: "A semitrailer rests part of its weight on the truck, which then counts on both \
                sides. The regulation takes six tenths of the force between them.",
    formula: "D = 0.6 g T R / (T + R - U)",
    symbols: &[
        ("D", "force between truck and trailer, kN"),
        ("T", "most the truck may weigh, with U, t"),
        ("R", "most the semitrailer may weigh, t"),
        ("U", "what of it rests on the truck, t"),
        ("g", "9.81 m/s², as the regulation rounds it"),
    ],
    holds: "T and R more than 0, U from 0 to the lesser of them",
    assumes: "A fifth wheel. A gooseneck ball is rated by its maker in pounds.",
    never: "For a trailer on a drawbar.",
    source: "UN R55, as an encyclopedia quotes it",
};

/// A truck and its semitrailer by their ratings.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Semitrailer {
    /// Most the truck may weigh, with what rests on it, t.
    pub truck_t: f64,
    /// Most the semitrailer may weigh, t.
    pub trailer_t: f64,
    /// What of it rests on the truck, t.
    pub rests_t: f64,
}

/// The D value that truck and semitrailer ask of their fifth wheel.
///
/// # Errors
/// [`NoNumber`] for a number out of range.
pub fn d_value_semitrailer(inputs: &Semitrailer) -> Result<DValue, NoNumber> {
    let (truck, trailer, rests) = (inputs.truck_t, inputs.trailer_t, inputs.rests_t);
    let lesser = truck.min(trailer);
    Ranges::new()
        .positive("truck_t", truck)
        .positive("trailer_t", trailer)
        .holds(
            (0.0..=lesser).contains(&rests),
            "rests_t",
            rests,
            "from 0 to the lesser of truck_t and trailer_t",
        )
        .checked()?;
    let force = 0.6 * G_M_S2 * truck * trailer / (truck + trailer - rests);
    Ok(DValue {
        d_kn: finite("the D value", force)?,
    })
}
