//! # Truck and trailer at rest

use crate::mechanics::attitude::Status;
use crate::mechanics::attitude::statics::Statics;
use crate::mechanics::{NoNumber, Page, Trailer, Truck};
use serde::{Deserialize, Serialize};

/// What `hames figure solve_static` tells of it.
pub const PAGE: Page = Page {
    name: "solve_static",
    title: "Truck and trailer at rest",
    situation: "The trailer rests on the ball and on its axles, and the ball rests on the truck's \
                springs, so one settles with the other. Torsion axles carry what their own height \
                gives them; an equalizer gives leaf-sprung axles the same load.",
    formula: "sum N_i + F = W; sum N_i x_i = W x + M; N_i = k_i (h_i - z + t x_i) for torsion \
              axles, the mean of all for an equalizer; z = z0 - cF F + cM M. An axle that comes \
              out below 0 is off the road and the rest is solved again.",
    symbols: &[
        ("N_i", "load of one trailer axle, lb"),
        ("x_i", "its place behind the ball, in"),
        ("k_i", "its rate with tires, lb/in"),
        (
            "h_i",
            "ball height at which it would carry nothing, level and alone, in",
        ),
        ("F", "push on the ball, the tongue weight, lb"),
        (
            "W, x",
            "weight of the loaded trailer, lb, and its place behind the ball, in",
        ),
        (
            "M",
            "couple of spring bars, nose down on the truck, nose up on the trailer, lb in",
        ),
        ("z, z0", "height of the ball coupled, and before, in"),
        ("t", "pitch of the trailer, nose up, rad"),
        (
            "cF, cM",
            "how far the ball gives to a push and a couple, in/lb and 1/lb",
        ),
    ],
    holds: "one to three axles; pitch up to 20 deg; springs off their stops; both axles of the \
            truck on the road",
    assumes: "Level ground, linear springs, no friction in springs or equalizer. Leaving the small \
              angles out costs up to 24 lb an axle and 0.06 deg, so nothing finer than 10 lb and \
              0.1 deg is shown.",
    never: "In place of a scale ticket where there is one, or on a slope.",
    source: "statics of bodies on springs, any textbook; checked against an independent model",
};

/// A truck with a trailer on its ball.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StaticRig {
    /// The truck.
    pub truck: Truck,
    /// The trailer.
    pub trailer: Trailer,
    /// Couple of the spring bars, nose down on the truck and nose up on the trailer, lb ft.
    #[serde(
        default,
        alias = "spring_bar_moment_lbft",
        alias = "spring_bar_couple_lbft",
        alias = "bar_moment_lbft",
        alias = "wd_couple_lbft",
        alias = "moment_lbft",
        alias = "couple_lbft"
    )]
    pub wd_moment_lbft: f64,
}

/// How truck and trailer stand.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StaticSolution {
    /// Tongue weight, lb.
    pub tongue_lb: f64,
    /// Tongue weight of the trailer's weight, %.
    pub tongue_pct_of_gross: f64,
    /// Weight of the loaded trailer, lb.
    pub trailer_gross_lb: f64,
    /// Height of the ball, in.
    pub ball_height_coupled_in: f64,
    /// How far coupling lowered the ball, in.
    pub ball_drop_in: f64,
    /// Pitch of the trailer, nose up, deg.
    pub trailer_pitch_deg: f64,
    /// Load of each trailer axle, front to rear, lb.
    pub axle_lb: Vec<f64>,
    /// All trailer axles together, lb.
    pub axle_sum_lb: f64,
    /// Load of one tire of each axle, lb.
    pub tire_lb: Vec<f64>,
    /// Whether each axle is on the road.
    pub on_road: Vec<bool>,
    /// Load of the truck's front axle, lb.
    pub truck_front_lb: f64,
    /// Load of the truck's rear axle, lb.
    pub truck_rear_lb: f64,
    /// What the trailer took off the front axle, lb; negative is added.
    pub front_unloading_lb: f64,
    /// The same of the front axle's load before, %; nothing where it carried nothing.
    pub front_unloading_pct: Option<f64>,
    /// How far the truck came down at its front axle, in.
    pub truck_front_drop_in: f64,
    /// How far the truck came down at its rear axle, in.
    pub truck_rear_drop_in: f64,
    /// Pitch the truck took on, nose up, deg.
    pub truck_pitch_nose_up_deg: f64,
    /// Which axles are on the road, or what the equalizer does.
    pub status: Status,
    /// How far the drawbar must rise, or drop where negative, for a level trailer, in; nothing
    /// where no height does.
    pub drawbar_change_for_level_in: Option<f64>,
    /// Ball height at which the trailer is level, in.
    pub ball_height_for_level_in: Option<f64>,
}

/// How truck and trailer stand at rest.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, or the two could not stand so.
pub fn solve_static(inputs: &StaticRig) -> Result<StaticSolution, NoNumber> {
    Statics::of(inputs)?.solve()
}
