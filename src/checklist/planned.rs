//! A step as it stands for one rig today, and its key.

use crate::checklist::{Ask, ReadingAsk, SightingAsk, Step, Test};
use crate::figures::{Item, NotKnown, Today};
use crate::rules::{Bound, Limit};
use crate::units::Quantity;
use std::fmt;

/// A step as it stands for this rig and, where repeated, one item.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedStep {
    /// Its key in records.
    pub key: StepKey,
    /// The section it belongs to, by index.
    pub section: usize,
    /// The step as written.
    pub step: Step,
    /// The item it is about.
    pub item: Option<Item>,
    /// What it asks, with limits as numbers.
    pub ask: PlannedAsk,
}

/// What a planned step asks.
#[derive(Clone, Debug, PartialEq)]
pub enum PlannedAsk {
    /// A value typed with its unit.
    Reading {
        /// The ask as written.
        ask: ReadingAsk,
        /// The value aimed at.
        target: Option<Quantity>,
        /// The limits for this rig, as far as they can be drawn today.
        limits: Vec<Limit>,
        /// Why the target or a limit cannot be drawn yet; nothing is judged before all can.
        open: Vec<NotKnown>,
    },
    /// A state chosen among named ones.
    Sighting(SightingAsk),
    /// A state chosen by another person.
    Independent(SightingAsk),
}

/// Names a step in a walk: `tire-cold` or `tire-cold/left-front`.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct StepKey(String);

impl StepKey {
    /// The key of a step, for an item where it is repeated.
    pub fn of(step: &str, item: Option<&Item>) -> Self {
        Self(match item {
            Some(item) => format!("{step}/{}", item.id),
            None => step.to_owned(),
        })
    }

    /// The key a record gives by its text.
    pub fn named(text: &str) -> Self {
        Self(text.to_owned())
    }

    /// The text used in records.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// The step's id, without the item.
    pub fn step(&self) -> &str {
        self.0
            .split_once('/')
            .map_or(self.0.as_str(), |(step, _)| step)
    }
}

impl fmt::Display for StepKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl PlannedStep {
    /// The same as it stands with what is known now.
    pub(crate) fn on(&self, today: &Today<'_>) -> Self {
        Self {
            ask: PlannedAsk::draw(&self.step.ask, today, self.item.as_ref()),
            ..self.clone()
        }
    }

    /// Whether another person reads it, who does not see the first reading.
    pub fn is_second_reading(&self) -> bool {
        matches!(&self.step.ask, Ask::Reading(ask) if ask.second)
    }

    /// Whether what it asks moves with something read on the walk.
    pub(crate) fn rests_on_facts(&self) -> bool {
        match &self.step.ask {
            Ask::Reading(ask) => ask.bounds().any(Bound::rests_on_facts),
            Ask::Sighting(_) | Ask::Independent(_) => false,
        }
    }

    /// The earlier answer it stands by, in words; nothing where it always stands.
    pub fn when_answered(&self) -> Option<String> {
        match &self.step.when.as_ref()?.test {
            Test::Answered { step, state } => Some(format!("{step} was answered {state}")),
            Test::Rig { .. } | Test::Carried { .. } => None,
        }
    }

    /// The name on screens: `Tire, left front`.
    pub fn name(&self) -> String {
        match &self.item {
            Some(item) => format!("{}, {}", self.step.name, item.name()),
            None => self.step.name.clone(),
        }
    }
}

impl PlannedAsk {
    /// What is asked, with every limit that is known today a number.
    pub(crate) fn draw(ask: &Ask, today: &Today<'_>, item: Option<&Item>) -> Self {
        let reading = match ask {
            Ask::Sighting(sighting) => return Self::Sighting(sighting.clone()),
            Ask::Independent(sighting) => return Self::Independent(sighting.clone()),
            Ask::Reading(reading) => reading,
        };
        let mut open = Vec::new();
        let target = reading.target.as_ref().map(|bound| bound.on(today, item));
        let target = target.and_then(|drawn| drawn.map_err(|missing| open.push(missing)).ok());
        let mut limits = Vec::new();
        for rung in &reading.limits {
            match rung.on(today, item) {
                Ok(limit) => limits.push(limit),
                Err(missing) => open.push(missing),
            }
        }
        Self::Reading {
            ask: reading.clone(),
            target: target.map(|drawn| drawn.at),
            limits,
            open,
        }
    }

    /// Why the target or a limit cannot be drawn yet.
    pub fn open(&self) -> &[NotKnown] {
        match self {
            Self::Reading { open, .. } => open,
            Self::Sighting(_) | Self::Independent(_) => &[],
        }
    }
}
