//! What is judged together: logbooks of one mode, or one trip, with what managers stated there.
//!
//! Whoever asks after one trip gets what the whole logbook gives it: verification, receipts and
//! tables all come here.

mod archive;
mod copies;
mod drills;
mod found;
mod judging;
mod line;
mod section;
mod shelf;

pub(in crate::cli) use copies::Stray;
pub(in crate::cli) use found::{Found, Placed, Whole, whole, whole_of_drills};
pub(in crate::cli) use judging::Judging;
pub(in crate::cli) use line::Line;
pub(in crate::cli) use section::Section;
pub(in crate::cli) use shelf::Shelf;

use crate::cli::Status;
use crate::cli::clerk::{Plans, TripRead, Trouble, Trust, read_trip};
use crate::record::{Crew, Finding, Id, Mode, Statements};
use crate::store::{Disk, Local, StoreFault, TripFolder};
use chrono::{DateTime, FixedOffset};
use std::path::{self, Path, PathBuf};

/// Why nothing can be judged: the status to end with, and a sentence.
pub(in crate::cli) struct Stopped(pub(in crate::cli) Status, pub(in crate::cli) String);

/// What is judged together.
pub(in crate::cli) struct Lot {
    shelves: Vec<Shelf>,
    /// The one trip that is asked for, if it is one.
    only: Option<PathBuf>,
    trust: Trust,
    pub(in crate::cli) statements: Statements,
    /// The crew files judged by.
    pub(in crate::cli) crews: Vec<Crew>,
    /// Faults of the logbook that no trip and no statement has.
    odd: Vec<(Finding, String)>,
    /// Whether its trips are drills.
    pub(in crate::cli) drills: bool,
}

/// What lies below these paths: the logbooks of each mode together, and each trip by itself.
pub(in crate::cli) fn lots(paths: &[PathBuf], given: &[Crew]) -> Result<Vec<Lot>, Stopped> {
    let (mut lots, shelves) = below(once(paths), given)?;
    lots.extend(together(shelves, given));
    Ok(lots)
}

/// The same, and behind it the drills that lie there.
pub(in crate::cli) fn lots_and_drills(
    paths: &[PathBuf],
    given: &[Crew],
) -> Result<Vec<Lot>, Stopped> {
    let (mut kept, mut of_drills, mut others) = (Vec::new(), Vec::new(), Vec::new());
    for path in once(paths) {
        if let Some(root) = drills::logbook_of(path) {
            kept.push(Shelf::open(&root)?);
        } else if drills::logbook_above(path).is_some() {
            of_drills.push(Lot::of_drill(path, given)?);
        } else {
            others.push(path);
        }
    }
    let (alone, shelves) = below(others, given)?;
    let with_drills = shelves.iter().filter(|shelf| shelf.has_drills());
    kept.splice(0..0, with_drills.cloned());
    // One that was sent alone is taken to be where it belongs.
    let is_sent = |lot: &Lot| lot.shelves.is_empty();
    let is_drill = |lot: &Lot| lot.only.as_deref().is_some_and(drills::says_it_is_one);
    let (sent, mut lots): (Vec<Lot>, Vec<Lot>) = alone
        .into_iter()
        .partition(|lot| is_sent(lot) && is_drill(lot));
    lots.extend(together(shelves, given));
    let kept = kept.into_iter().map(Shelf::drills).collect();
    let kept = together(kept, given).into_iter();
    lots.extend(kept.chain(sent).map(Lot::of_drills));
    lots.extend(of_drills);
    Ok(lots)
}

/// The trips by themselves and the logbooks at these paths.
fn below(paths: Vec<&PathBuf>, given: &[Crew]) -> Result<(Vec<Lot>, Vec<Shelf>), Stopped> {
    let (mut shelves, mut lots) = (Vec::new(), Vec::new());
    for path in paths {
        let is_there = |below: &str| Local.exists(&path.join(below)).unwrap_or(false);
        if is_there("trip.jsonl") || is_there("seal.json") {
            lots.push(Lot::of_trip(path, given));
        } else if is_there("dev") || is_there("crew/allowed_signers") {
            shelves.push(Shelf::open(path)?);
        } else {
            return Err(Stopped(Status::Usage, archive::no_folder(path)));
        }
    }
    Ok((lots, shelves))
}

/// The logbooks of each mode together.
fn together(shelves: Vec<Shelf>, given: &[Crew]) -> Vec<Lot> {
    let mut whole: Vec<(_, Vec<Shelf>)> = Vec::new();
    for shelf in shelves {
        let mode = shelf.mode(given);
        match whole.iter_mut().find(|(other, _)| *other == mode) {
            Some((_, same)) => same.push(shelf),
            None => whole.push((mode, vec![shelf])),
        }
    }
    let whole = whole.into_iter();
    whole
        .map(|(mode, shelves)| Lot::of_logbooks(mode, shelves, given))
        .collect()
}

/// These paths, each place once, whatever it is called; a trip, or the drills, in a logbook that is
/// named too are judged with that.
fn once(paths: &[PathBuf]) -> Vec<&PathBuf> {
    let places: Vec<PathBuf> = paths.iter().map(|path| Local::place(path)).collect();
    let is_again = |at: usize, place: &PathBuf| {
        let mut earlier = places.iter().take(at);
        let logbook = place.ancestors().nth(4).map(Path::to_owned);
        let drills = [drills::logbook_of(place), drills::logbook_above(place)];
        let mut above = drills.into_iter().chain([logbook]).flatten();
        earlier.any(|one| one == place) || above.any(|logbook| places.contains(&logbook))
    };
    let named = (0..).zip(&places).zip(paths);
    let first = named.filter(|&((at, place), _)| !is_again(at, place));
    first.map(|(_, path)| path).collect()
}

