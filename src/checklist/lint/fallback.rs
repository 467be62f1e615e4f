//! What a limit rests on: that it is told before it is needed, and that something stands for it
//! where it is not known.

use crate::checklist::lint::Rule;
use crate::checklist::lint::outline::{At, bounds, reading, steps};
use crate::checklist::lint::remark::Remark;
use crate::checklist::{Checklist, Condition, Step, Test};
use crate::figures::{Fact, Figure};
use crate::rules::{Bound, Earlier};

pub(super) fn remarks(checklist: &Checklist) -> Vec<Remark> {
    let steps = steps(checklist);
    let mut remarks = Vec::new();
    for (at, step) in steps.iter().enumerate() {
        let earlier = steps.get(..at).unwrap_or_default();
        let here = Here {
            earlier: earlier.iter().map(|step| step.part).collect(),
            guarded: step.part.when.as_ref().is_some_and(asks_the_rig),
        };
        for bound in reading(step).iter().flat_map(bounds) {
            here.remark_on(&bound, &mut remarks);
        }
    }
    remarks
}

/// Where a bound stands.
struct Here<'c> {
    earlier: Vec<&'c Step>,
    /// Whether the rig is asked first whether the step applies.
    guarded: bool,
}

impl Here<'_> {
    fn remark_on(&self, bound: &At<&Bound>, remarks: &mut Vec<Remark>) {
        let (figure, or) = match bound.part {
            Bound::Fixed(_) => return,
            Bound::Read { at, or, .. } => {
                if or.is_none() && !self.is_always_read(at) {
                    remarks.push(Remark::new(
                        Rule::NoFallback,
                        &bound.path,
                        match at {
                            Earlier::Step(step) => {
                                format!("{step} may not have been read, and nothing stands for it then")
                            }
                            Earlier::Siblings(_) => {
                                "before the first of them nothing is read, and nothing stands for it then"
                                    .to_owned()
                            }
                        },
                        "add `or` with the trade's rule of thumb, its authority and its source",
                    ));
                }
                if let Some(rule) = or {
                    let or = At {
                        path: bound.key("or"),
                        part: &rule.bound,
                    };
                    self.remark_on(&or, remarks);
                }
                return;
            }
            Bound::Of { figure, or, .. } => (figure, or),
        };
        let untold = figure
            .needs()
            .iter()
            .find(|fact| self.teller(**fact).is_none());
        if let Some(fact) = untold {
            remarks.push(Remark::new(
                Rule::Untold,
                bound.key("figure"),
                format!(
                    "{} needs {}, which no step before tells",
                    figure.word(),
                    fact.word()
                ),
                format!("have a step before this one say `tells: {}`", fact.word()),
            ));
        }
        match or {
            None if untold.is_none() && self.may_be_missing(*figure) => remarks.push(Remark::new(
                Rule::NoFallback,
                bound.key("figure"),
                format!(
                    "{} may not be known, and nothing stands for it then",
                    figure.word()
                ),
                "add `or` with the trade's rule of thumb, its authority and its source",
            )),
            Some(_) if figure.is_on_every_rig() => remarks.push(Remark::new(
                Rule::NeedlessFallback,
                bound.key("or"),
                format!(
                    "{} is in every rig file, so this never stands",
                    figure.word()
                ),
                "take `or` away",
            )),
            _ => {}
        }
        if let Some(rule) = or {
            let or = At {
                path: bound.key("or"),
                part: &rule.bound,
            };
            self.remark_on(&or, remarks);
        }
    }

    /// Whether some rig, or some walk, comes to this step without the figure.
    fn may_be_missing(&self, figure: Figure) -> bool {
        let mut facts = figure.needs().iter();
        if figure.needs().is_empty() {
            return !figure.is_on_every_rig() && !self.guarded;
        }
        facts.any(|fact| {
            let teller = self.teller(*fact);
            !teller.is_some_and(|step| step.when.is_none() && step.is_always_answered())
        })
    }

    /// Whether every walk that comes here has read it.
    fn is_always_read(&self, at: &Earlier) -> bool {
        let Earlier::Step(step) = at else {
            return false;
        };
        let mut earlier = self.earlier.iter();
        let found = earlier.find(|earlier| earlier.id == *step);
        found.is_some_and(|step| step.when.is_none() && step.is_always_answered())
    }

    fn teller(&self, fact: Fact) -> Option<&Step> {
        let mut earlier = self.earlier.iter().copied();
        earlier.find(|step| step.tells() == Some(fact))
    }
}

fn asks_the_rig(condition: &Condition) -> bool {
    matches!(condition.test, Test::Rig { .. })
}
