//! A drill, line by line: the walk as it always is, and round it what is looked at, measured and
//! called. Whatever a drawing would show is told in words.

use crate::barn::ForWalk;
use crate::checklist::PlannedAsk;
use crate::desk::{Errand, Reply};
use crate::drill::{Doing, Line, Run, Stage, Vantage, WELCOME};
use crate::plain::choose::pick;
use crate::plain::going::{Going, Heard, Session};
use crate::plain::stop::Stop;
use crate::plain::talk::Talk;
use crate::plain::{Left, Options};
use crate::rules::Verdict;
use crate::walk::{Entry, Event, Round};
use std::io::{self, BufRead, Write};

/// The words of a drill, and what each does.
pub(super) const WORDS: [&str; 3] = [
    "look and a place, such as look left: look at the open step from there",
    "use, or use and a number: put an instrument to it",
    "call and a verdict, such as call stop: say what a reading comes to, before it is typed",
];

/// Runs a drill until it has ended, or the person leaves.
///
/// # Errors
/// What the output or the input refused.
pub fn drill(
    input: &mut dyn BufRead,
    output: &mut dyn Write,
    run: Run,
    perform: &mut dyn FnMut(Errand) -> Reply,
    options: Options,
) -> io::Result<Left> {
    let mut session = Session::new(Talk::new(input, output, options), perform, options);
    "DRILL".clone_into(&mut session.talk.mark);
    let again = again(&run);
    let ended = match session.drills(run) {
        Ok(()) => return Ok(Left::ByChoice),
        Err(stop) => stop,
    };
    let left = match ended {
        Stop::Left => Left::ByChoice,
        Stop::InputEnded => Left::InputEnded,
        Stop::DiskFailed => return Ok(Left::DiskFailed),
        Stop::Broken(error) => return Err(error),
    };
    session
        .talk
        .head("The drill is left. Nothing of it is recorded.")?;
    session.talk.say(&again)?;
    Ok(left)
}

