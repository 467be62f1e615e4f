//! A walk under way: what its people do next, and how long that takes.

use crate::checklist::{Ending, PlannedAsk, PlannedStep};
use crate::rules::Limit;
use crate::units::Quantity;
use crate::walk::{Act, Ended, Entry, Event, Moment, Now, Status, Walk};
use crate::year::answer::{Scene, truly};
use crate::year::dice::Dice;
use crate::year::people::{PEOPLE, Person};
use crate::year::truth::Truth;
use crate::year::weather::Weather;
use crate::year::{mishap, pace, reading, sound};
use chrono::TimeDelta;
use std::collections::HashMap;

/// What was last typed at a step of a rig, and what is known to be well there.
#[derive(Clone, Debug, Default)]
pub(super) struct Memory {
    typed: HashMap<String, (String, String)>,
    sound: HashMap<String, (Quantity, String)>,
}

/// How a walk goes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Manner {
    /// Whether nothing comes between and nothing is bad.
    pub(super) calm: bool,
    /// Whether it may end as not fit to go.
    pub(super) may_end: bool,
    /// Whether it was typed up from the seat of the truck.
    pub(super) typed_up: bool,
    /// After how many steps it is left and never ended.
    pub(super) left_after: Option<usize>,
}

/// A walk under way.
#[derive(Debug)]
pub(super) struct Going<'y> {
    pub(super) walk: Walk,
    pub(super) at: Moment,
    pub(super) entries: Vec<Entry>,
    pub(super) who: &'static Person,
    pub(super) manner: Manner,
    pub(super) truth: &'y mut Truth,
    pub(super) weather: &'y Weather,
    pub(super) memory: &'y mut Memory,
    pub(super) dice: &'y mut Dice,
    /// The day of the year and the part of it when it began.
    pub(super) time: f64,
    pub(super) hours: f64,
    pub(super) driven: f64,
    /// The wheel that comes off, on a list that takes one off.
    pub(super) off: Option<String>,
}

/// More acts than any walk has.
const MOST_ACTS: usize = 4000;

