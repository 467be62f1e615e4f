//! Going through the questions: what is asked next, what an answer changes, what was left out.

use crate::document::{Fault, Tree};
use crate::rig::Rig;
use crate::rig::describe::answer::value;
use crate::rig::describe::draft::Draft;
use crate::rig::describe::put::put;
use crate::rig::describe::question::questions;
use crate::rig::describe::{Ask, List, NotAnAnswer, Question, choices};
use std::collections::BTreeSet;

/// A rig being described.
///
/// At any moment its [`text`](Self::text) is a file that can be saved, read and taken up again.
#[derive(Clone, Debug)]
pub struct Interview {
    draft: Draft,
    /// What the rig file's reader says of the draft.
    faults: Vec<Fault>,
    /// Questions left out at this sitting, and lists that are done.
    left: BTreeSet<String>,
    /// Questions about how a part is built that the file does not show the answer of.
    settled: BTreeSet<String>,
    /// What was asked before, the latest last.
    asked: Vec<String>,
    /// A question to be asked again though it is answered.
    again: Option<String>,
    /// Evidence and place of the answer before.
    evidence: Option<(String, String)>,
    /// The last question the file had an answer to when it was taken up.
    reached: Option<String>,
}

/// Why an answer was not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refused {
    /// It is no answer to this question.
    NotAnAnswer(NotAnAnswer),
    /// No rig can be so.
    Wrong {
        /// What is wrong.
        what: String,
        /// How to mend it.
        fix: String,
        /// The earlier answer it does not go with.
        amends: Option<Amends>,
    },
}

/// An earlier answer that may be the wrong one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Amends {
    /// Its question.
    pub question: String,
    /// What stands there.
    pub now: String,
    id: String,
}

impl Default for Interview {
    fn default() -> Self {
        Self::of(Draft::new())
    }
}

impl Interview {
    fn of(draft: Draft) -> Self {
        Self {
            faults: draft.faults(),
            draft,
            left: BTreeSet::new(),
            settled: BTreeSet::new(),
            asked: Vec::new(),
            again: None,
            evidence: None,
            reached: None,
        }
    }

    /// Takes a file up where it was left: what is there is kept, what lacks is asked. First comes
    /// what the file cannot do without before the last answer, then all that comes after it, then
    /// what was left out before it.
    ///
    /// # Errors
    /// The faults of a file in which something is wrong, rather than lacking.
    pub fn take_up(text: &str) -> Result<Self, Vec<Fault>> {
        let mut interview = Draft::read(text).map(Self::of)?;
        let all = interview.questions();
        let mut answered = all
            .iter()
            .rev()
            .filter(|question| question.is_answered(&interview.draft));
        interview.reached = answered.next().map(Question::id);
        Ok(interview)
    }

    /// The file as it is now.
    pub fn text(&self) -> String {
        self.draft.text()
    }

    /// What keeps the file from being walked, each with its place in it.
    pub fn lacking(&self) -> &[Fault] {
        &self.faults
    }

    /// The rig, once nothing lacks.
    pub fn rig(&self) -> Option<Rig> {
        Rig::read(&self.text()).ok()
    }

    /// The question to ask now; nothing when all is answered or left out.
    pub fn question(&self) -> Option<Question> {
        let all = self.questions();
        if let Some(again) = &self.again {
            return all.into_iter().find(|question| question.id() == *again);
        }
        let reached = self.reached.as_ref();
        let from = all
            .iter()
            .position(|question| Some(&question.id()) == reached)
            .unwrap_or(0);
        let (before, after) = all.split_at(from);
        let gaps = before.iter().filter(|question| !question.may_be_left_out());
        let mut open = gaps.chain(after).chain(before);
        open.find(|question| !self.is_done(question)).cloned()
    }

    /// Evidence and place of the answer before, which many values share.
    pub fn same(&self) -> Option<(&str, &str)> {
        let (by, at) = self.evidence.as_ref()?;
        Some((by, at))
    }

    /// Judges what was typed so far, before all of an answer is there.
    ///
    /// # Errors
    /// [`Refused`] with the reason and what to type.
    pub fn hear(&self, question: &Question, typed: &[String]) -> Result<(), Refused> {
        // What two values contradict each other in shows once both are whole.
        let any = question
            .field
            .ask
            .has_evidence()
            .then_some(("estimate", "-"));
        self.tried(question, typed, any).map(|_| ())
    }

    /// Takes an answer. Where the question wants evidence, it comes as a word and a place.
    ///
    /// # Errors
    /// [`Refused`] with the reason and what to type; nothing is changed then.
    pub fn answer(
        &mut self,
        question: &Question,
        typed: &[String],
        evidence: Option<(&str, &str)>,
    ) -> Result<(), Refused> {
        (self.draft, self.faults) = self.tried(question, typed, evidence)?;
        if let Some((by, at)) = evidence {
            self.evidence = Some((by.to_owned(), at.to_owned()));
        }
        if matches!(question.field.ask, Ask::Like(_)) {
            self.settled.insert(question.id());
        }
        self.left.remove(&question.id());
        if matches!(question.field.ask, Ask::Tools) {
            // A set taken as it is has its gaps on purpose.
            let tools = format!("{}[", question.path);
            let all = self.questions().into_iter().map(|question| question.id());
            self.left.extend(all.filter(|id| id.starts_with(&tools)));
        }
        self.go_on(question);
        if let Ask::More(list) = question.field.ask {
            // Going back leads to the thing, not to whether there is one.
            let last = self.draft.at(list.at).and_then(Tree::count).unwrap_or(0);
            self.asked.pop();
            self.asked.push(format!(
                "{}[{}].{}",
                list.at,
                last.saturating_sub(1),
                list.key
            ));
        }
        Ok(())
    }

