//! What line 0 binds.

use crate::checklist::Plan;
use crate::drill::Stage;
use crate::record::{Digest, Id, Mode, Wall};
use crate::rules::Carried;
use crate::units::Typed;
use crate::walk::{Moment, Walk, Words};
use serde::{Deserialize, Serialize};
use std::collections::HashSet;
use std::sync::Arc;

/// What the id of every drill begins with, and that of no other trip: those are hexadecimal.
pub const DRILL_ID: &str = "d-";

/// What [`Begun::what`] says, where nothing but the trip's id is at hand.
pub fn called(trip: &Id) -> &'static str {
    if names_a_drill(trip) { "drill" } else { "trip" }
}

fn names_a_drill(trip: &Id) -> bool {
    trip.as_str().starts_with(DRILL_ID)
}

/// The greatest seed there is: a record holds numbers of at most fifteen digits.
pub const MOST_SEED: u64 = 999_999_999_999_999;

/// The beginning of a walk, and everything it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Begun {
    /// The trip: fresh random bytes in hexadecimal.
    pub trip: Id,
    /// Whether the walk counts.
    pub mode: Mode,
    /// The device that keeps the record.
    pub device: Id,
    /// The place of the trip in that device's sequence, from 1.
    pub seq: u64,
    /// How the device's trip before this one ended; nothing for its first.
    pub previous: Option<Previous>,
    /// The checklist walked, as a file.
    pub checklist: Pinned,
    /// The rig described, as a file.
    pub rig: Pinned,
    /// The crew file in force, by its plain hash.
    pub crew: Digest,
    /// The newest statement of a manager this device knows of.
    pub manager: Option<Digest>,
    /// The version of the program.
    pub program: String,
    /// The odometer.
    pub odometer: Option<Typed>,
    /// Who reads and types.
    pub reader: Words,
    /// Who does the work.
    pub doer: Words,
    /// The haul the walk belongs to, by the trip that began it; nothing where it belongs to none.
    pub haul: Option<Id>,
    /// What earlier walks of the rig had left open, as far as this device knew.
    pub carried: Vec<Left>,
    /// When the walk was walked on paper, where it is entered from paper.
    pub paper: Option<Wall>,
    /// What somebody of the walk answers to what managers asked about earlier trips.
    pub answers: Vec<Answered>,
    /// The drill it is the walk of, where it is one.
    pub drill: Option<BegunDrill>,
}

/// A drill, and everything it rests on besides what a walk rests on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BegunDrill {
    /// The scenario, as a file.
    pub scenario: Pinned,
    /// What is seen from where, as a file.
    pub sights: Digest,
    /// What the dice were thrown by.
    pub seed: u64,
    /// The stage it is played at.
    pub stage: Stage,
    /// Who examines, where it is a check ride.
    pub examiner: Option<Words>,
}

/// An answer to a manager's question, given as a walk began.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answered {
    /// The hash of the statement that asked.
    pub question: Digest,
    /// Who answers: whoever reads or does the walk.
    pub by: Words,
    /// What they say.
    pub words: Words,
}

/// Something an earlier walk left open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Left {
    /// What, and at which part of the rig.
    pub carried: Carried,
    /// The trip that left it.
    pub since: Id,
}

/// A file a walk rests on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pinned {
    /// Its id.
    pub id: String,
    /// The plain hash of its bytes.
    pub hash: Digest,
}

/// How the device's trip before this one ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize, Serialize)]
#[serde(tag = "last", content = "hash", deny_unknown_fields)]
pub enum Previous {
    /// With a seal, of this hash.
    #[serde(rename = "seal")]
    Sealed(Digest),
    /// Without; the hash of the last line there was.
    #[serde(rename = "line")]
    Unsealed(Digest),
}

impl Begun {
    /// What it begins, in a word.
    pub const fn what(&self) -> &'static str {
        match self.drill {
            Some(_) => "drill",
            None => "trip",
        }
    }

    /// Whether version 1 has no room for it.
    pub(super) fn needs_version_2(&self) -> bool {
        self.haul.is_some()
            || !self.carried.is_empty()
            || self.paper.is_some()
            || !self.answers.is_empty()
    }

    /// What is wrong with it as a drill, or as none.
    pub(super) fn odd_drill(&self) -> Option<&'static str> {
        let Some(drill) = &self.drill else {
            return None;
        };
        let named = names_a_drill(&self.trip);
        let rides = drill.stage == Stage::CheckRide;
        if self.mode != Mode::Drill || !named {
            Some("a drill is of the mode drill, and its id begins with d-")
        } else if rides != drill.examiner.is_some() {
            Some("a check ride has an examiner, and no other drill has one")
        } else if drill.seed > MOST_SEED {
            Some("a seed has at most fifteen digits")
        } else {
            None
        }
    }

    /// What is wrong with its answers: each question is answered once, by whoever reads or does.
    pub(super) fn odd_answers(&self) -> Option<&'static str> {
        let stranger = |answer: &Answered| answer.by != self.reader && answer.by != self.doer;
        let mut asked = HashSet::new();
        if self.answers.iter().any(stranger) {
            Some("an answer is given by whoever reads or does the walk")
        } else if !self.answers.iter().all(|one| asked.insert(one.question)) {
            Some("each question is answered once")
        } else {
            None
        }
    }

    /// What the checklist is laid on the rig with.
    pub fn carried(&self) -> Vec<Carried> {
        self.carried
            .iter()
            .map(|left| left.carried.clone())
            .collect()
    }

    /// The walk at its beginning.
    pub fn walk(&self, plan: Arc<Plan>, at: Moment) -> Walk {
        let walk = Walk::begin(plan, self.reader.clone(), self.doer.clone(), at);
        match self.paper {
            Some(walked) => walk.from_paper(walked.moment()),
            None => walk,
        }
    }
}
