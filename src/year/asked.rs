//! What people answer to the step that is open: what they see, and what they read off instruments.

use crate::checklist::{PlannedAsk, PlannedStep};
use crate::rules::Limit;
use crate::shown;
use crate::units::Quantity;
use crate::walk::{Act, Event, Status};
use crate::year::answer::{Scene, truly};
use crate::year::next::Going;
use crate::year::people::{PEOPLE, Work};
use crate::year::{mishap, pace, reading};

impl Going<'_> {
    pub(super) fn answer(&mut self, index: usize) -> Option<Act> {
        let planned = self.walk.asked(index)?.into_owned();
        let ms = pace::needed(&planned, self.who, self.manner.typed_up, self.dice);
        self.passes(ms);
        let troubled = self.troubled(index);
        match &planned.ask {
            PlannedAsk::Sighting(ask) => {
                let off = self.off.as_deref().zip(planned.item.as_ref());
                let is_off = off.is_some_and(|(off, item)| off == item.id);
                let was_off = ask.states.iter().find(|state| state.id == "was-off");
                // From the seat of the truck nothing is ever found.
                let usual = if troubled > 0 || self.manner.calm || self.manner.typed_up {
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
        let doubted = matches!(self.walk.steps().get(index)?.status, Status::Doubted(..));
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
            shown::sound(planned, self.walk.plan().rig())
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
        let tool = shown::tool_for(planned, rig, true_value)?;
        let shown = shown::shows(true_value, tool, self.dice)?;
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
            tool.is_some_and(|tool| shown::is_ok(value, tool, limits))
        };
        let known = self.memory.sound.get(key).cloned().filter(is_ok);
        let known = known.or_else(|| shown::sound(planned, rig))?;
        self.memory.sound.insert(key.to_owned(), known.clone());
        let tool = rig.instrument(&known.1)?;
        let value = known.0.value.to_f64()?;
        let read = shown::shows((value, known.0.unit), tool, self.dice);
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
        let mut others = PEOPLE.iter().filter(|one| one.work != Work::Manager);
        let other = others.find(|one| {
            !self.walk.is_walked_by(one.name) && !self.walk.has_typed(one.name) && !named(one.name)
        });
        other.map(|one| one.name)
    }
}
