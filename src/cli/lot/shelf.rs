//! A logbook, opened to be looked at.

use crate::cli::clerk::{Trouble, mode_of};
use crate::cli::lot::Stopped;
use crate::record::{Crew, Finding, Mode, Statements};
use crate::store::{Disk, Local, Logbook, StatementText};
use std::path::{Path, PathBuf};

/// A logbook, opened to be looked at.
pub(in crate::cli) struct Shelf {
    pub(super) logbook: Logbook<Local>,
    /// Its crew file, or why it cannot be used.
    pub(super) crew: Result<Crew, Trouble>,
    /// Its statements, each with its folder.
    pub(super) texts: Vec<(PathBuf, StatementText)>,
    /// Folders of statements that hold none that can be read.
    pub(super) empty: Vec<(Finding, String)>,
}

impl Shelf {
    pub(super) fn open(root: &Path) -> Result<Self, Stopped> {
        let logbook = Logbook::open(Local, root)?;
        let bytes = logbook.read(&logbook.crew());
        let crew = bytes
            .map_err(Trouble::from)
            .and_then(|bytes| Ok(Crew::read(&bytes)?));
        let (mut texts, mut empty) = (Vec::new(), Vec::new());
        for folder in logbook.statements()? {
            // One that cannot be read hides none of the others, and no trip.
            match logbook.read_statement(&folder) {
                Ok(Some(text)) => texts.push((folder.path, text)),
                Ok(None) if Local.exists(&folder.signature()).unwrap_or(false) => {
                    let place = folder.path.display();
                    let what = format!("{place} has a signature and no statement");
                    empty.push((Finding::Gap, what));
                }
                Ok(None) => {}
                Err(fault) => empty.push((Finding::Unreadable, fault.to_string())),
            }
        }
        let shelf = Self {
            logbook,
            crew,
            texts,
            empty,
        };
        // Without a crew file nothing can be told, unless managers stated one.
        match (&shelf.crew, shelf.stated_crew()) {
            (Err(trouble), None) => Err(Stopped::from(trouble.clone())),
            _ => Ok(shelf),
        }
    }

    /// What it is for: its crew signs in the namespaces of one mode.
    pub(super) fn mode(&self, given: &[Crew]) -> Mode {
        let own = self.crew.as_ref().ok().cloned();
        let crew = given
            .first()
            .cloned()
            .or(own)
            .or_else(|| self.stated_crew());
        crew.as_ref().map_or(Mode::Real, mode_of)
    }

    fn stated_crew(&self) -> Option<Crew> {
        let mut crews = self.texts.iter().filter_map(|(_, text)| text.crew.as_ref());
        crews.find_map(|bytes| Crew::read(bytes).ok())
    }

    /// How its crew file stands to the roster.
    pub(super) fn held_to(&self, statements: &Statements) -> Option<(Finding, String)> {
        let force = statements.roster().in_force()?;
        let place = self.logbook.crew();
        let number = force.change.number;
        let there = statements.find(&force.statement)?.statement();
        let there = format!(
            "crew file {number} is in force, beside statement {} of {}",
            there.number, there.name
        );
        let crew = match &self.crew {
            Ok(crew) => crew,
            Err(trouble) => {
                let finding = Finding::Altered;
                return Some((finding, format!("{}: {trouble}; {there}", place.display())));
            }
        };
        if crew.revision() == force.change.file {
            return None;
        }
        match statements.roster().crew(&crew.revision()) {
            // In its place, or in that of another branch of a fork that was settled.
            Some(own) if statements.behind(&force.statement).contains(&own.statement) => Some((
                Finding::Gap,
                format!(
                    "{} is crew file {}, and {there}; hames logbook merge {}, or of any copy of \
                     it, puts that in its place",
                    place.display(),
                    own.change.number,
                    self.logbook.root().display()
                ),
            )),
            Some(_) => None,
            None => Some((
                Finding::Altered,
                format!(
                    "{} is in no statement: it was changed by hand, or the statement that puts it in force is not here; {there}",
                    place.display()
                ),
            )),
        }
    }
}