impl Lot {
    /// Whole logbooks, as if they were one.
    fn of_logbooks(mode: Mode, shelves: Vec<Shelf>, given: &[Crew]) -> Self {
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
            drills: false,
        }
    }

    /// One trip, by the crew given, else by that of the logbook it lies in.
    pub(in crate::cli) fn of_trip(trip: &Path, given: &[Crew]) -> Self {
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

    /// One drill, of the people of the logbook it lies in.
    fn of_drill(drill: &Path, given: &[Crew]) -> Result<Self, Stopped> {
        let whole = path::absolute(drill).unwrap_or_else(|_| drill.to_owned());
        // LOGBOOK/drill/dev/DEVICE/t/DRILL
        let root = whole.ancestors().nth(5).unwrap_or(&whole);
        let shelf = Shelf::open(root)?;
        let mode = shelf.mode(given);
        let mut lot = Self::of_logbooks(mode, vec![shelf.drills()], given).of_drills();
        lot.only = Some(drill.to_owned());
        Ok(lot)
    }

    /// The place of a statement that cannot be told by its number.
    fn place(&self, at: usize) -> Option<&Path> {
        let mut texts = self.shelves.iter().flat_map(|shelf| &shelf.texts);
        texts.nth(at).map(|(path, _)| path.as_path())
    }

    /// Reads every trip, or, for the sake of one, those of its laptop, one after the other. The
    /// clock of whoever asks is one thing known to the marks of clocks.
    pub(in crate::cli) fn judge(
        &self,
        plans: &mut Plans,
        now: Option<DateTime<FixedOffset>>,
    ) -> Result<Section<'_>, StoreFault> {
        self.judge_for(self.only.as_deref(), plans, now)
    }

    /// The same, with each trip shown as it is read, so that nothing has to be read twice. What the
    /// whole says of a trip is known only afterwards.
    pub(in crate::cli) fn judge_seeing(
        &self,
        plans: &mut Plans,
        now: Option<DateTime<FixedOffset>>,
        see: &mut dyn FnMut(&TripFolder, &TripRead),
    ) -> Result<Section<'_>, StoreFault> {
        self.judging()?.end(plans, now, see)
    }

    /// The same, for the sake of the one trip in this folder.
    pub(in crate::cli) fn judge_for(
        &self,
        asked: Option<&Path>,
        plans: &mut Plans,
        now: Option<DateTime<FixedOffset>>,
    ) -> Result<Section<'_>, StoreFault> {
        Judging::begin(self, asked)?.end(plans, now, &mut |_, _| {})
    }

    /// The same trip by trip, with stops between them.
    pub(in crate::cli) fn judging(&self) -> Result<Judging<'_>, StoreFault> {
        Judging::begin(self, self.only.as_deref())
    }

    /// The folders somebody asks after: the one that was named, or every trip of the logbooks.
    pub(in crate::cli) fn folders(&self) -> Result<Vec<TripFolder>, StoreFault> {
        if let Some(only) = &self.only {
            return Ok(vec![alone(only)]);
        }
        let trips = self.trips_for(None)?.into_iter();
        Ok(trips.map(|(_, folder)| folder).collect())
    }

    /// Reads and verifies a trip, held to the laptop its folder lies under.
    pub(in crate::cli) fn read(
        &self,
        folder: &TripFolder,
        device: Option<&Id>,
        plans: &mut Plans,
    ) -> Result<TripRead, StoreFault> {
        let read = read_trip(&Local, folder, &self.trust, plans)?;
        Ok(match device {
            Some(device) => read.in_its_place(device),
            None => read,
        })
    }

    /// The trips to be read: device by device in rising number, whichever logbook they lie in. For
    /// the sake of one trip, those of its device.
    fn trips_for(&self, asked: Option<&Path>) -> Result<Vec<(Id, TripFolder)>, StoreFault> {
        let mut trips = Vec::new();
        let own = asked.map(|asked| {
            let whole = path::absolute(asked).unwrap_or_else(|_| asked.to_owned());
            let device = whole.ancestors().nth(2).and_then(Path::file_name);
            device.map(|device| device.to_string_lossy().into_owned())
        });
        for shelf in &self.shelves {
            let logbook = &shelf.logbook;
            for device in logbook.devices()? {
                let wanted = own
                    .as_ref()
                    .is_none_or(|own| own.as_deref() == Some(device.as_str()));
                if !wanted {
                    continue;
                }
                for trip in logbook.trips(&device)?.trips {
                    if logbook.is_sealed(&trip)? || logbook.has_begun(&trip)? {
                        trips.push((device.clone(), trip));
                    }
                }
            }
        }
        // Of copies the sealed one comes first.
        let sealed = |trip: &TripFolder| Local.exists(&trip.seal()).unwrap_or(false);
        trips.sort_by_cached_key(|(device, trip)| (device.clone(), trip.seq, !sealed(trip)));
        Ok(trips)
    }
}

/// A folder that is taken for a trip whatever its name is.
fn alone(path: &Path) -> TripFolder {
    TripFolder {
        seq: 0,
        path: path.to_owned(),
    }
}

impl From<StoreFault> for Stopped {
    fn from(fault: StoreFault) -> Self {
        Self(Status::Store, fault.to_string())
    }
}

impl From<Trouble> for Stopped {
    fn from(trouble: Trouble) -> Self {
        Self(Status::Store, trouble.to_string())
    }
}
