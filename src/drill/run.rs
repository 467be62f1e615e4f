//! A drill under way: the walk, and round it what the learner looks at, measures and calls.
//!
//! It is a fold of lines like the walk itself, and the walk inside is the machine of any walk: what
//! a drill adds comes before an answer, and changes none.

use crate::checklist::{PlannedAsk, StepKey};
use crate::drill::score::{Score, StepScore};
use crate::drill::{
    Did, Doing, Drill, Drilled, Grading, Line, NotInDrill, Played, Ridden, Stage, Vantage,
};
use crate::rules::Verdict;
use crate::units::{Quantity, Typed};
use crate::walk::{Act, Entry, Event, Moment, Now, Round, Walk, Words};
use chrono::{DateTime, FixedOffset};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// A drill under way.
#[derive(Clone, Debug)]
pub struct Run {
    drill: Arc<Drill>,
    stage: Stage,
    walk: Walk,
    /// What was seen of a step, or since it was put right.
    looked: Vec<(StepKey, Vantage)>,
    used: Vec<(StepKey, String, Quantity)>,
    called: Vec<(StepKey, Verdict)>,
    /// How often an instrument was put to anything until a step was last put right.
    used_before: BTreeMap<StepKey, usize>,
    away: Away,
    learned: Option<Words>,
    /// The steps whose hints are withdrawn.
    unhinted: BTreeSet<String>,
    /// Who examines, where it is a check ride.
    examiner: Option<Words>,
    score: Score,
    /// What the newest answer was graded as.
    graded: Option<Graded>,
}

/// What an answer was graded as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Graded {
    /// As what a step was called.
    Called,
    /// As answered again after a repair with nothing looked at or measured since.
    Again,
}

/// How it stands with what comes between.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Away {
    /// It has not come yet, or nothing does.
    NotYet,
    /// The walk was left for it.
    Gone,
    /// The learner is back and has not said where the work goes on.
    Back,
    /// It is over.
    Over,
}

impl Run {
    /// A drill at its beginning.
    pub fn begin(drill: Arc<Drill>, stage: Stage, who: &Words, at: Moment) -> Self {
        let walk = Walk::begin(Arc::clone(&drill.plan), who.clone(), who.clone(), at);
        Self {
            drill,
            stage,
            walk,
            looked: Vec::new(),
            used: Vec::new(),
            called: Vec::new(),
            used_before: BTreeMap::new(),
            away: Away::NotYet,
            learned: None,
            unhinted: BTreeSet::new(),
            examiner: None,
            score: Score::default(),
            graded: None,
        }
    }

    /// The same, with the hints of these steps withdrawn where the stage is one of fading hints.
    #[must_use]
    pub fn without_hints(self, steps: BTreeSet<String>) -> Self {
        Self {
            unhinted: steps,
            ..self
        }
    }

    /// The same, examined by somebody.
    #[must_use]
    pub fn examined_by(self, examiner: Option<Words>) -> Self {
        Self { examiner, ..self }
    }

    /// Who examines, where it is a check ride.
    pub fn examiner(&self) -> Option<&Words> {
        self.examiner.as_ref()
    }

    /// The same drill as its lines tell it.
    #[must_use]
    pub fn told_by(mut self, lines: &[Line]) -> Self {
        for line in lines {
            self.apply(line);
        }
        self
    }

    /// What the drill comes to, begun at that time.
    pub fn played(&self, at: DateTime<FixedOffset>) -> Played {
        let scenario = &self.drill.scenario;
        Played {
            at,
            list: scenario.list.clone(),
            revision: self.walk.plan().checklist().revision,
            sections: scenario.sections.clone(),
            family: scenario.family,
            stage: self.stage,
            score: self.score.clone(),
            ride: self.ridden(),
        }
    }

    fn ridden(&self) -> Option<Ridden> {
        let plan = self.walk.plan();
        Some(Ridden {
            passed: self.is_passed()?,
            examiner: self.examiner.as_ref()?.to_string(),
            revision: plan.checklist().revision,
            rigs: plan.rig().hitch.kind(),
        })
    }

    /// Whether a step says from where it shows and what comes of skipping it.
    pub fn gives_hint(&self, step: &StepKey) -> bool {
        match self.stage {
            Stage::Watch | Stage::Guided => true,
            Stage::Faded => !self.unhinted.contains(step.step()),
            Stage::Solo | Stage::Faults | Stage::CheckRide => false,
        }
    }

