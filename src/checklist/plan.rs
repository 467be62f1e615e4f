//! A checklist laid on a rig.

use crate::checklist::passing::can_pass;
use crate::checklist::{Ask, Branch, Checklist, ReadingAsk, SightingAsk, Step, Style, Test};
use crate::figures::{Item, NotKnown};
use crate::rig::{InstrumentKind, Rig};
use crate::rules::{Limit, suits};
use crate::units::Quantity;
use std::fmt;

/// Every step this rig calls for, in order, with each limit a number.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    checklist: Checklist,
    rig: Rig,
    sections: Vec<PlannedSection>,
    steps: Vec<PlannedStep>,
    left: Vec<Left>,
}

/// A section of the plan: a run of its steps.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedSection {
    /// Id in records.
    pub id: String,
    /// Title on screens.
    pub title: String,
    /// How it is worked.
    pub style: Style,
    /// Whether everything else stops while it is open.
    pub pause: bool,
    /// What is true when it is complete.
    pub complete: String,
    /// Index of its first step in the plan.
    pub first: usize,
    /// Number of its steps.
    pub count: usize,
}

/// A step as it stands for this rig and, where repeated, one item.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedStep {
    /// Its key in records.
    pub key: StepKey,
    /// The section it belongs to, by index.
    pub section: usize,
    /// The step as written.
    pub step: Step,
    /// The item it is about.
    pub item: Option<Item>,
    /// What it asks, with limits as numbers.
    pub ask: PlannedAsk,
}

/// What a planned step asks.
#[derive(Clone, Debug, PartialEq)]
pub enum PlannedAsk {
    /// A value typed with its unit.
    Reading {
        /// The ask as written.
        ask: ReadingAsk,
        /// The value aimed at.
        target: Option<Quantity>,
        /// The limits for this rig.
        limits: Vec<Limit>,
    },
    /// A state chosen among named ones.
    Sighting(SightingAsk),
    /// A state chosen by another person.
    Independent(SightingAsk),
}

/// Names a step in a walk: `tire-cold` or `tire-cold/left-front`.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct StepKey(String);

/// A step of the checklist this rig has no use for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Left {
    /// The step.
    pub step: String,
    /// Why it is left out.
    pub because: String,
}

/// Why a checklist cannot be laid on a rig.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Gap {
    /// It is for other kinds of rig.
    OtherKind {
        /// The rig's kind.
        rig: &'static str,
        /// The checklist's title.
        checklist: String,
    },
    /// A step needs a figure this rig does not have.
    Figure {
        /// The step.
        step: String,
        /// What is missing.
        missing: NotKnown,
    },
    /// No instrument of the rig suits a step.
    NoInstrument {
        /// The step.
        step: String,
        /// What it is measured with.
        wanted: InstrumentKind,
        /// The value aimed at.
        target: Option<Quantity>,
    },
    /// The limits of a step leave less open than every fitting instrument may be wrong by.
    NeverPasses {
        /// The step.
        step: String,
        /// What it is measured with.
        wanted: InstrumentKind,
    },
}

impl StepKey {
    /// The key of a step, for an item where it is repeated.
    pub fn of(step: &str, item: Option<&Item>) -> Self {
        Self(match item {
            Some(item) => format!("{step}/{}", item.id),
            None => step.to_owned(),
        })
    }

    /// The key a record gives by its text.
    pub fn named(text: &str) -> Self {
        Self(text.to_owned())
    }

    /// The text used in records.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// The step's id, without the item.
    pub fn step(&self) -> &str {
        self.0
            .split_once('/')
            .map_or(self.0.as_str(), |(step, _)| step)
    }
}

impl fmt::Display for StepKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl Plan {
    /// Lays a checklist on a rig.
    ///
    /// # Errors
    /// Every [`Gap`], not only the first.
    pub fn lay(checklist: Checklist, rig: Rig) -> Result<Self, Vec<Gap>> {
        if !checklist.rigs.contains(&rig.kind()) {
            let title = checklist.title.clone();
            return Err(vec![Gap::OtherKind {
                rig: rig.kind().word(),
                checklist: title,
            }]);
        }
        let mut plan = Self {
            checklist,
            rig,
            sections: vec![],
            steps: vec![],
            left: vec![],
        };
        let mut gaps = Vec::new();
        for section in plan.checklist.sections.clone() {
            let first = plan.steps.len();
            for step in &section.steps {
                plan.lay_step(step, plan.sections.len(), &mut gaps);
            }
            plan.sections.push(PlannedSection {
                id: section.id,
                title: section.title,
                style: section.style,
                pause: section.pause,
                complete: section.complete,
                first,
                count: plan.steps.len() - first,
            });
        }
        if gaps.is_empty() { Ok(plan) } else { Err(gaps) }
    }

    /// The checklist as written.
    pub fn checklist(&self) -> &Checklist {
        &self.checklist
    }

    /// The rig.
    pub fn rig(&self) -> &Rig {
        &self.rig
    }

    /// Sections in order.
    pub fn sections(&self) -> &[PlannedSection] {
        &self.sections
    }

    /// Steps in order.
    pub fn steps(&self) -> &[PlannedStep] {
        &self.steps
    }

