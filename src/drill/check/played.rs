//! A drill played by somebody who measures and answers what there is, to its end.

use crate::checklist::{Ending, PlannedAsk, PlannedStep, StepKey};
use crate::drill::{Drill, There};
use crate::rig::Instrument;
use crate::rules::{Outcome, Verdict};
use crate::shown::tool_for;
use crate::units::Unit;
use crate::walk::{Act, Answer, Ended, Entry, Moment, Now, Status, Walk, Words};
use std::sync::Arc;

/// More acts than any passage takes.
const MOST: u64 = 600;

/// So long each act takes: short enough that nothing has to be looked at again.
const ACT_MS: u64 = 20_000;

/// How it went.
pub(super) struct Played {
    came: Vec<(StepKey, Verdict)>,
    ended: Option<Ended>,
    stuck: Option<String>,
}

impl Played {
    /// What a step came to when it was first answered for good.
    pub(super) fn came_to(&self, step: &StepKey) -> Option<Verdict> {
        let mut came = self.came.iter();
        came.find(|(key, _)| key == step)
            .map(|(_, verdict)| *verdict)
    }

    /// The first of the steps that came to the worst.
    pub(super) fn worst(&self) -> Option<(&StepKey, Verdict)> {
        let worst = self.came.iter().map(|(_, verdict)| *verdict).max()?;
        let (key, _) = self.came.iter().find(|(_, verdict)| *verdict == worst)?;
        Some((key, worst))
    }

    /// Whether it ended before its last step.
    pub(super) fn ended_early(&self) -> bool {
        matches!(self.ended, Some(Ended::NotFitToGo))
    }

    /// Why it came to no end.
    pub(super) fn stuck(&self) -> Option<&str> {
        self.stuck.as_deref()
    }
}

/// Plays a drill as its list has it walked.
pub(super) fn played(drill: &Drill) -> Played {
    let (Ok(who), Ok(other)) = (Words::read("Learner"), Words::read("Second reader")) else {
        return of(&[], None, Some("nobody plays it".to_owned()));
    };
    let mut player = Player {
        drill,
        walk: Walk::begin(Arc::clone(&drill.plan), who.clone(), who.clone(), moment(0)),
        other: other.as_str().to_owned(),
    };
    for count in 1..MOST {
        if player.walk.ended().is_some() {
            return player.done(None);
        }
        let at = moment(count * ACT_MS);
        let Some(act) = player.next() else {
            let at = player.at();
            return player.done(Some(format!("nothing answers `{at}`")));
        };
        match player.walk.decide(&act, &at) {
            Err(refusal) => {
                let at = player.at();
                return player.done(Some(format!("at `{at}`: {refusal}")));
            }
            Ok(event) => player.walk.apply(&Entry {
                at,
                actor: who.clone(),
                event,
            }),
        }
    }
    let at = player.at();
    player.done(Some(format!("`{at}` is asked again and again")))
}

fn moment(mono_ms: u64) -> Moment {
    Moment {
        wall: chrono::DateTime::default(),
        boot: "drill".to_owned(),
        mono_ms,
    }
}

fn of(came: &[(StepKey, Verdict)], ended: Option<Ended>, stuck: Option<String>) -> Played {
    Played {
        came: came.to_vec(),
        ended,
        stuck,
    }
}

fn is_again(answer: &Answer) -> bool {
    answer.given.outcome() == Outcome::Again
}

struct Player<'d> {
    drill: &'d Drill,
    walk: Walk,
    other: String,
}

impl Player<'_> {
    /// What is done next; nothing where the step at hand cannot be answered.
    fn next(&self) -> Option<Act> {
        let words = || "as it should be".to_owned();
        Some(match self.walk.now() {
            Now::Next(_) => Act::Open,
            Now::Open(index) => self.answer(index)?,
            Now::Branch(index) => {
                let Status::Bad { branch, .. } = &self.walk.steps().get(index)?.status else {
                    return None;
                };
                let ends = self.walk.plan().branch(branch)?.ends;
                if ends == Ending::NotFitToGo {
                    let outcome = Ended::NotFitToGo;
                    Act::End {
                        outcome,
                        words: words(),
                    }
                } else {
                    Act::PutRight { words: words() }
                }
            }
            Now::Remark(_) => Act::Remark { words: words() },
            Now::SectionEnd(_) => Act::CloseSection,
            Now::Held => Act::Resume,
            Now::Unsure => Act::Settle { words: words() },
            Now::Finished => Act::End {
                outcome: Ended::Complete,
                words: String::new(),
            },
            Now::Ended(_) => return None,
        })
    }

    fn answer(&self, index: usize) -> Option<Act> {
        let planned = self.walk.asked(index)?;
        let who = self.other.clone();
        Some(match (&planned.ask, self.drill.there(&self.walk, index)?) {
            (PlannedAsk::Reading { ask, .. }, There::Value(value)) => {
                let before = &self.walk.steps().get(index)?.answers;
                let again = before.iter().filter(|answer| is_again(answer)).count();
                let about = (value.value.to_f64()?, value.unit);
                let tool = self.tool(&planned, about, again)?;
                let shown = self.drill.shows(&self.walk, index, tool, before.len())?;
                let typed = shown.to_string();
                let instrument = tool.id.clone();
                if ask.second {
                    Act::ReadAs {
                        who,
                        typed,
                        instrument,
                    }
                } else {
                    Act::Read { typed, instrument }
                }
            }
            (PlannedAsk::Sighting(_), There::State(state)) => Act::See { state },
            (PlannedAsk::Independent(_), There::State(state)) => Act::SeeAs { who, state },
            (_, There::State(_) | There::Value(_)) => return None,
        })
    }

    /// The instrument a person takes; where it left the reading open, another that fits.
    fn tool(&self, planned: &PlannedStep, about: (f64, Unit), again: usize) -> Option<&Instrument> {
        let rig = self.walk.plan().rig();
        let first = tool_for(planned, rig, about)?;
        let others = planned.tools(rig).into_iter();
        let others = others.filter(|tool| tool.unfit.is_none() && tool.instrument.id != first.id);
        let fit: Vec<&Instrument> = std::iter::once(first)
            .chain(others.map(|tool| tool.instrument))
            .collect();
        fit.get(again % fit.len()).copied()
    }

    /// The step at hand.
    fn at(&self) -> String {
        let (Now::Next(index) | Now::Open(index) | Now::Branch(index) | Now::Remark(index)) =
            self.walk.now()
        else {
            return "the end".to_owned();
        };
        let planned = self.walk.plan().steps().get(index);
        planned.map_or_else(String::new, |planned| planned.key.to_string())
    }

    fn done(&self, stuck: Option<String>) -> Played {
        let steps = self.walk.plan().steps().iter().zip(self.walk.steps());
        let came = steps.filter_map(|(planned, state)| {
            let mut judged =
                state
                    .answers
                    .iter()
                    .filter_map(|answer| match answer.given.outcome() {
                        Outcome::Judged(verdict) => Some(verdict),
                        Outcome::Again => None,
                    });
            Some((planned.key.clone(), judged.next()?))
        });
        let came: Vec<(StepKey, Verdict)> = came.collect();
        of(&came, self.walk.ended(), stuck)
    }
}