    /// The walk inside.
    pub fn walk(&self) -> &Walk {
        &self.walk
    }

    /// The drill.
    pub fn drill(&self) -> &Drill {
        &self.drill
    }

    /// The stage.
    pub fn stage(&self) -> Stage {
        self.stage
    }

    /// How it went so far.
    pub fn score(&self) -> &Score {
        &self.score
    }

    /// The step that is open, by its index.
    pub fn open(&self) -> Option<usize> {
        match self.walk.now() {
            Now::Open(index) => Some(index),
            _ => None,
        }
    }

    /// What calls the learner away now.
    pub fn calls(&self) -> Option<&str> {
        let between = self.drill.scenario.between.as_ref()?;
        let open = self.key(self.open()?)?;
        (self.away == Away::NotYet && *open == between.at).then_some(between.what.as_str())
    }

    /// The steps to choose from when it is asked where the work goes on: the one before, the one
    /// that was open and the one after it. Nothing where it is not asked.
    pub fn may_return_to(&self) -> Vec<StepKey> {
        let between = self.drill.scenario.between.as_ref();
        let (Away::Back, Some(between)) = (self.away, between) else {
            return Vec::new();
        };
        let Some(at) = self.walk.plan().index(&between.at) else {
            return Vec::new();
        };
        let steps = [at.checked_sub(1), Some(at), at.checked_add(1)];
        let keys = steps.into_iter().flatten().filter_map(|at| self.key(at));
        keys.cloned().collect()
    }

    /// What is done by this; nothing of it has happened yet.
    ///
    /// # Errors
    /// [`NotInDrill`], with the reason.
    pub fn decide(&self, doing: &Doing, at: &Moment) -> Result<Did, NotInDrill> {
        // A drill that was left is taken up before anything else is asked.
        let takes_up = matches!(doing, Doing::Walk(Act::TakeUp));
        if let Some(what) = self.calls()
            && !takes_up
            && !matches!(doing, Doing::Walk(Act::Hold { .. }))
        {
            return Err(NotInDrill::CalledAway(what.to_owned()));
        }
        if self.away == Away::Back && !takes_up && !matches!(doing, Doing::Return(_)) {
            return Err(NotInDrill::SayWhere);
        }
        match doing {
            Doing::Look(from) => self.looks(*from),
            Doing::Use(instrument) => self.uses(instrument),
            Doing::Call(verdict) => {
                let (_, key) = self.reading()?;
                Ok(Did::Drilled(Drilled::Called(key, *verdict)))
            }
            Doing::Return(step) => self.returns(step),
            Doing::Learn(words) => self.learns(words),
            Doing::Walk(act) => self.walks(act, at),
        }
    }

    fn learns(&self, words: &Words) -> Result<Did, NotInDrill> {
        if self.learned.is_some() || self.walk.now() != Now::Finished {
            return Err(NotInDrill::NotYetLearned);
        }
        Ok(Did::Drilled(Drilled::Learned(words.clone())))
    }

    fn looks(&self, from: Vantage) -> Result<Did, NotInDrill> {
        let index = self.open().ok_or(NotInDrill::NothingOpen)?;
        let planned = self.walk.plan().steps().get(index);
        let planned = planned.ok_or(NotInDrill::NothingOpen)?;
        let places = self.drill.vantages(planned);
        if !places.contains(&from) {
            return Err(NotInDrill::NotFromThere(from, places));
        }
        Ok(Did::Drilled(Drilled::Looked(planned.key.clone(), from)))
    }

    fn uses(&self, instrument: &str) -> Result<Did, NotInDrill> {
        let (index, step) = self.reading()?;
        let no = || NotInDrill::NoSuchInstrument(instrument.to_owned());
        let planned = self.walk.asked(index).ok_or_else(no)?;
        let tools = planned.tools(self.walk.plan().rig());
        let tool = tools.iter().find(|tool| tool.instrument.id == instrument);
        let tool = tool.ok_or_else(no)?.instrument;
        let before = self.used.iter().filter(|(own, ..)| *own == step).count();
        let showed = self.drill.shows(&self.walk, index, tool, before);
        Ok(Did::Drilled(Drilled::Used {
            step,
            instrument: instrument.to_owned(),
            showed: showed.ok_or_else(no)?,
        }))
    }

