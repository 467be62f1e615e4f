//! Answers that came faster than the acts can be done.
//!
//! A person may go round a rig's tires and type the four numbers afterwards: that is one act in
//! four parts, with the time before the first of them. So answers to one step at several parts
//! count as one.

use crate::review::Trace;
use crate::review::attention::Signal;
use crate::review::attention::least::least_ms;
use crate::review::trace::Act;

/// Nobody is asked while a run of answers took so much of its least time, in percent: some people
/// are quick.
const QUICK_PCT: u64 = 60;

/// Nor while what is missing of that is less, in milliseconds.
const MISSING_MS: i64 = 25_000;

/// So many answers within so many milliseconds came at once.
const AT_ONCE: usize = 3;
const AT_ONCE_MS: u64 = 4_000;

/// So many of a trip have to, before it is asked about: a glance can see two lamps.
const AT_ONCE_ACTS: usize = 6;

/// What the pace of a trip asks. Of one entered from paper it asks nothing: that says itself that
/// it was typed afterwards.
pub(super) fn signal(trace: &Trace) -> Option<Signal> {
    if trace.from_paper {
        return None;
    }
    hurried(&trace.acts).or_else(|| at_once(&trace.acts))
}

/// Answers to one step, at each of its parts.
struct Block<'a> {
    acts: &'a [Act],
    took_ms: u64,
    least_ms: u64,
}

impl Block<'_> {
    /// What is missing of the time it takes, in milliseconds; less than nothing where it took more.
    fn missing(&self) -> i64 {
        let needs = i64::try_from(self.least_ms * QUICK_PCT / 100).unwrap_or(i64::MAX);
        needs.saturating_sub(i64::try_from(self.took_ms).unwrap_or(i64::MAX))
    }
}

fn blocks(acts: &[Act]) -> Vec<Block<'_>> {
    let same = |one: &Act, other: &Act| one.key.step() == other.key.step();
    let block = |acts: &'_ [Act]| {
        (
            acts.iter().map(|act| act.took_ms).sum(),
            acts.iter().map(least_ms).sum(),
        )
    };
    acts.chunk_by(same)
        .map(|acts| {
            let (took_ms, least_ms) = block(acts);
            Block {
                acts,
                took_ms,
                least_ms,
            }
        })
        .collect()
}

/// The run of blocks in which most is missing.
fn hurried(acts: &[Act]) -> Option<Signal> {
    let blocks = blocks(acts);
    let (mut worst, mut most): (&[Block<'_>], i64) = (&[], 0);
    let (mut start, mut sum) = (0, 0_i64);
    for (at, block) in blocks.iter().enumerate() {
        if sum <= 0 {
            (start, sum) = (at, 0);
        }
        sum = sum.saturating_add(block.missing());
        if sum > most {
            (worst, most) = (blocks.get(start..=at).unwrap_or_default(), sum);
        }
    }
    if most < MISSING_MS {
        return None;
    }
    Some(Signal::Hurried {
        acts: worst.iter().map(|block| block.acts.len()).sum(),
        ends: ends(worst.iter().flat_map(|block| block.acts))?,
        took_ms: worst.iter().map(|block| block.took_ms).sum(),
        least_ms: worst.iter().map(|block| block.least_ms).sum(),
    })
}

fn at_once(acts: &[Act]) -> Option<Signal> {
    let mut which = vec![false; acts.len()];
    for (at, window) in acts.windows(AT_ONCE).enumerate() {
        // The time of the first lies before it.
        let within: u64 = window.iter().skip(1).map(|act| act.took_ms).sum();
        if within < AT_ONCE_MS {
            which
                .iter_mut()
                .skip(at)
                .take(AT_ONCE)
                .for_each(|one| *one = true);
        }
    }
    let fast = || {
        acts.iter()
            .zip(&which)
            .filter(|(_, is)| **is)
            .map(|(act, _)| act)
    };
    let count = fast().count();
    (count >= AT_ONCE_ACTS).then_some(())?;
    Some(Signal::AtOnce {
        acts: count,
        ends: ends(fast())?,
    })
}

fn ends<'a>(acts: impl Iterator<Item = &'a Act>) -> Option<(String, String)> {
    let acts: Vec<&Act> = acts.collect();
    Some((acts.first()?.name.clone(), acts.last()?.name.clone()))
}
