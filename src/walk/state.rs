//! The state of a walk: what each step has come to, and where the walk stands.

use crate::checklist::{Plan, PlannedStep, StepKey, Test};
use crate::rules::{Outcome, Verdict};
use crate::units::Typed;
use crate::walk::{Answer, Ended, Given, Moment, Round, Words};
use chrono::{DateTime, FixedOffset};
use std::sync::Arc;

/// A walk under way.
#[derive(Clone, Debug, PartialEq)]
pub struct Walk {
    pub(super) plan: Arc<Plan>,
    pub(super) reader: Words,
    /// Who read and typed before, and so has seen what was read.
    pub(super) earlier_readers: Vec<Words>,
    pub(super) doer: Words,
    pub(super) began: Moment,
    /// When it was walked, where it is entered from paper.
    pub(super) paper: Option<DateTime<FixedOffset>>,
    pub(super) last: Moment,
    pub(super) steps: Vec<StepState>,
    pub(super) closed: Vec<bool>,
    /// The step being worked on, if one is.
    pub(super) active: Option<usize>,
    /// Steps in the order they were last completed.
    pub(super) completed: Vec<usize>,
    pub(super) standing: Option<Standing>,
    pub(super) ended: Option<Ended>,
    pub(super) notes: Vec<(Moment, Words)>,
}

/// What one step has come to.
#[derive(Clone, Debug, PartialEq)]
pub struct StepState {
    /// Where it stands.
    pub status: Status,
    /// When it was last begun.
    pub opened: Option<Moment>,
    /// When it was last completed.
    pub done: Option<Moment>,
    /// Every answer given, first to last.
    pub answers: Vec<Answer>,
    /// What was said to explain a note.
    pub remark: Option<Words>,
}

/// Where a step stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Status {
    /// Not begun, or asked again for this reason.
    Waiting(Round),
    /// Begun, not answered.
    Open(Round),
    /// Answered with a reading that looked like a slip; asked once more.
    Doubted(Round, Typed),
    /// Answered badly; its branch is open.
    Bad {
        /// Fix or stop.
        verdict: Verdict,
        /// The branch.
        branch: String,
    },
    /// Answered with a note that is not yet explained.
    NoteOwed,
    /// Done.
    Done(Verdict),
    /// Put off until a section begins.
    Deferred {
        /// The section.
        before: String,
        /// Why.
        words: Words,
    },
}

/// Why the walk stands still.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Standing {
    /// Left for a while.
    Held {
        at: Moment,
        why: Option<Words>,
        next: Option<Words>,
    },
    /// Something is not clear.
    Unsure { at: Moment, words: Option<Words> },
}

/// How many answers came to each verdict.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Inside the limits.
    pub ok: u32,
    /// With a note.
    pub note: u32,
    /// To be put right.
    pub fix: u32,
    /// Not to move.
    pub stop: u32,
}

impl Walk {
    /// A walk at its beginning.
    pub fn begin(plan: impl Into<Arc<Plan>>, reader: Words, doer: Words, at: Moment) -> Self {
        let plan = plan.into();
        let fresh = StepState {
            status: Status::Waiting(Round::First),
            opened: None,
            done: None,
            answers: Vec::new(),
            remark: None,
        };
        let steps = vec![fresh; plan.steps().len()];
        let closed = vec![false; plan.sections().len()];
        Self {
            plan,
            reader,
            earlier_readers: Vec::new(),
            doer,
            began: at.clone(),
            paper: None,
            last: at,
            steps,
            closed,
            active: None,
            completed: Vec::new(),
            standing: None,
            ended: None,
            notes: Vec::new(),
        }
    }

    /// The same, walked on paper at this time and entered now. Nothing on the rig can be looked at
    /// again then, however long the typing is left.
    #[must_use]
    pub fn from_paper(self, walked: DateTime<FixedOffset>) -> Self {
        Self {
            paper: Some(walked),
            ..self
        }
    }

    /// The checklist laid on the rig.
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// Who reads and types.
    pub fn reader(&self) -> &Words {
        &self.reader
    }

    /// Who does the work.
    pub fn doer(&self) -> &Words {
        &self.doer
    }

    /// Whether this person reads or does the walk, so that a signature states what was seen.
    pub fn is_walked_by(&self, name: &str) -> bool {
        self.reader.names_whom(name) || self.doer.names_whom(name)
    }

    /// When the walk began.
    pub fn began(&self) -> &Moment {
        &self.began
    }

    /// When it was walked, where it is entered from paper.
    pub fn paper(&self) -> Option<&DateTime<FixedOffset>> {
        self.paper.as_ref()
    }

