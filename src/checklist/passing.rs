//! Whether a step can be passed at all with an instrument of the rig.
//!
//! Where the error of every instrument is wider than what the limits leave open, each reading would
//! be asked again for ever. That is told before the walk, not found on it.

use crate::checklist::ReadingAsk;
use crate::rig::Instrument;
use crate::rules::{Limit, Outcome, judge, scale};
use crate::units::{Exact, Quantity};

/// Whether some reading of this instrument goes on: judged ok or note, not to be measured again.
pub(super) fn can_pass(
    ask: &ReadingAsk,
    target: Option<&Quantity>,
    limits: &[Limit],
    instrument: &Instrument,
) -> bool {
    target
        .cloned()
        .into_iter()
        .chain(tried(ask, limits))
        .filter(|reading| scale(instrument).is_none_or(|(low, high)| reading.within(&low, &high)))
        .any(
            |reading| match judge(&reading, Some(instrument), limits).outcome {
                Outcome::Judged(verdict) => !verdict.blocks(),
                Outcome::Again => false,
            },
        )
}

/// Readings to try: where nothing else is known, a verdict can only change at a bound, so a few
/// values between each two of them stand for all.
fn tried(ask: &ReadingAsk, limits: &[Limit]) -> Vec<Quantity> {
    let ends = [&ask.plausible.0, &ask.plausible.1];
    let mut marks: Vec<Exact> = ends
        .into_iter()
        .chain(limits.iter().map(|limit| &limit.bound))
        .filter_map(|mark| Some(mark.in_unit(ask.unit)?.value))
        .collect();
    marks.sort();
    let between = marks.windows(2).flat_map(|pair| match pair {
        [low, high] => [(1, 2), (1, 4), (3, 4)]
            .into_iter()
            .filter_map(|(part, of)| Some(low + &(&(high - low) * &Exact::ratio(part, of)?)))
            .collect(),
        _ => Vec::new(),
    });
    let inner: Vec<Exact> = between.collect();
    inner
        .into_iter()
        .chain(marks)
        .map(|value| Quantity::new(value, ask.unit))
        .collect()
}