impl Going<'_> {
    /// Walks to its end, or to where it is left.
    pub(super) fn walks(&mut self) {
        for _ in 0..MOST_ACTS {
            let left = self.manner.left_after;
            if left.is_some_and(|steps| self.entries.len() > 2 * steps) || self.walk.ended().is_some()
            {
                return;
            }
            let act = self.aside().or_else(|| self.next());
            let act = act.unwrap_or_else(|| end(Ended::Incomplete, "it could not be gone on with"));
            if !self.does(&act) {
                // What was thrown is refused here; what is next is done instead.
                let next = self.next();
                if !next.is_some_and(|act| self.does(&act)) {
                    self.does(&end(Ended::Incomplete, "it could not be gone on with"));
                }
            }
        }
    }

    fn aside(&mut self) -> Option<Act> {
        if self.manner.calm || self.manner.typed_up || self.manner.left_after.is_some() {
            return None;
        }
        mishap::aside(&self.walk, self.dice)
    }

    fn does(&mut self, act: &Act) -> bool {
        let Ok(event) = self.walk.decide(act, &self.at) else {
            return false;
        };
        let actor = self.walk.reader().clone();
        let at = self.at.clone();
        if let Event::Answered { step, .. } = &event {
            self.takes_off(step.as_str(), act);
        }
        let entry = Entry { at, actor, event };
        self.walk.apply(&entry);
        self.entries.push(entry);
        true
    }

    /// A wheel that was off begins to settle.
    fn takes_off(&mut self, step: &str, act: &Act) {
        let (name, part) = step.split_once('/').unwrap_or((step, ""));
        if let Act::See { state } = act
            && (state == "was-off" || name == "wheel-on")
        {
            let loses = 0.06 + 0.16 * self.dice.share();
            self.truth.wheel_off(Some(part), loses);
        }
    }

    fn passes(&mut self, ms: u64) {
        let delta = TimeDelta::milliseconds(i64::try_from(ms).unwrap_or(0));
        self.at.wall += delta;
        self.at.mono_ms += ms;
        self.time += delta.as_seconds_f64() / 86_400.0;
    }

    fn next(&mut self) -> Option<Act> {
        Some(match self.walk.now() {
            Now::Next(_) => {
                let ms = pace::on_the_way(self.manner.typed_up, self.dice);
                self.passes(ms);
                Act::Open
            }
            Now::Open(index) => self.answer(index)?,
            Now::Branch(index) => self.branch(index)?,
            Now::Remark(_) => {
                self.takes(12, 40);
                let words = self.dice.of(&mishap::REMARKS).copied()?.to_owned();
                Act::Remark { words }
            }
            Now::SectionEnd(_) => {
                self.takes(3, 9);
                Act::CloseSection
            }
            Now::Held => {
                self.takes(45, 900);
                Act::Resume
            }
            Now::Unsure => {
                self.takes(60, 400);
                let words = "Odile Marsh was asked, and showed which one".to_owned();
                Act::Settle { words }
            }
            Now::Finished => {
                self.takes(3, 12);
                end(Ended::Complete, "")
            }
            Now::Ended(_) => return None,
        })
    }

    fn takes(&mut self, low: u64, high: u64) {
        let ms = self.dice.from_to(low * 1000, high * 1000);
        self.passes(ms);
    }

    fn branch(&mut self, index: usize) -> Option<Act> {
        self.takes(90, 480);
        let Status::Bad { branch, .. } = &self.walk.steps().get(index)?.status else {
            return None;
        };
        let ends = self.walk.plan().branch(branch)?.ends;
        if ends == Ending::NotFitToGo {
            return Some(end(Ended::NotFitToGo, "it stays here until this is mended"));
        }
        let words = self.dice.of(&mishap::PUT_RIGHT).copied()?.to_owned();
        Some(Act::PutRight { words })
    }

    fn answer(&mut self, index: usize) -> Option<Act> {
        let planned = self.walk.asked(index)?.into_owned();
        let ms = pace::needed(&planned, self.who, self.manner.typed_up, self.dice);
        self.passes(ms);
        let troubled = self.troubled(index);
        match &planned.ask {
            PlannedAsk::Sighting(ask) => {
                let off = self.off.as_deref().zip(planned.item.as_ref());
                let is_off = off.is_some_and(|(off, item)| off == item.id);
                let was_off = ask.states.iter().find(|state| state.id == "was-off");
                let usual = if troubled > 0 || self.manner.calm {
                    mishap::well(ask)
                } else {
                    mishap::seen(self.walk.plan(), ask, self.manner.may_end, self.dice)
                };
                let state = was_off.filter(|_| is_off).or(usual)?.id.clone();
                Some(Act::See { state })
            }
            PlannedAsk::Independent(ask) => {
                let who = self.second()?.to_owned();
                let state = mishap::well(ask)?.id.clone();
                Some(Act::SeeAs { who, state })
            }
            PlannedAsk::Reading { ask, limits, .. } => {
                let (typed, instrument) = self.reads(index, &planned, limits, troubled)?;
                Some(if ask.second {
                    let who = self.second()?.to_owned();
                    Act::ReadAs {
                        who,
                        typed,
                        instrument,
                    }
                } else {
                    Act::Read { typed, instrument }
                })
            }
        }
    }

    /// How many answers in a row came to nothing good.
    fn troubled(&self, index: usize) -> usize {
        let answers = self.walk.steps().get(index).map(|state| &state.answers);
        let bad = answers.into_iter().flatten().rev();
        bad.take_while(|answer| answer.given.outcome().is_open())
            .count()
    }

    fn reads(
        &mut self,
        index: usize,
        planned: &PlannedStep,
        limits: &[Limit],
        troubled: usize,
    ) -> Option<(String, String)> {
        let key = format!("{} {}", self.truth.id, planned.key);
        let doubted = matches!(
            self.walk.steps().get(index)?.status,
            Status::Doubted(..)
        );
        if (doubted || self.manner.typed_up && troubled == 0)
            && let Some(known) = self.memory.typed.get(&key)
        {
            return Some(known.clone());
        }
        if troubled > 0 {
            let part = planned.item.as_ref().map(|item| item.id.as_str());
            let air_f = self.weather.air_f(self.time);
            self.truth.put_right(&planned.step.id, part, air_f);
        }
        let found = if troubled > 1 || self.manner.calm && troubled > 0 {
            sound::sound(planned, self.walk.plan().rig())
        } else {
            self.by_the_model(planned, limits)
                .or_else(|| self.as_it_stands(&key, planned, limits))
        };
        let (value, instrument) = found?;
        let known = (value.to_string(), instrument);
        self.memory.typed.insert(key, known.clone());
        Some(known)
    }

    fn by_the_model(
        &mut self,
        planned: &PlannedStep,
        limits: &[Limit],
    ) -> Option<(Quantity, String)> {
        let scene = Scene {
            truth: self.truth,
            weather: self.weather,
            time: self.time,
            hours: self.hours,
            driven: self.driven,
        };
        let true_value = truly(planned, &scene, self.dice)?;
        let rig = self.walk.plan().rig();
        let tool = reading::tool_for(planned, rig, true_value)?;
        let shown = reading::shown(true_value, tool, self.dice)?;
        let down = reading::put_down(shown, self.who, tool, limits);
        Some((down, tool.id.clone()))
    }

    /// What the model knows nothing of stands as it is and well, read with a little error.
    fn as_it_stands(
        &mut self,
        key: &str,
        planned: &PlannedStep,
        limits: &[Limit],
    ) -> Option<(Quantity, String)> {
        let rig = self.walk.plan().rig();
        let is_ok = |(value, tool): &(Quantity, String)| {
            let tool = rig.instrument(tool);
            tool.is_some_and(|tool| reading::is_ok(value, tool, limits))
        };
        let known = self.memory.sound.get(key).cloned().filter(is_ok);
        let known = known.or_else(|| sound::sound(planned, rig))?;
        self.memory.sound.insert(key.to_owned(), known.clone());
        let tool = rig.instrument(&known.1)?;
        let value = known.0.value.to_f64()?;
        let read = reading::shown((value, known.0.unit), tool, self.dice);
        let read = read.map(|read| (read, known.1.clone())).filter(is_ok);
        Some(read.unwrap_or(known))
    }

    /// Somebody who had nothing to do with the walk so far. The manager never: who countersigns it
    /// has had no hand in it.
    fn second(&self) -> Option<&'static str> {
        let named = |who: &str| {
            self.entries.iter().any(|entry| match &entry.event {
                Event::Answered { doer, .. } | Event::HandedOver { doer, .. } => {
                    doer.names_whom(who)
                }
                _ => false,
            })
        };
        let mut others = PEOPLE.iter().filter(|one| one.work != super::Work::Manager);
        let other = others.find(|one| {
            !self.walk.is_walked_by(one.name)
                && !self.walk.has_typed(one.name)
                && !named(one.name)
        });
        other.map(|one| one.name)
    }
}

fn end(outcome: Ended, words: &str) -> Act {
    let words = words.to_owned();
    Act::End { outcome, words }
}
