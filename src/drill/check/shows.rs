//! Whether a fault shows on its passage, and whether it can be told from what is well.

use crate::checklist::PlannedAsk;
use crate::drill::check::{Remark, Rule};
use crate::drill::{Drill, Fault, Sights, Vantage};

/// Nothing is otherwise with the fault than without it.
pub(super) fn hidden(part: &str, good: &Drill, faulty: &Drill) -> Option<Remark> {
    let mut steps = faulty.plan.steps().iter();
    let shows = steps.any(|planned| faulty.there_at_first(planned) != good.there_at_first(planned));
    (!shows).then(|| {
        Remark::new(
            Rule::HiddenFault,
            format!("{part}.id"),
            "every step of the passage is the same with this fault as without it",
            "say what is seen or read otherwise, or walk a section in which it shows",
        )
    })
}

/// States of the fault that look like another from every place there is.
pub(super) fn alike(part: &str, fault: &Fault, drill: &Drill, sights: &Sights) -> Vec<Remark> {
    let mut remarks = Vec::new();
    for (at, (step, state)) in fault.differs.seen.iter().enumerate() {
        let Some(sight) = sights.of(step.step()) else {
            continue;
        };
        let mut steps = drill.plan.steps().iter();
        let planned = steps.find(|planned| planned.step.id == step.step());
        let cannot_see = planned.is_some_and(|planned| match &planned.ask {
            PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask) => {
                let mut states = ask.states.iter();
                states.any(|one| one.id == *state && one.cannot_see)
            }
            PlannedAsk::Reading { .. } => false,
        });
        let places: Vec<Vantage> = sight.places().collect();
        if cannot_see || sight.is_known(state, &places) {
            continue;
        }
        let same = |other: &&str| {
            let mut places = places.iter();
            *other != state.as_str()
                && places.all(|from| sight.sees(*from, other) == sight.sees(*from, state))
        };
        let others: Vec<&str> = sight.states().into_iter().filter(same).collect();
        remarks.push(Remark::new(
            Rule::LooksAlike,
            format!("{part}.seen[{at}].state"),
            match others.as_slice() {
                [] => format!("no sight of `{step}` tells what `{state}` looks like"),
                others => format!(
                    "`{state}` looks like {} from every place",
                    others.join(", ")
                ),
            },
            "tell it apart from some place in a file of sights",
        ));
    }
    remarks
}
