//! The limit a series is drawn against: of the limits a reading was held to, the first that would
//! stop it or ask for something to be put right; where there is none such, the first of the others.

use crate::checklist::Ask;
use crate::logbook::Reading;
use crate::mechanics::trends::BadSide;
use crate::mechanics::wheels::HELD_PCT;
use crate::review::trend::{Kind, normal};
use crate::rules::{Authority, Basis, Bound, Earlier, Side, Verdict};
use crate::units::Quantity;
use std::cmp::Ordering;

/// Whose word the limit of lost torque is.
const LOSSES_SOURCE: &str = "Hames asks once nuts that had settled lost over a tenth twice in a year; common practice, no \
     source";

/// A limit, told as the values of a series are.
#[derive(Clone, Debug, PartialEq)]
pub struct LimitLine {
    /// Where it lies.
    pub at: Quantity,
    /// What it means to be beyond it.
    pub verdict: Verdict,
    /// Whose word it is.
    pub basis: Basis,
}

/// The limit of a reading of this kind.
pub(super) fn of(kind: Kind, reading: &Reading<'_>) -> Option<LimitLine> {
    let lines: Vec<LimitLine> = match kind {
        Kind::HubTemperature => against_others(reading),
        _ => drawn(kind, reading),
    };
    // A torque is held to its limit as it is read; what it lost comes later.
    let bad = match kind {
        Kind::TorqueLoss => BadSide::Below,
        _ => kind.bad(),
    };
    let (grave, other): (Vec<_>, Vec<_>) = lines.into_iter().partition(|one| one.verdict.blocks());
    let lines = if grave.is_empty() { other } else { grave };
    lines.into_iter().reduce(|one, next| {
        let first = match bad {
            BadSide::Below => Ordering::Greater,
            BadSide::Above => Ordering::Less,
        };
        if next.at.compare(&one.at) == Some(first) {
            next
        } else {
            one
        }
    })
}

/// The share of their torque that nuts may have lost where they hold; twice more is asked about.
pub(super) fn of_losses() -> Option<LimitLine> {
    Some(LimitLine {
        at: normal::nearest(HELD_PCT, (1, 1), Kind::TorqueLoss.unit())?,
        verdict: Verdict::Note,
        basis: Basis {
            authority: Authority::Default,
            source: LOSSES_SOURCE.to_owned(),
        },
    })
}

/// The limits as they were drawn for this reading.
fn drawn(kind: Kind, reading: &Reading<'_>) -> Vec<LimitLine> {
    let is_below = |side| matches!(side, Side::Below | Side::AtOrBelow);
    let limits = reading.judgement.held.iter().map(|held| &held.limit);
    let lines = limits.filter_map(|limit| {
        let (below, at) = match kind {
            // So long a time is so little deceleration.
            Kind::BrakePull => (!is_below(limit.side), normal::deceleration(&limit.bound)?),
            Kind::TorqueLoss => (is_below(limit.side), limit.bound.clone()),
            _ => (is_below(limit.side), limit.bound.in_unit(kind.unit())?),
        };
        below.then(|| LimitLine {
            at,
            verdict: limit.verdict,
            basis: limit.basis.clone(),
        })
    });
    lines.collect()
}

/// The limits that a step draws from what the other parts read, as so much above them.
fn against_others(reading: &Reading<'_>) -> Vec<LimitLine> {
    let Ask::Reading(ask) = &reading.planned.step.ask else {
        return Vec::new();
    };
    let lines = ask.limits.iter().filter_map(|rung| {
        let Bound::Read {
            at: Earlier::Siblings(_),
            plus: Some(plus),
            ..
        } = &rung.bound
        else {
            return None;
        };
        let above = matches!(rung.side, Side::Above | Side::AtOrAbove);
        Some(LimitLine {
            at: plus.difference_in(Kind::HubTemperature.unit())?,
            verdict: rung.verdict,
            basis: rung.basis.clone(),
        })
        .filter(|_| above)
    });
    lines.collect()
}
