//! This rig, today: what is known when a figure is asked for.

use crate::figures::Item;
use crate::rig::Rig;
use crate::units::{Dimension, Quantity};
use std::collections::BTreeMap;

/// Something read on the walk that figures depend on, and that no rig file can know.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Fact {
    /// Air temperature in the shade.
    AirTemperature,
    /// Height of the front frame mark above level ground.
    FrontMark,
    /// Humidity of the air.
    Humidity,
    /// The truck's odometer.
    Odometer,
    /// Weight of the loaded trailer, tongue and axles together, from a scale.
    TrailerWeight,
    /// Weight on the ball, from a scale.
    TongueWeight,
}

impl Fact {
    /// Every fact with the word used in checklists.
    pub const WORDS: [(&'static str, Self); 6] = [
        ("air-temperature", Self::AirTemperature),
        ("front-mark", Self::FrontMark),
        ("humidity", Self::Humidity),
        ("odometer", Self::Odometer),
        ("trailer-weight", Self::TrailerWeight),
        ("tongue-weight", Self::TongueWeight),
    ];

    /// The word used in checklists.
    pub fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, fact)| *fact == self)
            .map_or("", |(word, _)| word)
    }

    /// What it measures.
    pub fn dimension(self) -> Dimension {
        match self {
            Self::AirTemperature => Dimension::Temperature,
            Self::Humidity => Dimension::Share,
            Self::FrontMark | Self::Odometer => Dimension::Length,
            Self::TrailerWeight | Self::TongueWeight => Dimension::Mass,
        }
    }
}

/// What was read so far: the facts, and the readings of each step by its key.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Facts {
    told: BTreeMap<Fact, Known>,
    read: BTreeMap<String, Quantity>,
}

/// A fact as it was read, and the values it may stand for, given its instrument's error.
#[derive(Clone, Debug, PartialEq)]
struct Known {
    read: Quantity,
    low: Quantity,
    high: Quantity,
}

static NOTHING: Facts = Facts {
    told: BTreeMap::new(),
    read: BTreeMap::new(),
};

impl Facts {
    /// The same with one more; a later reading of the same takes its place.
    #[must_use]
    pub fn with(self, fact: Fact, read: Quantity) -> Self {
        let (low, high) = (read.clone(), read.clone());
        self.between(fact, read, low, high)
    }

    /// The same with one more that is known to lie from `low` to `high`.
    #[must_use]
    pub fn between(mut self, fact: Fact, read: Quantity, low: Quantity, high: Quantity) -> Self {
        self.told.insert(fact, Known { read, low, high });
        self
    }

    /// What was read of it.
    pub fn get(&self, fact: Fact) -> Option<&Quantity> {
        self.told.get(&fact).map(|known| &known.read)
    }

    /// The least it may be.
    pub fn least(&self, fact: Fact) -> Option<&Quantity> {
        self.told.get(&fact).map(|known| &known.low)
    }

    /// The most it may be.
    pub fn most(&self, fact: Fact) -> Option<&Quantity> {
        self.told.get(&fact).map(|known| &known.high)
    }

    /// The same with what a step read, by its key: `chocks-in`, or `hub/left-front` for one part.
    #[must_use]
    pub fn and_read(mut self, step: &str, read: Quantity) -> Self {
        self.read.insert(step.to_owned(), read);
        self
    }

    /// What the step with this id read, for this part where it is repeated.
    pub fn reading(&self, step: &str, item: Option<&Item>) -> Option<&Quantity> {
        let own = item.and_then(|item| self.read.get(&format!("{step}/{}", item.id)));
        own.or_else(|| self.read.get(step))
    }

    /// What a repeated step read on the other parts.
    pub fn siblings(&self, step: &str, item: Option<&Item>) -> Vec<&Quantity> {
        let others = self.read.iter().filter(|(key, _)| {
            let part = key
                .strip_prefix(step)
                .and_then(|rest| rest.strip_prefix('/'));
            part.is_some_and(|part| item.is_none_or(|item| item.id != part))
        });
        others.map(|(_, read)| read).collect()
    }
}

/// A rig and the facts of the day.
#[derive(Clone, Copy, Debug)]
pub struct Today<'r> {
    /// The rig.
    pub rig: &'r Rig,
    /// What was read today.
    pub facts: &'r Facts,
}

impl<'r> From<&'r Rig> for Today<'r> {
    /// A rig of which nothing was read yet.
    fn from(rig: &'r Rig) -> Self {
        Self {
            rig,
            facts: &NOTHING,
        }
    }
}
