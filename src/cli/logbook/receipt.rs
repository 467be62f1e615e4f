//! `hames logbook receipt`: which trip a receipt was read off.

mod text;
mod told;

use crate::cli::Status;
use crate::cli::clerk::{Plans, TripRead, mistyped as told_mistyped};
use crate::cli::logbook::shelf::Failed;
use crate::cli::lot::{Line, Lot, Section, lots_and_drills};
use crate::logbook::order::{Ended, OrderFault};
use crate::logbook::{Sought, seek};
use crate::record::{Digest, Finding, NotAReceipt, Receipt, Says, Seal, Stated, Statement, Stub};
use crate::store::{Disk, Local, MOST_FILE_BYTES, StoreFault, TripFolder};
use crate::world::{Machine, World};
use std::collections::HashSet;
use std::io::{self, ErrorKind, Write};
use std::path::{self, PathBuf};
use told::{Told, TripTold, line};

/// Where a seal was found.
#[derive(Clone, Copy)]
enum Place<'a> {
    /// Beside a trip.
    Kept(&'a Lot, &'a TripFolder),
    /// In the statement by which the trip was pruned.
    Pruned(&'a Lot, &'a Stub, &'a Statement),
}

/// The same, judged as `hames verify` judges it.
enum Found<'a> {
    Kept(Box<Kept<'a>>),
    Pruned(Pruned<'a>),
}

/// A trip that lies here.
struct Kept<'a> {
    /// What verification of the logbook it lies in comes to, as far as it is about this trip.
    section: Section<'a>,
    /// The trip, where it can be read.
    read: Option<TripRead>,
}

/// A trip that is here no more.
struct Pruned<'a> {
    stub: &'a Stub,
    by: &'a Statement,
    /// What the order of trips says of its stub.
    faults: Vec<OrderFault>,
    /// By which word its history ended.
    ended: Option<Ended>,
}

/// Looks for the receipt.
pub(super) fn receipt(
    code: &str,
    places: &[PathBuf],
    json: bool,
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    let receipt = match Receipt::read(code) {
        Ok(receipt) => receipt,
        Err(slip) => return Ok(mistyped(code, &slip, json, out)?),
    };
    let lots = lots_and_drills(places, &[])?;
    let (mut folders, mut known) = (Vec::new(), HashSet::new());
    for lot in &lots {
        for folder in lot.folders()? {
            // A trip that two of the paths lead to is one trip.
            let whole = path::absolute(&folder.path).unwrap_or_else(|_| folder.path.clone());
            if known.insert(whole) {
                folders.push((lot, folder));
            }
        }
    }
    let (mut seals, mut unread) = (Vec::new(), Vec::new());
    for (lot, folder) in &folders {
        match seal_of(folder) {
            Ok(Some(hash)) => seals.push((hash, Place::Kept(lot, folder))),
            Ok(None) => {}
            Err(fault) => unread.push(fault),
        }
    }
    seals.extend(lots.iter().flat_map(pruned));
    let looked_at = seals.len();
    let sought = seek(receipt, seals);
    let answer = Answer {
        receipt: receipt.to_string(),
        seals: looked_at,
        unread,
        places,
        found: found(&sought)?,
        sought,
    };
    if json {
        answer.as_json(out)?;
    } else {
        answer.as_text(out)?;
    }
    Ok(answer.status())
}

/// The hash of a trip's seal; nothing where it has none.
fn seal_of(folder: &TripFolder) -> Result<Option<Digest>, StoreFault> {
    let path = folder.seal();
    match Local.read(&path, MOST_FILE_BYTES) {
        Ok(bytes) => Ok(Some(Seal::hash(&bytes))),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        Err(error) => Err(StoreFault::of_reading(&path, MOST_FILE_BYTES)(error)),
    }
}

/// The seals of trips that are here no more, as the statements that pruned them keep them. Only
/// statements that count are asked.
fn pruned(lot: &Lot) -> impl Iterator<Item = (Digest, Place<'_>)> {
    let all = lot.statements.counting().map(Stated::statement);
    all.flat_map(move |statement| {
        let stubs: &[Stub] = match &statement.says {
            Says::Pruned(pruned) => &pruned.trips,
            _ => &[],
        };
        let sealed = stubs.iter().filter_map(|stub| Some((stub.seal?, stub)));
        sealed.map(move |(seal, stub)| (seal, Place::Pruned(lot, stub, statement)))
    })
}

/// A slip of the tongue or the hand is never taken for a receipt that leads nowhere.
fn mistyped(code: &str, slip: &NotAReceipt, json: bool, out: &mut dyn Write) -> io::Result<Status> {
    if json {
        line(out, &Told::of("mistyped", code, 0, None))?;
    } else {
        writeln!(out, "{}", told_mistyped(code, slip))?;
    }
    Ok(Status::Usage)
}

