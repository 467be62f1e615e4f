//! What a manager may ask about how a record came about: time, copies, digits, order.
//!
//! A truly signed record can still tell what nobody did. No formula sees that; what can be seen is
//! that a record does not look like one of work at a rig. So these are questions, with what gave
//! rise to them and with the honest reasons there may be. None is ever a verdict on a person, and
//! a record without one is not proved by that.
//!
//! All bounds are ours and have no source beyond where they stand; how often they ask of honest
//! and of dishonest records is tested on two invented sets.

mod copied;
mod counts;
mod hands;
mod least;
mod order;
mod pace;
mod signal;

pub use signal::{Asking, Signal};

use crate::checklist::Haul;
use crate::review::{Named, Trace};
use copied::{Copies, Lived};
use counts::{Counts, Own};
use hands::{AtKeys, Hands};
use order::Ways;

/// What is kept of a trip to ask about it beside the others: some kilobytes.
#[derive(Clone, Debug)]
pub struct Brief {
    of: Named,
    rig: String,
    haul: Haul,
    pace: Option<Signal>,
    lived: Lived,
    at_keys: AtKeys,
    own: Own,
}

impl Brief {
    /// Of a trip.
    pub fn of(trace: &Trace) -> Self {
        Self {
            of: trace.of.clone(),
            rig: trace.rig.clone(),
            haul: trace.haul,
            pace: pace::signal(trace),
            lived: Lived::of(trace),
            at_keys: AtKeys::of(trace),
            own: Own::of(trace),
        }
    }
}

/// The questions about all these trips, by trip in the order of time; what is asked about many
/// trips of one person comes with the last of them.
pub fn attention(mut briefs: Vec<Brief>) -> Vec<Asking> {
    briefs.sort_by(|one, other| {
        let key = |of: &Named| (of.at, of.device.clone(), of.seq);
        key(&one.of).cmp(&key(&other.of))
    });
    let (mut copies, mut counts) = (Copies::default(), Counts::default());
    let (mut hands, mut ways) = (Hands::default(), Ways::default());
    let mut asked = Vec::new();
    for brief in &briefs {
        let signals = [
            brief.pace.clone(),
            copies.take(brief),
            hands.take(brief),
            ways.take(brief),
        ];
        asked.extend(signals.into_iter().flatten().map(|what| Asking {
            of: brief.of.clone(),
            what,
        }));
        counts.take(brief);
    }
    asked.extend(counts.asked());
    asked.sort_by_key(|asking| asking.of.at);
    asked
}
