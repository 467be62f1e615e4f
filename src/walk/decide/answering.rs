//! The acts that answer a step, and those that end a bad answer.

use crate::checklist::{Ending, PlannedAsk, SightingAsk};
use crate::rig::Instrument;
use crate::rules::{Verdict, doubt, judge, scale};
use crate::units::{Quantity, Typed};
use crate::walk::decide::{Decision, needed, optional};
use crate::walk::{Act, Event, Given, Now, Refusal, Round, Status, StepState, Walk, Words};

impl Walk {
    /// A reading, by the doer or by a second person.
    pub(super) fn read(&self, who: Option<&str>, typed: &str, instrument: &str) -> Decision {
        let (index, state, round) = self.being_answered()?;
        let planned = self.asked(index).ok_or(Refusal::NothingOpen)?;
        let PlannedAsk::Reading {
            ask, limits, open, ..
        } = &planned.ask
        else {
            return Err(Refusal::OtherAsk {
                wanted: "a state that was seen",
            });
        };
        let doer = match (who, ask.second) {
            (None, false) => self.doer.clone(),
            (Some(who), true) => self.second_reader(who)?,
            (None, true) => {
                return Err(Refusal::OtherAsk {
                    wanted: "what another person read, with the name",
                });
            }
            (Some(_), false) => {
                return Err(Refusal::OtherAsk {
                    wanted: "what the doer read",
                });
            }
        };
        if let Some(missing) = open.first() {
            return Err(Refusal::NoLimit(missing.clone()));
        }
        let instrument = self
            .plan
            .rig()
            .instrument(instrument)
            .ok_or_else(|| Refusal::NoInstrument(instrument.to_owned()))?;
        planned.suits(instrument)?;
        let typed = Typed::read(typed, ask.dimension)?;
        on_scale(instrument, typed.quantity())?;
        let step = planned.key.clone();
        let typed_before = matches!(&state.status,
            Status::Doubted(_, before) if before.quantity() == typed.quantity());
        if let Some(doubt) = doubt(typed.quantity(), &ask.plausible).filter(|_| !typed_before) {
            return Ok(Event::Doubted {
                step,
                typed,
                instrument: instrument.id.clone(),
                doubt,
            });
        }
        let judgement = judge(typed.quantity(), Some(instrument), limits);
        let instrument = instrument.id.clone();
        let given = Given::Read {
            typed,
            instrument,
            judgement,
        };
        Ok(Event::Answered {
            step,
            doer,
            round,
            given,
        })
    }

    pub(super) fn see(&self, state: &str) -> Decision {
        let (index, _, round) = self.being_answered()?;
        let planned = self.planned(index)?;
        let sighting = match &planned.ask {
            PlannedAsk::Sighting(sighting) => sighting,
            PlannedAsk::Reading { .. } => {
                return Err(Refusal::OtherAsk {
                    wanted: "a reading",
                });
            }
            PlannedAsk::Independent(_) => {
                return Err(Refusal::OtherAsk {
                    wanted: "what another person saw, with the name",
                });
            }
        };
        let given = seen(sighting, state, None)?;
        Ok(Event::Answered {
            step: planned.key.clone(),
            doer: self.doer.clone(),
            round,
            given,
        })
    }

    pub(super) fn see_as(&self, who: &str, state: &str) -> Decision {
        let (index, _, round) = self.being_answered()?;
        let planned = self.planned(index)?;
        let PlannedAsk::Independent(sighting) = &planned.ask else {
            return Err(Refusal::OtherAsk {
                wanted: "what the doer found",
            });
        };
        let who = self.second_person(who)?;
        let given = seen(sighting, state, Some(who))?;
        Ok(Event::Answered {
            step: planned.key.clone(),
            doer: self.doer.clone(),
            round,
            given,
        })
    }

    pub(super) fn remark(&self, words: &str) -> Decision {
        let Now::Remark(index) = self.now() else {
            return Err(Refusal::NoRemark);
        };
        let words = needed(
            words,
            "why this can be lived with, and by when it is closed",
        )?;
        Ok(Event::Remarked {
            step: self.planned(index)?.key.clone(),
            words,
        })
    }

