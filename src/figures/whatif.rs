//! A rig changed in thought: what could be otherwise, and what would move.
//!
//! Nothing here is written anywhere. Every change makes another [`Scenario`]; the one described by
//! the rig file stays beside it to compare with.

mod dial;
mod picture;
mod places;
mod step;
#[cfg(test)]
mod tests;

pub use dial::{Dial, Scenario};
pub use picture::{Line, Move, Picture};
pub use step::Toward;

use crate::figures::{Facts, Settles, settles};
use crate::rig::Rig;
use crate::units::{NotAQuantity, Quantity, parse_quantity};
use std::fmt;

/// A rig as described, and the same as changed in thought.
#[derive(Clone, Debug, PartialEq)]
pub struct WhatIf {
    before: Scenario,
    now: Scenario,
}

/// Why a change is refused.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotTurned {
    /// What was typed is no such quantity.
    NotAQuantity(NotAQuantity),
    /// It lies outside what the part can be.
    Outside {
        /// What was to be changed.
        what: String,
        /// The least it can be.
        low: Quantity,
        /// The most it can be.
        high: Quantity,
    },
    /// It is chosen among a few, not typed.
    Chosen(String),
    /// It is not known yet, so that there is nothing to step from.
    NotKnown(String),
}

impl WhatIf {
    /// Nothing changed yet.
    pub fn new(rig: Rig, facts: Facts) -> Self {
        let before = Scenario { rig, facts };
        Self {
            now: before.clone(),
            before,
        }
    }

    /// As described.
    pub fn before(&self) -> &Scenario {
        &self.before
    }

    /// As changed.
    pub fn now(&self) -> &Scenario {
        &self.now
    }

    /// Everything of this rig and this day that can be changed.
    pub fn dials(&self) -> Vec<Dial> {
        self.before.dials()
    }

    /// Whether this one is changed.
    pub fn is_changed(&self, dial: Dial) -> bool {
        self.before.shown(dial) != self.now.shown(dial)
    }

    /// How many are changed.
    pub fn changes(&self) -> usize {
        let changed = |dial: &Dial| self.is_changed(*dial);
        self.dials().into_iter().filter(changed).count()
    }

    /// Whether a swing of the trailer dies out sooner or later than as described; nothing where
    /// the rig is as described. A sentence where it cannot be told.
    pub fn settles(&self) -> Option<Result<Settles, String>> {
        let (before, now) = (&self.before.rig, &self.now.rig);
        (before != now).then(|| settles(before, now))
    }

    /// One step less or more, or the next choice.
    ///
    /// # Errors
    /// [`NotTurned`] at the end of what the part can be.
    pub fn step(&mut self, dial: Dial, toward: Toward) -> Result<(), NotTurned> {
        self.now = match dial {
            // Bars that are off come back as they are described.
            Dial::SpringBars if self.is_changed(dial) => self.now.as_in(dial, &self.before),
            Dial::SpringBars => self.now.without_bars(),
            _ => self.now.stepped(dial, toward)?,
        };
        self.settle(dial);
        Ok(())
    }

    /// The value that was typed.
    ///
    /// # Errors
    /// [`NotTurned`] when it is none, or lies outside what the part can be.
    pub fn type_in(&mut self, dial: Dial, text: &str) -> Result<(), NotTurned> {
        let Some(dimension) = dial.dimension() else {
            return Err(NotTurned::Chosen(self.now.label(dial)));
        };
        let value = parse_quantity(text, dimension).map_err(NotTurned::NotAQuantity)?;
        self.now = self.now.set(dial, value)?;
        self.settle(dial);
        Ok(())
    }

    /// As described again, this one alone.
    pub fn put_back(&mut self, dial: Dial) {
        self.now = self.now.as_in(dial, &self.before);
    }

    /// As described again, all of it.
    pub fn put_all_back(&mut self) {
        self.now = self.before.clone();
    }

    /// A value that came back to what is described has its evidence again, too.
    fn settle(&mut self, dial: Dial) {
        if !self.is_changed(dial) {
            self.put_back(dial);
        }
    }
}

impl fmt::Display for NotTurned {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotAQuantity(not) => not.fmt(f),
            Self::Outside { what, low, high } => {
                write!(f, "{what} can be {low} to {high} here, and no other.")
            }
            Self::Chosen(what) => {
                write!(f, "{what} is chosen with the left and right arrows.")
            }
            Self::NotKnown(what) => write!(
                f,
                "{what} is not known yet, so there is nothing to step from. Type it: Enter."
            ),
        }
    }
}
