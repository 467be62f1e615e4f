//! Steps: each that is named has to be met on the passage, and asked what the scenario says of it.

use crate::checklist::{Checklist, Plan, PlannedAsk, PlannedStep, SightingAsk, StepKey};
use crate::document::nearest;
use crate::drill::check::case::Case;
use crate::drill::check::names::no_such;
use crate::drill::check::{Remark, Rule};
use crate::drill::{Differs, Slip};

pub(super) fn remarks(case: &Case<'_>, plan: &Plan, list: &Checklist) -> Vec<Remark> {
    let met = Met { plan, list };
    let mut remarks = Vec::new();
    for (part, differs) in case.differs() {
        remarks.extend(met.differs(&part, differs));
    }
    let scenario = case.scenario;
    for (at, fault) in scenario.faults.iter().enumerate() {
        let part = case.key(&format!("faults[{at}]"));
        remarks.extend(
            met.one(&fault.call.step, &format!("{part}.call.step"))
                .err(),
        );
        remarks.extend(met.slip(&fault.slip, &format!("{part}.slip")));
    }
    let once = [
        (
            scenario.good.slip.as_ref().map(|call| &call.step),
            "good.slip.step",
        ),
        (
            scenario.between.as_ref().map(|between| &between.at),
            "between.step",
        ),
        (scenario.hint.as_ref().map(|hint| &hint.at), "hint.step"),
    ];
    for (step, key) in once {
        remarks.extend(step.and_then(|step| met.one(step, &case.key(key)).err()));
    }
    remarks
}

/// What is met on a passage.
struct Met<'m> {
    plan: &'m Plan,
    list: &'m Checklist,
}

impl<'m> Met<'m> {
    fn differs(&self, part: &str, differs: &Differs) -> Vec<Remark> {
        let mut remarks = Vec::new();
        for (at, (step, value)) in differs.read.iter().enumerate() {
            let path = format!("{part}.read[{at}]");
            match self.any(step, &format!("{path}.step")) {
                Err(remark) => remarks.push(remark),
                Ok(planned) => match &planned.ask {
                    PlannedAsk::Reading { ask, .. } if value.in_unit(ask.unit).is_some() => {}
                    PlannedAsk::Reading { ask, .. } => remarks.push(Remark::new(
                        Rule::OtherAsk,
                        format!("{path}.is"),
                        format!("`{step}` reads a {}", ask.dimension.word()),
                        format!("write it as {}", ask.dimension.example()),
                    )),
                    PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask) => {
                        remarks.push(Remark::new(
                            Rule::OtherAsk,
                            format!("{path}.step"),
                            format!("`{step}` is looked at and has no value"),
                            format!(
                                "say it under `seen`, with one of {}",
                                states(ask).join(", ")
                            ),
                        ));
                    }
                },
            }
        }
        for (at, (step, state)) in differs.seen.iter().enumerate() {
            let path = format!("{part}.seen[{at}]");
            match self.any(step, &format!("{path}.step")) {
                Err(remark) => remarks.push(remark),
                Ok(planned) => remarks.extend(of_state(planned, state, &path)),
            }
        }
        remarks
    }

    fn slip(&self, slip: &Slip, path: &str) -> Option<Remark> {
        let (Slip::Seen(step, _) | Slip::Called(step, _)) = slip;
        let planned = match self.one(step, &format!("{path}.step")) {
            Ok(planned) => planned,
            Err(remark) => return Some(remark),
        };
        match (slip, &planned.ask) {
            (Slip::Seen(_, state), _) => of_state(planned, state, path),
            (Slip::Called(..), PlannedAsk::Reading { .. }) => None,
            (Slip::Called(..), PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask)) => {
                Some(Remark::new(
                    Rule::OtherAsk,
                    format!("{path}.verdict"),
                    format!("`{step}` is looked at: a state is named wrongly there"),
                    format!("write `state:` with one of {}", states(ask).join(", ")),
                ))
            }
        }
    }

    /// The step of that name, or the first of its parts.
    fn any(&self, step: &StepKey, path: &str) -> Result<&'m PlannedStep, Remark> {
        let steps = self.plan.steps().iter();
        let mut named =
            steps.filter(|planned| planned.key == *step || planned.step.id == step.as_str());
        named.next().ok_or_else(|| self.unmet(step, path))
    }

    /// The one step of that name.
    fn one(&self, step: &StepKey, path: &str) -> Result<&'m PlannedStep, Remark> {
        let found = self.any(step, path)?;
        if found.key == *step {
            return Ok(found);
        }
        let parts = self.plan.steps().iter();
        let parts = parts.filter(|planned| planned.step.id == step.as_str());
        let parts: Vec<&str> = parts.map(|planned| planned.key.as_str()).collect();
        Err(Remark::new(
            Rule::OffPassage,
            path,
            format!("`{step}` is asked of several parts"),
            format!("name one of {}", parts.join(", ")),
        ))
    }

    fn unmet(&self, step: &StepKey, path: &str) -> Remark {
        let off = |what: String, fix: String| Remark::new(Rule::OffPassage, path, what, fix);
        let part_of = self
            .plan
            .steps()
            .iter()
            .filter(|one| one.step.id == step.step());
        let parts: Vec<&str> = part_of.map(|one| one.key.as_str()).collect();
        if !parts.is_empty() {
            let what = format!("`{step}` is no part that is asked of here");
            return no_such_part(path, what, step, &parts);
        }
        let left = self
            .plan
            .left()
            .iter()
            .find(|left| left.step == step.step());
        if let Some(left) = left {
            let what = format!("`{step}` is left out: {}", left.because);
            return off(
                what,
                "take another rig, or say what it `carries`".to_owned(),
            );
        }
        let sections = self.list.sections.iter();
        let mut within =
            sections.filter(|section| section.steps.iter().any(|one| one.id == step.step()));
        if let Some(section) = within.next() {
            let what = format!("`{step}` is not in the sections that are walked");
            return off(what, format!("add `{}` to `sections`", section.id));
        }
        let known: Vec<&str> = self
            .plan
            .steps()
            .iter()
            .map(|one| one.key.as_str())
            .collect();
        let what = format!("the passage has no step `{step}`");
        no_such(path.to_owned(), what, &known)
    }
}

fn no_such_part(path: &str, what: String, step: &StepKey, parts: &[&str]) -> Remark {
    let all = parts.join(", ");
    let fix = match nearest(step.as_str(), parts.iter().copied()) {
        Some(meant) => format!("did you mean `{meant}`? The parts are {all}"),
        None => format!("the parts are {all}"),
    };
    Remark::new(Rule::NoSuchName, path, what, fix)
}

fn of_state(planned: &PlannedStep, state: &str, path: &str) -> Option<Remark> {
    let step = &planned.key;
    match &planned.ask {
        PlannedAsk::Reading { .. } => Some(Remark::new(
            Rule::OtherAsk,
            format!("{path}.state"),
            format!("`{step}` is measured and has no states"),
            "say what truly is under `read`, and call it by its verdict",
        )),
        PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask) => {
            let states = states(ask);
            let what = format!("`{step}` has no state `{state}`");
            (!states.contains(&state)).then(|| no_such(format!("{path}.state"), what, &states))
        }
    }
}

fn states(ask: &SightingAsk) -> Vec<&str> {
    ask.states.iter().map(|state| state.id.as_str()).collect()
}
