//! A drill, line by line: the walk as it always is, and round it what is looked at, measured and
//! called. Whatever a drawing would show is told in words.

mod room;

use crate::checklist::PlannedAsk;
use crate::desk::{DrillWanted, Errand, Reply};
use crate::drill::{Doing, Line, Run, Stage, Vantage, WELCOME, scenarios};
use crate::plain::choose::pick;
use crate::plain::going::{Going, Heard, Session};
use crate::plain::stop::Stop;
use crate::plain::talk::Talk;
use crate::plain::{Left, Options};
use crate::record::{Mode, meaning_in};
use crate::rules::Verdict;
use crate::walk::{Ended, Entry, Event, Round, Words};
use std::io::{self, BufRead, Write};

/// The words of a drill, and what each does.
pub(super) const WORDS: [&str; 3] = [
    "look and a place, such as look left: look at the open step from there",
    "use, or use and a number: put an instrument to it",
    "call and a verdict, such as call stop: say what a reading comes to, before it is typed",
];

/// Asks who learns and which drill it is, where that was not said, and runs it until it has ended
/// and is signed, or the person leaves.
///
/// # Errors
/// What the output or the input refused.
pub fn drill(
    input: &mut dyn BufRead,
    output: &mut dyn Write,
    wanted: DrillWanted,
    perform: &mut dyn FnMut(Errand) -> Reply,
    options: Options,
) -> io::Result<Left> {
    let mut session = Session::new(Talk::new(input, output, options), perform, options);
    "DRILL".clone_into(&mut session.talk.mark);
    let ended = match session.room(wanted) {
        Ok(true) => return Ok(Left::ByChoice),
        Ok(false) if session.refused => return Ok(Left::Refused),
        Ok(false) => Stop::Left,
        Err(stop) => stop,
    };
    let left = match ended {
        Stop::Left => Left::ByChoice,
        Stop::InputEnded => Left::InputEnded,
        Stop::DiskFailed => return Ok(Left::DiskFailed),
        Stop::Broken(error) => return Err(error),
    };
    session.leave_drill()?;
    Ok(left)
}

