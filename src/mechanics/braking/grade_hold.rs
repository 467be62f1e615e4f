//! # A slope that braked wheels hold

use crate::mechanics::braking::HeldBy;
use crate::mechanics::braking::rig::look_at_grip;
use crate::mechanics::{NoNumber, Page, Ranges};
use serde::{Deserialize, Serialize};

/// What `hames figure grade_hold` tells of it.
pub const PAGE: Page = Page {
    name: "grade_hold",
    title: "A slope that braked wheels hold",
    situation: "A loose trailer stands on its jack on a slope, its brakes on. It rolls where the \
                slope pulls harder than the brakes hold, and slides where it pulls harder than \
                the tires grip; the jack's foot holds nothing back.",
    formula: "turning: sin a = f B / W; sliding: tan a = mu (x - x_j) / ((x_b - x_j) -+ mu h), \
              minus with the nose uphill; nose lifting, uphill: tan a = (x_b - x) / h",
    symbols: &[
        ("a", "slope; its grade is 100 tan a, %"),
        ("B", "most force of all brakes at the road, lb"),
        (
            "f",
            "part of it left in this direction; drum brakes hold less backward",
        ),
        ("W", "weight of the loaded trailer, lb"),
        (
            "x, x_b, x_j",
            "centre of gravity, mean of the axles, and jack, behind the ball, in",
        ),
        ("h", "height of the centre of gravity, in"),
        ("mu", "grip of tire on road"),
    ],
    holds: "jack ahead of the centre of gravity, centre of gravity ahead of the axles; f from 0 \
            to 2; mu more than 0 and up to 1.5",
    assumes: "Brakes fully on before the wheels stand; drums take hold only after turning a \
              little. The slope runs along the trailer.",
    never: "In place of chocks, or for longer than the battery holds.",
    source: "statics on a slope, any textbook; checked against an independent model",
};

/// A loose trailer on a slope.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TrailerOnSlope {
    /// Weight of the loaded trailer, lb.
    pub gross_lb: f64,
    /// Centre of gravity behind the ball, in.
    pub x_cg_in: f64,
    /// Centre of gravity above the ground, in.
    pub h_cg_in: f64,
    /// Mean place of the axles behind the ball, in.
    pub axle_x_mean_in: f64,
    /// Place of the jack behind the ball, in.
    pub jack_x_in: f64,
    /// Most force of all brakes at the road, lb.
    pub brake_force_total_lb: f64,
    /// Grip of tire on road.
    #[serde(alias = "mu")]
    pub mu_tire: f64,
    /// Whether the nose points uphill.
    #[serde(default = "yes", alias = "nose_up")]
    pub nose_uphill: bool,
    /// Part of the brake force left in this direction.
    #[serde(
        default = "all",
        alias = "reverse_factor",
        alias = "torque_factor",
        alias = "brake_factor",
        alias = "f"
    )]
    pub direction_factor: f64,
}

/// The slopes a trailer holds.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct GradeHold {
    /// Grade at which the wheels turn, %; none when they hold any.
    pub torque_limit_pct: Option<f64>,
    /// Grade at which they slide, %; none when they never do.
    pub slip_limit_pct: Option<f64>,
    /// The lesser of the two.
    pub hold_pct: Option<f64>,
    /// Which it is.
    pub limited_by: Option<HeldBy>,
    /// Grade at which the nose comes off its jack, %; none with the nose downhill.
    pub nose_lifts_pct: Option<f64>,
}

/// The steepest grade on which a loose trailer's brakes hold it.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, or the trailer would not stand on jack and axles.
pub fn grade_hold(inputs: &TrailerOnSlope) -> Result<GradeHold, NoNumber> {
    let TrailerOnSlope {
        gross_lb,
        x_cg_in: cg,
        axle_x_mean_in: axles,
        jack_x_in: jack,
        mu_tire: mu,
        ..
    } = *inputs;
    let mut ranges = Ranges::new();
    ranges
        .positive("gross_lb", gross_lb)
        .positive("h_cg_in", inputs.h_cg_in)
        .finite("jack_x_in", jack)
        .holds(cg > jack, "x_cg_in", cg, "more than jack_x_in")
        .holds(
            axles >= cg && axles.is_finite(),
            "axle_x_mean_in",
            axles,
            "x_cg_in or more",
        )
        .not_negative("brake_force_total_lb", inputs.brake_force_total_lb)
        .within("direction_factor", inputs.direction_factor, 0.0, 2.0);
    look_at_grip("mu_tire", mu, &mut ranges);
    ranges.checked()?;
    let turning = inputs.direction_factor * inputs.brake_force_total_lb / gross_lb;
    // tan a of sin a; from 1 on the brakes would hold a wall.
    let torque = (turning < 1.0).then(|| turning / (1.0 - turning * turning).sqrt());
    let leaning = if inputs.nose_uphill { -mu } else { mu } * inputs.h_cg_in;
    let grip = (axles - jack) + leaning;
    let slip = (grip > 0.0).then(|| mu * (cg - jack) / grip);
    let [torque, slip] = [torque, slip].map(|grade| grade.map(percent));
    let (hold, limited_by) = match (torque, slip) {
        (Some(torque), Some(slip)) if slip < torque => (Some(slip), Some(HeldBy::TireGrip)),
        (Some(torque), _) => (Some(torque), Some(HeldBy::BrakeTorque)),
        (None, Some(slip)) => (Some(slip), Some(HeldBy::TireGrip)),
        (None, None) => (None, None),
    };
    Ok(GradeHold {
        torque_limit_pct: torque,
        slip_limit_pct: slip,
        hold_pct: hold,
        limited_by,
        nose_lifts_pct: inputs
            .nose_uphill
            .then(|| percent((axles - cg) / inputs.h_cg_in)),
    })
}

fn percent(share: f64) -> f64 {
    100.0 * share
}

fn all() -> f64 {
    1.0
}

fn yes() -> bool {
    true
}
