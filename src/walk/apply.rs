//! State is a fold of events.

use crate::checklist::{PlannedAsk, StepKey};
use crate::rules::{Outcome, Verdict};
use crate::walk::look_again::is_long;
use crate::walk::state::Standing;
use crate::walk::{
    After, Answer, Entry, Event, Given, Moment, Round, Status, StepState, Walk, Words,
};

impl Walk {
    /// Takes one event into the state. An event about a step this plan does not have changes
    /// nothing: the record's verification says so, not the fold.
    pub fn apply(&mut self, entry: &Entry) {
        let at = &entry.at;
        match &entry.event {
            Event::Opened { step } => self.on_opened(step, at),
            Event::Doubted { step, typed, .. } => {
                if let Some(state) = self.state_mut(step) {
                    let round = round_of(&state.status);
                    state.status = Status::Doubted(round, typed.clone());
                }
            }
            Event::Answered {
                step,
                doer,
                round,
                given,
            } => {
                let answer = Answer {
                    at: at.clone(),
                    doer: doer.clone(),
                    round: *round,
                    given: given.clone(),
                };
                self.on_answered(step, answer);
            }
            Event::Remarked { step, words } => {
                if let Some(state) = self.state_mut(step) {
                    state.remark = Some(words.clone());
                }
                self.on_done(step, Verdict::Note, at);
            }
            Event::PutRight { step, .. } => self.reopen(step, Round::PutRight),
            Event::SectionClosed { section } => {
                let index = self
                    .plan
                    .sections()
                    .iter()
                    .position(|known| known.id == *section);
                if let Some(closed) = index.and_then(|index| self.closed.get_mut(index)) {
                    *closed = true;
                }
            }
            Event::Deferred {
                step,
                before,
                words,
            } => {
                let status = Status::Deferred {
                    before: before.clone(),
                    words: words.clone(),
                };
                if let Some(state) = self.state_mut(step) {
                    state.status = status;
                }
                self.active = None;
            }
            Event::Corrected { step, .. } => {
                self.lay_down();
                self.reopen(step, Round::Correction);
            }
            Event::Noted { words } => self.notes.push((at.clone(), words.clone())),
            Event::Held { why, next } => {
                let (why, next) = (why.clone(), next.clone());
                self.standing = Some(Standing::Held {
                    at: at.clone(),
                    why,
                    next,
                });
            }
            Event::Unsure { words } => self.on_unsure(words.as_ref(), at),
            Event::Resumed {
                after,
                stood_ms,
                look_again,
            } => {
                // What is not clear stays so over a restart.
                if !matches!(self.standing, Some(Standing::Unsure { .. })) {
                    self.standing = None;
                }
                self.on_absence(*after == After::Restart || is_long(*stood_ms), look_again);
            }
            Event::Settled {
                stood_ms,
                look_again,
                ..
            } => {
                self.standing = None;
                self.on_absence(is_long(*stood_ms), look_again);
            }
            Event::HandedOver {
                reader,
                doer,
                look_again,
            } => {
                let before = std::mem::replace(&mut self.reader, reader.clone());
                self.earlier_readers.push(before);
                self.doer = doer.clone();
                self.on_absence(true, look_again);
            }
            Event::Ended { outcome, .. } => self.ended = Some(*outcome),
        }
        self.last = at.clone();
    }

    /// Doubt during a hold stands since the hold began, so that its length still counts.
    fn on_unsure(&mut self, words: Option<&Words>, at: &Moment) {
        let since = match &self.standing {
            Some(Standing::Held { at, .. } | Standing::Unsure { at, .. }) => at.clone(),
            None => at.clone(),
        };
        self.standing = Some(Standing::Unsure {
            at: since,
            words: words.cloned(),
        });
    }

    fn on_opened(&mut self, step: &StepKey, at: &Moment) {
        self.active = self.plan.index(step);
        if let Some(state) = self.state_mut(step) {
            state.status = Status::Open(round_of(&state.status));
            state.opened = Some(at.clone());
        }
    }

    fn on_answered(&mut self, step: &StepKey, answer: Answer) {
        let (at, outcome) = (answer.at.clone(), answer.given.outcome());
        let branch = self.branch_of(step, &answer.given);
        if let Some(state) = self.state_mut(step) {
            state.answers.push(answer);
        }
        match (outcome, branch) {
            (Outcome::Again, _) => self.reopen(step, Round::MeasuredAgain),
            (Outcome::Judged(Verdict::Ok), _) => self.on_done(step, Verdict::Ok, &at),
            (Outcome::Judged(Verdict::Note), _) => {
                self.active = self.plan.index(step);
                if let Some(state) = self.state_mut(step) {
                    state.status = Status::NoteOwed;
                }
            }
            (Outcome::Judged(verdict), branch) => {
                self.active = self.plan.index(step);
                let branch = branch.unwrap_or_default();
                if let Some(state) = self.state_mut(step) {
                    state.status = Status::Bad { verdict, branch };
                }
            }
        }
    }

    fn on_done(&mut self, step: &StepKey, verdict: Verdict, at: &Moment) {
        let Some(index) = self.plan.index(step) else {
            return;
        };
        if let Some(state) = self.steps.get_mut(index) {
            state.status = Status::Done(verdict);
            state.done = Some(at.clone());
        }
        self.completed.retain(|other| *other != index);
        self.completed.push(index);
        self.active = None;
    }

    /// The branch an answer opens.
    fn branch_of(&self, step: &StepKey, given: &Given) -> Option<String> {
        let planned = self
            .plan
            .index(step)
            .and_then(|index| self.plan.steps().get(index))?;
        match (given, &planned.ask) {
            (Given::Read { judgement, .. }, _) => judgement.deciding()?.branch.clone(),
            (
                Given::Seen { state, .. },
                PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask),
            ) => ask
                .states
                .iter()
                .find(|known| known.id == *state)?
                .branch
                .clone(),
            (Given::Seen { .. }, PlannedAsk::Reading { .. }) => None,
        }
    }

    /// After a long absence, or when others take over, the step that was open begins again; these
    /// are looked at again.
    fn on_absence(&mut self, long: bool, steps: &[StepKey]) {
        if long || !steps.is_empty() {
            self.lay_down();
        }
        for step in steps {
            self.reopen(step, Round::ReLook);
        }
    }

    /// Puts the open step back to be begun again. A bad answer stays open: it is not forgotten by
    /// leaving.
    fn lay_down(&mut self) {
        let Some(state) = self.active.and_then(|index| self.steps.get_mut(index)) else {
            return;
        };
        if let Status::Open(round) | Status::Doubted(round, _) = state.status {
            state.status = Status::Waiting(round);
            self.active = None;
        }
    }

    fn reopen(&mut self, step: &StepKey, round: Round) {
        let index = self.plan.index(step);
        if let Some(state) = self.state_mut(step) {
            state.status = Status::Waiting(round);
        }
        if self.active == index {
            self.active = None;
        }
    }

    fn state_mut(&mut self, step: &StepKey) -> Option<&mut StepState> {
        let index = self.plan.index(step)?;
        self.steps.get_mut(index)
    }
}

fn round_of(status: &Status) -> Round {
    match status {
        Status::Waiting(round) | Status::Open(round) | Status::Doubted(round, _) => *round,
        _ => Round::First,
    }
}
