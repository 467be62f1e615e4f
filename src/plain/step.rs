//! The open step: what to do, and the question that is its own.

use crate::barn::Units;
use crate::checklist::{PlannedAsk, PlannedStep, ReadingAsk, SightingAsk, only_tool};
use crate::desk::{Asked, told, why};
use crate::plain::choose::pick;
use crate::plain::going::{Going, Heard, Session};
use crate::plain::stop::Stop;
use crate::plain::tell::asked_again;
use crate::rules::Limit;
use crate::units::{Quantity, Unit};
use crate::walk::{Act, Now};
use std::io;

impl Session<'_> {
    /// The step in words. What is expected stays unsaid on a blind step.
    pub(super) fn say_step(&mut self, going: &Going, index: usize) -> io::Result<()> {
        self.say_place(going, Some(index))?;
        let Some((planned, (_, state))) = going.walk.asked(index).zip(going.walk.step(index))
        else {
            return Ok(());
        };
        self.talk.say(&format!("{}.", planned.name()))?;
        if let Some(reason) = asked_again(&state.status) {
            self.talk.say(reason)?;
        }
        if let Some(warning) = &planned.step.warning {
            self.talk.say(&format!("Warning: {warning}"))?;
        }
        self.talk.say(&format!("Do: {}", planned.step.act))?;
        self.talk.say(&format!("Why: {}", planned.step.why))?;
        self.say_asked(going, &planned)?;
        self.say_in_drill(going, index)
    }

    /// What the step asks.
    fn say_asked(&mut self, going: &Going, planned: &PlannedStep) -> io::Result<()> {
        match &planned.ask {
            PlannedAsk::Sighting(ask) => self.say_states("What do you see?", ask),
            PlannedAsk::Independent(ask) => {
                let doer = going.walk.doer();
                self.say_states(&format!("What does another person see, not {doer}?"), ask)
            }
            PlannedAsk::Reading {
                ask,
                target,
                limits,
                ..
            } => {
                if ask.second {
                    let doer = going.walk.doer();
                    self.talk
                        .say(&format!("What does another person read, not {doer}?"))?;
                    self.talk.say(
                        "The first reading stands in the lines above. Whoever reads now does not \
                         look at them.",
                    )?;
                }
                if going.drill.is_some() {
                    // They would call the reading before the learner does.
                    self.talk.say("The limits are told after the reading.")?;
                } else if !planned.step.blind {
                    self.say_expected(target.as_ref(), limits, going.barn.units)?;
                }
                self.say_tools(going, planned)
            }
        }
    }

    /// One question of the open step.
    pub(super) fn answer(&mut self, going: &mut Going, index: usize) -> Result<(), Stop> {
        let Some((planned, _)) = going.walk.step(index) else {
            return Err(Stop::Left);
        };
        match planned.ask.clone() {
            PlannedAsk::Sighting(ask) => self.see(going, &ask),
            PlannedAsk::Independent(ask) => self.see_as(going, &ask),
            PlannedAsk::Reading { ask, .. } if ask.second && going.second.is_none() => {
                self.name_second(going)
            }
            PlannedAsk::Reading { ask, .. } => self.read(going, index, &ask),
        }
    }

    /// What stands behind the step at hand: before its answer, or of a bad one.
    pub(super) fn say_why(&mut self, going: &Going) -> io::Result<()> {
        match going.walk.now() {
            Now::Open(index) => self.say_reasons(going, index, Asked::Before),
            Now::Branch(index) | Now::Remark(index) => self.say_reasons(going, index, Asked::After),
            _ => Ok(()),
        }
    }

    /// What stands behind the answer given last.
    pub(super) fn say_last_why(&mut self, going: &Going) -> io::Result<()> {
        let Some((index, _)) = going.walk.last_done() else {
            return Ok(());
        };
        self.talk.say(&format!("{}.", going.name(index)))?;
        self.say_reasons(going, index, Asked::After)
    }

    fn say_reasons(&mut self, going: &Going, index: usize, asked: Asked) -> io::Result<()> {
        for (head, text) in why(&going.walk, index, asked, going.barn.units)
            .into_iter()
            .flatten()
        {
            self.talk.say(&format!("{head} {text}"))?;
        }
        Ok(())
    }

    fn see(&mut self, going: &mut Going, ask: &SightingAsk) -> Result<(), Stop> {
        if let Some(state) = self.state(going, ask, "Type the number of what you see.")? {
            self.record(going, Act::See { state })?;
        }
        Ok(())
    }

    fn see_as(&mut self, going: &mut Going, ask: &SightingAsk) -> Result<(), Stop> {
        let Heard::Text(who) = self.hear(going, "Type the name of who looks.")? else {
            return Ok(());
        };
        if who.is_empty() {
            return Ok(self.talk.say("Enter alone answers nothing.")?);
        }
        let question = format!("Type the number of what {who} sees.");
        if let Some(state) = self.state(going, ask, &question)? {
            self.record(going, Act::SeeAs { who, state })?;
        }
        Ok(())
    }

    /// The state that was chosen; nothing when none was.
    fn state(
        &mut self,
        going: &mut Going,
        ask: &SightingAsk,
        question: &str,
    ) -> Result<Option<String>, Stop> {
        let Heard::Text(typed) = self.hear(going, question)? else {
            return Ok(None);
        };
        let chosen = pick(&typed, ask.states.len()).and_then(|at| ask.states.get(at));
        if chosen.is_none() {
            self.no_choice(&typed, ask.states.len())?;
        }
        Ok(chosen.map(|state| state.id.clone()))
    }

    fn read(&mut self, going: &mut Going, index: usize, ask: &ReadingAsk) -> Result<(), Stop> {
        let Some(planned) = going.walk.asked(index) else {
            return Err(Stop::Left);
        };
        let tools = planned.tools(going.walk.plan().rig());
        let only = only_tool(&tools).map(|only| only.id.clone());
        let Some(instrument) = going.tool.clone().or(only) else {
            let offered = tools.into_iter().map(|tool| match tool.unfit {
                Some(unfit) => Err(unfit.to_string()),
                None => Ok(tool.instrument.id.clone()),
            });
            let offered: Vec<Result<String, String>> = offered.collect();
            return self.take_tool(going, &offered);
        };
        let question = how_to_type(going.barn.units.unit_for(ask.unit));
        match self.hear(going, &question)? {
            Heard::Text(typed) if typed.is_empty() => {
                Ok(self.talk.say("Enter alone answers nothing.")?)
            }
            Heard::Text(typed) => {
                let act = match going.second.clone().filter(|_| ask.second) {
                    Some(who) => Act::ReadAs {
                        who,
                        typed,
                        instrument,
                    },
                    None => Act::Read { typed, instrument },
                };
                self.record(going, act).map(drop)
            }
            Heard::Done => Ok(()),
        }
    }

    /// Who reads a second time.
    fn name_second(&mut self, going: &mut Going) -> Result<(), Stop> {
        match self.hear(going, "Type the name of who reads.")? {
            Heard::Text(who) if who.is_empty() => {
                Ok(self.talk.say("Enter alone answers nothing.")?)
            }
            Heard::Text(who) => {
                going.second = Some(who);
                Ok(())
            }
            Heard::Done => Ok(()),
        }
    }

    /// Takes the instrument whose number is typed; of one that does not suit it says why.
    fn take_tool(
        &mut self,
        going: &mut Going,
        offered: &[Result<String, String>],
    ) -> Result<(), Stop> {
        let Heard::Text(typed) = self.hear(going, "Type the number of the instrument in hand.")?
        else {
            return Ok(());
        };
        match pick(&typed, offered.len()).and_then(|at| offered.get(at)) {
            Some(Ok(id)) => going.tool = Some(id.clone()),
            Some(Err(refused)) => self.talk.say(refused)?,
            None => self.no_choice(&typed, offered.len())?,
        }
        Ok(())
    }

    fn say_states(&mut self, question: &str, ask: &SightingAsk) -> io::Result<()> {
        self.talk.say(question)?;
        for (number, state) in (1..).zip(&ask.states) {
            self.talk.say(&format!("{number}. {}", state.seen))?;
        }
        Ok(())
    }

    fn say_expected(
        &mut self,
        target: Option<&Quantity>,
        limits: &[Limit],
        units: Units,
    ) -> io::Result<()> {
        if let Some(target) = target {
            self.talk.say(&format!("Aim: {}.", units.shown(target)))?;
        }
        for limit in limits {
            self.talk
                .say(&format!("Limit: {}.", told::limit(limit, units)))?;
        }
        Ok(())
    }

    fn say_tools(&mut self, going: &Going, planned: &PlannedStep) -> io::Result<()> {
        let tools = planned.tools(going.walk.plan().rig());
        if let Some(only) = only_tool(&tools) {
            return self.talk.say(&format!("Measured with: {}.", only.name));
        }
        self.talk.say("Measured with which of these?")?;
        for (number, tool) in (1..).zip(tools) {
            let unfit = tool.unfit.map(|unfit| format!(": {}", unfit.reason()));
            let name = &tool.instrument.name;
            self.talk
                .say(&format!("{number}. {name}{}", unfit.unwrap_or_default()))?;
        }
        Ok(())
    }
}

/// No number stands here, not even as an example: it could lead the eye.
fn how_to_type(unit: Unit) -> String {
    match unit.symbol() {
        "" => "Type how many.".to_owned(),
        unit => format!("Type what it shows, with its unit, such as {unit}."),
    }
}
