//! Which lists the open defects of a rig keep from being begun.

use crate::checklist::{Haul, Plan, Step, Test};
use crate::due::Due;
use crate::haul::{Defect, Standing, Today};
use crate::rules::Verdict;
use chrono::{DateTime, FixedOffset};

impl Standing {
    /// When the trailer was unhitched, where that keeps this list from being begun: it takes a rig
    /// on the road that nobody has hitched up since.
    pub fn wants_hitching(&self, plan: &Plan) -> Option<DateTime<FixedOffset>> {
        let list = plan.checklist();
        self.unhitched
            .filter(|_| list.road && list.haul == Haul::During)
    }

    /// The defects that keep this list from being begun: those to be put right, and notes that are
    /// overdue, where the rig goes on the road by it and it does not ask their very step.
    pub fn bars(&self, plan: &Plan, today: Today<'_>) -> Vec<&Defect> {
        let keeps = |defect: &&Defect| defect.blocks(today) && !asks(plan, defect);
        if plan.checklist().road {
            self.defects.iter().filter(keeps).collect()
        } else {
            Vec::new()
        }
    }
}

/// What is due that keeps this list from being begun: what has run out or grown too old, where the
/// rig goes on the road by it. No step of a list puts that right.
pub fn barring<'d>(plan: &Plan, due: &'d [Due]) -> Vec<&'d Due> {
    let stops = |due: &&Due| due.verdict == Verdict::Stop && plan.checklist().road;
    due.iter().filter(stops).collect()
}

/// Whether a walk of this plan can close the defect: it has the very step, or, of a step that
/// stands only for what was left before, one that closes what was left.
pub fn asks(plan: &Plan, defect: &Defect) -> bool {
    let closes = |step: &Step| {
        let only_for = defect.found.only_for.as_ref();
        only_for.is_some_and(|left| step.closes.contains(&left.what)) && !is_by_answer(step)
    };
    let mut steps = plan.steps().iter();
    steps.any(|planned| planned.key == defect.found.step || closes(&planned.step))
}

/// Whether an answer on the walk may leave the step out.
fn is_by_answer(step: &Step) -> bool {
    let test = step.when.as_ref().map(|when| &when.test);
    matches!(test, Some(Test::Answered { .. }))
}
