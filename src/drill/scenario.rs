//! A scenario: a passage of a checklist, a rig, and what may be wrong with it.

use crate::checklist::StepKey;
use crate::drill::{Family, Grading};
use crate::rules::{Carried, Verdict};
use crate::shown::Dice;
use crate::units::Quantity;

/// One scenario.
#[derive(Clone, Debug, PartialEq)]
pub struct Scenario {
    /// Its id.
    pub id: String,
    /// Its title, told before it begins; it gives nothing away.
    pub title: String,
    /// What kind of fault it is about.
    pub family: Family,
    /// The checklist a passage of which is walked.
    pub list: String,
    /// Its sections that are walked.
    pub sections: Vec<String>,
    /// The rig's id.
    pub rig: String,
    /// What the learner is told before it begins.
    pub tale: String,
    /// The air of that day.
    pub air: Quantity,
    /// What differs from the rig file whether or not there is a fault.
    pub always: Differs,
    /// What earlier walks of the rig had left open.
    pub carries: Vec<Carried>,
    /// What may be wrong: one of these, or none. Where there is none, all is well every time, and
    /// only looks as if it were not.
    pub faults: Vec<Fault>,
    /// The right call where nothing is wrong, and what is often called wrong then.
    pub good: Good,
    /// What comes between.
    pub between: Option<Between>,
    /// Why time presses, as somebody says it.
    pub hurry: Option<String>,
    /// What the program itself says wrongly. It is told at once after the step.
    pub hint: Option<Hint>,
    /// By which rules it is graded as a check ride; every other drill is by the newest.
    pub graded: Grading,
    /// Where it stands written, or that it is common practice.
    pub source: String,
}

/// How a rig differs from its file, and what is seen and read there.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Differs {
    /// Values of the rig file as they truly are.
    pub rig: Vec<Patch>,
    /// What truly is, at steps whose reading no formula gives.
    pub read: Vec<(StepKey, Quantity)>,
    /// The state that truly is, at steps that ask for one.
    pub seen: Vec<(StepKey, String)>,
}

/// One value of the rig file as it truly is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Patch {
    /// The path of the value, as `trailer.axles[0].tire.set.pressure`.
    pub at: String,
    /// What it truly is, as a rig file would say it.
    pub is: String,
}

/// One thing that may be wrong.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// Its id among those of the scenario.
    pub id: String,
    /// How the rig then differs.
    pub differs: Differs,
    /// The right call.
    pub call: Call,
    /// What is called most often instead.
    pub slip: Slip,
    /// Why it is the right call.
    pub why: String,
    /// What would have happened.
    pub would: String,
}

/// The right call of a scenario on which nothing is wrong.
#[derive(Clone, Debug, PartialEq)]
pub struct Good {
    /// What is called wrong most often.
    pub slip: Option<Call>,
    /// Why all is well.
    pub why: String,
}

/// A call: what a step comes to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Call {
    /// The step.
    pub step: StepKey,
    /// What it comes to.
    pub verdict: Verdict,
}

/// A wrong call.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Slip {
    /// A state is named that is not there.
    Seen(StepKey, String),
    /// A reading is called so.
    Called(StepKey, Verdict),
}

/// What comes between.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Between {
    /// The step that is open then.
    pub at: StepKey,
    /// What it is: the telephone, a loose horse.
    pub what: String,
}

/// What the program says wrongly.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hint {
    /// The step at which it says so.
    pub at: StepKey,
    /// What it says.
    pub says: String,
}

/// Of so many drills of a scenario that has faults, so many have one, by the dice. With the
/// scenarios that never have one, about a third of all drills are good.
const FAULTS: (u64, u64) = (7, 10);

impl Scenario {
    /// Which of its faults the dice of this seed put in; nothing where all is well.
    pub fn thrown(&self, seed: u64) -> Option<usize> {
        let name = self.id.bytes().fold(seed, |sum, byte| {
            sum.wrapping_mul(31).wrapping_add(u64::from(byte))
        });
        let mut dice = Dice::new(name);
        if self.faults.is_empty() || dice.below(FAULTS.1) >= FAULTS.0 {
            return None;
        }
        let count = u64::try_from(self.faults.len()).ok()?;
        usize::try_from(dice.below(count)).ok()
    }

    /// Whether all is well by the dice of this seed.
    pub fn is_good_by(&self, seed: u64) -> bool {
        self.thrown(seed).is_none()
    }
}
