//! # Rate of a torsion axle

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure torsion_axle_rates` tells of it.
pub const PAGE: Page = Page {
    name: "torsion_axle_rates",
    title: "Rate of a torsion axle",
    situation: "A torsion axle carries on rubber that an arm twists. The wheel rises on an arc, so \
                the rate at the wheel changes with the arm's angle, and the tires give as well.",
    formula: "d = r (sin a - sin b), b = a - p; secant = N / d; \
              tangent = N (1 - p tan b) / (r p cos b); 1/k = 1/k_axle + 1/(2 k_tire)",
    symbols: &[
        ("r", "length of the arm, in"),
        ("a", "angle of the unloaded arm below level, deg"),
        ("p", "twist from no load to the rated load, rad"),
        ("b", "angle of the arm below level at the rated load, deg"),
        ("N", "rated load of the axle, lb"),
        ("d", "rise of the wheel from no load to the rated load, in"),
        ("k_tire", "vertical rate of one tire, lb/in"),
    ],
    holds: "start angles from 45 deg up to 60 deg down, twist from 5 to 45 deg, arm never past \
            70 deg",
    assumes: "The rubber's torque grows with its twist. Real rubber creeps and lags by some tenth, \
              and an old axle sits lower. The secant serves from no load to the rated load, the \
              tangent for small changes about the rated load.",
    never: "For leaf springs, or for an axle whose arms sag more than its maker's drawing.",
    source: "moments on a trailing arm, any textbook of mechanics; 22.5 deg of twist to the rated \
             load from an axle supplier's table of arm positions",
};

/// An axle by its maker's drawing.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TorsionAxle {
    /// Pivot to spindle, in.
    pub arm_in: f64,
    /// Angle of the unloaded arm below level, deg; negative is above.
    pub start_angle_down_deg: f64,
    /// Rated load of the axle, lb.
    pub rated_axle_load_lb: f64,
    /// Vertical rate of one tire, lb/in; without it nothing is said with tires.
    #[serde(default)]
    pub tire_rate_each_lb_in: Option<f64>,
    /// Twist from no load to the rated load, deg.
    #[serde(default = "usual_twist", alias = "rated_twist_deg")]
    pub twist_to_rated_deg: f64,
}

impl TorsionAxle {
    /// An axle of the usual twist, without its tires.
    pub fn of_usual_twist(arm_in: f64, start_angle_down_deg: f64, rated_axle_load_lb: f64) -> Self {
        Self {
            arm_in,
            start_angle_down_deg,
            rated_axle_load_lb,
            tire_rate_each_lb_in: None,
            twist_to_rated_deg: usual_twist(),
        }
    }
}

/// Twist to the rated load in the usual range of axles, deg.
fn usual_twist() -> f64 {
    22.5
}

/// Rates of the axle, both sides together.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TorsionRates {
    /// Rise of the wheel from no load to the rated load, in.
    pub deflection_in: f64,
    /// Rated load over that rise, lb/in.
    pub secant_rate_lb_in: f64,
    /// Rate about the rated load, lb/in.
    pub tangent_rate_lb_in: f64,
    /// The secant rate with tires, lb/in.
    pub secant_with_tires_lb_in: Option<f64>,
    /// The tangent rate with tires, lb/in.
    pub tangent_with_tires_lb_in: Option<f64>,
}

/// Secant and tangent rate of a torsion axle, without tires and with them.
///
/// # Errors
/// [`NoNumber`] when a number is out of range.
pub fn torsion_axle_rates(inputs: &TorsionAxle) -> Result<TorsionRates, NoNumber> {
    let loaded_deg = inputs.start_angle_down_deg - inputs.twist_to_rated_deg;
    let mut ranges = Ranges::new();
    ranges
        .positive("arm_in", inputs.arm_in)
        .within(
            "start_angle_down_deg",
            inputs.start_angle_down_deg,
            -45.0,
            60.0,
        )
        .positive("rated_axle_load_lb", inputs.rated_axle_load_lb)
        .within("twist_to_rated_deg", inputs.twist_to_rated_deg, 5.0, 45.0)
        .within("angle of the loaded arm, deg", loaded_deg, -70.0, 70.0);
    if let Some(rate) = inputs.tire_rate_each_lb_in {
        ranges.positive("tire_rate_each_lb_in", rate);
    }
    ranges.checked()?;
    let (start, twist) = (
        inputs.start_angle_down_deg.to_radians(),
        inputs.twist_to_rated_deg.to_radians(),
    );
    let loaded = start - twist;
    let (arm, load) = (inputs.arm_in, inputs.rated_axle_load_lb);
    let rise = finite("the rise", arm * (libm::sin(start) - libm::sin(loaded)))?;
    let secant = finite("the rate", load / rise)?;
    let tangent = load * (1.0 - twist * libm::tan(loaded)) / (arm * twist * libm::cos(loaded));
    let tangent = finite("the rate", tangent)?;
    let tire = inputs.tire_rate_each_lb_in;
    let with_tires = |rate: f64| tire.map(|tire| in_series(rate, tire)).transpose();
    Ok(TorsionRates {
        deflection_in: rise,
        secant_rate_lb_in: secant,
        tangent_rate_lb_in: tangent,
        secant_with_tires_lb_in: with_tires(secant)?,
        tangent_with_tires_lb_in: with_tires(tangent)?,
    })
}

/// The rate of an axle on its two tires.
///
/// # Errors
/// [`NoNumber`] when the rates come to no number together.
pub fn in_series(axle_lb_in: f64, tire_lb_in: f64) -> Result<f64, NoNumber> {
    finite(
        "the rate with tires",
        1.0 / (1.0 / axle_lb_in + 1.0 / (2.0 * tire_lb_in)),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rates(start_angle_down_deg: f64) -> TorsionRates {
        torsion_axle_rates(&TorsionAxle::of_usual_twist(
            6.0,
            start_angle_down_deg,
            3500.0,
        ))
        .unwrap()
    }

    /// At no start angle the arm rises past level and gains leverage on the rubber; from 45 deg
    /// down it is still coming up to level.
    #[test]
    fn the_tangent_is_stiffer_than_the_secant_for_a_level_arm_and_softer_for_a_low_one() {
        for (start, share) in [(0.0, 0.226), (45.0, -0.251)] {
            let rates = rates(start);
            let over = rates.tangent_rate_lb_in / rates.secant_rate_lb_in - 1.0;
            assert!((over - share).abs() < 1e-3, "{start} deg: {over}");
        }
    }

    /// The rate is what the load grows by: the tangent is the slope of load over rise.
    #[test]
    fn the_tangent_is_the_slope_of_the_load_by_a_small_step() {
        for start in [-10.0, 0.0, 22.5, 45.0] {
            let at = |twist: f64| {
                let arm = (start - twist).to_radians();
                let load = 3500.0 * twist / 22.5 * libm::cos((start - 22.5_f64).to_radians())
                    / libm::cos(arm);
                (load, -6.0 * libm::sin(arm))
            };
            let ((low, down), (high, up)) = (at(22.499), at(22.501));
            let slope = (high - low) / (up - down);
            let rate = rates(start).tangent_rate_lb_in;
            assert!(
                (slope / rate - 1.0).abs() < 1e-6,
                "{start}: {slope}, {rate}"
            );
        }
    }
}
