//! A drill under way: the walk, and round it what the learner looks at, measures and calls.
//!
//! It is a fold of lines like the walk itself, and the walk inside is the machine of any walk: what
//! a drill adds comes before an answer, and changes none.

use crate::checklist::{PlannedAsk, StepKey};
use crate::drill::score::{Score, StepScore};
use crate::drill::{Drill, Stage, Vantage};
use crate::rules::Verdict;
use crate::units::Typed;
use crate::walk::{Act, Entry, Event, Moment, Now, Refusal, Round, Walk, Words};
use std::fmt;
use std::sync::Arc;

/// What a learner can do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Doing {
    /// Look at the open step from there.
    Look(Vantage),
    /// Put an instrument to it, by its id.
    Use(String),
    /// Say what its reading comes to, before it is judged.
    Call(Verdict),
    /// Say at which step the work goes on after being called away.
    Return(StepKey),
    /// An act of the walk.
    Walk(Act),
}

/// What was done.
#[derive(Clone, Debug, PartialEq)]
pub enum Did {
    /// A step was looked at from there.
    Looked(StepKey, Vantage),
    /// An instrument was put to a step and showed this.
    Used {
        /// The step.
        step: StepKey,
        /// The instrument's id.
        instrument: String,
        /// What it showed.
        showed: String,
    },
    /// A reading was called so.
    Called(StepKey, Verdict),
    /// The work was said to go on at this step.
    Returned(StepKey),
    /// Something happened on the walk.
    Walked(Box<Event>),
}

/// One line of a drill.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// When.
    pub at: Moment,
    /// What.
    pub did: Did,
}

impl Line {
    /// An event of the walk as a line of the drill.
    pub fn of(entry: &Entry) -> Self {
        Self {
            at: entry.at.clone(),
            did: Did::Walked(Box::new(entry.event.clone())),
        }
    }
}

/// Why something cannot be done now.
#[derive(Clone, Debug, PartialEq)]
pub enum NotInDrill {
    /// The walk refuses it.
    Walk(Refusal),
    /// Somebody or something calls the learner away.
    CalledAway(String),
    /// It is asked first at which step the work goes on.
    SayWhere,
    /// There was nothing to come back from.
    NeverLeft,
    /// There is no such step here.
    NoSuchStep(StepKey),
    /// No step is open.
    NothingOpen,
    /// The open step cannot be looked at from there.
    NotFromThere(Vantage, Vec<Vantage>),
    /// The rig has no such instrument for it.
    NoSuchInstrument(String),
    /// The step asks for no reading.
    NoReading,
    /// The reading is called before it is typed.
    CallFirst,
}

