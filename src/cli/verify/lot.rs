//! What is judged together: logbooks of one mode, or one trip, with what managers stated there.

use crate::cli::clerk::{Plans, TripRead, Trouble, Trust, mode_of, read_trip};
use crate::cli::verify::Stopped;
use crate::cli::verify::copies::{self, Stray};
use crate::cli::verify::line::Line;
use crate::cli::verify::section::Section;
use crate::logbook::order::{Order, OrderFault};
use crate::record::{Crew, Finding, Id, Mode, Statements};
use crate::store::{Disk, Local, Logbook, StatementText, StoreFault, TripFolder};
use std::path::{self, Path, PathBuf};

/// A logbook, opened to be looked at.
pub(super) struct Shelf {
    pub(super) logbook: Logbook<Local>,
    /// Its crew file, or why it cannot be used.
    crew: Result<Crew, Trouble>,
    /// Its statements, each with its folder.
    texts: Vec<(PathBuf, StatementText)>,
    /// Folders of statements that hold none that can be read.
    empty: Vec<(Finding, String)>,
}

/// What is judged together.
pub(super) struct Lot {
    shelves: Vec<Shelf>,
    /// The one trip that is asked for, if it is one.
    only: Option<PathBuf>,
    trust: Trust,
    pub(super) statements: Statements,
    /// The crew files judged by.
    pub(super) crews: Vec<Crew>,
    /// Faults of the logbook that no trip and no statement has.
    pub(super) odd: Vec<(Finding, String)>,
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
    fn held_to(&self, statements: &Statements) -> Option<(Finding, String)> {
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
            Some(own) if own.change.number < number => Some((
                Finding::Gap,
                format!(
                    "{} is crew file {}, and {there}; put that in its place",
                    place.display(),
                    own.change.number
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

impl Lot {
    /// Whole logbooks, as if they were one.
    pub(super) fn of_logbooks(mode: Mode, shelves: Vec<Shelf>, given: &[Crew]) -> Self {
        let texts = shelves.iter().flat_map(|shelf| &shelf.texts);
        let files: Vec<_> = texts.map(|(_, text)| text.files()).collect();
        let mut statements = Statements::read(&files, mode, given);
        let held = shelves
            .iter()
            .filter_map(|shelf| shelf.held_to(&statements));
        let empty = shelves.iter().flat_map(|shelf| shelf.empty.iter().cloned());
        let mut odd: Vec<_> = held.chain(empty).collect();
        // A verifier who names a crew file trusts the roster that leads through it, and no other:
        // then nobody's word counts for anything.
        let leads = |crew: &Crew| statements.roster().crew(&crew.revision()).is_some();
        if !given.is_empty() && !given.iter().any(leads) {
            let faults = statements.faults().iter();
            odd = faults
                .map(|fault| (fault.finding(), fault.to_string()))
                .collect();
            statements = Statements::default();
        }
        let mut crews = given.to_vec();
        if crews.is_empty() {
            crews = shelves
                .iter()
                .filter_map(|shelf| shelf.crew.as_ref().ok().cloned())
                .collect();
        }
        let roster = statements.roster();
        let trust = Trust::with_roster(&crews, roster);
        crews.extend(roster.in_force().map(|force| force.crew.clone()));
        crews.dedup();
        Self {
            shelves,
            only: None,
            trust,
            statements,
            crews,
            odd,
        }
    }

    /// One trip, by the crew given, else by that of the logbook it lies in.
    pub(super) fn of_trip(trip: &Path, given: &[Crew]) -> Self {
        let whole = path::absolute(trip).unwrap_or_else(|_| trip.to_owned());
        // LOGBOOK/dev/DEVICE/t/TRIP
        let above = whole
            .ancestors()
            .nth(4)
            .and_then(|root| Shelf::open(root).ok());
        let mode = above.as_ref().map_or(Mode::Real, |shelf| shelf.mode(given));
        let mut lot = Self::of_logbooks(mode, above.into_iter().collect(), given);
        lot.only = Some(trip.to_owned());
        lot.odd.clear();
        lot
    }

    /// The place of a statement that cannot be told by its number.
    pub(super) fn place(&self, at: usize) -> Option<&Path> {
        let mut texts = self.shelves.iter().flat_map(|shelf| &shelf.texts);
        texts.nth(at).map(|(path, _)| path.as_path())
    }

    /// Reads every trip, one after the other.
    pub(super) fn judge(&self, plans: &mut Plans) -> Result<Section<'_>, StoreFault> {
        let mut order = Order::new(&self.statements);
        let (mut lines, mut strays) = (Vec::new(), Vec::new());
        let trips = self.trips()?;
        for (device, folder) in &trips {
            let read = read_trip(&Local, folder, &self.trust, plans);
            let read = read.map(|read| read.in_its_place(device));
            if let Some(trip) = read.as_ref().ok().and_then(TripRead::trip) {
                order.take(trip);
            }
            if self.only.is_none() {
                strays.extend(copies::beside(folder, read.as_ref().ok()));
                lines.push(Line::of(folder, read));
            }
        }
        if let Some(path) = &self.only {
            let folder = alone(path);
            let read = read_trip(&Local, &folder, &self.trust, plans);
            strays.extend(copies::beside(&folder, read.as_ref().ok()));
            if let Some(trip) = read.as_ref().ok().and_then(TripRead::trip) {
                order.take(trip);
            }
            lines.push(Line::of(&folder, read));
        } else {
            for shelf in &self.shelves {
                strays.extend(self.astray(shelf, &mut order, plans)?);
            }
        }
        let mut judged = order.judge();
        if self.only.is_some() {
            let told = |fault: (&Id, (u64, u64))| lines.iter().any(|line| line.is_told_by(fault));
            // Beside a trip that was sent alone nobody looks for statements.
            let sent = self.shelves.is_empty();
            let looked_for =
                |fault: &OrderFault| !(sent && matches!(fault, OrderFault::Statement { .. }));
            judged
                .faults
                .retain(|fault| told((fault.device(), fault.numbers())) && looked_for(fault));
            judged.notes.clear();
        }
        Ok(Section {
            lot: self,
            lines,
            judged,
            strays,
            whole: self.only.is_none(),
        })
    }

    /// The trips to be read: device by device in rising number, whichever logbook they lie in. For
    /// the sake of one trip, those of its device.
    fn trips(&self) -> Result<Vec<(Id, TripFolder)>, StoreFault> {
        let mut trips = Vec::new();
        let own = self.only.as_deref().map(|only| {
            let whole = path::absolute(only).unwrap_or_else(|_| only.to_owned());
            whole.ancestors().nth(2).map(Path::to_owned)
        });
        for shelf in &self.shelves {
            for device in shelf.logbook.devices()? {
                for trip in shelf.logbook.trips(&device)?.trips {
                    let wanted = own.as_ref().is_none_or(|own| {
                        let above = path::absolute(&trip.path).ok();
                        let above = above.as_deref().and_then(|path| path.ancestors().nth(2));
                        above == own.as_deref()
                    });
                    let logbook = &shelf.logbook;
                    if wanted && (logbook.is_sealed(&trip)? || logbook.has_begun(&trip)?) {
                        trips.push((device.clone(), trip));
                    }
                }
            }
        }
        trips.sort_by(|one, next| (&one.0, one.1.seq).cmp(&(&next.0, next.1.seq)));
        Ok(trips)
    }

    /// What lies under no name of ours in a logbook.
    fn astray(
        &self,
        kept: &Shelf,
        order: &mut Order<'_>,
        plans: &mut Plans,
    ) -> Result<Vec<Stray>, StoreFault> {
        let logbook = &kept.logbook;
        let names = logbook.beside_devices()?.into_iter();
        let mut strays: Vec<Stray> = names.map(|name| Stray::foreign(&name, "device")).collect();
        for device in logbook.devices()? {
            let found = logbook.trips(&device)?;
            for trip in &found.trips {
                if !logbook.is_sealed(trip)? && !logbook.has_begun(trip)? {
                    strays.push(Stray::never_begun(&device, trip));
                }
            }
            for name in found.strays {
                let folder = alone(&logbook.trip_folders(&device).join(&name));
                let read = read_trip(&Local, &folder, &self.trust, plans);
                strays.push(Stray::of_folder(&device, &name, read, order));
            }
        }
        Ok(strays)
    }
}

/// A folder that is taken for a trip whatever its name is.
fn alone(path: &Path) -> TripFolder {
    TripFolder {
        seq: 0,
        path: path.to_owned(),
    }
}
