//! A fault in a file: where it is, what is wrong, and how to mend it.

use crate::document::{Place, Spot};
use std::cell::RefCell;
use std::fmt;

/// One thing wrong in a file. Sorted, faults stand in the file's order.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// Where it is.
    pub place: Place,
    /// The keys that lead there, such as `steps[2].id`; empty for the file as a whole.
    pub path: String,
    /// What is wrong.
    pub what: String,
    /// How to mend it.
    pub fix: String,
    /// Whether something is not there yet, rather than wrong.
    pub lacking: bool,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: ", self.place)?;
        if !self.path.is_empty() {
            write!(f, "{}: ", self.path)?;
        }
        write!(f, "{}; {}", self.what, self.fix)
    }
}

/// Proof that a fault has been told.
///
/// Only telling one makes it, so a reader cannot give up in silence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Told {
    _made_here: (),
}

/// A fault whose place is still to be looked up.
#[derive(Clone, Debug)]
pub(crate) struct Loose {
    pub(crate) spot: Spot,
    pub(crate) what: String,
    pub(crate) fix: String,
    pub(crate) lacking: bool,
}

/// The faults told so far. Shared by all nodes of one reading, so that each can tell.
#[derive(Debug)]
pub(crate) struct Tally(RefCell<Vec<Loose>>);

impl Tally {
    pub(crate) fn new(faults: Vec<Loose>) -> Self {
        Self(RefCell::new(faults))
    }

    pub(crate) fn tell(&self, loose: Loose) -> Told {
        self.0.borrow_mut().push(loose);
        Told { _made_here: () }
    }

    pub(crate) fn into_faults(self) -> Vec<Loose> {
        self.0.into_inner()
    }
}

/// Characters of a value repeated in a fault.
const SHOWN: usize = 40;

/// A value as a fault repeats it: in quotes, cut short, nothing in it that could move a cursor.
pub(crate) fn shown(text: &str) -> String {
    format!("“{}”", bare(text))
}

/// As [`shown`], without the quotes.
pub(crate) fn bare(text: &str) -> String {
    let mut letters = text
        .chars()
        .map(|letter| if hides(letter) { '\u{fffd}' } else { letter });
    let mut short: String = letters.by_ref().take(SHOWN).collect();
    if letters.next().is_some() {
        short.push('…');
    }
    short
}

/// Whether a character moves the cursor, turns the reading direction or cannot be seen: it could
/// make a line on the screen read other than it is.
pub(crate) fn hides(letter: char) -> bool {
    letter.is_control()
        || matches!(letter,
            '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}' | '\u{fffe}' | '\u{ffff}')
}
