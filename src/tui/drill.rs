//! A drill on the screen: the walk as it always is, and round it what is looked at, measured and
//! called.

mod act;
mod after;
mod between;
mod drawn;
mod step;
mod watch;

pub(super) use act::{THROWING, act, left};
pub(super) use after::feedback;
pub(super) use step::{above_the_answer, at_the_end_of_a_step, kind, measuring, tale};

use crate::barn::ForWalk;
use crate::checklist::StepKey;
use crate::desk::Approval;
use crate::drill::{Doing, Line, NotInDrill, Run, Stage, Vantage, Worked};
use crate::record::Mode;
use crate::tui::keys::Context;
use crate::tui::page::Page;
use crate::tui::walk::Walking;
use crate::tui::{Action, Model};
use crate::walk::{Act, Ended, Entry, Event, Now, Round};

/// What a drill adds to its walk.
#[derive(Clone, Debug)]
pub(super) struct Drilling {
    /// The drill as its lines tell it; the walk inside is the one on the screen.
    pub(super) run: Run,
    /// The id of its record; nothing where it is not recorded.
    pub(super) trip: Option<String>,
    /// Whether whoever rode a check ride has signed it already.
    pub(super) is_signed: bool,
    /// What was asked of the drill and is not answered yet.
    asked: Option<Doing>,
    /// What was seen at the open step, by place, the newest look last.
    seen: Vec<(Vantage, String)>,
    /// What instruments showed at it.
    measured: Vec<String>,
    /// What its reading was called.
    called: Option<String>,
    /// Whether what the instrument shows is being typed.
    typing: bool,
    /// What is said at once of the answer that is shown.
    feedback: Vec<String>,
    /// That what the program said of it was planted.
    disclosed: Option<String>,
    /// Whether it was told how it went before it ended.
    debriefed: bool,
}

impl Drilling {
    /// Whether it is a worked run, which is watched.
    pub(in crate::tui) fn is_watched(&self) -> bool {
        self.run.stage() == Stage::Watch
    }

    fn new(run: Run, trip: Option<String>) -> Self {
        Self {
            run,
            trip,
            is_signed: false,
            asked: None,
            seen: Vec::new(),
            measured: Vec::new(),
            called: None,
            typing: false,
            feedback: Vec::new(),
            disclosed: None,
            debriefed: false,
        }
    }

    /// Takes in what happened on its walk.
    pub(super) fn goes_on(&mut self, entry: &Entry) {
        self.run.apply(&Line::of(entry));
        match &entry.event {
            Event::Opened { .. } => self.begins_step(),
            Event::Answered { step, round, .. } => {
                self.feedback = self.run.told_at_once(step).unwrap_or_default();
                if *round == Round::First {
                    self.disclosed = self.run.discloses(step);
                }
            }
            Event::Ended { outcome, .. } => {
                let watched = self.run.stage() == Stage::Watch;
                let complete = *outcome == Ended::Complete && !watched;
                self.debriefed = complete && self.tells_before_signing();
            }
            _ => {}
        }
    }

    /// Whoever begins a step has looked at nothing of it yet.
    fn begins_step(&mut self) {
        self.seen.clear();
        self.measured.clear();
        self.feedback.clear();
        (self.called, self.typing, self.disclosed) = (None, false, None);
    }

    /// Takes in what was asked of it and is done.
    fn drilled(&mut self, line: &Line) {
        let told = self.run.told(line);
        self.run.apply(line);
        match (self.asked.take(), told) {
            (Some(Doing::Look(from)), Some(told)) => {
                self.seen.retain(|(known, _)| *known != from);
                self.seen.push((from, told));
            }
            (Some(Doing::Use(_)), Some(told)) => {
                self.measured.push(told);
                self.typing = !self.owes_call();
            }
            (Some(Doing::Call(_)), told) => (self.called, self.typing) = (told, true),
            (Some(Doing::Return(_)), told) => self.feedback = told.into_iter().collect(),
            _ => {}
        }
    }

    /// Where the open step was looked at from, in order.
    fn looked(&self) -> impl Iterator<Item = Vantage> + '_ {
        self.seen.iter().map(|(from, _)| *from)
    }

    /// Whether the open reading has to be called before it is typed.
    fn owes_call(&self) -> bool {
        let reads = Doing::Walk(Act::Read {
            typed: String::new(),
            instrument: String::new(),
        });
        let decided = self.run.decide(&reads, self.run.walk().began());
        matches!(decided, Err(NotInDrill::CallFirst))
    }

    /// Whether the learner was called away and has not said yet where the work goes on: the screen
    /// then does not say it for them.
    pub(super) fn is_away(&self) -> bool {
        if self.run.stage() == Stage::Watch {
            return false;
        }
        let walk = self.run.walk();
        let between = self.run.drill().scenario.between.as_ref();
        let left_at = between.and_then(|between| walk.plan().index(&between.at));
        let stands = walk.held().is_some() || walk.unsure().is_some();
        let gone = stands
            && self.run.score().resumed.is_none()
            && left_at.is_some_and(|at| walk.at_work() == Now::Open(at));
        gone || !self.run.may_return_to().is_empty()
    }

    /// Whether it is told how it went before anybody signs: an examination is told after that.
    fn tells_before_signing(&self) -> bool {
        self.run.stage().tells_before_signing()
    }

    /// What is done next, where the run is watched.
    fn watched(&self) -> Option<Worked> {
        let watches = self.run.stage() == Stage::Watch;
        watches.then(|| self.run.worked())?
    }
}

