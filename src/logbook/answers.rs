//! What was answered to managers' questions, each as a later walk began.

use crate::logbook::hands::named_in;
use crate::logbook::order::OrderFault;
use crate::record::{
    Answered, Digest, Examined, Finding, Id, Opinion, Says, Statements, Verified, Wall,
};
use crate::walk::Words;
use chrono::{DateTime, FixedOffset};
use std::collections::{BTreeSet, HashMap, HashSet};
use std::fmt;

/// What was answered in the trips taken in so far, in any order.
#[derive(Clone, Debug, Default)]
pub struct Answers {
    all: Vec<Answer>,
    /// Who is named in each trip that somebody asked about, by its seal.
    hands: HashMap<Digest, BTreeSet<String>>,
    /// The trips that somebody asked about, by the statement that asked.
    asked: HashMap<Digest, Digest>,
}

/// An answer, with where it was given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// What is said, by whom, to which question.
    pub answered: Answered,
    /// The laptop of the trip it was given in.
    pub device: Id,
    /// That trip's number.
    pub seq: u64,
    /// That trip; nothing where what line 0 says cannot be relied on.
    pub trip: Option<Id>,
    /// When that walk began; nothing where that cannot be relied on.
    pub at: Option<DateTime<FixedOffset>>,
    /// What verification finds of that trip: by it the answer counts or does not.
    pub finding: Finding,
    /// Whether who answers had no hand in the trip that was asked about, as far as that is here.
    pub stranger: bool,
}

impl Answers {
    /// None yet, where managers stated this.
    pub fn of(statements: &Statements) -> Self {
        let mut answers = Self::default();
        answers.ask(statements);
        answers
    }

    /// Takes in which questions there are.
    pub fn ask(&mut self, statements: &Statements) {
        let asked = statements.stated().iter().filter_map(|stated| {
            let Says::Countersigned(trip) = &stated.statement().says else {
                return None;
            };
            (trip.opinion == Opinion::Asked).then(|| (stated.hash(), trip.seal))
        });
        self.asked = asked.collect();
    }

    /// Takes in a trip that lies in this place, with what is found of it.
    pub fn take(&mut self, (device, seq): (&Id, u64), examined: &Examined, finding: Finding) {
        let trip = examined.trip.as_ref();
        for answered in &examined.answers {
            let answer = Answer {
                answered: answered.clone(),
                device: device.clone(),
                seq,
                trip: trip.map(|trip| trip.begun().trip.clone()),
                at: trip.map(|trip| trip.at().wall),
                finding,
                stranger: false,
            };
            // A trip is read once for each copy of it.
            if !self.all.contains(&answer) {
                self.all.push(answer);
            }
        }
        let seal = trip.and_then(Verified::sealed).map(|sealed| sealed.hash);
        if let (Some(trip), Some(seal)) = (trip, seal)
            && self.asked.values().any(|asked| *asked == seal)
        {
            self.hands.insert(seal, named_in(trip));
        }
    }

    /// Takes in what is wrong with the order of the trips: what a key signed that had left the crew
    /// counts for nothing.
    pub fn settle(&mut self, faults: &[OrderFault]) {
        for answer in &mut self.all {
            let of_key = |fault: &&OrderFault| fault.is_of_a_key_of(answer.trip.as_ref());
            let found = faults.iter().filter(of_key).map(OrderFault::finding).max();
            answer.finding = answer.finding.max(found.unwrap_or(answer.finding));
        }
    }

    /// The answers to the question of a statement, the oldest first, then those of no known time.
    pub fn to(&self, question: &Digest) -> Vec<Answer> {
        let hands = self
            .asked
            .get(question)
            .and_then(|seal| self.hands.get(seal));
        let is_stranger =
            |by: &Words| hands.is_some_and(|hands| !hands.iter().any(|named| by.names_whom(named)));
        let answers = self.all.iter();
        let answers = answers.filter(|one| one.answered.question == *question);
        let mut answers: Vec<Answer> = answers
            .map(|one| Answer {
                stranger: is_stranger(&one.answered.by),
                ..one.clone()
            })
            .collect();
        answers.sort_by_key(|one| (one.at.is_none(), one.at, one.device.clone(), one.seq));
        answers
    }

    /// The answers to every question about the trip with this seal.
    pub fn about(&self, seal: &Digest) -> Vec<Answer> {
        let asked = self.asked.iter().filter(|(_, of)| *of == seal);
        let mut asked: Vec<&Digest> = asked.map(|(question, _)| question).collect();
        asked.sort_unstable();
        asked.into_iter().flat_map(|one| self.to(one)).collect()
    }

    /// Whether a question has an answer that counts.
    pub fn has(&self, question: &Digest) -> bool {
        let mut answers = self.all.iter();
        answers.any(|one| one.answered.question == *question && one.counts())
    }

    /// The answers to questions that are not known here.
    pub fn to_unknown(&self) -> Vec<&Answer> {
        let answers = self.all.iter();
        let unknown = |one: &&Answer| !self.asked.contains_key(&one.answered.question);
        answers.filter(unknown).collect()
    }

    /// What is answered of these questions already, be it in a walk that is not signed yet: it is not
    /// put to anybody again.
    pub fn given(&self) -> HashSet<Digest> {
        let answers = self.all.iter();
        let given = answers.filter(|one| one.counts() || one.finding == Finding::Unsealed);
        given.map(|one| one.answered.question).collect()
    }
}

impl Answer {
    /// Whether it counts: it is in a record that somebody signed for and that verifies.
    pub const fn counts(&self) -> bool {
        matches!(self.finding, Finding::Intact | Finding::NotCountersigned)
    }
}

impl fmt::Display for Answer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Answered { by, words, .. } = &self.answered;
        write!(f, "“{words}”, answered by {by}")?;
        if self.stranger {
            f.write_str(", who is not named in that trip,")?;
        }
        if let Some(at) = self.at.and_then(Wall::new) {
            write!(f, " on {}", at.moment().format("%Y-%m-%d %H:%M"))?;
        }
        write!(f, " in trip {} of {}", self.seq, self.device)?;
        match self.finding {
            Finding::Intact | Finding::NotCountersigned => Ok(()),
            Finding::Unsealed => f.write_str(
                ". Nobody has signed that trip yet, and until then the answer counts for nothing",
            ),
            finding => write!(
                f,
                ". Verification finds that trip {finding}, so the answer counts for nothing"
            ),
        }
    }
}
