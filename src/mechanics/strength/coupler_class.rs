//! # What a coupler and its chains are tested to

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure coupler_class` tells of it.
pub const PAGE: Page = Page {
    name: "coupler_class",
    title: "What a coupler and its chains are tested to",
    situation: "Light trailers fall into four classes by the most they may weigh. Each class asks \
                what coupler, ball and chain must hold before they break.",
    formula: "class 1 to 3: the table; class 4: along 3 R, across R, up 1.3 R, down 1.4 R, each \
              chain R",
    symbols: &[
        ("R", "most the trailer may weigh, lb"),
        ("along", "pull and push along the rig, lb"),
        ("across", "to either side, lb"),
        ("up, down", "lifting off the ball, pressing on it, lb"),
    ],
    holds: "R up to 10,000 lb; there is no class above the fourth",
    assumes: "New parts that carry the maker's mark.",
    never: "For a gooseneck, or to rate a part that carries no mark.",
    source: "classes: SAE J684 as adopted in COMAR 11.13.08.04; forces: COMAR 11.13.08.10 table \
             1; chains: SAE J684, as a secondary page quotes it",
};

/// A trailer by its rating.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CouplerClass {
    /// Most the trailer may weigh, lb.
    pub trailer_gvwr_lb: f64,
}

/// What its coupler, ball and chains must hold.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CouplerForces {
    /// The class, 1 to 4.
    pub class: i64,
    /// Along the rig, pull and push, lb.
    pub longitudinal_lb: f64,
    /// To either side, lb.
    pub transverse_lb: f64,
    /// Lifting off the ball, lb.
    pub vertical_tension_lb: f64,
    /// Pressing on the ball, lb.
    pub vertical_compression_lb: f64,
    /// Ball of the class, in; nothing in class 4, whose ball is sized to hold the forces.
    pub ball_in: Option<f64>,
    /// Each chain, lb.
    pub each_chain_lb: f64,
}

/// One class of the table.
struct Row {
    class: i64,
    /// Heaviest trailer of the class, lb; also what each of its chains must hold.
    up_to_lb: f64,
    along_lb: f64,
    across_lb: f64,
    vertical_lb: f64,
    ball_in: f64,
}

const TABLE: [Row; 3] = [
    Row {
        class: 1,
        up_to_lb: 2000.0,
        along_lb: 6000.0,
        across_lb: 2000.0,
        vertical_lb: 2500.0,
        ball_in: 1.875,
    },
    Row {
        class: 2,
        up_to_lb: 3500.0,
        along_lb: 10_500.0,
        across_lb: 3000.0,
        vertical_lb: 4500.0,
        ball_in: 2.0,
    },
    Row {
        class: 3,
        up_to_lb: 5000.0,
        along_lb: 15_000.0,
        across_lb: 4000.0,
        vertical_lb: 7000.0,
        ball_in: 2.0,
    },
];

/// Heaviest trailer of the fourth class, lb.
const HEAVIEST_LB: f64 = 10_000.0;

/// The class of a trailer, and what its coupler and chains must hold.
///
/// # Errors
/// [`NoNumber`] for a trailer of more than 10,000 lb.
pub fn coupler_class(inputs: &CouplerClass) -> Result<CouplerForces, NoNumber> {
    let rating = inputs.trailer_gvwr_lb;
    Ranges::new()
        .holds(
            rating > 0.0 && rating <= HEAVIEST_LB,
            "trailer_gvwr_lb",
            rating,
            "more than 0 and up to 10000; the classes end there",
        )
        .checked()?;
    if let Some(row) = TABLE.iter().find(|row| rating <= row.up_to_lb) {
        return Ok(CouplerForces {
            class: row.class,
            longitudinal_lb: row.along_lb,
            transverse_lb: row.across_lb,
            vertical_tension_lb: row.vertical_lb,
            vertical_compression_lb: row.vertical_lb,
            ball_in: Some(row.ball_in),
            each_chain_lb: row.up_to_lb,
        });
    }
    Ok(CouplerForces {
        class: 4,
        longitudinal_lb: finite("the force along", 3.0 * rating)?,
        transverse_lb: rating,
        vertical_tension_lb: 1.3 * rating,
        vertical_compression_lb: 1.4 * rating,
        ball_in: None,
        each_chain_lb: rating,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn a_heavier_trailer_is_never_asked_for_less(
            light in 1.0..10_000.0_f64, more in 0.0..9000.0_f64,
        ) {
            let asked = |trailer_gvwr_lb| coupler_class(&CouplerClass { trailer_gvwr_lb }).unwrap();
            let heavy = (light + more).min(HEAVIEST_LB);
            let (light, heavy) = (asked(light), asked(heavy));
            prop_assert!(heavy.class >= light.class);
            prop_assert!(heavy.longitudinal_lb >= light.longitudinal_lb);
            prop_assert!(heavy.each_chain_lb >= light.each_chain_lb);
        }
    }
}
