//! What somebody should look at: few things, each a question, each with what it rests on.

use crate::mechanics::trends::{BadSide, MONTH_DAYS, median};
use crate::mechanics::wheels::HELD_PCT;
use crate::review::trend::fit::{self, Fit};
use crate::review::trend::{Crossing, Kind, Point, Said, Series, normal};
use crate::units::Quantity;
use chrono::NaiveDate;

/// So much faster than its siblings a tire loses air before it is asked about, psi a month. Common
/// practice, no source.
pub const BEYOND_OTHERS_PSI: f64 = 1.0;

/// What a sound tire loses in a month at the most, psi; what the others lose more is nothing to hold
/// a tire against. Common practice, no source.
const USUAL_PSI: f64 = 1.0;

/// What comes to its limit within so many days at the rate it moves is asked about. Ours, no
/// source.
pub const WITHIN_DAYS: i64 = 365;

/// So many losses of torque that are no settling are asked about. Common practice, no source.
const LOSSES: usize = 2;

/// A question.
#[derive(Clone, Debug, PartialEq)]
pub enum Ask {
    /// Does this tire leak?
    Leaks {
        /// What the tires beside it lose in a month, the middle one; nothing where none can be
        /// told, and then it is held against what is usual.
        others: Option<Quantity>,
    },
    /// It comes to its limit within a year.
    Comes(Crossing),
    /// Do the nuts of this wheel hold?
    LosesTorque {
        /// Each time they had lost more than a tenth, though the wheel had not been off.
        losses: Vec<(NaiveDate, Quantity)>,
    },
}

/// What there is to ask about a series, its slope and those of the parts beside it.
pub(super) fn of(series: &Series, own: Option<&Fit>, others: &[&Fit]) -> Option<Ask> {
    if series.kind == Kind::TorqueLoss {
        return loses_torque(&series.points);
    }
    let own = own.filter(|fit| fit.slope.moves)?;
    if series.kind.is_air() {
        return leaks(series.kind, own, others);
    }
    let worsens = match series.kind.bad() {
        BadSide::Below => own.slope.high_a_day < 0.0,
        BadSide::Above => own.slope.low_a_day > 0.0,
    };
    let Said::Trend(trend) = &series.said else {
        return None;
    };
    let crossing = trend.crossing.filter(|_| worsens)?;
    let newest = series.points.last()?.at.date_naive();
    let away = crossing.likely?.signed_duration_since(newest).num_days();
    (away <= WITHIN_DAYS).then_some(Ask::Comes(crossing))
}

/// Whether a tire loses so much more than the others, and surely more than they.
fn leaks(kind: Kind, own: &Fit, others: &[&Fit]) -> Option<Ask> {
    let middle = median(others.iter().map(|fit| fit.slope.slope_a_day));
    let usual = -USUAL_PSI / MONTH_DAYS;
    let beside = middle.map_or(usual, |middle| middle.max(usual));
    let beyond = (beside - own.slope.slope_a_day) * MONTH_DAYS;
    let surely = own.slope.high_a_day < beside;
    (beyond > BEYOND_OTHERS_PSI && surely).then(|| Ask::Leaks {
        others: middle.and_then(|middle| fit::told(kind, middle)),
    })
}

fn loses_torque(points: &[Point]) -> Option<Ask> {
    let lost = points.iter().filter(|point| !point.after_off);
    let lost = lost.filter(|point| {
        normal::number(&point.value, Kind::TorqueLoss.unit()).is_some_and(|lost| lost > HELD_PCT)
    });
    let losses: Vec<_> = lost
        .map(|point| (point.at.date_naive(), point.value.clone()))
        .collect();
    (losses.len() >= LOSSES).then_some(Ask::LosesTorque { losses })
}