    /// Steps of the checklist that this rig leaves out, with the reason.
    pub fn left(&self) -> &[Left] {
        &self.left
    }

    /// The index of the step with this key.
    pub fn index(&self, key: &StepKey) -> Option<usize> {
        self.steps.iter().position(|step| step.key == *key)
    }

    /// The branch with this id.
    pub fn branch(&self, id: &str) -> Option<&Branch> {
        self.checklist.branch(id)
    }

    fn lay_step(&mut self, step: &Step, section: usize, gaps: &mut Vec<Gap>) {
        if let Some(because) = self.left_out(step, gaps) {
            self.left.push(Left {
                step: step.id.clone(),
                because,
            });
            return;
        }
        let items: Vec<Option<Item>> = match step.each {
            Some(each) => each.items(&self.rig).into_iter().map(Some).collect(),
            None => vec![None],
        };
        for item in items {
            let planned = plan_ask(&step.ask, &self.rig, item.as_ref());
            gaps.extend(
                planned
                    .as_ref()
                    .ok()
                    .and_then(|ask| self.no_instrument(&step.id, ask)),
            );
            match planned {
                Ok(ask) => self.steps.push(PlannedStep {
                    key: StepKey::of(&step.id, item.as_ref()),
                    section,
                    step: step.clone(),
                    item,
                    ask,
                }),
                Err(missing) => gaps.push(Gap::Figure {
                    step: step.id.clone(),
                    missing,
                }),
            }
        }
    }

    /// A step nobody could answer, because nothing kept with the rig measures it, or not finely
    /// enough.
    fn no_instrument(&self, step: &str, ask: &PlannedAsk) -> Option<Gap> {
        let PlannedAsk::Reading {
            ask,
            target,
            limits,
        } = ask
        else {
            return None;
        };
        let mut suiting = self
            .rig
            .instruments
            .iter()
            .filter(|one| suits(one, ask.instrument, ask.dimension, target.as_ref()).is_ok())
            .peekable();
        let step = step.to_owned();
        if suiting.peek().is_none() {
            return Some(Gap::NoInstrument {
                step,
                wanted: ask.instrument,
                target: target.clone(),
            });
        }
        let passes = suiting.any(|one| can_pass(ask, target.as_ref(), limits, one));
        (!passes).then_some(Gap::NeverPasses {
            step,
            wanted: ask.instrument,
        })
    }

    /// Why the rig leaves a step out, where it does. A condition on an answer is decided on the
    /// walk, not here.
    fn left_out(&self, step: &Step, gaps: &mut Vec<Gap>) -> Option<String> {
        let condition = step.when.as_ref()?;
        let Test::Rig {
            figure,
            side,
            value,
        } = &condition.test
        else {
            return None;
        };
        match figure.of(&self.rig, None) {
            Ok(found) => {
                let holds = found
                    .quantity
                    .compare(value)
                    .is_some_and(|order| side.takes(order));
                (!holds).then(|| {
                    format!(
                        "{} is {}; {}",
                        figure.label(),
                        found.quantity,
                        condition.because
                    )
                })
            }
            Err(missing) => {
                gaps.push(Gap::Figure {
                    step: step.id.clone(),
                    missing,
                });
                None
            }
        }
    }
}

impl PlannedStep {
    /// The name on screens: `Tire, left front`.
    pub fn name(&self) -> String {
        match &self.item {
            Some(item) => format!("{}, {}", self.step.name, item.name()),
            None => self.step.name.clone(),
        }
    }
}

fn plan_ask(ask: &Ask, rig: &Rig, item: Option<&Item>) -> Result<PlannedAsk, NotKnown> {
    Ok(match ask {
        Ask::Sighting(sighting) => PlannedAsk::Sighting(sighting.clone()),
        Ask::Independent(sighting) => PlannedAsk::Independent(sighting.clone()),
        Ask::Reading(reading) => {
            let target = match &reading.target {
                Some(bound) => Some(bound.on(rig, item)?.0),
                None => None,
            };
            let limits: Result<Vec<Limit>, NotKnown> = reading
                .limits
                .iter()
                .map(|rung| rung.on(rig, item))
                .collect();
            PlannedAsk::Reading {
                ask: reading.clone(),
                target,
                limits: limits?,
            }
        }
    })
}

impl fmt::Display for Gap {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OtherKind { rig, checklist } => {
                write!(
                    f,
                    "“{checklist}” is not for a {rig} rig; choose a checklist that is"
                )
            }
            Self::Figure { step, missing } => {
                write!(f, "step {step}: {missing}; describe it in the rig file")
            }
            Self::NoInstrument {
                step,
                wanted,
                target,
            } => {
                write!(f, "step {step}: no {} of this rig", wanted.word())?;
                if let Some(target) = target {
                    write!(f, " is trusted at {target}")?;
                }
                f.write_str("; add a fitting one to the rig file")
            }
            Self::NeverPasses { step, wanted } => write!(
                f,
                "step {step}: no reading of a {} of this rig can pass, since its limits leave \
                 less open than the instrument may be wrong by; add a finer one to the rig file, \
                 or mend the limits",
                wanted.word()
            ),
        }
    }
}
