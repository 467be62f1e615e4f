//! The trips of a logbook at a glance, gathered as they are read.

use crate::cli::clerk::TripRead;
use crate::cli::logbook::known::Known;
use crate::cli::lot::Section;
use crate::logbook::thought_of;
use crate::record::{Digest, Finding, Mode, Opinion, Statements};
use crate::review::Glance;
use crate::store::TripFolder;
use std::collections::{HashMap, HashSet};
use std::path::PathBuf;

/// What was gathered so far.
pub(in crate::cli::logbook) struct Glances {
    thought: HashMap<Digest, Opinion>,
    seen: HashMap<PathBuf, Glance>,
    modes: HashSet<Mode>,
}

impl Looked {
    /// With how much there is to ask about each.
    pub(in crate::cli::logbook) fn beside(mut self, known: &Known) -> Self {
        for (glance, _) in &mut self.glances {
            glance.doubts = known.doubts(&glance.trip);
        }
        self
    }
}

/// Everything there is to look over.
pub(in crate::cli::logbook) struct Looked {
    /// The trips that can be walked again, in the order of laptops and numbers, each with its
    /// folder.
    pub(in crate::cli::logbook) glances: Vec<(Glance, PathBuf)>,
    /// The others: their folders, and what verification finds.
    pub(in crate::cli::logbook) closed: Vec<(PathBuf, Finding)>,
    /// Demo or drill, where any of the trips is one.
    pub(in crate::cli::logbook) mode: Mode,
}

impl Glances {
    /// None yet, beside what managers stated.
    pub(in crate::cli::logbook) fn beside(statements: &Statements) -> Self {
        Self {
            thought: thought_of(statements),
            seen: HashMap::new(),
            modes: HashSet::new(),
        }
    }

    /// A trip by itself; nothing of one that cannot be walked again.
    fn of(&self, read: &TripRead) -> Option<Glance> {
        let (trip, walk) = (read.trip()?, read.walk().ok()?);
        let sealed = trip.sealed();
        let said = sealed.and_then(|sealed| self.thought.get(&sealed.hash).copied());
        Some(Glance::of((trip, &walk), read.finding(), said))
    }

    /// Takes the next trip in; at a glance, where it can be walked again.
    pub(in crate::cli::logbook) fn take(
        &mut self,
        folder: &TripFolder,
        read: &TripRead,
    ) -> Option<&Glance> {
        let (trip, glance) = (read.trip()?, self.of(read)?);
        self.modes.insert(trip.begun().mode);
        let kept = self.seen.entry(folder.path.clone());
        Some(kept.insert_entry(glance).into_mut())
    }

    /// Demo or drill, where any of the trips is one.
    pub(in crate::cli::logbook) fn mode(&self) -> Mode {
        let mut unreal = [Mode::Demo, Mode::Drill].into_iter();
        let unreal = unreal.find(|mode| self.modes.contains(mode));
        unreal.unwrap_or(Mode::Real)
    }

    /// What they come to, with what the whole logbook says of each.
    pub(in crate::cli::logbook) fn settled(mut self, section: &Section<'_>) -> Looked {
        let mut looked = Looked {
            glances: Vec::new(),
            closed: Vec::new(),
            mode: self.mode(),
        };
        for line in &section.lines {
            let finding = line.finding(&section.judged);
            let path = &line.folder.path;
            match self.seen.remove(path) {
                Some(glance) => {
                    let glance = Glance { finding, ..glance };
                    looked.glances.push((glance, path.clone()));
                }
                None => looked.closed.push((path.clone(), finding)),
            }
        }
        looked
    }
}