/// A drill under way.
#[derive(Clone, Debug)]
pub struct Run {
    drill: Arc<Drill>,
    stage: Stage,
    walk: Walk,
    looked: Vec<(StepKey, Vantage)>,
    used: Vec<(StepKey, String, String)>,
    called: Vec<(StepKey, Verdict)>,
    away: Away,
    score: Score,
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
            away: Away::NotYet,
            score: Score::default(),
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
        if let Some(what) = self.calls()
            && !matches!(doing, Doing::Walk(Act::Hold { .. }))
        {
            return Err(NotInDrill::CalledAway(what.to_owned()));
        }
        if self.away == Away::Back && !matches!(doing, Doing::Return(_)) {
            return Err(NotInDrill::SayWhere);
        }
        match doing {
            Doing::Look(from) => self.looks(*from),
            Doing::Use(instrument) => self.uses(instrument),
            Doing::Call(verdict) => {
                let (_, key) = self.reading()?;
                Ok(Did::Called(key, *verdict))
            }
            Doing::Return(step) => self.returns(step),
            Doing::Walk(act) => self.walks(act, at),
        }
    }

    fn looks(&self, from: Vantage) -> Result<Did, NotInDrill> {
        let index = self.open().ok_or(NotInDrill::NothingOpen)?;
        let planned = self.walk.plan().steps().get(index);
        let planned = planned.ok_or(NotInDrill::NothingOpen)?;
        let places = self.drill.vantages(planned);
        if !places.contains(&from) {
            return Err(NotInDrill::NotFromThere(from, places));
        }
        Ok(Did::Looked(planned.key.clone(), from))
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
        Ok(Did::Used {
            step,
            instrument: instrument.to_owned(),
            showed: showed.ok_or_else(no)?.to_string(),
        })
    }

    fn returns(&self, step: &StepKey) -> Result<Did, NotInDrill> {
        if self.away != Away::Back {
            return Err(NotInDrill::NeverLeft);
        }
        if self.walk.plan().index(step).is_none() {
            return Err(NotInDrill::NoSuchStep(step.clone()));
        }
        Ok(Did::Returned(step.clone()))
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
    fn owes_call(&self) -> bool {
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
            Did::Looked(step, from) => self.looked.push((step.clone(), *from)),
            Did::Used {
                step,
                instrument,
                showed,
            } => self
                .used
                .push((step.clone(), instrument.clone(), showed.clone())),
            Did::Called(step, verdict) => self.called.push((step.clone(), *verdict)),
            Did::Returned(step) => self.is_back_at(step),
            Did::Walked(event) => self.goes_on(event, &line.at),
        }
    }

    fn goes_on(&mut self, event: &Event, at: &Moment) {
        let is_called = self.calls().is_some();
        if let Event::Answered {
            step,
            round: Round::First,
            ..
        } = event
        {
            let scored = self.scored(step, event);
            self.score.steps.extend(scored);
        }
        match event {
            Event::Held { .. } if is_called => self.away = Away::Gone,
            Event::Resumed { .. } if self.away == Away::Gone => self.away = Away::Back,
            _ => {}
        }
        self.walk.apply(&Entry {
            at: at.clone(),
            actor: self.walk.reader().clone(),
            event: event.clone(),
        });
    }

    fn is_back_at(&mut self, step: &StepKey) {
        let plan = self.walk.plan();
        let between = self.drill.scenario.between.as_ref();
        let left_at = between.and_then(|between| plan.index(&between.at));
        let back_at = plan.index(step);
        self.score.resumed = Some(back_at <= left_at);
        self.away = Away::Over;
    }

    /// What an answer is scored by; nothing where the step is not of this drill, or where it says
    /// that it could not be seen, which is no call.
    fn scored(&self, step: &StepKey, event: &Event) -> Option<StepScore> {
        let index = self.walk.plan().index(step)?;
        let planned = self.walk.asked(index)?.into_owned();
        let of_step = |key: &StepKey| key == step;
        let looked = self.looked.iter().filter(|(own, _)| of_step(own));
        let looked: Vec<Vantage> = looked.map(|(_, from)| *from).collect();
        let used = self.used.iter().filter(|(own, ..)| of_step(own));
        let used = used.map(|(_, tool, showed)| (tool.clone(), showed.clone()));
        let called = self.called.iter().find(|(own, _)| of_step(own));
        StepScore::of(
            &self.drill,
            &self.walk,
            (index, &planned),
            event,
            (looked, used.collect(), called.map(|(_, verdict)| *verdict)),
        )
    }

    /// What the instrument showed that was last put to a step.
    pub fn showed(&self, index: usize) -> Option<&str> {
        let key = self.key(index)?;
        let last = self.used.iter().rev().find(|(own, ..)| own == key)?;
        Some(last.2.as_str())
    }

    /// What the instrument showed that was put to it before its first answer.
    pub(super) fn showed_at_first(&self, index: usize) -> Option<&str> {
        let key = self.key(index)?;
        let first = self.used.iter().find(|(own, ..)| own == key)?;
        Some(first.2.as_str())
    }

    fn key(&self, index: usize) -> Option<&StepKey> {
        self.walk.plan().steps().get(index).map(|step| &step.key)
    }
}

impl fmt::Display for NotInDrill {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Walk(refusal) => refusal.fmt(f),
            Self::CalledAway(what) => write!(f, "{what} Hold the walk first, and see to it"),
            Self::SayWhere => f.write_str("Say first at which step the work goes on"),
            Self::NeverLeft => f.write_str("Nobody was called away; go on with the open step"),
            Self::NoSuchStep(step) => {
                write!(f, "This drill has no step {step}; choose one of its own")
            }
            Self::NothingOpen => f.write_str(
                "There is nothing to look at or measure now; answer what is asked, and the next \
                 step opens",
            ),
            Self::NotFromThere(from, places) => {
                let places: Vec<&str> = places.iter().map(|place| place.word()).collect();
                let told = if places.is_empty() {
                    "it is measured: use".to_owned()
                } else {
                    format!("look {}", places.join(", or look "))
                };
                write!(f, "This step does not show to look {}; {told}", from.word())
            }
            Self::NoSuchInstrument(tool) => {
                write!(
                    f,
                    "{tool} does not measure this; take an instrument of this step"
                )
            }
            Self::NoReading => f.write_str("This step asks what is seen; look at it"),
            Self::CallFirst => {
                f.write_str("Say first what this reading comes to: ok, note, fix or stop")
            }
        }
    }
}

/// Whether two readings are one, however they are typed.
pub(super) fn is_same(typed: &Typed, showed: &str) -> bool {
    let shown = Typed::read(showed, typed.quantity().dimension());
    shown.is_ok_and(|shown| {
        let same = typed.quantity().compare(shown.quantity());
        same.is_some_and(std::cmp::Ordering::is_eq)
    })
}