    fn returns(&self, step: &StepKey) -> Result<Did, NotInDrill> {
        if self.away != Away::Back {
            return Err(NotInDrill::NeverLeft);
        }
        if self.walk.plan().index(step).is_none() {
            return Err(NotInDrill::NoSuchStep(step.clone()));
        }
        Ok(Did::Drilled(Drilled::Returned(step.clone())))
    }

    fn walks(&self, act: &Act, at: &Moment) -> Result<Did, NotInDrill> {
        let typed = matches!(act, Act::Read { .. } | Act::ReadAs { .. });
        if typed && self.stage != Stage::Watch && self.owes_call() {
            return Err(NotInDrill::CallFirst);
        }
        let event = self.walk.decide(act, at).map_err(NotInDrill::Walk)?;
        Ok(Did::Walked(Box::new(event)))
    }

    /// Whether the open step asks for a reading that is held to a limit, and it was not called
    /// since the step was last begun.
    pub(super) fn owes_call(&self) -> bool {
        let Some(index) = self.open() else {
            return false;
        };
        let asked = self.walk.asked(index);
        let limited = asked.is_some_and(|planned| {
            matches!(&planned.ask, PlannedAsk::Reading { limits, .. } if !limits.is_empty())
        });
        let called = self.key(index).is_some_and(|key| {
            let answers = self
                .walk
                .steps()
                .get(index)
                .map_or(0, |step| step.answers.len());
            self.called.iter().filter(|(own, _)| own == key).count() > answers
        });
        limited && !called
    }

    fn reading(&self) -> Result<(usize, StepKey), NotInDrill> {
        let index = self.open().ok_or(NotInDrill::NothingOpen)?;
        let planned = self.walk.plan().steps().get(index);
        let planned = planned.ok_or(NotInDrill::NothingOpen)?;
        match planned.ask {
            PlannedAsk::Reading { .. } => Ok((index, planned.key.clone())),
            PlannedAsk::Sighting(_) | PlannedAsk::Independent(_) => Err(NotInDrill::NoReading),
        }
    }

    /// Takes in what was done.
    pub fn apply(&mut self, line: &Line) {
        match &line.did {
            Did::Drilled(drilled) => self.takes(drilled),
            Did::Walked(event) => self.goes_on(event, &line.at),
        }
    }

    fn takes(&mut self, drilled: &Drilled) {
        match drilled {
            Drilled::Looked(step, from) => self.looked.push((step.clone(), *from)),
            Drilled::Used {
                step,
                instrument,
                showed,
            } => self
                .used
                .push((step.clone(), instrument.clone(), showed.clone())),
            Drilled::Called(step, verdict) => self.called.push((step.clone(), *verdict)),
            Drilled::Returned(step) => self.is_back_at(step),
            Drilled::Learned(words) => self.learned = Some(words.clone()),
        }
    }

    fn goes_on(&mut self, event: &Event, at: &Moment) {
        let is_called = self.calls().is_some();
        if let Event::Answered { step, round, .. } = event {
            self.graded = self.grades(step, *round, event);
        }
        match event {
            // Nothing that was seen before holds for what is there now.
            Event::PutRight { step, .. } => {
                self.looked.retain(|(own, _)| own != step);
                self.used_before.insert(step.clone(), self.used.len());
            }
            Event::Held { .. } if is_called => self.away = Away::Gone,
            // Whoever was away and stops for something is back once it is settled.
            Event::Resumed { .. } | Event::Settled { .. } if self.away == Away::Gone => {
                self.away = Away::Back;
            }
            _ => {}
        }
        self.walk.apply(&Entry {
            at: at.clone(),
            actor: self.walk.reader().clone(),
            event: event.clone(),
        });
    }

    /// Whether the answer to a step can be taken back where the walk stands.
    pub fn may_take_back(&self, step: &StepKey) -> bool {
        let act = Act::Correct {
            step: step.clone(),
            words: "taken back".to_owned(),
        };
        self.walk.decide(&act, self.walk.last()).is_ok()
    }

    fn is_back_at(&mut self, step: &StepKey) {
        self.score.resumed = Some(self.is_right_to_return_to(step));
        self.away = Away::Over;
    }

