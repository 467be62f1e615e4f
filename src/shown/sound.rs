//! A reading on which all is well, worked out from the limits of its step, so that a changed
//! checklist changes it too. Where the model knows nothing of a step, this is what is there.

use crate::checklist::{PlannedAsk, PlannedStep, ReadingAsk};
use crate::rig::Rig;
use crate::rules::Limit;
use crate::shown::is_ok;
use crate::units::{Exact, Quantity};

/// Shares of a bound that are tried, as so many of so many.
const SHARES: [(i128, i128); 7] = [
    (1, 1),
    (11, 10),
    (9, 10),
    (21, 20),
    (19, 20),
    (13, 10),
    (7, 10),
];

/// Places between two bounds that are tried.
const PLACES: [(i128, i128); 9] = [
    (1, 2),
    (3, 8),
    (5, 8),
    (1, 4),
    (3, 4),
    (1, 8),
    (7, 8),
    (0, 1),
    (1, 1),
];

/// A value that is well, and the instrument that says so; nothing where there is none.
pub fn sound(planned: &PlannedStep, rig: &Rig) -> Option<(Quantity, String)> {
    let PlannedAsk::Reading {
        ask,
        target,
        limits,
        ..
    } = &planned.ask
    else {
        return None;
    };
    let tools = planned.tools(rig);
    let mut tried: Vec<Quantity> = target.iter().cloned().collect();
    tried.extend(between(ask, limits));
    for (part, of) in SHARES {
        let share = Exact::ratio(part, of)?;
        tried.extend(limits.iter().map(|limit| limit.bound.times(&share)));
    }
    let coarse = tried.iter().filter_map(|value| rounded(value, 1));
    let fine = tried.iter().filter_map(|value| rounded(value, 4));
    coarse.chain(fine).find_map(|value| {
        let well = tools.iter().find(|tool| {
            let inside = |(low, high): &(Quantity, Quantity)| value.within(low, high);
            tool.unfit.is_none()
                && tool.instrument.span.as_ref().is_none_or(inside)
                && inside(&ask.plausible)
                && is_ok(&value, tool.instrument, limits)
        })?;
        Some((value.clone(), well.instrument.id.clone()))
    })
}

/// Values between each two bounds, those in the middle first.
fn between(ask: &ReadingAsk, limits: &[Limit]) -> Vec<Quantity> {
    let (low, high) = &ask.plausible;
    let bounds = limits.iter().map(|limit| &limit.bound);
    let marks = [low, high].into_iter().chain(bounds);
    let marks = marks.filter_map(|mark| Some(mark.in_unit(ask.unit)?.value));
    let mut marks: Vec<Exact> = marks.collect();
    marks.sort();
    let mut values = Vec::new();
    for (part, of) in PLACES {
        let Some(part) = Exact::ratio(part, of) else {
            continue;
        };
        for (one, next) in marks.iter().zip(marks.iter().skip(1)) {
            let value = one + &(&(next - one) * &part);
            values.push(Quantity::new(value, ask.unit));
        }
    }
    values
}

fn rounded(value: &Quantity, places: usize) -> Option<Quantity> {
    let digits = Exact::parse_decimal(&value.value.rounded(places)).ok()?;
    Some(Quantity::new(digits, value.unit))
}
