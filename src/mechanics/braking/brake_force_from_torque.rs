//! # Brake torque to brake force

use crate::mechanics::constants::FOOT_IN;
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure brake_force_from_torque` tells of it.
pub const PAGE: Page = Page {
    name: "brake_force_from_torque",
    title: "Brake torque to brake force",
    situation: "A brake turns against its wheel, and the wheel pushes back on the road with the \
                tire's radius as its lever. A taller tire on the same brake brakes less.",
    formula: "B = wheels x T x 12 / r",
    symbols: &[
        ("B", "force of an axle at the road, lb"),
        ("T", "brake torque of one wheel, lb ft"),
        ("r", "loaded radius of the tire, axle to ground, in"),
        ("wheels", "braked wheels of the axle, 2"),
    ],
    holds: "torque of 0 or more, radius more than 0, one to four wheels",
    assumes: "Wheels that still turn, brakes set and warm, full current.",
    never: "For wheels that slide: the tire's grip is then the force.",
    source: "moment about the axle, any textbook; checked against an independent model",
};

/// A braked wheel.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WheelTorque {
    /// Brake torque of one wheel, lb ft.
    pub torque_per_wheel_lbft: f64,
    /// Axle to ground, in.
    pub tire_radius_in: f64,
    /// Braked wheels of the axle.
    #[serde(default = "two", alias = "wheels")]
    pub wheels_per_axle: f64,
}

/// What an axle's brakes give at the road.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct AxleBrake {
    /// Force at the road, lb.
    pub brake_force_per_axle_lb: f64,
}

/// Force at the road of an axle's brakes.
///
/// # Errors
/// [`NoNumber`] when a number is out of range.
pub fn brake_force_from_torque(inputs: &WheelTorque) -> Result<AxleBrake, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .not_negative("torque_per_wheel_lbft", inputs.torque_per_wheel_lbft)
        .positive("tire_radius_in", inputs.tire_radius_in)
        .within("wheels_per_axle", inputs.wheels_per_axle, 1.0, 4.0);
    ranges.checked()?;
    let wheels = inputs.wheels_per_axle * inputs.torque_per_wheel_lbft;
    Ok(AxleBrake {
        brake_force_per_axle_lb: finite(
            "the brake force",
            wheels * FOOT_IN / inputs.tire_radius_in,
        )?,
    })
}

fn two() -> f64 {
    2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tire_as_tall_as_a_foot_pushes_with_the_torque_itself() {
        let wheel = WheelTorque {
            torque_per_wheel_lbft: 900.0,
            tire_radius_in: 12.0,
            wheels_per_axle: 2.0,
        };
        let found = brake_force_from_torque(&wheel).unwrap();
        assert!((found.brake_force_per_axle_lb - 1800.0).abs() < 1e-9);
    }
}
