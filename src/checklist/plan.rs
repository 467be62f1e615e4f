//! A checklist laid on a rig, before anything is read.

use crate::checklist::passing::can_pass;
use crate::checklist::{
    Branch, Checklist, Gap, PlannedAsk, PlannedStep, Step, StepKey, Style, Test,
};
use crate::figures::{Item, NotKnown, Today};
use crate::rig::Rig;
use crate::rules::{Carried, Carry, suits};

/// Every step this rig calls for, in order, with each limit a number.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    checklist: Checklist,
    rig: Rig,
    sections: Vec<PlannedSection>,
    steps: Vec<PlannedStep>,
    left: Vec<Left>,
    carried: Vec<Carried>,
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

/// A step of the checklist this rig has no use for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Left {
    /// The step.
    pub step: String,
    /// Why it is left out.
    pub because: String,
}

impl Plan {
    /// Lays a checklist on a rig of which no earlier walk left anything open.
    ///
    /// # Errors
    /// Every [`Gap`], not only the first.
    pub fn lay(checklist: Checklist, rig: Rig) -> Result<Self, Vec<Gap>> {
        Self::lay_for(checklist, rig, Vec::new())
    }

    /// Lays a checklist on a rig, with what earlier walks left open.
    ///
    /// # Errors
    /// Every [`Gap`], not only the first.
    pub fn lay_for(
        checklist: Checklist,
        rig: Rig,
        carried: Vec<Carried>,
    ) -> Result<Self, Vec<Gap>> {
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
            carried,
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

    /// What earlier walks left open.
    pub fn carried(&self) -> &[Carried] {
        &self.carried
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
            Some(each) => {
                let items = each.items(&self.rig).into_iter();
                let asked = items.filter(|item| self.is_open_for(step, item));
                asked.map(Some).collect()
            }
            None => vec![None],
        };
        if let (true, Some(when)) = (items.is_empty(), &step.when) {
            self.left.push(Left {
                step: step.id.clone(),
                because: when.because.clone(),
            });
        }
        for item in items {
            let ask = PlannedAsk::draw(&step.ask, &Today::from(&self.rig), item.as_ref());
            let missing = ask
                .open()
                .iter()
                .filter(|missing| !self.will_be_known(missing));
            let missing: Vec<NotKnown> = missing.cloned().collect();
            if missing.is_empty() {
                gaps.extend(self.no_instrument(&step.id, &ask));
            }
            gaps.extend(missing.into_iter().map(|missing| Gap::Figure {
                step: step.id.clone(),
                missing,
            }));
            self.steps.push(PlannedStep {
                key: StepKey::of(&step.id, item.as_ref()),
                section,
                step: step.clone(),
                item,
                ask,
            });
        }
    }

    /// Whether what is missing is read on the walk by a step that stands before and cannot be
    /// passed over.
    fn will_be_known(&self, missing: &NotKnown) -> bool {
        self.steps.iter().any(|earlier| {
            let told = match missing {
                NotKnown::Unread(_, fact) => earlier.step.tells() == Some(*fact),
                NotKnown::NotAnswered(step) => earlier.step.id == *step,
                _ => false,
            };
            told && earlier.step.is_always_answered()
        })
    }

    /// Whether a step that stands for what was left open stands for this part.
    fn is_open_for(&self, step: &Step, item: &Item) -> bool {
        let Some(Test::Carried { what, unless }) = step.when.as_ref().map(|when| &when.test) else {
            return true;
        };
        self.has_open(*what, Some(item))
            && !unless.is_some_and(|not| self.has_open(not, Some(item)))
    }

    /// Whether earlier walks left this open: for this part, or for any where none is named.
    fn has_open(&self, what: Carry, item: Option<&Item>) -> bool {
        let mut left = self.carried.iter().filter(|left| left.what == what);
        left.any(|left| match (&left.part, item) {
            (Some(part), Some(item)) => *part == item.id,
            _ => true,
        })
    }

    /// A step nobody could answer, because nothing kept with the rig measures it, or not finely
    /// enough.
    fn no_instrument(&self, step: &str, ask: &PlannedAsk) -> Option<Gap> {
        let PlannedAsk::Reading {
            ask,
            target,
            limits,
            ..
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
        let (figure, side, value) = match &condition.test {
            // What hangs on a step nobody is asked goes with it.
            Test::Answered { step, .. } => {
                let gone = self.left.iter().any(|left| left.step == *step);
                return gone.then(|| condition.because.clone());
            }
            Test::Carried { what, unless } => {
                let spared =
                    unless.is_some_and(|not| step.each.is_none() && self.has_open(not, None));
                let open = self.has_open(*what, None) && !spared;
                return (!open).then(|| condition.because.clone());
            }
            Test::Rig {
                figure,
                side,
                value,
            } => (figure, side, value),
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
