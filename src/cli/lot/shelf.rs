//! A logbook, opened to be looked at.

use crate::cli::clerk::{NotInForce, Trouble, in_force, mode_of};
use crate::cli::lot::Stopped;
use crate::record::{Crew, Finding, Mode, Statements};
use crate::store::{Disk, Local, Logbook, StatementText};
use std::path::{Path, PathBuf};

/// A logbook, opened to be looked at.
#[derive(Clone)]
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
    pub(in crate::cli) fn open(root: &Path) -> Result<Self, Stopped> {
        let logbook = Logbook::open(Local, root)?;
        let crew = in_force::crew(&logbook);
        let (mut texts, mut empty) = (Vec::new(), Vec::new());
        for folder in logbook.statements()? {
            // One that cannot be read hides none of the others, and no trip.
            match logbook.read_statement(&folder) {
                Ok(Some(text)) => texts.push((folder.path, text)),
                Ok(None) if Local.exists(&folder.signature()).unwrap_or(false) => {
                    let place = folder.path.display();
                    let what = format!(
                        "{place} has a signature and no statement: that has not arrived, is lost, \
                         or a crash came before it. Merge again from where it was signed; what a \
                         crash left is moved aside when that manager signs next"
                    );
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

    /// The crew in force by what managers stated; where nothing is, that of its crew file, if it can
    /// be read.
    pub(in crate::cli) fn crew_by<'a>(&'a self, statements: &'a Statements) -> Option<&'a Crew> {
        let in_force = statements.roster().in_force();
        let own = self.crew.as_ref().ok();
        in_force.map(|now| &now.crew).or(own)
    }

    /// What managers stated here, by itself.
    pub(in crate::cli) fn statements(&self) -> Statements {
        let files: Vec<_> = self.texts.iter().map(|(_, text)| text.files()).collect();
        Statements::read(&files, self.mode(&[]), &[])
    }

    /// What is wrong with its crew file and its statements, each as verification finds it.
    pub(in crate::cli) fn faults(&self, statements: &Statements) -> Vec<(Finding, String)> {
        let faults = statements.faults().iter();
        let stated = faults.map(|fault| (fault.finding(), fault.to_string()));
        let held = self.held_to(statements).into_iter();
        let empty = self.empty.iter().cloned();
        stated.chain(held).chain(empty).collect()
    }

    /// How its crew file stands to the roster, where it is not the one in force. Where two changes
    /// of the crew wait to be settled, that is told instead.
    pub(super) fn held_to(&self, statements: &Statements) -> Option<(Finding, String)> {
        statements.roster().in_force()?;
        // What cannot be read at all is no crew file either.
        let file = in_force::file(&self.logbook).unwrap_or_default();
        let not = NotInForce::of(&self.logbook, file.as_deref(), statements)?;
        Some((not.finding()?, not.to_string()))
    }
}
