//! Whether a manager may countersign a trip.

use crate::logbook::order::{Countersign, OrderFault};
use crate::logbook::{Answers, Hand, hand_in};
use crate::record::{
    Countersigned, Digest, Finding, Id, Opinion, PrintedName, Role, Says, Signer, Stated,
    Statements, Verified,
};
use crate::walk::Words;
use chrono::{DateTime, FixedOffset};
use std::collections::{BTreeMap, HashMap};
use std::fmt;

/// Why a manager does not countersign a trip.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Barred {
    /// The trip does not verify, or nobody has signed for it.
    Finding(Finding),
    /// A key it is signed with had left the crew, as far as witnesses can tell.
    Key(Box<OrderFault>),
    /// It is the manager's own work.
    Own(Hand),
    /// A name in it could be the manager's.
    CouldBe(Words, PrintedName),
    /// The manager has said the same of it, in this statement.
    Said(Opinion, u64),
}

/// Whether this manager may countersign a trip that verification found so; the gravest reason where
/// not.
///
/// # Errors
/// [`Barred`] with the reason.
pub fn may_countersign(
    (trip, finding): (Option<&Verified>, Finding),
    manager: &Signer,
) -> Result<(), Barred> {
    let stands = matches!(finding, Finding::Intact | Finding::NotCountersigned);
    let trip = trip.filter(|trip| stands && trip.sealed().is_some());
    let trip = trip.ok_or(Barred::Finding(finding))?;
    let by_key = trip
        .sealed()
        .filter(|sealed| sealed.person.key == manager.key)
        .map(|_| Hand::Signed);
    by_key
        .or_else(|| hand_in(trip, &manager.id, &manager.name))
        .map_or(Ok(()), |hand| Err(Barred::Own(hand)))
}

/// Whether it is news that this manager has this opinion of the trip with this seal. That they agree
/// is, once more, where it answers somebody who has left; that they ask is where their question was
/// answered.
///
/// # Errors
/// [`Barred::Said`] when it is what they said last.
pub fn is_news(
    (statements, answers): (&Statements, &Answers),
    seal: &Digest,
    manager: &Id,
    opinion: Opinion,
) -> Result<(), Barred> {
    let closes = opinion == Opinion::Agreed && !left_open(statements, seal).is_empty();
    let was_answered =
        |last: &Countersign<'_>| opinion == Opinion::Asked && answers.has(&last.by.hash);
    let all = last_words(statements);
    let mut own = all
        .iter()
        .filter(|((_, _, of, by), _)| *of == seal && *by == manager)
        .flat_map(|(_, words)| words);
    match own.next_back() {
        Some(last)
            if !closes
                && !was_answered(last)
                && last.says.opinion == opinion
                && own.all(|one| one.says.opinion == opinion) =>
        {
            Err(Barred::Said(opinion, last.by.number))
        }
        _ => Ok(()),
    }
}

/// What a manager said of a trip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Opined<'a> {
    /// Who.
    pub manager: &'a Id,
    /// In which of their statements.
    pub number: u64,
    /// What.
    pub opinion: Opinion,
    /// When, by their clock.
    pub at: DateTime<FixedOffset>,
}

/// What managers said of the trip with this seal, in the order of statements.
pub fn opinions<'a>(
    statements: &'a Statements,
    seal: &'a Digest,
) -> impl Iterator<Item = Opined<'a>> {
    statements.stated().iter().filter_map(move |stated| {
        let statement = stated.statement();
        match &statement.says {
            Says::Countersigned(trip) if trip.seal == *seal => Some(Opined {
                manager: &statement.manager,
                number: statement.number,
                opinion: trip.opinion,
                at: statement.wall.moment(),
            }),
            _ => None,
        }
    })
}

/// Whether this manager is a manager no more, by the crew file in force.
pub fn has_left(statements: &Statements, manager: &Id) -> bool {
    let now = statements.roster().in_force();
    now.is_some_and(|now| {
        let signer = now.crew.signer(manager);
        !signer.is_some_and(|signer| signer.roles.contains(&Role::Manager))
    })
}

/// The questions about the trip with this seal that still stand and that only others can answer: who
/// asked has left.
pub fn left_open<'s>(statements: &'s Statements, seal: &Digest) -> Vec<Countersign<'s>> {
    let mut open = unanswered(statements);
    open.retain(|one| one.says.seal == *seal && has_left(statements, &one.by.manager));
    open
}