    pub(super) fn put_right(&self, words: &str) -> Decision {
        let Now::Branch(index) = self.now() else {
            return Err(Refusal::NoBranch);
        };
        let planned = self.planned(index)?;
        let Some(Status::Bad { verdict, branch }) = self.steps.get(index).map(|step| &step.status)
        else {
            return Err(Refusal::NoBranch);
        };
        let ends = self.plan.branch(branch).map(|branch| branch.ends);
        if ends == Some(Ending::NotFitToGo) {
            return Err(Refusal::BranchEndsTrip);
        }
        let words = match verdict {
            Verdict::Stop => Some(needed(words, "what was repaired or replaced")?),
            _ => optional(words)?,
        };
        Ok(Event::PutRight {
            step: planned.key.clone(),
            branch: branch.clone(),
            words,
        })
    }

    /// The person with this name, who did none of the work.
    fn second_person(&self, who: &str) -> Result<Words, Refusal> {
        let who = needed(who, "the name of the second person")?;
        if self.did_work(&who) {
            return Err(Refusal::SamePerson(who.as_str().to_owned()));
        }
        Ok(who)
    }

    /// The person with this name, who neither did any of the work nor typed what others read.
    fn second_reader(&self, who: &str) -> Result<Words, Refusal> {
        let who = self.second_person(who)?;
        if self.has_typed(who.as_str()) {
            return Err(Refusal::HasSeen(who.as_str().to_owned()));
        }
        Ok(who)
    }

    /// Whether this person reads and types, or did before the walk was handed over.
    pub fn has_typed(&self, who: &str) -> bool {
        let mut readers = self.earlier_readers.iter().chain([&self.reader]);
        readers.any(|reader| reader.names_whom(who))
    }

    /// Whom this act names as a second person, and everyone who that must not be.
    pub fn second_of<'w>(&'w self, act: &'w Act) -> Option<(&'w str, Vec<&'w Words>)> {
        let mut others: Vec<&Words> = self.workers().collect();
        let who = match act {
            Act::SeeAs { who, .. } => who,
            Act::ReadAs { who, .. } => {
                others.extend(self.earlier_readers.iter().chain([&self.reader]));
                who
            }
            _ => return None,
        };
        Some((who, others))
    }

    /// Whether this person does the work, or did some of it before the walk was handed over. A
    /// second reading is none of it.
    fn did_work(&self, who: &Words) -> bool {
        let mut workers = self.workers();
        workers.any(|doer| doer.names_whom(who.as_str()))
    }

    fn workers(&self) -> impl Iterator<Item = &Words> {
        let steps = self.plan.steps().iter().zip(&self.steps);
        let own = steps.filter(|(planned, _)| !planned.is_second_reading());
        own.flat_map(|(_, step)| &step.answers)
            .map(|answer| &answer.doer)
            .chain([&self.doer])
    }

    fn being_answered(&self) -> Result<(usize, &StepState, Round), Refusal> {
        match self.now() {
            Now::Branch(_) => return Err(Refusal::BranchFirst),
            Now::Open(_) => {}
            _ => return Err(Refusal::NothingOpen),
        }
        let active = self.active.ok_or(Refusal::NothingOpen)?;
        let state = self.steps.get(active).ok_or(Refusal::NothingOpen)?;
        match state.status {
            Status::Open(round) | Status::Doubted(round, _) => Ok((active, state, round)),
            _ => Err(Refusal::NothingOpen),
        }
    }
}

fn seen(sighting: &SightingAsk, id: &str, by: Option<Words>) -> Result<Given, Refusal> {
    let state = sighting
        .states
        .iter()
        .find(|state| state.id == id)
        .ok_or_else(|| Refusal::NoState(id.to_owned()))?;
    Ok(Given::Seen {
        state: state.id.clone(),
        verdict: state.verdict,
        by,
    })
}

/// Refuses a reading the instrument cannot give.
fn on_scale(instrument: &Instrument, reading: &Quantity) -> Result<(), Refusal> {
    match scale(instrument) {
        Some((low, high)) if !reading.within(&low, &high) => Err(Refusal::OffScale {
            name: instrument.name.clone(),
            reading: reading.clone(),
            low,
            high,
        }),
        _ => Ok(()),
    }
}