impl Walking {
    /// Whether it is a worked run, which goes on by one key of its own.
    pub(in crate::tui) fn is_watched(&self) -> bool {
        self.drill.as_ref().is_some_and(|one| one.is_watched())
    }

    /// A drill, begun or taken up.
    pub(super) fn of_drill(run: Run, trip: Option<String>, is_signed: bool, barn: ForWalk) -> Self {
        let id = trip.clone().unwrap_or_default();
        let walk = run.walk().clone();
        Self {
            barn,
            drill: Some(Box::new(Drilling {
                is_signed,
                ..Drilling::new(run, trip)
            })),
            ..Self::new(walk, id, Mode::Drill, Approval::Shipped)
        }
    }

    /// What a drill waits for, where it is not what its walk waits for.
    pub(super) fn drill_context(&self) -> Option<Context> {
        let drilling = self.drill.as_deref()?;
        let now = self.now();
        match now {
            Now::Ended(_) => return Some(Context::DrillOver),
            _ if drilling.watched().is_some() => return Some(Context::Watching),
            Now::Held | Now::Unsure => return None,
            _ if drilling.run.calls().is_some() => return Some(Context::CalledAway),
            _ if drilling.is_away() => return Some(Context::Returning),
            Now::Branch(_) | Now::Remark(_) => return None,
            _ if self.answered.is_some() => return None,
            Now::Finished => return Some(Context::Debrief),
            Now::Next(_) | Now::Open(_) | Now::SectionEnd(_) => {}
        }
        let Now::Open(at) = now else {
            return None;
        };
        match self.answer_context(at) {
            Context::Sighting => Some(Context::Looking),
            Context::Reading if !drilling.typing => Some(Context::Measuring),
            _ => None,
        }
    }

    /// Whether it has ended and nothing is left but to sign it: a drill is told first how it went.
    pub(super) fn is_to_be_signed(&self) -> bool {
        let told = self
            .drill
            .as_deref()
            .is_none_or(|drilling| drilling.trip.is_some() && drilling.debriefed);
        self.walk.ended().is_some() && told
    }

    /// Takes in what was done in the drill.
    pub(super) fn drilled(&mut self, line: &Line) {
        (self.panel, self.scroll) = (None, 0);
        if let Some(drilling) = &mut self.drill {
            drilling.drilled(line);
        }
    }

    /// Whether an action of a drill is valid at this very place; nothing of what is no drill's.
    pub(super) fn drill_offers(&self, action: Action) -> Option<bool> {
        let drilling = self.drill.as_deref()?;
        match action {
            // A drill is played by who learns.
            Action::HandOver => Some(false),
            Action::GoOn if self.context() == Context::Measuring => Some(!drilling.owes_call()),
            Action::Call => Some(self.is_called()),
            Action::Sign => Some(drilling.trip.is_some()),
            Action::Again | Action::Another => Some(drilling.trip.is_none()),
            Action::Learn => Some(drilling.run.learned().is_none()),
            Action::Back if self.context() == Context::Looking => Some(self.second.is_some()),
            Action::Back if self.context() == Context::Measuring => {
                Some(self.tools().len() > 1 || self.second.is_some())
            }
            Action::Back if self.context() == Context::Reading => Some(true),
            _ => None,
        }
    }

    /// Whether the open step is held to a limit, so that its reading is called.
    fn is_called(&self) -> bool {
        use crate::checklist::PlannedAsk;
        let asked = self.at_hand().and_then(|at| self.walk.asked(at));
        asked.is_some_and(|planned| {
            matches!(&planned.ask, PlannedAsk::Reading { limits, .. } if !limits.is_empty())
        })
    }

    /// The places the open step can be looked at from.
    pub(super) fn places(&self) -> Vec<Vantage> {
        let planned = self.at_hand().and_then(|at| self.planned(at));
        let drilling = self.drill.as_deref().zip(planned);
        drilling.map_or_else(Vec::new, |(drilling, planned)| {
            drilling.run.drill().vantages(planned)
        })
    }

    /// The steps at which the work may be said to go on.
    pub(super) fn may_return_to(&self) -> Vec<StepKey> {
        let drilling = self.drill.as_deref();
        drilling.map_or_else(Vec::new, |drilling| drilling.run.may_return_to())
    }
}

/// Writes what is in the middle of the screen, where it is not what a walk would show.
pub(super) fn body(walking: &Walking, model: &Model, page: &mut Page) -> bool {
    let Some(drilling) = walking.drill.as_deref() else {
        return false;
    };
    match walking.context() {
        Context::Watching => watch::body(walking, drilling, model, page),
        Context::CalledAway => between::called_away(walking, drilling, model, page),
        Context::Returning => between::returning(walking, page),
        Context::Held if drilling.is_away() => between::away(walking, drilling, model, page),
        Context::Debrief => after::debrief(drilling, page),
        Context::DrillOver => after::over(drilling, page),
        _ => return false,
    }
    true
}
