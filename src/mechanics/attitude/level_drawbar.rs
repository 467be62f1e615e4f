//! # The drawbar that makes the trailer level

use crate::mechanics::attitude::StaticRig;
use crate::mechanics::attitude::statics::Statics;
use crate::mechanics::{NoNumber, Page};
use serde::Serialize;

/// What `hames figure level_drawbar` tells of it.
pub const PAGE: Page = Page {
    name: "level_drawbar",
    title: "The drawbar that makes the trailer level",
    situation: "A level trailer shares its load evenly between torsion axles. The ball must then \
                stand at the one height where the level trailer rests, after the truck has given \
                way under its tongue.",
    formula: "z = (sum k_i h_i x_i - C) / sum k_i x_i; F = W - sum k_i (h_i - z); \
              rise = z + cF F - cM M - z0",
    symbols: &[
        ("z", "height of the ball when the trailer is level, in"),
        (
            "k_i, h_i, x_i",
            "an axle's rate, lb/in, its free height and its place behind the ball, in",
        ),
        (
            "C",
            "moment of weight and spring bars about the ball, lb in",
        ),
        ("W, F", "weight of the trailer and push on the ball, lb"),
        (
            "cF, cM, M",
            "how far the ball gives to a push and a couple, and the couple of spring bars",
        ),
        (
            "z0",
            "height of the ball before coupling, with a drawbar of no rise, in",
        ),
    ],
    holds: "one to three axles, springs off their stops, a ball above the road",
    assumes: "Level ground, linear springs. Set with spring bars tight where there are any.",
    never: "For other loads: a level drawbar belongs to one load, and another load needs another.",
    source: "statics of bodies on springs, any textbook; checked against an independent model",
};

/// The drawbar, and how the rig stands with it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LevelDrawbar {
    /// Rise of the drawbar, negative where it drops, in.
    pub drawbar_rise_needed_in: f64,
    /// The same against the drawbar now in use, in.
    pub drawbar_change_in: f64,
    /// Height of the ball coupled, in.
    pub ball_height_coupled_in: f64,
    /// Tongue weight, lb.
    pub tongue_lb: f64,
    /// Load of each trailer axle, lb.
    pub axle_lb: Vec<f64>,
}

/// The level trailer.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Level {
    /// Height of the ball then, in.
    pub(crate) height_in: f64,
    /// Tongue weight then, lb.
    pub(crate) push_lb: f64,
    /// Rise of the drawbar that does it, in.
    pub(crate) rise_in: f64,
    /// Load of each axle then, lb.
    pub(crate) axle_lb: Vec<f64>,
}

/// The drawbar with which the trailer stands level.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, or no drawbar makes it level.
pub fn level_drawbar(inputs: &StaticRig) -> Result<LevelDrawbar, NoNumber> {
    let statics = Statics::of(inputs)?;
    let level = statics.level().ok_or_else(|| {
        NoNumber::because(
            "No drawbar makes this trailer level: its axles would carry nothing, or the ball \
             would lie below the road. Look at the load's place and the coupler height again.",
        )
    })?;
    Ok(LevelDrawbar {
        drawbar_rise_needed_in: level.rise_in,
        drawbar_change_in: level.rise_in - inputs.truck.drawbar_rise_in,
        ball_height_coupled_in: level.height_in,
        tongue_lb: level.push_lb,
        axle_lb: level.axle_lb,
    })
}