/// Each place that was found, judged with all that the logbook says of it.
fn found<'a>(sought: &Sought<Place<'a>>) -> Result<Vec<Found<'a>>, StoreFault> {
    let places: &[Place<'a>] = match sought {
        Sought::Nowhere => &[],
        Sought::To(places) | Sought::Several(places) => places,
    };
    let now = Some(Machine::this().now().wall);
    let mut plans = Plans::default();
    let mut judge = |place: &Place<'a>| match *place {
        Place::Kept(lot, folder) => {
            let section = lot.judge_for(Some(&folder.path), &mut plans, now)?;
            // One trip that was named is held to the number and the laptop of its place.
            let line = section.lines.first();
            let device = line.and_then(|line| line.device.clone());
            let folder = line.map_or(folder, |line| &line.folder);
            let read = lot.read(folder, device.as_ref(), &mut plans).ok();
            Ok(Found::Kept(Box::new(Kept { section, read })))
        }
        Place::Pruned(lot, stub, by) => {
            let judged = lot.judge(&mut plans, now)?.judged;
            let ended = judged.ended(&stub.seal.unwrap_or(stub.last)).cloned();
            let faults = judged.faults.into_iter();
            let own =
                |fault: &OrderFault| fault.is_of(&stub.device, stub.seq, &stub.trip, stub.manager);
            let faults = faults.filter(own).collect();
            Ok(Found::Pruned(Pruned {
                stub,
                by,
                faults,
                ended,
            }))
        }
    };
    places.iter().map(&mut judge).collect()
}

/// What was found.
struct Answer<'a> {
    receipt: String,
    seals: usize,
    /// Seals that cannot be read, so that they may be the one.
    unread: Vec<StoreFault>,
    places: &'a [PathBuf],
    sought: Sought<Place<'a>>,
    found: Vec<Found<'a>>,
}

impl Answer<'_> {
    /// A trip that is found and is not intact ends as its verification does.
    fn status(&self) -> Status {
        let worst = self.found.iter().map(Found::gravest).max();
        match &self.sought {
            Sought::Nowhere | Sought::Several(_) => Status::Findings,
            // What is told of a trip that is here no more, a manager stated, and nobody can look.
            Sought::To(_) if self.is_pruned() && worst == Some(Finding::Intact) => Status::Findings,
            Sought::To(_) => Status::Verified(worst.unwrap_or(Finding::Intact)),
        }
    }

    /// Whether no record of it is here.
    fn is_pruned(&self) -> bool {
        let pruned = |found: &Found<'_>| matches!(found, Found::Pruned(_));
        self.found.iter().all(pruned)
    }

    fn as_json(&self, out: &mut dyn Write) -> io::Result<()> {
        let answer = match &self.sought {
            Sought::Nowhere => "none",
            Sought::To(_) => "one",
            Sought::Several(_) => "several",
        };
        let told = |trip| Told::of(answer, &self.receipt, self.seals, trip);
        if matches!(self.sought, Sought::Nowhere) {
            line(out, &told(None))?;
        }
        for found in &self.found {
            line(out, &told(Some(TripTold::of(found))))?;
        }
        Ok(())
    }
}

impl Found<'_> {
    /// The finding of the trip, and of what lies under other names beside it.
    fn gravest(&self) -> Finding {
        match self {
            Self::Kept(kept) => kept.section.finding(),
            Self::Pruned(pruned) => pruned.finding(),
        }
    }
}

impl Kept<'_> {
    /// What verification tells of the trip.
    fn line(&self) -> Option<&Line> {
        self.section.lines.first()
    }

    /// The finding `hames verify` gives it.
    fn finding(&self) -> Finding {
        let line = self.line();
        line.map_or(Finding::Unreadable, |line| {
            line.finding(&self.section.judged)
        })
    }

    /// By which word its history ended.
    fn ended(&self) -> Option<&Ended> {
        let end = &self.line()?.trip.as_ref()?.end;
        self.section.judged.ended(end)
    }

    /// What is wrong with it, as sentences.
    fn faults(&self) -> Vec<String> {
        let line = self.line();
        line.map_or_else(Vec::new, |line| line.told(&self.section.judged))
    }

    /// What is wrong next to it, or lies under other names beside it.
    fn beside(&self) -> Vec<(Finding, String)> {
        let order = self.section.beside.iter();
        let order = order.map(|fault| (fault.finding(), fault.to_string()));
        let strays = self.section.strays.iter();
        order
            .chain(strays.map(|stray| (stray.finding, stray.what.clone())))
            .collect()
    }
}

impl Pruned<'_> {
    fn finding(&self) -> Finding {
        let worst = self.faults.iter().map(OrderFault::finding).max();
        worst.unwrap_or(Finding::Intact)
    }
}