    /// The word of the evidence a person typed by number or word.
    ///
    /// # Errors
    /// [`Refused`] when it is none of them.
    pub fn evidence(typed: &str) -> Result<&'static str, Refused> {
        let by_number = typed
            .parse::<usize>()
            .ok()
            .and_then(|number| choices::EVIDENCE.get(number.checked_sub(1)?));
        let by_word = choices::EVIDENCE.iter().find(|(word, _)| *word == typed);
        let none = || {
            Refused::NotAnAnswer(NotAnAnswer(format!(
                "“{typed}” is not one of them. Type a number from 1 to {}.",
                choices::EVIDENCE.len()
            )))
        };
        by_number
            .or(by_word)
            .map(|(word, _)| *word)
            .ok_or_else(none)
    }

    /// The kinds of evidence, in the order of their numbers.
    pub fn kinds_of_evidence() -> &'static [(&'static str, &'static str)] {
        choices::EVIDENCE
    }

    /// Leaves a question out, and whatever stands there. Says what follows.
    pub fn skip(&mut self, question: &Question) -> String {
        let said = if let Ask::More(list) = question.field.ask {
            self.close(list);
            question.without.unwrap_or_default()
        } else if let Some(part) = &question.opens {
            self.take_part(part);
            question.without.unwrap_or_default()
        } else if let (Some(part), None) = (&question.inside, question.without) {
            // The rest of the part says nothing without it.
            self.left.extend(self.openers_of(part));
            self.take_part(part);
            "Without it the others of this part mean nothing, so they are left out too."
        } else {
            // How a part is built says nothing against what stands in it.
            if !matches!(question.field.ask, Ask::Like(_)) {
                self.draft.take(&question.path);
            }
            question.without.unwrap_or(
                "The file cannot be walked until it is there. It is asked again next time.",
            )
        };
        self.faults = self.draft.faults();
        self.left.insert(question.id());
        self.go_on(question);
        said.to_owned()
    }

    /// Leaves what stands there as it is.
    pub fn keep(&mut self, question: &Question) {
        self.settled.insert(question.id());
        self.go_on(question);
    }

    /// Goes one question back. False when there is none before.
    pub fn back(&mut self) -> bool {
        let known: Vec<String> = self.questions().iter().map(Question::id).collect();
        while let Some(before) = self.asked.pop() {
            if known.contains(&before) {
                self.left.remove(&before);
                self.again = Some(before);
                return true;
            }
        }
        false
    }

    /// Asks an earlier question again, because a later answer does not go with it.
    pub fn amend(&mut self, amends: &Amends) {
        self.again = Some(amends.id.clone());
    }

    fn go_on(&mut self, question: &Question) {
        self.again = None;
        self.asked.push(question.id());
    }

    fn is_done(&self, question: &Question) -> bool {
        let id = question.id();
        self.left.contains(&id) || self.settled.contains(&id) || question.is_answered(&self.draft)
    }

    fn questions(&self) -> Vec<Question> {
        questions(&self.draft, &|opener| {
            opener.is_answered(&self.draft)
                || (self.settled.contains(&opener.id()) && !self.left.contains(&opener.id()))
        })
    }

    /// The questions that open a part.
    fn openers_of(&self, part: &str) -> Vec<String> {
        let all = self.questions();
        all.iter()
            .filter(|question| question.opens.as_deref() == Some(part))
            .map(Question::id)
            .collect()
    }

    fn take_part(&mut self, part: &str) {
        self.draft.take(part);
        // In a list the others have moved up, so what was left out of them is asked again.
        let list = part
            .strip_suffix(']')
            .and_then(|part| part.rsplit_once('['));
        if let Some((list, _)) = list {
            self.left
                .retain(|left| !left.starts_with(&format!("{list}[")));
        }
    }

    fn close(&mut self, list: &List) {
        if list.always && self.draft.at(list.at).is_none() {
            self.draft.put(list.at, Tree::List(Vec::new()));
        }
    }

    /// The file with an answer in it and what its reader says then, unless that is a new objection.
    fn tried(
        &self,
        question: &Question,
        typed: &[String],
        evidence: Option<(&str, &str)>,
    ) -> Result<(Draft, Vec<Fault>), Refused> {
        let value = value(question, typed, evidence).map_err(Refused::NotAnAnswer)?;
        let mut draft = self.draft.clone();
        put(&mut draft, question, value).map_err(Refused::NotAnAnswer)?;
        let faults = draft.faults();
        let is_new = |fault: &&Fault| {
            !fault.lacking
                && !self
                    .faults
                    .iter()
                    .any(|old| (&old.path, &old.what) == (&fault.path, &fault.what))
        };
        match faults.iter().find(is_new) {
            Some(fault) => Err(self.refusal(question, fault)),
            None => Ok((draft, faults)),
        }
    }

    /// A fault as a refusal of this answer, and which earlier answer it may come from.
    fn refusal(&self, question: &Question, fault: &Fault) -> Refused {
        let about = |path: &str| {
            fault
                .path
                .strip_prefix(path)
                .is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
        };
        let earlier = (!about(&question.path))
            .then(|| self.questions())
            .into_iter()
            .flatten()
            .filter(|other| about(&other.path) && other.is_answered(&self.draft))
            .max_by_key(|other| other.path.len());
        Refused::Wrong {
            what: fault.what.clone(),
            fix: fault.fix.clone(),
            amends: earlier.map(|other| Amends {
                question: other.field.question.to_owned(),
                now: other.now.clone().unwrap_or_default(),
                id: other.id(),
            }),
        }
    }
}