impl Session<'_> {
    /// What is said where a drill is left before it has ended.
    fn leave_drill(&mut self) -> io::Result<()> {
        let Some((again, recorded)) = self.playing.take() else {
            return Ok(());
        };
        if recorded {
            self.talk.head(
                "The drill is left as it is. Everything recorded is in its journal; go on with it \
                 by: hames drill",
            )?;
        } else {
            self.talk
                .head("The drill is left. Nothing of it is recorded.")?;
        }
        again.map_or(Ok(()), |again| self.talk.say(&again))
    }

    /// Plays the drill of a reply to its end. Whether it did.
    pub(super) fn drill_on(&mut self, reply: Reply) -> Result<bool, Stop> {
        let Reply::Drilling {
            run,
            trip,
            is_signed,
            notices,
            barn,
            ..
        } = reply
        else {
            self.refused = true;
            return self.cannot(reply).map(|()| false);
        };
        self.playing = Some((self.again(&run), trip.is_some()));
        let scenario = &run.drill().scenario;
        self.talk.head(&format!("{}.", scenario.title))?;
        for notice in &notices {
            self.talk.say(notice)?;
        }
        self.talk.say(WELCOME)?;
        self.talk.say(&format!("Stage: {}.", run.stage().label()))?;
        if let Some(examiner) = run.examiner() {
            let rule = run.grading().pass_rule();
            self.talk.say(&format!("Examined by {examiner}. {rule}"))?;
        }
        for caution in &run.walk().plan().checklist().cautions {
            self.talk
                .say(&format!("Caution, for the real work: {caution}"))?;
        }
        self.talk.say(&scenario.tale)?;
        if let Some(hurry) = &scenario.hurry {
            self.talk.say(&format!("Somebody says: “{hurry}”"))?;
        }
        if run.stage() == Stage::Watch {
            self.talk.say(
                "The program plays it rightly and says why. Type next each time; nothing of it \
                 counts as yours.",
            )?;
        }
        let mut going = Going::new(run.walk().clone(), trip.unwrap_or_default(), barn);
        (going.drill, going.is_signed) = (Some(*run), is_signed);
        self.go(going)?;
        self.playing = None;
        Ok(true)
    }

    /// In a run that is watched, what is done next and why. Whether it was one.
    pub(super) fn watches(&mut self, going: &mut Going) -> Result<bool, Stop> {
        let Some(run) = going
            .drill
            .as_ref()
            .filter(|run| run.stage() == Stage::Watch)
        else {
            return Ok(false);
        };
        let Some(worked) = run.worked() else {
            return Ok(false);
        };
        let now = going.walk.now();
        if going.said.as_ref() != Some(&now) {
            self.say_where(going, &now)?;
            going.said = Some(now);
        }
        for why in &worked.why {
            self.talk.say(why)?;
        }
        match self.hear(going, "Type next.")? {
            Heard::Text(typed) if matches!(typed.to_lowercase().as_str(), "next" | "n") => {}
            Heard::Text(_) => {
                self.talk
                    .say("This run is watched: next goes on, quit leaves it.")?;
                return Ok(true);
            }
            Heard::Done => return Ok(true),
        }
        match worked.doing {
            Doing::Walk(act) => self.record(going, act).map(|_| true),
            doing => self.doing(going, doing).map(|()| true),
        }
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
        if run.stage() == Stage::Watch {
            return Ok(());
        }
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
        if run.gives_hint(&planned.key) {
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
        let Event::Answered { step, round, .. } = &entry.event else {
            return Ok(());
        };
        let mut told = run.told_at_once(step).unwrap_or_default();
        if !told.is_empty() && run.may_take_back(step) {
            told.push("Type correct to take the answer back.".to_owned());
        }
        if *round == Round::First {
            told.extend(run.discloses(step));
        }
        for line in told {
            self.talk.say(&line)?;
        }
        Ok(())
    }

    /// Before the walk ends: what is said after the run, and what the learner will do otherwise.
    /// Whether anything was.
    pub(super) fn looks_back(&mut self, going: &mut Going) -> Result<bool, Stop> {
        let Some(run) = &going.drill else {
            return Ok(false);
        };
        let told = run.stage().tells_before_signing() && run.stage() != Stage::Watch;
        if going.looked_back || !told {
            return Ok(false);
        }
        going.looked_back = true;
        self.talk.head("Every step is done.")?;
        for line in run.debrief() {
            self.talk.say(&line)?;
        }
        let question = "In one line: what will you do otherwise next time? Or type none.";
        loop {
            let typed = self.talk.ask(question)?;
            if typed.eq_ignore_ascii_case("none") {
                return Ok(true);
            }
            match Words::read(&typed) {
                Ok(words) => {
                    self.doing(going, Doing::Learn(words))?;
                    return Ok(true);
                }
                Err(fault) => self.talk.say(&format!("Not taken: {fault}."))?,
            }
        }
    }

    /// After the run: what is still to be said of it, and the signature where it is recorded.
    pub(super) fn ends_drill(&mut self, going: &Going) -> Result<(), Stop> {
        let Some(run) = &going.drill else {
            return Ok(());
        };
        self.talk.head("The drill has ended.")?;
        if !going.looked_back && run.stage().tells_before_signing() {
            for line in run.debrief() {
                self.talk.say(&line)?;
            }
        }
        if !going.trip.is_empty() {
            let rider = run.walk().reader().to_string();
            let signed = going.is_signed || self.sign_drill(&rider, run.examiner().is_none())?;
            if let Some(examiner) = run.examiner() {
                return self.examined(going, run, (examiner.as_str(), signed));
            }
        }
        if let Some(again) = self.again(run) {
            self.talk.say(&again)?;
        }
        Ok(())
    }

    /// The examiner signs after the rider, and then both hear how it went.
    fn examined(
        &mut self,
        going: &Going,
        run: &Run,
        (examiner, signed): (&str, bool),
    ) -> Result<(), Stop> {
        if !signed || !self.sign_drill(examiner, true)? {
            return Ok(self.talk.say(
                "It is told how it went once both have signed. Sign it later by: hames drill",
            )?);
        }
        for line in run.debrief() {
            self.talk.say(&line)?;
        }
        if run.is_passed() != Some(true) {
            return Ok(self.talk.say(&format!(
                "Not passed. {} Ride again when you like; another is put together each time.",
                run.grading().pass_rule()
            ))?);
        }
        let rider = run.walk().reader().as_str();
        let mut known = self.learners.iter();
        let id = known.find(|one| one.name == rider);
        let id = id.map_or(rider, |one| one.id.as_str());
        let trip = &going.trip;
        Ok(self.talk.say(&format!(
            "Passed. A manager puts it into the roster by: hames crew sign-off {id} --check-ride \
             {trip}"
        ))?)
    }

    /// How it is played again; nothing of a check ride, which is put together anew each time, nor
    /// of one that was taken up and whose scenario does not come with the program. It names the
    /// scenario, so it is said at the end alone.
    fn again(&self, run: &Run) -> Option<String> {
        let drill = run.drill();
        let id = &drill.scenario.id;
        let comes_along = scenarios().iter().any(|one| one.id == *id);
        let named = self.again.as_ref().or(comes_along.then_some(id))?;
        let seed = drill.seed;
        let again = format!("The same again: hames drill {named} --seed {seed}");
        (run.stage() != Stage::CheckRide).then_some(again)
    }

    /// Whether it was signed. The last signature makes it count.
    fn sign_drill(&mut self, who: &str, is_last: bool) -> Result<bool, Stop> {
        self.talk.say(&format!(
            "Whoever signs states this: {}",
            meaning_in(Mode::Drill, Ended::Complete)
        ))?;
        loop {
            let question =
                format!("{who}: type sign to sign it, or later. It counts once it is signed.");
            match self.talk.ask(&question)?.to_lowercase().as_str() {
                "sign" => {}
                "later" | "l" => {
                    self.talk
                        .say("Not signed, and not counted yet. Sign it later by: hames drill")?;
                    return Ok(false);
                }
                "quit" | "q" => return Err(Stop::Left),
                _ => continue,
            }
            let mut known = self.learners.iter();
            let signer = known.find(|one| one.name == who);
            let signer = signer.map_or_else(|| who.to_owned(), |one| one.id.clone());
            let found = (self.perform)(Errand::FindKey { signer });
            let Reply::Key { signer, lies } = found else {
                self.cannot(found)?;
                continue;
            };
            let mode = if self.secret_is_demo {
                Mode::Demo
            } else {
                Mode::Drill
            };
            let consent = match self.talk.consent(lies, (who, ""), mode)? {
                Ok(consent) => consent,
                Err(sentence) => {
                    self.talk.say(&sentence)?;
                    continue;
                }
            };
            match (self.perform)(Errand::Seal { signer, consent }) {
                Reply::Sealed(sealed) => {
                    let then = if is_last {
                        "It counts. See where you stand: hames drill"
                    } else {
                        "It counts once the examiner has signed as well."
                    };
                    self.talk
                        .say(&format!("Signed by {}. {then}", sealed.signed_by))?;
                    self.talk.say(&format!("Record: {}", sealed.folder))?;
                    return Ok(true);
                }
                other => self.cannot(other)?,
            }
        }
    }
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
