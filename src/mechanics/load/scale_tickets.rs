//! # Scale tickets

use crate::mechanics::constants::FOOT_IN;
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure scale_tickets` tells of it.
pub const PAGE: Page = Page {
    name: "scale_tickets",
    title: "Scale tickets",
    situation: "A truck scale weighs each axle group on its own pad. The truck alone and the truck \
                with the trailer differ by what the tongue puts on it; the trailer's own axles \
                carry the rest. Every pad rounds, so the tongue's share is a band, not a number.",
    formula: "t = (F2 + R2) - (F1 + R1); g = t + T2; p = t / g; sd = h / sqrt 3 a reading; \
              sd(t) = 2 sd; sd(g) = sqrt 5 sd; sd(p) = sd sqrt(4 (1 - p)^2 + p^2) / g; \
              bound = h (4 (1 - p) + p) / g; lowest (t - 4 h) / (g - 3 h), highest \
              (t + 4 h) / (g + 3 h); with bars, restored = (F3 - F2) / (F1 - F2) and \
              M = (F3 - F1) L + (F3 + R3 - F1 - R1) e",
    symbols: &[
        ("F, R, T", "steer axle, drive axle and trailer axles, lb"),
        (
            "1, 2, 3",
            "truck alone; with the trailer; with the trailer and the bars tight",
        ),
        (
            "t, g, p",
            "tongue weight, trailer weight, lb, and the tongue's share",
        ),
        (
            "h",
            "how far a reading may be off either way, lb: half the scale's step at least; 20 \
               where nothing is given",
        ),
        ("sd", "standard deviation of a reading anywhere within h"),
        (
            "bound",
            "farthest that p can be off to first order, every pad at its worst",
        ),
        ("L, e", "wheelbase, and ball behind the rear axle, in"),
        ("M", "couple of the spring bars, lb in; told in lb ft"),
    ],
    holds: "readings of 0 lb or more, steer and trailer axles more than 0, a tongue that presses \
            down, an error smaller than a quarter of it",
    assumes: "The same people, fuel and load at each weighing, each axle group whole on its own \
              pad, a level scale.",
    never: "With tickets of different days, or to compare with a limit finer than the band.",
    source: "weights add; spread of a sum of even errors, any textbook of statistics (GUM, JCGM \
             100:2008, 4.3.7 and 5.1.2, from memory); checked against an independent model",
};

/// What the scale printed.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ScaleTickets {
    /// Steer axle, truck alone, lb.
    pub alone_front_lb: f64,
    /// Drive axle, truck alone, lb.
    pub alone_rear_lb: f64,
    /// Steer axle with the trailer, lb.
    pub hitched_front_lb: f64,
    /// Drive axle with the trailer, lb.
    pub hitched_rear_lb: f64,
    /// Trailer axles, lb.
    pub hitched_trailer_lb: f64,
    /// How far a reading may be off either way, lb.
    #[serde(
        default = "twenty",
        alias = "reading_pm_lb",
        alias = "reading_half_width_lb",
        alias = "half_step_lb",
        alias = "h_lb"
    )]
    pub reading_error_lb: f64,
    /// Steer axle with the bars tight, lb.
    #[serde(default, alias = "hitched_bars_front_lb", alias = "wd_front_lb")]
    pub bars_front_lb: Option<f64>,
    /// Drive axle with the bars tight, lb.
    #[serde(default, alias = "hitched_bars_rear_lb", alias = "wd_rear_lb")]
    pub bars_rear_lb: Option<f64>,
    /// Trailer axles with the bars tight, lb.
    #[serde(default, alias = "hitched_bars_trailer_lb", alias = "wd_trailer_lb")]
    pub bars_trailer_lb: Option<f64>,
    /// The trailer alone on the scale, lb.
    #[serde(default, alias = "trailer_alone_lb")]
    pub trailer_only_lb: Option<f64>,
    /// Front axle to rear axle, in; for the couple of the bars.
    #[serde(default)]
    pub wheelbase_in: Option<f64>,
    /// Ball behind the rear axle, in; for the couple of the bars.
    #[serde(default, alias = "overhang_in")]
    pub ball_behind_rear_axle_in: Option<f64>,
}

/// What the tickets say.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Weighed {
    /// Tongue weight, lb.
    pub tongue_lb: f64,
    /// Weight of the loaded trailer, lb.
    pub gross_lb: f64,
    /// The tongue's share, %.
    pub tongue_pct: f64,
    /// What the trailer took off the steer axle, lb; negative is added.
    pub front_unloading_lb: f64,
    /// Standard deviation of the tongue weight, lb.
    pub sd_tongue_lb: f64,
    /// Standard deviation of the trailer's weight, lb.
    pub sd_gross_lb: f64,
    /// Standard deviation of the tongue's share, %.
    pub sd_tongue_pct: f64,
    /// Farthest the tongue's share can be off to first order, %.
    pub bound_tongue_pct: f64,
    /// The least share these readings allow, %.
    pub lowest_tongue_pct: f64,
    /// The greatest share these readings allow, %.
    pub highest_tongue_pct: f64,
    /// Part of the steer axle's loss that the bars gave back, %.
    pub front_restored_pct: Option<f64>,
    /// Couple of the bars, lb ft.
    pub wd_moment_lbft: Option<f64>,
    /// Total with bars less total without, lb.
    pub bars_total_difference_lb: Option<f64>,
    /// Whether that is within what the readings allow.
    pub bars_total_agrees: Option<bool>,
    /// Trailer alone less the trailer's weight by difference, lb.
    pub trailer_only_difference_lb: Option<f64>,
    /// Whether that is within what the readings allow.
    pub trailer_only_agrees: Option<bool>,
}

/// Readings behind each check: as many errors may add up.
const READINGS: f64 = 6.0;

/// Tongue weight, trailer weight and share from scale tickets, with what the scale's step makes
/// of them.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, a ticket with bars is not whole, or the tongue
/// does not press down beyond the error.
pub fn scale_tickets(inputs: &ScaleTickets) -> Result<Weighed, NoNumber> {
    inputs.looked_at()?;
    let h = inputs.reading_error_lb;
    let (alone, hitched) = (
        inputs.alone_front_lb + inputs.alone_rear_lb,
        inputs.hitched_front_lb + inputs.hitched_rear_lb,
    );
    let tongue = hitched - alone;
    if tongue <= 4.0 * h {
        return Err(NoNumber::because(
            "The truck hardly weighs more with the trailer than alone. Look whether the tickets \
             are in order, and whether each axle stood on its own pad; then weigh again.",
        ));
    }
    let gross = tongue + inputs.hitched_trailer_lb;
    let share = tongue / gross;
    let sd = h / 3.0_f64.sqrt();
    let spread = (4.0 * (1.0 - share) * (1.0 - share) + share * share).sqrt();
    let bars = inputs.bars()?;
    let restored = bars.map(|bars| inputs.restored(bars)).transpose()?;
    let total =
        bars.map(|[front, rear, axles]| front + rear + axles - hitched - inputs.hitched_trailer_lb);
    let apart = inputs.trailer_only_lb.map(|only| only - gross);
    let agrees = |apart: f64| apart.abs() <= READINGS * h;
    Ok(Weighed {
        tongue_lb: tongue,
        gross_lb: finite("the trailer's weight", gross)?,
        tongue_pct: 100.0 * share,
        front_unloading_lb: inputs.alone_front_lb - inputs.hitched_front_lb,
        sd_tongue_lb: 2.0 * sd,
        sd_gross_lb: 5.0_f64.sqrt() * sd,
        sd_tongue_pct: 100.0 * sd * spread / gross,
        bound_tongue_pct: 100.0 * h * (4.0 * (1.0 - share) + share) / gross,
        lowest_tongue_pct: 100.0 * (tongue - 4.0 * h) / (gross - 3.0 * h),
        highest_tongue_pct: 100.0 * (tongue + 4.0 * h) / (gross + 3.0 * h),
        front_restored_pct: restored,
        wd_moment_lbft: bars.and_then(|bars| inputs.couple_lbft(bars)),
        bars_total_difference_lb: total,
        bars_total_agrees: total.map(agrees),
        trailer_only_difference_lb: apart,
        trailer_only_agrees: apart.map(agrees),
    })
}

impl ScaleTickets {
    fn looked_at(&self) -> Result<(), NoNumber> {
        let mut ranges = Ranges::new();
        ranges
            .positive("alone_front_lb", self.alone_front_lb)
            .not_negative("alone_rear_lb", self.alone_rear_lb)
            .positive("hitched_front_lb", self.hitched_front_lb)
            .not_negative("hitched_rear_lb", self.hitched_rear_lb)
            .positive("hitched_trailer_lb", self.hitched_trailer_lb)
            .not_negative("reading_error_lb", self.reading_error_lb);
        for (what, given) in [
            ("bars_front_lb", self.bars_front_lb),
            ("bars_rear_lb", self.bars_rear_lb),
            ("bars_trailer_lb", self.bars_trailer_lb),
            ("trailer_only_lb", self.trailer_only_lb),
            ("wheelbase_in", self.wheelbase_in),
        ] {
            if let Some(given) = given {
                ranges.positive(what, given);
            }
        }
        if let Some(reach) = self.ball_behind_rear_axle_in {
            ranges.finite("ball_behind_rear_axle_in", reach);
        }
        ranges.checked()
    }

    /// The ticket with bars tight, if there is one.
    fn bars(&self) -> Result<Option<[f64; 3]>, NoNumber> {
        match (self.bars_front_lb, self.bars_rear_lb, self.bars_trailer_lb) {
            (Some(front), Some(rear), Some(trailer)) => Ok(Some([front, rear, trailer])),
            (None, None, None) => Ok(None),
            _ => Err(NoNumber::because(
                "The ticket with the bars tight needs all three: bars_front_lb, bars_rear_lb and \
                 bars_trailer_lb.",
            )),
        }
    }

    fn restored(&self, [front, ..]: [f64; 3]) -> Result<f64, NoNumber> {
        let lost = self.alone_front_lb - self.hitched_front_lb;
        if lost <= 0.0 {
            return Err(NoNumber::because(
                "The steer axle lost nothing to the trailer, so bars have nothing to give back. \
                 Look whether the ticket without bars was taken with the bars off.",
            ));
        }
        finite(
            "what the bars gave back",
            100.0 * (front - self.hitched_front_lb) / lost,
        )
    }

    fn couple_lbft(&self, [front, rear, _]: [f64; 3]) -> Option<f64> {
        let (base, reach) = (self.wheelbase_in?, self.ball_behind_rear_axle_in?);
        let more_front = front - self.alone_front_lb;
        let more = front + rear - self.alone_front_lb - self.alone_rear_lb;
        Some((more_front * base + more * reach) / FOOT_IN)
    }
}

fn twenty() -> f64 {
    20.0
}
