//! What a step asks: a reading, a sighting, or another person's sighting.

use crate::figures::Fact;
use crate::rig::InstrumentKind;
use crate::rules::{Basis, Bound, Carry, Rung, Verdict};
use crate::units::{Dimension, Quantity, Unit};

/// What a step asks for.
#[derive(Clone, Debug, PartialEq)]
pub enum Ask {
    /// A value typed with its unit.
    Reading(ReadingAsk),
    /// A state chosen among named ones.
    Sighting(SightingAsk),
    /// A state chosen by a named person other than the one who did the work.
    Independent(SightingAsk),
}

/// A value to be measured.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadingAsk {
    /// What is measured.
    pub dimension: Dimension,
    /// The unit shown beside the field; any unit of the dimension may be typed.
    pub unit: Unit,
    /// What it is measured with; nothing for what is read off a display or counted.
    pub instrument: InstrumentKind,
    /// The value aimed at, which the instrument must suit.
    pub target: Option<Bound>,
    /// The fact it tells to the steps behind it.
    pub tells: Option<Fact>,
    /// Lowest and highest value that is no slip of the finger.
    pub plausible: (Quantity, Quantity),
    /// The limits. What none of them takes is ok.
    pub limits: Vec<Rung>,
    /// Whether another person reads it, who did none of the work and does not see the first
    /// reading.
    pub second: bool,
}

impl ReadingAsk {
    /// Every bound of it: of the target, then of each limit.
    pub fn bounds(&self) -> impl Iterator<Item = &Bound> {
        let limits = self.limits.iter().map(|rung| &rung.bound);
        self.target.iter().chain(limits)
    }
}

/// Named states, at least one of them bad, one of them `cannot see`.
#[derive(Clone, Debug, PartialEq)]
pub struct SightingAsk {
    /// The states, in the order shown, which never changes.
    pub states: Vec<State>,
    /// Whose word the verdicts are.
    pub basis: Basis,
}

/// One state that can be seen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct State {
    /// Id in records.
    pub id: String,
    /// What is seen, in words.
    pub seen: String,
    /// What it means.
    pub verdict: Verdict,
    /// Whether this is the state for not being able to see.
    pub cannot_see: bool,
    /// The branch it opens; a fix or stop has one, a note or ok none.
    pub branch: Option<String>,
    /// What it leaves to later walks.
    pub leaves: Option<Carry>,
}
