//! Which lists the open defects of a rig keep from being begun.

use crate::checklist::{Plan, StepKey, Test};
use crate::haul::{Defect, Standing};

impl Standing {
    /// The defects that keep this list from being begun: those to be put right, where the rig goes
    /// on the road by it and it does not ask their very step.
    pub fn bars(&self, plan: &Plan) -> Vec<&Defect> {
        let keeps = |defect: &&Defect| defect.blocks() && !asks(plan, &defect.found.step);
        if plan.checklist().road {
            self.defects.iter().filter(keeps).collect()
        } else {
            Vec::new()
        }
    }
}

/// Whether no complete walk of this plan passes the step by. One that an answer may leave out is
/// no proof.
pub fn asks(plan: &Plan, step: &StepKey) -> bool {
    let planned = plan.index(step).and_then(|index| plan.steps().get(index));
    planned.is_some_and(|planned| {
        let when = planned.step.when.as_ref();
        !when.is_some_and(|when| matches!(when.test, Test::Answered { .. }))
    })
}
