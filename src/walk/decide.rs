//! An act in, one event out, or a refusal.

mod answering;

use crate::checklist::{PlannedStep, StepKey};
use crate::walk::state::Standing;
use crate::walk::{Act, After, Ended, Event, Moment, Now, Refusal, Status, Walk, Words};

type Decision = Result<Event, Refusal>;

impl Walk {
    /// What this act at this moment makes happen. Changes nothing by itself.
    ///
    /// # Errors
    /// [`Refusal`], whose text says why and what to do; nothing has happened then.
    pub fn decide(&self, act: &Act, at: &Moment) -> Decision {
        self.allowed_now(act)?;
        match act {
            Act::Open => self.open(),
            Act::Read { typed, instrument } => self.read(None, typed, instrument),
            Act::ReadAs {
                who,
                typed,
                instrument,
            } => self.read(Some(who), typed, instrument),
            Act::See { state } => self.see(state),
            Act::SeeAs { who, state } => self.see_as(who, state),
            Act::Remark { words } => self.remark(words),
            Act::PutRight { words } => self.put_right(words),
            Act::CloseSection => self.close_section(),
            Act::Defer { words } => self.defer(words),
            Act::Correct { step, words } => self.correct(step, words),
            Act::Note { words } => Ok(Event::Noted {
                words: needed(words, "the note")?,
            }),
            Act::Hold { why, next } => Ok(Event::Held {
                why: optional(why)?,
                next: optional(next)?,
            }),
            Act::Resume => self.resume(at),
            Act::TakeUp => Ok(self.take_up(at)),
            Act::HandOver { reader, doer } => self.hand_over(reader, doer),
            Act::Unsure { words } => Ok(Event::Unsure {
                words: optional(words)?,
            }),
            Act::Settle { words } => self.settle(words, at),
            Act::End { outcome, words } => self.end(*outcome, words),
        }
    }

    /// While the walk stands still only a few acts are open.
    fn allowed_now(&self, act: &Act) -> Result<(), Refusal> {
        if let Some(outcome) = self.ended {
            return Err(Refusal::Ended(outcome));
        }
        let always = matches!(
            act,
            Act::Note { .. } | Act::TakeUp | Act::HandOver { .. } | Act::End { .. }
        );
        match &self.standing {
            Some(Standing::Held { .. })
                if !always && !matches!(act, Act::Resume | Act::Unsure { .. }) =>
            {
                Err(Refusal::Held)
            }
            Some(Standing::Unsure { .. }) if !always && !matches!(act, Act::Settle { .. }) => {
                Err(Refusal::Unsure)
            }
            _ => Ok(()),
        }
    }

    fn open(&self) -> Decision {
        match self.now() {
            Now::Next(index) => Ok(Event::Opened {
                step: self.planned(index)?.key.clone(),
            }),
            _ => Err(Refusal::NothingToOpen),
        }
    }

    fn close_section(&self) -> Decision {
        match self.now() {
            Now::SectionEnd(at) => {
                let section = self.plan.sections().get(at).ok_or(Refusal::SectionOpen)?;
                Ok(Event::SectionClosed {
                    section: section.id.clone(),
                })
            }
            _ => Err(Refusal::SectionOpen),
        }
    }

    fn defer(&self, words: &str) -> Decision {
        let index = match self.now() {
            Now::Next(index) | Now::Open(index) => index,
            Now::Branch(_) => return Err(Refusal::BranchFirst),
            _ => return Err(Refusal::NothingOpen),
        };
        let planned = self.planned(index)?;
        let fresh = self
            .steps
            .get(index)
            .is_some_and(|step| step.answers.is_empty());
        match &planned.step.deferrable {
            Some(deferral) if fresh && !self.is_due(&deferral.before) && !planned.step.critical => {
                Ok(Event::Deferred {
                    step: planned.key.clone(),
                    before: deferral.before.clone(),
                    words: needed(words, "why this is put off")?,
                })
            }
            _ => Err(Refusal::NotDeferrable {
                name: planned.name(),
                critical: planned.step.critical,
            }),
        }
    }