    /// Whether the work goes on at this step, or at one before it, after what came between.
    pub(super) fn is_right_to_return_to(&self, step: &StepKey) -> bool {
        let plan = self.walk.plan();
        let between = self.drill.scenario.between.as_ref();
        let left_at = between.and_then(|between| plan.index(&between.at));
        plan.index(step) <= left_at
    }

    /// By which rules it is graded: a check ride by those that were told before it began, and every
    /// other drill by the newest.
    pub fn grading(&self) -> Grading {
        match self.stage {
            Stage::CheckRide => self.drill.scenario.graded,
            _ => Grading::NEWEST,
        }
    }

    /// What the newest answer was graded as; nothing where it was not.
    pub(super) fn graded(&self) -> Option<Graded> {
        self.graded
    }

    /// Grades an answer.
    fn grades(&mut self, step: &StepKey, round: Round, event: &Event) -> Option<Graded> {
        let is_first = round == Round::First;
        if !is_first && self.grading() == Grading::FirstAnswer {
            return None;
        }
        let scored = self.scored(step, event)?;
        let mut graded = self.score.steps.iter_mut();
        match graded.find(|one| one.step == *step) {
            None => self.score.steps.push(scored),
            // A finer reading says what a coarse one left open.
            Some(open) if open.truly.is_none() && round == Round::MeasuredAgain => {
                let known = open.known && scored.known;
                *open = StepScore { known, ..scored };
            }
            Some(_) if round == Round::PutRight && !scored.known => {
                self.score.again.push(scored);
                return Some(Graded::Again);
            }
            Some(_) => return None,
        }
        Some(Graded::Called)
    }

    /// What an answer is scored by; nothing where the step is not of this drill, or where it says
    /// that it could not be seen, which is no call.
    fn scored(&self, step: &StepKey, event: &Event) -> Option<StepScore> {
        let index = self.walk.plan().index(step)?;
        let planned = self.walk.asked(index)?.into_owned();
        let of_step = |key: &StepKey| key == step;
        let looked = self.looked.iter().filter(|(own, _)| of_step(own));
        let looked: Vec<Vantage> = looked.map(|(_, from)| *from).collect();
        let before = self.used_before.get(step).copied().unwrap_or(0);
        let used = self.used.iter().skip(before);
        let used = used.filter(|(own, ..)| of_step(own));
        let used = used.map(|(_, tool, showed)| (tool.clone(), showed.clone()));
        let mut called = self.called.iter().filter(|(own, _)| of_step(own));
        let called = match self.grading() {
            Grading::FirstAnswer => called.next(),
            Grading::Shown => called.next_back(),
        };
        StepScore::of(
            &self.drill,
            &self.walk,
            (index, &planned),
            event,
            (looked, used.collect(), called.map(|(_, verdict)| *verdict)),
        )
    }

    /// How often an instrument was put to a step.
    pub(super) fn uses_of(&self, index: usize) -> usize {
        let key = self.key(index);
        self.used
            .iter()
            .filter(|(own, ..)| Some(own) == key)
            .count()
    }

    /// From where a step was looked at so far.
    pub fn looked(&self, step: &StepKey) -> Vec<Vantage> {
        let looked = self.looked.iter().filter(|(own, _)| own == step);
        looked.map(|(_, from)| *from).collect()
    }

    /// What the learner will do otherwise next time, where they said so.
    pub fn learned(&self) -> Option<&Words> {
        self.learned.as_ref()
    }

    /// What the instrument showed that was last put to a step.
    pub fn showed(&self, index: usize) -> Option<&Quantity> {
        let key = self.key(index)?;
        let last = self.used.iter().rev().find(|(own, ..)| own == key)?;
        Some(&last.2)
    }

    /// What the instrument showed that was put to it before its first answer.
    pub(super) fn showed_at_first(&self, index: usize) -> Option<&Quantity> {
        let key = self.key(index)?;
        let first = self.used.iter().find(|(own, ..)| own == key)?;
        Some(&first.2)
    }

    fn key(&self, index: usize) -> Option<&StepKey> {
        self.walk.plan().steps().get(index).map(|step| &step.key)
    }
}

/// Whether two readings are one, however they are typed.
pub(super) fn is_same(typed: &Typed, showed: &Quantity) -> bool {
    let same = typed.quantity().compare(showed);
    same.is_some_and(std::cmp::Ordering::is_eq)
}
