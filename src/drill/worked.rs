//! The right run of a drill, one act at a time: what whoever knows the work would do next, and why.

use crate::checklist::{Ending, PlannedAsk, PlannedStep};
use crate::drill::{Doing, Run, There};
use crate::rules::{Outcome, Verdict, judge};
use crate::shown::{tool_for, tools_for};
use crate::walk::{Act, Ended, Now, Status};

/// Who looks a second time in a worked run: invented.
const HELPER: &str = "Hale Winters";

/// So many readings that leave it open are enough.
const MOST_MEASURED: usize = 4;

/// What is done next in a worked run.
#[derive(Clone, Debug, PartialEq)]
pub struct Worked {
    /// What.
    pub doing: Doing,
    /// Why, a sentence each.
    pub why: Vec<String>,
}

impl Worked {
    fn of(doing: Doing, why: Vec<String>) -> Self {
        Self { doing, why }
    }

    fn act(act: Act, why: &str) -> Self {
        Self::of(Doing::Walk(act), vec![why.to_owned()])
    }
}

impl Run {
    /// What is done next; nothing once the walk has ended.
    pub fn worked(&self) -> Option<Worked> {
        if let Some(what) = self.calls() {
            let why = format!("{what} The walk is held before anything else is done.");
            let (reason, next) = ("called away".to_owned(), String::new());
            return Some(Worked::act(Act::Hold { why: reason, next }, &why));
        }
        if !self.may_return_to().is_empty() {
            let between = self.drill().scenario.between.as_ref()?;
            let why = "The step that was open is begun again from its start.".to_owned();
            return Some(Worked::of(Doing::Return(between.at.clone()), vec![why]));
        }
        match self.walk().now() {
            Now::Next(index) => {
                let skipped = &self.walk().plan().steps().get(index)?.step.skipped;
                Some(Worked::act(
                    Act::Open,
                    &format!("Next. If it is skipped: {skipped}"),
                ))
            }
            Now::Open(index) => self.answered(index),
            Now::Branch(index) => self.mended(index),
            Now::Remark(_) => {
                let words = "known, and told to the manager".to_owned();
                Some(Worked::act(
                    Act::Remark { words },
                    "Whoever drives has to know of it, so it is written down.",
                ))
            }
            Now::SectionEnd(_) => Some(Worked::act(
                Act::CloseSection,
                "Every step of the section is done; that is stated.",
            )),
            Now::Held => Some(Worked::act(Act::Resume, "What called away is seen to.")),
            Now::Unsure => {
                let words = "asked, and looked at again".to_owned();
                Some(Worked::act(
                    Act::Settle { words },
                    "Whoever was asked has answered.",
                ))
            }
            Now::Finished => {
                let (outcome, words) = (Ended::Complete, String::new());
                Some(Worked::act(
                    Act::End { outcome, words },
                    "Every section is complete.",
                ))
            }
            Now::Ended(_) => None,
        }
    }

    fn answered(&self, index: usize) -> Option<Worked> {
        let planned = self.walk().asked(index)?.into_owned();
        let there = self.drill().there(self.walk(), index)?;
        match (&planned.ask, there) {
            (PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask), There::State(there)) => {
                let looked = self.looked(&planned.key);
                let places = self.drill().enough(&planned);
                if let Some(from) = places.into_iter().find(|from| !looked.contains(from)) {
                    let why = format!("It is looked at {}.", from.label());
                    return Some(Worked::of(Doing::Look(from), vec![why]));
                }
                let state = ask.states.iter().find(|state| state.id == there)?;
                let why = format!("{}: {}.", state.seen, state.verdict.word());
                let state = state.id.clone();
                let act = if matches!(planned.ask, PlannedAsk::Independent(_)) {
                    let who = HELPER.to_owned();
                    Act::SeeAs { who, state }
                } else {
                    Act::See { state }
                };
                Some(Worked::act(act, &why))
            }
            (PlannedAsk::Reading { .. }, There::Value(value)) => {
                let about = (value.value.to_f64()?, value.unit);
                self.measured(index, &planned, about)
            }
            _ => None,
        }
    }

    /// A reading: the instrument is put there, its reading is called, and then it is typed.
    fn measured(
        &self,
        index: usize,
        planned: &PlannedStep,
        about: (f64, crate::units::Unit),
    ) -> Option<Worked> {
        let PlannedAsk::Reading { ask, limits, .. } = &planned.ask else {
            return None;
        };
        let rig = self.walk().plan().rig();
        let answers = self.walk().steps().get(index)?.answers.len();
        // Where one leaves it open, the next one is taken.
        let tools = tools_for(planned, rig, about);
        let next = tools.get(answers.checked_rem(tools.len())?).copied();
        let first = tool_for(planned, rig, about);
        let tool = first.filter(|_| answers == 0).or(next)?;
        if answers > MOST_MEASURED {
            let (outcome, words) = (Ended::Incomplete, "it stays undecided".to_owned());
            let why = "What the instrument shows leaves it open each time, so it stays here until \
                       a finer one is there.";
            return Some(Worked::act(Act::End { outcome, words }, why));
        }
        let Some(showed) = self.showed(index).filter(|_| self.uses_of(index) > answers) else {
            let why = format!("It is measured with {}.", tool.name);
            return Some(Worked::of(Doing::Use(tool.id.clone()), vec![why]));
        };
        if self.owes_call() {
            let verdict = match judge(showed, Some(tool), limits).outcome {
                Outcome::Judged(verdict) => verdict,
                Outcome::Again => Verdict::Note,
            };
            let word = verdict.word();
            let why = format!("Held to the limits of this step, {showed} comes to {word}.");
            return Some(Worked::of(Doing::Call(verdict), vec![why]));
        }
        let (typed, instrument) = (showed.to_string(), tool.id.clone());
        let act = if ask.second {
            let who = HELPER.to_owned();
            Act::ReadAs {
                who,
                typed,
                instrument,
            }
        } else {
            Act::Read { typed, instrument }
        };
        Some(Worked::act(
            act,
            "What the instrument shows is typed as it shows it.",
        ))
    }

    fn mended(&self, index: usize) -> Option<Worked> {
        let Status::Bad { branch, .. } = &self.walk().steps().get(index)?.status else {
            return None;
        };
        let ends = self.walk().plan().branch(branch)?.ends;
        let mut why: Vec<String> = Vec::new();
        if let Some(fault) = self.drill().fault() {
            why.push(fault.why.clone());
            why.push(format!("Otherwise: {}", fault.would));
        }
        let act = if ends == Ending::NotFitToGo {
            why.push("It cannot be put right here, and the rig stays.".to_owned());
            let (outcome, words) = (Ended::NotFitToGo, "it stays here".to_owned());
            Act::End { outcome, words }
        } else {
            why.push("It is put right, and looked at once more.".to_owned());
            let words = "put right, and looked at once more".to_owned();
            Act::PutRight { words }
        };
        Some(Worked::of(Doing::Walk(act), why))
    }
}
