//! # D value of truck and trailer

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure d_value` tells of it.
pub const PAGE: Page = Page {
    name: "d_value",
    title: "D value of truck and trailer",
    situation: "Truck and trailer jerk against each other along the rig. The force between two \
                masses that share one acceleration is what a coupling's D value must reach.",
    formula: "D = g T R / (T + R)",
    symbols: &[
        ("D", "force between truck and trailer, kN"),
        (
            "T",
            "most the truck may weigh, with what the trailer puts on it, t",
        ),
        ("R", "most the trailer may weigh, t"),
        ("g", "9.81 m/s², as the regulation rounds it"),
    ],
    holds: "T and R more than 0",
    assumes: "A trailer on a drawbar that puts no weight on the truck.",
    never: "For a hitch rated in pounds by SAE J684, which is tested otherwise.",
    source: "UN R55 paragraph 2 and Directive 94/20/EC, as two makers' glossaries quote them",
};

/// The regulation's rounded standard gravity, m/s².
pub(super) const G_M_S2: f64 = 9.81;

/// A truck and its trailer by their ratings.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TruckAndTrailer {
    /// Most the truck may weigh, t.
    pub truck_t: f64,
    /// Most the trailer may weigh, t.
    pub trailer_t: f64,
}

/// The force a coupling must be good for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct DValue {
    /// D value, kN.
    pub d_kn: f64,
}

/// The D value that truck and trailer ask of their coupling.
///
/// # Errors
/// [`NoNumber`] for a mass that is not more than nothing.
pub fn d_value(inputs: &TruckAndTrailer) -> Result<DValue, NoNumber> {
    let (truck, trailer) = (inputs.truck_t, inputs.trailer_t);
    Ranges::new()
        .positive("truck_t", truck)
        .positive("trailer_t", trailer)
        .checked()?;
    Ok(DValue {
        d_kn: finite("the D value", shared(truck, trailer))?,
    })
}

/// `g T R / (T + R)`.
pub(super) fn shared(truck_t: f64, trailer_t: f64) -> f64 {
    G_M_S2 * truck_t * trailer_t / (truck_t + trailer_t)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::strength::{DValueTrailer, d_value_trailer};
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_trailer_found_back_from_a_d_value_is_the_one_it_came_from(
            truck_t in 0.5..40.0, trailer_t in 0.1..40.0,
        ) {
            let d_kn = d_value(&TruckAndTrailer { truck_t, trailer_t }).unwrap().d_kn;
            let back = d_value_trailer(&DValueTrailer { truck_t, d_kn }).unwrap();
            prop_assert!((back.trailer_t / trailer_t - 1.0).abs() < 1e-9);
        }
    }
}