    /// When anything last happened.
    pub fn last(&self) -> &Moment {
        &self.last
    }

    /// The state of each planned step, in order.
    pub fn steps(&self) -> &[StepState] {
        &self.steps
    }

    /// A planned step with its state.
    pub fn step(&self, index: usize) -> Option<(&PlannedStep, &StepState)> {
        self.plan.steps().get(index).zip(self.steps.get(index))
    }

    /// Whether the section with this index was stated to be complete.
    pub fn is_closed(&self, section: usize) -> bool {
        self.closed.get(section).copied().unwrap_or(false)
    }

    /// The last completed step and when.
    pub fn last_done(&self) -> Option<(usize, &Moment)> {
        let index = *self.completed.last()?;
        Some((index, self.steps.get(index)?.done.as_ref()?))
    }

    /// Steps put off, by index.
    pub fn deferred(&self) -> impl Iterator<Item = usize> + '_ {
        self.having(|status| matches!(status, Status::Deferred { .. }))
    }

    /// Steps to be looked at again, by index.
    pub fn to_look_at_again(&self) -> impl Iterator<Item = usize> + '_ {
        self.having(|status| matches!(status, Status::Waiting(Round::ReLook)))
    }

    /// What was written down, with when.
    pub fn notes(&self) -> &[(Moment, Words)] {
        &self.notes
    }

    /// As what the walk ended, if it did.
    pub fn ended(&self) -> Option<Ended> {
        self.ended
    }

    /// Whether it was gone through: to its end, or to a fault that stops the rig, which is what it is
    /// there to find, with at least half of its steps answered. Ours, no source: who stopped at the
    /// first step has not practised the others.
    pub fn went_through(&self) -> bool {
        let asked = self.steps.iter().enumerate();
        let asked = asked.filter(|(index, _)| self.left_out(*index).is_none());
        let (asked, answered) = asked.fold((0, 0), |(asked, answered), (_, step)| {
            (asked + 1, answered + usize::from(!step.answers.is_empty()))
        });
        match self.ended {
            Some(Ended::Complete) => true,
            Some(Ended::NotFitToGo) => answered * 2 >= asked,
            Some(Ended::Incomplete | Ended::Abandoned) | None => false,
        }
    }

    /// Since when the walk stands still, why, and what was about to be done.
    pub fn held(&self) -> Option<(&Moment, Option<&Words>, Option<&Words>)> {
        match self.standing.as_ref()? {
            Standing::Held { at, why, next } => Some((at, why.as_ref(), next.as_ref())),
            Standing::Unsure { .. } => None,
        }
    }

    /// Since when something is not clear, and what.
    pub fn unsure(&self) -> Option<(&Moment, Option<&Words>)> {
        match self.standing.as_ref()? {
            Standing::Unsure { at, words } => Some((at, words.as_ref())),
            Standing::Held { .. } => None,
        }
    }

    /// Why a step does not apply on this walk, by an earlier answer; nothing when it applies.
    /// A step once answered badly applies until it is answered afresh, whatever is corrected.
    pub fn left_out(&self, index: usize) -> Option<String> {
        let own = self.steps.get(index)?.answers.last();
        if own.is_some_and(|answer| answer.given.outcome().is_open()) {
            return None;
        }
        let condition = self.plan.steps().get(index)?.step.when.as_ref()?;
        let Test::Answered {
            step,
            state: wanted,
        } = &condition.test
        else {
            return None;
        };
        let earlier = self.plan.index(&StepKey::named(step))?;
        let Given::Seen { state, .. } = &self.steps.get(earlier)?.answers.last()?.given else {
            return None;
        };
        (state != wanted).then(|| format!("{step} was answered “{state}”; {}", condition.because))
    }

    /// How many answers came to each verdict.
    pub fn tally(&self) -> Tally {
        let mut tally = Tally::default();
        for answer in self.steps.iter().flat_map(|step| &step.answers) {
            match answer.given.outcome() {
                Outcome::Judged(Verdict::Ok) => tally.ok += 1,
                Outcome::Judged(Verdict::Note) => tally.note += 1,
                Outcome::Judged(Verdict::Fix) => tally.fix += 1,
                Outcome::Judged(Verdict::Stop) => tally.stop += 1,
                Outcome::Again => {}
            }
        }
        tally
    }

    fn having(&self, which: impl Fn(&Status) -> bool) -> impl Iterator<Item = usize> {
        self.steps
            .iter()
            .enumerate()
            .filter(move |(_, step)| which(&step.status))
            .map(|(index, _)| index)
    }
}
