//! What verification finds of one whole logbook, for who tells what to do about each.

use crate::cli::clerk::Plans;
use crate::cli::logbook::name;
use crate::cli::lot::{Line, Lot, Section, Shelf, Stopped};
use crate::logbook::order::OrderFault;
use crate::record::{Finding, Id, Says, Stated, StatementFault};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// What a logbook comes to.
pub(in crate::cli) struct Whole {
    /// How many trips were read.
    pub(in crate::cli) trips: usize,
    /// How many statements count.
    pub(in crate::cli) stated: usize,
    /// Everything that is not as it should be.
    pub(in crate::cli) found: Vec<Found>,
    /// The trips that can be relied on, device by device in rising number.
    pub(in crate::cli) placed: Vec<Placed>,
}

/// One thing that is not as it should be.
pub(in crate::cli) enum Found {
    /// A trip, by its folder.
    Trip(PathBuf, Finding, Vec<String>),
    /// The order of a laptop's trips.
    Order(OrderFault),
    /// A statement, with its folder where it cannot be told by its number.
    Statement(StatementFault, Option<PathBuf>),
    /// A folder that should hold a statement.
    Folder(String),
    /// Something beside trips under another name.
    Stray(Finding, String),
    /// A trip names another that is neither here nor pruned.
    RestsOn(Placed, Id),
}

/// A trip that can be relied on.
#[derive(Clone)]
pub(in crate::cli) struct Placed {
    /// The laptop.
    pub(in crate::cli) device: Id,
    /// Its number.
    pub(in crate::cli) seq: u64,
    /// Its folder's name.
    pub(in crate::cli) name: String,
    /// Which start of which machine it was begun in.
    pub(in crate::cli) boot: String,
}

/// Looks at a whole logbook as `hames verify` does; why it cannot be, as a sentence.
pub(in crate::cli) fn whole(root: &Path) -> Result<Whole, String> {
    let shelf = Shelf::open(root).map_err(|Stopped(_, sentence)| sentence)?;
    comes_to(&Lot::of_logbooks(shelf.mode(&[]), vec![shelf], &[]))
}

/// The same of its drills; nothing where none was ever begun.
pub(in crate::cli) fn whole_of_drills(root: &Path) -> Result<Option<Whole>, String> {
    let shelf = Shelf::open(root).map_err(|Stopped(_, sentence)| sentence)?;
    if !shelf.has_drills() {
        return Ok(None);
    }
    let mode = shelf.mode(&[]);
    let lot = Lot::of_logbooks(mode, vec![shelf.drills()], &[]).of_drills();
    comes_to(&lot).map(Some)
}

fn comes_to(lot: &Lot) -> Result<Whole, String> {
    let section = lot.judge(&mut Plans::default(), None);
    let section = section.map_err(|fault| fault.to_string())?;
    let mut found: Vec<Found> = section.lines.iter().filter_map(of_a_trip).collect();
    let order = section.judged.faults.iter().cloned();
    found.extend(order.map(Found::Order));
    let strays = section.strays.iter();
    let strays = strays.filter(|stray| stray.finding != Finding::Intact);
    found.extend(strays.map(|stray| Found::Stray(stray.finding, stray.what.clone())));
    found.extend(lot.statements.faults().iter().map(|fault| {
        let place = match fault {
            StatementFault::Unreadable { at, .. } | StatementFault::OtherMode { at, .. } => {
                lot.place(*at).map(Path::to_owned)
            }
            _ => None,
        };
        Found::Statement(fault.clone(), place)
    }));
    let empty = lot.shelves.iter().flat_map(|shelf| &shelf.empty);
    found.extend(empty.map(|(_, what)| Found::Folder(what.clone())));
    found.extend(named_and_missing(&section));
    Ok(Whole {
        trips: section.lines.len(),
        stated: lot.statements.stated().len(),
        found,
        placed: section.lines.iter().filter_map(placed).collect(),
    })
}

/// One that is not signed yet is no fault, and neither is one that nobody has countersigned.
fn of_a_trip(line: &Line) -> Option<Found> {
    let finding = line.found();
    let fine = matches!(
        finding,
        Finding::Intact | Finding::NotCountersigned | Finding::Unsealed
    );
    (!fine).then(|| Found::Trip(line.folder.path.clone(), finding, line.faults.clone()))
}

fn placed(line: &Line) -> Option<Placed> {
    let trip = line.trip.as_ref()?;
    Some(Placed {
        device: trip.device.clone(),
        seq: trip.seq,
        name: name(&line.folder),
        boot: trip.boot.clone(),
    })
}

/// Trips that others name and that are neither here nor pruned. Of what a manager has given up for
/// lost nobody knows the ids, so that nothing is missed then.
fn named_and_missing(section: &Section<'_>) -> Vec<Found> {
    let mut known: BTreeSet<&Id> = BTreeSet::new();
    for stated in section
        .lot
        .statements
        .stated()
        .iter()
        .map(Stated::statement)
    {
        match &stated.says {
            Says::LossAccepted(_) => return Vec::new(),
            Says::Pruned(pruned) => known.extend(pruned.trips.iter().map(|stub| &stub.trip)),
            _ => {}
        }
    }
    let lines = || section.lines.iter();
    known.extend(lines().filter_map(|line| Some(&line.trip.as_ref()?.trip)));
    let mut missing = Vec::new();
    for line in lines() {
        let named = line.trip.iter().flat_map(|trip| &trip.rests_on);
        for id in named.filter(|id| !known.contains(id)) {
            let by = placed(line);
            missing.extend(by.map(|by| Found::RestsOn(by, id.clone())));
        }
    }
    missing
}
