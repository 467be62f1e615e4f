//! # Tire loads from side to side

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure lateral_tire_loads` tells of it.
pub const PAGE: Page = Page {
    name: "lateral_tire_loads",
    title: "Tire loads from side to side",
    situation: "A load off the middle leans on the tires of its side. The ball is a joint and \
                takes none of that, so the axles on the road share it.",
    formula: "right = N_i / 2 + W y / (b n); left = N_i / 2 - W y / (b n)",
    symbols: &[
        ("N_i", "load of an axle, lb"),
        ("W", "weight of the loaded trailer, lb"),
        ("y", "its centre of gravity to the right of the middle, in"),
        ("b", "track: tire to tire, in"),
        ("n", "number of axles on the road"),
    ],
    holds: "a centre of gravity between the tires; every tire of those axles on the road",
    assumes: "Standing on level ground; each axle takes the same share.",
    never: "In a bend or on a side slope, where far more moves across.",
    source: "statics, any textbook: moments about the middle of the track",
};

/// Loads of the axles, and how far the trailer's weight lies off the middle.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lean {
    /// Load of each axle, front to rear, lb.
    pub axle_lb: Vec<f64>,
    /// Weight of the loaded trailer, lb.
    pub trailer_gross_lb: f64,
    /// Its centre of gravity to the right of the middle, in.
    pub y_cg_in: f64,
    /// Tire to tire, in.
    pub track_in: f64,
}

/// Load of each tire.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TireLoads {
    /// Right tires, front to rear, lb.
    pub right_tire_lb: Vec<f64>,
    /// Left tires, front to rear, lb.
    pub left_tire_lb: Vec<f64>,
    /// How much each right tire carries over half its axle's load, lb; negative is less.
    pub transfer_to_right_lb: f64,
}

/// Loads of left and right tires.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, or the load would lift the tires of one side.
pub fn lateral_tire_loads(inputs: &Lean) -> Result<TireLoads, NoNumber> {
    let mut ranges = Ranges::new();
    for load in &inputs.axle_lb {
        ranges.not_negative("axle_lb", *load);
    }
    let bearing = inputs.axle_lb.iter().filter(|load| **load > 0.0).count();
    let bearing = f64::from(u32::try_from(bearing).unwrap_or(u32::MAX));
    ranges
        .positive("axle_lb: axles on the road", bearing)
        .positive("trailer_gross_lb", inputs.trailer_gross_lb)
        .finite("y_cg_in", inputs.y_cg_in)
        .positive("track_in", inputs.track_in);
    ranges.checked()?;
    let moves = inputs.trailer_gross_lb * inputs.y_cg_in / inputs.track_in / bearing;
    let moves = finite("what moves across", moves)?;
    let tires = |moves: f64| {
        let tire = |axle: &f64| {
            if *axle > 0.0 { axle / 2.0 + moves } else { 0.0 }
        };
        inputs.axle_lb.iter().map(tire).collect::<Vec<f64>>()
    };
    let (right, left) = (tires(moves), tires(-moves));
    if right.iter().chain(&left).any(|load| *load < 0.0) {
        return Err(NoNumber::because(
            "The load lies so far to one side that a tire of the other would leave the road. Move \
             load across, or look at the places again.",
        ));
    }
    Ok(TireLoads {
        right_tire_lb: right,
        left_tire_lb: left,
        transfer_to_right_lb: moves,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lean(y_cg_in: f64) -> Result<TireLoads, NoNumber> {
        lateral_tire_loads(&Lean {
            axle_lb: vec![2000.0, 2000.0],
            trailer_gross_lb: 4500.0,
            y_cg_in,
            track_in: 75.0,
        })
    }

    /// 4500 lb, 2.5 in right, over 75 in and two axles: 75 lb.
    #[test]
    fn a_load_to_the_right_leans_on_the_right_tires() {
        let tires = lean(2.5).unwrap();
        assert_eq!(tires.right_tire_lb, [1075.0, 1075.0]);
        assert_eq!(tires.left_tire_lb, [925.0, 925.0]);
    }

    #[test]
    fn a_load_that_would_lift_a_side_has_no_answer() {
        assert!(lean(-40.0).is_err());
    }
}