/// The questions that still stand: each a manager's last word on a trip, by laptop and number.
pub fn unanswered(statements: &Statements) -> Vec<Countersign<'_>> {
    let words = last_words(statements).into_values();
    words.filter_map(the_graver).filter(is_asked).collect()
}

/// What managers think of each trip that one of them looked at, by its seal: a question of one of
/// them stands whatever another says.
pub fn thought_of(statements: &Statements) -> HashMap<Digest, Opinion> {
    let mut thought = HashMap::new();
    for said in last_words(statements).into_values().filter_map(the_graver) {
        let known = thought.entry(said.says.seal).or_insert(said.says.opinion);
        if said.says.opinion == Opinion::Asked {
            *known = Opinion::Asked;
        }
    }
    thought
}

/// Laptop, number, seal and manager.
type Of<'s> = (&'s Id, u64, &'s Digest, &'s Id);

/// Each manager's last word on each trip: those that none other of theirs stands on, which are several
/// only where a manager signed apart. A question of who has left is none any more once another manager
/// agreed to the trip and knew of it.
fn last_words(statements: &Statements) -> BTreeMap<Of<'_>, Vec<Countersign<'_>>> {
    let mut last: BTreeMap<Of<'_>, Vec<&Stated>> = BTreeMap::new();
    for stated in statements.counting() {
        let Says::Countersigned(says) = &stated.statement().says else {
            continue;
        };
        let manager = &stated.statement().manager;
        let of = (&says.device, says.seq, &says.seal, manager);
        let words = last.entry(of).or_default();
        words.retain(|known| !statements.follows(stated, known));
        words.push(stated);
    }
    let said = last.into_iter().map(|(of, mut words)| {
        let left = has_left(statements, of.3);
        words.retain(|word| !(left && is_answered(statements, word)));
        let words = words.into_iter().filter_map(Countersign::of);
        (of, words.collect())
    });
    said.collect()
}

/// Whether it is a question, and another manager agreed to the trip in a statement that stands on it.
fn is_answered(statements: &Statements, word: &Stated) -> bool {
    let Some(asked) = Countersign::of(word).filter(is_asked) else {
        return false;
    };
    let of = |says: &Countersigned| (says.device.clone(), says.seq, says.seal);
    let answers = |one: &Stated| {
        Countersign::of(one).is_some_and(|said| {
            said.says.opinion == Opinion::Agreed
                && of(said.says) == of(asked.says)
                && said.by.manager != asked.by.manager
                && statements.behind(&one.hash()).contains(&word.hash())
        })
    };
    statements.counting().any(answers)
}

/// Of last words, a question before anything else: nobody who asked has seen the answer.
fn the_graver(mut words: Vec<Countersign<'_>>) -> Option<Countersign<'_>> {
    match words.iter().position(is_asked) {
        Some(asked) => Some(words.swap_remove(asked)),
        None => words.pop(),
    }
}

fn is_asked(said: &Countersign<'_>) -> bool {
    said.says.opinion == Opinion::Asked
}

impl fmt::Display for Barred {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Finding(Finding::Unsealed) => write!(
                f,
                "nobody has signed for it yet. Have it signed on the laptop it began on, then \
                 countersign it"
            ),
            Self::Finding(finding) => write!(
                f,
                "verification finds it {finding}, and a countersignature states that it was \
                 looked at as it was sealed. Find out what happened to it first"
            ),
            Self::Key(fault) => write!(f, "{fault}. Nobody agrees to what such a key signed"),
            Self::Own(hand) => write!(
                f,
                "who countersigns it {hand}, and nobody countersigns their own work. Another \
                 manager does"
            ),
            Self::CouldBe(named, manager) => write!(
                f,
                "“{named}”, who is named in it, could be {manager}, and nobody countersigns their \
                 own work. Another manager does"
            ),
            Self::Said(opinion, number) => write!(
                f,
                "this manager has {} already, in statement {number}, and nothing new was said \
                 since. {}",
                told(*opinion),
                instead(*opinion)
            ),
        }
    }
}

/// What is left to whoever said this already.
const fn instead(opinion: Opinion) -> &'static str {
    match opinion {
        Opinion::Agreed => {
            "Put a question instead, if there is one, or another manager agrees to it"
        }
        Opinion::Asked => "Wait for the answer, agree to it instead, or another manager asks",
    }
}

/// What was said, behind “has”.
const fn told(opinion: Opinion) -> &'static str {
    match opinion {
        Opinion::Agreed => "agreed to it",
        Opinion::Asked => "asked about it",
    }
}
