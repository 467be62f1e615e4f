//! What a learner is told: at once after a step where they are helped, and after the run.
//!
//! A slip is met at once with what would have happened and the chance to look again, and after the
//! run with what truly was. Errors are what a drill is for, and are said to be welcome. How long anything took is never told.

use crate::checklist::{PlannedAsk, PlannedStep, StepKey};
use crate::drill::run::Graded;
use crate::drill::{Did, Drilled, Line, Run, StepScore, There};
use crate::rig::InstrumentKind;
use crate::rules::Verdict;
use crate::text;

/// Said before every drill.
pub const WELCOME: &str = "Nothing here can be hurt. Errors are welcome: each one made here is one \
    less made on the road.";

/// Said where the work went on at the right step.
const RIGHT_STEP: &str = "Called away, you went on at the right step.";

/// Said where it went on too far.
const WRONG_STEP: &str = "Called away, you went on one step too far. Whoever comes back begins the \
    open step from its start.";

/// When something is said of a step.
#[derive(Clone, Copy, PartialEq, Eq)]
enum When {
    /// Right after its answer, with a second look to come.
    AtOnce,
    /// After the run.
    After,
}

impl Run {
    /// What is said at once of the newest answer, which is to this step, where this stage does so;
    /// nothing where it was right, or said that it could not be seen.
    pub fn told_at_once(&self, step: &StepKey) -> Option<Vec<String>> {
        if !self.stage().tells_at_once() {
            return None;
        }
        let score = self.score();
        let told = match self.graded()? {
            Graded::Called => {
                let newest = score.steps.iter().find(|one| one.step == *step)?;
                self.of_step(newest, When::AtOnce)
            }
            Graded::Again => {
                let told = self.answered_again(score.again.last()?)?;
                vec![told, "Take your answer back and look again.".to_owned()]
            }
        };
        (!told.is_empty()).then_some(told)
    }

    /// What is said of a line that is about to be taken in: what is seen, what an instrument shows.
    pub fn told(&self, line: &Line) -> Option<String> {
        let Did::Drilled(drilled) = &line.did else {
            return None;
        };
        Some(match drilled {
            Drilled::Looked(step, from) => {
                let index = self.walk().plan().index(step)?;
                let seen = self.drill().sees(self.walk(), index, *from)?;
                format!("{}: {seen}.", text::capital(from.label()))
            }
            Drilled::Used {
                instrument, showed, ..
            } => {
                let tool = self.walk().plan().rig().instrument(instrument)?;
                let name = text::capital(&tool.name);
                // Who counts has no device that shows it.
                match tool.kind {
                    InstrumentKind::Count => format!("{name}: {showed}."),
                    _ => format!("{name} shows {showed}."),
                }
            }
            Drilled::Called(_, verdict) => format!("You call it {}.", verdict.word()),
            Drilled::Returned(step) if self.stage().tells_at_once() => {
                let right = self.is_right_to_return_to(step);
                if right { RIGHT_STEP } else { WRONG_STEP }.to_owned()
            }
            Drilled::Returned(_) | Drilled::Learned(_) => return None,
        })
    }

    /// That what the program said at this step was planted.
    pub fn discloses(&self, step: &StepKey) -> Option<String> {
        let hint = self.drill().scenario.hint.as_ref()?;
        (hint.at == *step).then(|| {
            format!(
                "The program said: “{}” That was planted. What the hitch shows counts, not what a \
                 screen says.",
                hint.says
            )
        })
    }

