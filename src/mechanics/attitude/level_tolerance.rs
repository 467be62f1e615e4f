//! # How far from level before an axle is over its limit

use crate::mechanics::attitude::split_from_frame_heights::{AxlesAlike, no_axle};
use crate::mechanics::attitude::status::axle_name;
use crate::mechanics::attitude::tilt::{AtLimit, Tilt, Tilted};
use crate::mechanics::constants::FOOT_IN;
use crate::mechanics::load::weighed;
use crate::mechanics::{NoNumber, Page, Ranges, Springing, Trailer, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure level_tolerance` tells of it.
pub const PAGE: Page = Page {
    name: "level_tolerance",
    title: "How far from level before an axle is over its limit",
    situation: "A trailer on torsion axles that stands nose low leans on its front axle, nose high \
                on its rear axle. What an axle has in hand when level says how far the frame may \
                pitch before that axle, or its tires, carry more than they may.",
    formula: "m = R - C / (n xb); up = m / (k ((x_n - xb) - S / (n xb))); \
              down = m / (k ((xb - x_1) + S / (n xb))); frame difference = pitch B; \
              ball height error = pitch (sum x^2) / (sum x)",
    symbols: &[
        (
            "R",
            "the axle's limit: the least of its rating and of its tires at the pressure in them, \
             twice a tire's less twice what moves across to one side, lb",
        ),
        (
            "C",
            "moment of weight and spring bars about the ball, lb in",
        ),
        (
            "x_i, xb, n",
            "places of the axles, their mean, in, and their number",
        ),
        ("S", "sum of (x_i - xb)^2, in2"),
        ("k", "rate of one axle with its tires, lb/in"),
        (
            "m",
            "what an axle has in hand when level, lb; below 0 it is over already",
        ),
        ("B", "base between the frame marks, in"),
    ],
    holds: "axles alike, pitch up to 20 deg. A single axle and axles on an equalizer have no limit \
            from pitch. Where the light axle leaves the road first and the other still holds, \
            there is no limit on that side either.",
    assumes: "Level ground, linear springs, standing still. Leaving the tires out of the rate makes \
              the tolerance about 30 % too tight.",
    never: "As the only reason to stand out of level: tongue weight and steering change too.",
    source: "statics of bodies on springs, any textbook; checked against an independent model",
};

/// A trailer's axles, what they carry and what they may.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LevelInputs {
    /// Each axle's place behind the ball, in.
    pub axle_x_in: Vec<f64>,
    /// Rate of one axle with tires, lb/in.
    pub rate_lb_in: f64,
    /// Most one axle may carry, lb.
    pub axle_limit_lb: f64,
    /// Weight of the loaded trailer, lb.
    pub gross_lb: f64,
    /// Its centre of gravity behind the ball, in.
    pub x_cg_in: f64,
    /// Distance between the frame marks, in.
    pub base_in: f64,
    /// Most one tire carries at the pressure in it, lb; where given it limits the axle too.
    #[serde(default, alias = "tire_capacity_each_lb")]
    pub tire_capacity_lb: Option<f64>,
    /// What moves across to the tires of one side, for one axle, lb.
    #[serde(default, alias = "side_transfer_per_axle_lb")]
    pub side_transfer_lb: f64,
    /// How the axles are sprung.
    #[serde(default)]
    pub suspension: Option<Springing>,
    /// The same, said the short way.
    #[serde(default)]
    pub equalized: bool,
    /// Couple of the spring bars, lb ft.
    #[serde(default)]
    pub wd_moment_lbft: f64,
}

/// How far from level an axle reaches its limit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LevelTolerance {
    /// Load of one axle when level, lb.
    pub level_axle_lb: f64,
    /// What it has in hand then, lb.
    pub margin_when_level_lb: f64,
    /// Whether there is a tolerance.
    pub status: LevelStatus,
    /// Most pitch nose up, deg; nothing where there is no limit, or no tolerance.
    pub pitch_up_deg: Option<f64>,
    /// The same as front less rear mark, in.
    pub frame_diff_up_in: Option<f64>,
    /// The same as the ball too high, in.
    pub ball_error_up_in: Option<f64>,
    /// The axle that reaches its limit then.
    pub first_up: Option<&'static str>,
    /// Most pitch nose down, deg.
    pub pitch_down_deg: Option<f64>,
    /// The same as rear less front mark, in.
    pub frame_diff_down_in: Option<f64>,
    /// The same as the ball too low, in.
    pub ball_error_down_in: Option<f64>,
    /// The axle that reaches its limit then.
    pub first_down: Option<&'static str>,
}

/// Whether there is a level tolerance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LevelStatus {
    /// There is; a side without a number has no limit.
    Ok,
    /// An axle carries more than it may even when level: no height mends that.
    OverloadedWhenLevel,
    /// A single axle carries the same at any pitch.
    SingleAxleNoLimit,
    /// An equalizer keeps the loads alike at any pitch.
    EqualizedNoLimit,
}

/// How far from level before an axle carries more than it may.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, or no axle would carry anything.
pub fn level_tolerance(inputs: &LevelInputs) -> Result<LevelTolerance, NoNumber> {
    let suspension = match inputs.suspension {
        Some(suspension) if !inputs.equalized => suspension,
        None if !inputs.equalized => Springing::Torsion,
        _ => Springing::Equalized,
    };
    let alike = AxlesAlike {
        places_in: &inputs.axle_x_in,
        rate_lb_in: inputs.rate_lb_in,
        gross_lb: inputs.gross_lb,
        x_cg_in: inputs.x_cg_in,
        suspension,
        wd_moment_lbft: inputs.wd_moment_lbft,
    };
    let mut ranges = Ranges::new();
    alike.look(&mut ranges);
    ranges
        .positive("axle_limit_lb", inputs.axle_limit_lb)
        .positive("base_in", inputs.base_in)
        .not_negative("side_transfer_lb", inputs.side_transfer_lb);
    if let Some(capacity) = inputs.tire_capacity_lb {
        ranges.positive("tire_capacity_lb", capacity);
    }
    ranges.checked()?;
    let by_tires = inputs
        .tire_capacity_lb
        .map(|tire| 2.0 * (tire - inputs.side_transfer_lb));
    let limit = by_tires.map_or(inputs.axle_limit_lb, |by| by.min(inputs.axle_limit_lb));
    let count = inputs.axle_x_in.len();
    let tolerance = tolerance(&alike.tilt(), &vec![limit; count])?;
    let level_axle = tolerance.axle_lb.first().copied().ok_or_else(no_axle)?;
    let margin = finite("the margin", limit - level_axle)?;
    let status = match (suspension, count) {
        _ if margin < 0.0 => LevelStatus::OverloadedWhenLevel,
        (_, 1) => LevelStatus::SingleAxleNoLimit,
        (Springing::Equalized, _) => LevelStatus::EqualizedNoLimit,
        (Springing::Torsion, _) => LevelStatus::Ok,
    };
    let base = inputs.base_in;
    let [up, down] = [&tolerance.up, &tolerance.down];
    let name = |at: &AtLimit| axle_name(at.axle, count);
    let difference = |at: &Option<AtLimit>| {
        let inches = at.map(|at| finite("the frame difference", at.pitch_rad.abs() * base));
        inches.transpose()
    };
    Ok(LevelTolerance {
        level_axle_lb: level_axle,
        margin_when_level_lb: margin,
        status,
        pitch_up_deg: up.map(|at| at.pitch_rad.abs().to_degrees()),
        frame_diff_up_in: difference(up)?,
        ball_error_up_in: up.map(|at| tolerance.ball_error_in(&at)),
        first_up: up.as_ref().map(name),
        pitch_down_deg: down.map(|at| at.pitch_rad.abs().to_degrees()),
        frame_diff_down_in: difference(down)?,
        ball_error_down_in: down.map(|at| tolerance.ball_error_in(&at)),
        first_down: down.as_ref().map(name),
    })
}

/// The same for axles that need not be alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Tolerance {
    /// Load of each axle when level, lb.
    pub axle_lb: Vec<f64>,
    /// Height of the ball when level, in.
    pub height_in: f64,
    /// An axle that is over its limit even when level, from the front.
    pub over: Option<usize>,
    /// The first axle at its limit as the nose goes up.
    pub up: Option<AtLimit>,
    /// The first axle at its limit as the nose goes down.
    pub down: Option<AtLimit>,
}

impl Tolerance {
    /// How far the ball is too high or too low then, in.
    pub fn ball_error_in(&self, at: &AtLimit) -> f64 {
        (at.height_in - self.height_in).abs()
    }
}

/// How far from level this trailer may stand, each axle with its own limit, front to rear.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, or no axle would carry anything.
pub fn tolerance_of(
    trailer: &Trailer,
    limits_lb: &[f64],
    wd_moment_lbft: f64,
) -> Result<Tolerance, NoNumber> {
    let mut ranges = Ranges::new();
    trailer.look(&mut ranges);
    for limit in limits_lb {
        ranges.finite("limits_lb", *limit);
    }
    ranges.finite("wd_moment_lbft", wd_moment_lbft);
    ranges.checked()?;
    let mass = weighed(&trailer.items)?;
    let moment = mass.weight_lb * mass.x_cg_in + wd_moment_lbft * FOOT_IN;
    tolerance(
        &Tilt::new(trailer.springs(), trailer.suspension, moment),
        limits_lb,
    )
}

fn tolerance(tilt: &Tilt, limits_lb: &[f64]) -> Result<Tolerance, NoNumber> {
    let Tilted {
        height_in, axle_lb, ..
    } = tilt.at(0.0).ok_or_else(no_axle)?;
    finite("the axles' load", axle_lb.iter().sum())?;
    let over = axle_lb
        .iter()
        .zip(limits_lb)
        .position(|(load, limit)| load > limit);
    let first = |nose: f64| match over {
        Some(_) => None,
        None => tilt.first_at_limit(limits_lb, nose),
    };
    Ok(Tolerance {
        height_in: finite("the ball's height", height_in)?,
        up: first(1.0),
        down: first(-1.0),
        axle_lb,
        over,
    })
}