impl Session<'_> {
    fn drills(&mut self, run: Run) -> Result<(), Stop> {
        let scenario = &run.drill().scenario;
        self.talk.head(&format!("{}.", scenario.title))?;
        self.talk.say(WELCOME)?;
        self.talk.say(&scenario.tale)?;
        if let Some(hurry) = &scenario.hurry {
            self.talk.say(&format!("Somebody says: “{hurry}”"))?;
        }
        let mut going = Going::new(run.walk().clone(), String::new(), ForWalk::default());
        going.drill = Some(run);
        self.go(going)
    }

    /// What can be done at the open step of a drill before it is answered.
    pub(super) fn say_in_drill(&mut self, going: &Going, index: usize) -> io::Result<()> {
        let Some((run, (planned, _))) = going.drill.as_ref().zip(going.walk.step(index)) else {
            return Ok(());
        };
        let scenario = &run.drill().scenario;
        if let Some(hint) = scenario.hint.as_ref().filter(|hint| hint.at == planned.key) {
            self.talk.say(&hint.says)?;
        }
        let places = run.drill().vantages(planned);
        if matches!(planned.ask, PlannedAsk::Reading { .. }) {
            self.talk.say(
                "Type use to measure, then call and one of ok, note, fix or stop, then what it \
                 shows.",
            )?;
        } else {
            let words: Vec<&str> = places.iter().map(|place| place.word()).collect();
            self.talk
                .say(&format!("Type look and where from: {}.", words.join(", ")))?;
        }
        if run.stage() <= Stage::Guided {
            if let Some(hint) = run.drill().shows_from(planned) {
                self.talk.say(&hint)?;
            }
            self.talk
                .say(&format!("If it is skipped: {}", planned.step.skipped))?;
        }
        Ok(())
    }

    /// Does what is typed where it is a word of the drill.
    pub(super) fn does_in_drill(&mut self, going: &mut Going, typed: &str) -> Result<bool, Stop> {
        if going.drill.is_none() {
            return Ok(false);
        }
        let lower = typed.to_lowercase();
        let (word, rest) = lower.split_once(' ').unwrap_or((lower.as_str(), ""));
        let rest = rest.trim();
        match word {
            "look" => {
                let from = Vantage::WORDS.iter().find(|(known, _)| *known == rest);
                if let Some((_, from)) = from {
                    self.doing(going, Doing::Look(*from))?;
                } else {
                    let words = Vantage::WORDS.map(|(known, _)| known).join(", ");
                    let told = format!("Type look and where from, one of {words}.");
                    self.talk.say(&told)?;
                }
            }
            "use" if reads_nothing(going) => self.doing(going, Doing::Use(String::new()))?,
            "use" => match in_hand(going, rest) {
                Some(tool) => self.doing(going, Doing::Use(tool))?,
                None => self
                    .talk
                    .say("Type use and the number of the instrument, such as use 1.")?,
            },
            "call" => match Verdict::WORDS.iter().find(|(known, _)| *known == rest) {
                Some((_, verdict)) => self.doing(going, Doing::Call(*verdict))?,
                None => self
                    .talk
                    .say("Type call and one of ok, note, fix or stop.")?,
            },
            _ => return Ok(false),
        }
        Ok(true)
    }

    fn doing(&mut self, going: &mut Going, doing: Doing) -> Result<(), Stop> {
        match (self.perform)(Errand::Drill(doing)) {
            Reply::Drilled(line) => {
                if let Some(run) = &mut going.drill {
                    let told = run.told(&line);
                    run.apply(&line);
                    if let Some(told) = told {
                        self.talk.say(&told)?;
                    }
                }
                Ok(())
            }
            other => self.cannot(other),
        }
    }

    /// What comes between, and where the work goes on after it. Whether anything was asked.
    pub(super) fn comes_between(&mut self, going: &mut Going) -> Result<bool, Stop> {
        let Some(run) = &going.drill else {
            return Ok(false);
        };
        if let Some(what) = run.calls().map(str::to_owned) {
            self.talk.head(&what)?;
            let question = "The step is open. Type hold to leave the walk and see to it.";
            if let Heard::Text(_) = self.hear(going, question)? {
                self.talk.say("It does not wait. The walk is held first.")?;
            }
            return Ok(true);
        }
        let steps = run.may_return_to();
        if steps.is_empty() {
            return Ok(false);
        }
        self.talk.head("You are back. Where does the work go on?")?;
        for (number, step) in (1..).zip(&steps) {
            let index = going.walk.plan().index(step);
            let name = index.map_or_else(String::new, |index| going.name(index));
            self.talk.say(&format!("{number}. {name}"))?;
        }
        let typed = self.talk.ask("Type the number of the step.")?;
        match pick(&typed, steps.len()).and_then(|at| steps.get(at)) {
            Some(step) => self.doing(going, Doing::Return(step.clone()))?,
            None => self.no_choice(&typed, steps.len())?,
        }
        going.said = None;
        Ok(true)
    }

    /// Takes an event of the walk into its drill, and says at once what is to be said of it.
    pub(super) fn tell_in_drill(&mut self, going: &mut Going, entry: &Entry) -> io::Result<()> {
        let Some(run) = &mut going.drill else {
            return Ok(());
        };
        run.apply(&Line::of(entry));
        let Event::Answered {
            step,
            round: Round::First,
            ..
        } = &entry.event
        else {
            return Ok(());
        };
        let mut told = run.told_at_once(step).unwrap_or_default();
        told.extend(run.discloses(step));
        for line in told {
            self.talk.say(&line)?;
        }
        Ok(())
    }

    /// What is said after the run.
    pub(super) fn debrief(&mut self, run: &Run) -> Result<(), Stop> {
        self.talk.head("The drill has ended.")?;
        for line in run.debrief() {
            self.talk.say(&line)?;
        }
        self.talk.say(&again(run))?;
        Ok(())
    }
}

/// How it is played again. It names the scenario, so it is said at the end alone.
fn again(run: &Run) -> String {
    let drill = run.drill();
    format!(
        "The same again: hames drill {} --seed {}",
        drill.scenario.id, drill.seed
    )
}

/// Whether a step is open that asks what is seen, or none is.
fn reads_nothing(going: &Going) -> bool {
    let open = going.drill.as_ref().and_then(Run::open);
    let planned = open.and_then(|index| going.walk.plan().steps().get(index));
    !planned.is_some_and(|planned| matches!(planned.ask, PlannedAsk::Reading { .. }))
}

/// The instrument meant: the one with this number, the one in hand, or the only one.
fn in_hand(going: &mut Going, number: &str) -> Option<String> {
    let index = going.drill.as_ref()?.open()?;
    let planned = going.walk.asked(index)?;
    let tools = planned.tools(going.walk.plan().rig());
    let tool = match (number, tools.as_slice()) {
        ("", [only]) => only.instrument.id.clone(),
        ("", _) => going.tool.clone()?,
        (number, _) => tools.get(pick(number, tools.len())?)?.instrument.id.clone(),
    };
    going.tool = Some(tool.clone());
    Some(tool)
}