    /// What is said after the run, part by part.
    pub fn debrief(&self) -> Vec<String> {
        let score = self.score();
        let faults = self.drill().faults().count();
        let mut told = vec![match self.drill().fault() {
            Some(_) if faults > 1 => format!("There were {faults} faults."),
            Some(_) if score.missed().next().is_none() && score.caught().next().is_some() => {
                "There was a fault, and it was caught.".to_owned()
            }
            Some(_) => "There was a fault.".to_owned(),
            None => "All was well on this rig.".to_owned(),
        }];
        told.extend(
            score
                .steps
                .iter()
                .flat_map(|step| self.of_step(step, When::After)),
        );
        told.extend(
            score
                .again
                .iter()
                .filter_map(|step| self.answered_again(step)),
        );
        match score.resumed {
            Some(true) => told.push(RIGHT_STEP.to_owned()),
            Some(false) => told.push(WRONG_STEP.to_owned()),
            None => {}
        }
        told.extend(self.drill().faults().map(|fault| fault.why.clone()));
        if self.drill().fault().is_none() {
            told.push(self.drill().scenario.good.why.clone());
        }
        if score.missed().next().is_some() {
            let would = self.drill().faults().map(|fault| &fault.would);
            told.extend(would.map(|would| format!("What would have happened: {would}")));
        }
        told.push(format!(
            "Where it stands: {}.",
            self.drill().scenario.source
        ));
        told
    }

    /// That a step was answered again after a repair with nothing looked at or measured since.
    fn answered_again(&self, step: &StepScore) -> Option<String> {
        let index = self.walk().plan().index(&step.step)?;
        let (planned, _) = self.walk().step(index)?;
        Some(format!(
            "{}: answered after the repair without another look, and so it could not be known.",
            planned.name()
        ))
    }

    fn of_step(&self, step: &StepScore, when: When) -> Vec<String> {
        let Some(index) = self.walk().plan().index(&step.step) else {
            return Vec::new();
        };
        let Some((planned, _)) = self.walk().step(index) else {
            return Vec::new();
        };
        let name = planned.name();
        let mut told = Vec::new();
        if step.is_missed() {
            let truly = step.truly.map_or("", Verdict::word);
            let is_reading = matches!(planned.ask, PlannedAsk::Reading { .. });
            if when == When::AtOnce && is_reading && step.known {
                let said = step.said.map_or("", Verdict::word);
                told.push(format!(
                    "{name}: called {said}. What the instrument showed comes to {truly}."
                ));
            } else if when == When::AtOnce {
                // What is there is for the second look to find.
                told.push(format!("{name}: that is not what is there."));
                if let Some(fault) = self.drill().fault() {
                    told.push(format!("What would have happened: {}", fault.would));
                }
                if !is_reading {
                    told.push("Take your answer back and look again.".to_owned());
                }
            } else {
                let there = self.there_in_words(planned, index);
                let called = called(step, is_reading);
                told.push(format!("{name}: {there}. The call is {truly}{called}."));
            }
        }
        if step.is_false_alarm() {
            let there = self.there_in_words(planned, index);
            let is_reading = matches!(planned.ask, PlannedAsk::Reading { .. });
            let called = called(step, is_reading);
            told.push(format!(
                "{name}: {there}. Nothing was wrong with it{called}."
            ));
        }
        if !step.known {
            told.push(match planned.ask {
                PlannedAsk::Reading { .. } => {
                    format!("{name}: what was typed is not what the instrument showed.")
                }
                PlannedAsk::Sighting(_) | PlannedAsk::Independent(_) => {
                    let from = self.drill().shows_from(planned);
                    let from = from.map_or_else(String::new, |from| format!(" {from}"));
                    format!("{name}: from where you looked, this could not be known.{from}")
                }
            });
        }
        told
    }

    /// What there was at the step when it was first answered.
    fn there_in_words(&self, planned: &PlannedStep, index: usize) -> String {
        match (&planned.ask, self.drill().there_at_first(planned)) {
            (PlannedAsk::Reading { .. }, There::Value(value)) => {
                let shown = self.showed_at_first(index).map(ToString::to_string);
                format!("it read {}", shown.unwrap_or_else(|| value.shown(2)))
            }
            (PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask), There::State(state)) => {
                let found = ask.states.iter().find(|one| one.id == state);
                found.map_or_else(String::new, |found| found.seen.clone())
            }
            _ => String::new(),
        }
    }
}

/// What a reading was called; a sighting says it by what was named.
fn called(step: &StepScore, is_reading: bool) -> String {
    let said = step.said.filter(|_| is_reading);
    said.map_or_else(String::new, |said| {
        format!("; you called it {}", said.word())
    })
}