    /// Whether the walk has come to the section, so that what was put off to it is due.
    fn is_due(&self, before: &str) -> bool {
        let sections = self.plan.sections().iter().zip(&self.closed);
        sections
            .take_while(|(section, _)| section.id != before)
            .all(|(_, closed)| *closed)
    }

    fn correct(&self, step: &StepKey, words: &str) -> Decision {
        if matches!(self.now(), Now::Branch(_) | Now::Remark(_)) {
            return Err(Refusal::BranchFirst);
        }
        let done = self
            .plan
            .index(step)
            .and_then(|index| self.steps.get(index))
            .is_some_and(|state| matches!(state.status, Status::Done(_)));
        if !done {
            return Err(Refusal::NothingToCorrect(step.as_str().to_owned()));
        }
        Ok(Event::Corrected {
            step: step.clone(),
            words: needed(words, "why the answer is taken back")?,
        })
    }

    fn resume(&self, at: &Moment) -> Decision {
        match &self.standing {
            Some(Standing::Held { at: since, .. }) => Ok(Event::Resumed {
                after: After::Hold,
                stood_ms: at.since(since),
                look_again: self.look_again_after(since, at),
            }),
            _ => Err(Refusal::NotHeld),
        }
    }

    fn take_up(&self, at: &Moment) -> Event {
        Event::Resumed {
            after: After::Restart,
            stood_ms: at.since(&self.last),
            look_again: self.look_again(),
        }
    }

    fn hand_over(&self, reader: &str, doer: &str) -> Decision {
        let reader = needed(reader, "the name of who reads from now on")?;
        let doer = needed(doer, "the name of who does the work from now on")?;
        if reader == self.reader && doer == self.doer {
            return Err(Refusal::SamePeople);
        }
        Ok(Event::HandedOver {
            look_again: self.look_again_by(&doer),
            reader,
            doer,
        })
    }

    fn settle(&self, words: &str, at: &Moment) -> Decision {
        match &self.standing {
            Some(Standing::Unsure { at: since, .. }) => Ok(Event::Settled {
                words: needed(words, "how it was settled, and with whom")?,
                stood_ms: at.since(since),
                look_again: self.look_again_after(since, at),
            }),
            _ => Err(Refusal::NotUnsure),
        }
    }

    fn end(&self, outcome: Ended, words: &str) -> Decision {
        let words = match outcome {
            Ended::Complete => {
                self.complete()?;
                optional(words)?
            }
            _ => Some(needed(words, "why the trip ends here")?),
        };
        Ok(Event::Ended { outcome, words })
    }

    /// Whether nothing is left open.
    fn complete(&self) -> Result<(), Refusal> {
        if self.now() == Now::Finished {
            return Ok(());
        }
        let count = |which: fn(&Status) -> bool| {
            let open = self
                .steps
                .iter()
                .enumerate()
                .filter(|(index, step)| which(&step.status) && self.left_out(*index).is_none());
            open.count()
        };
        Err(Refusal::NotComplete {
            unanswered: count(|status| {
                matches!(
                    status,
                    Status::Waiting(_) | Status::Open(_) | Status::Doubted(..)
                )
            }),
            deferred: count(|status| matches!(status, Status::Deferred { .. })),
            open: count(|status| matches!(status, Status::Bad { .. } | Status::NoteOwed)),
        })
    }

    fn planned(&self, index: usize) -> Result<&PlannedStep, Refusal> {
        self.plan.steps().get(index).ok_or(Refusal::NothingOpen)
    }
}

fn needed(text: &str, purpose: &'static str) -> Result<Words, Refusal> {
    Words::read(text).map_err(|fault| Refusal::Words { purpose, fault })
}

fn optional(text: &str) -> Result<Option<Words>, Refusal> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    needed(text, "words that can be kept").map(Some)
}
