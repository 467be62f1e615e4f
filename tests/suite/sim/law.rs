//! What always holds, however a day goes. The laws look at the disk as another process would, so
//! that what is about to befall the laptop does not befall them.

use super::barn::ROOT;
use crate::store::pretend::Pretend;
use hames::cli::clerk::{Books, Plans, TripRead};
use hames::logbook::order::{Order, OrderFault};
pub(crate) use hames::record::Finding;
use hames::record::{Envelope, Id};
use hames::store::TripFolder;
use hames::walk::Walk;
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::path::Path;

/// As well as a logbook gets that no manager has read.
pub(crate) const WELL: Finding = Finding::NotCountersigned;

/// A law is broken: the run ends here.
#[track_caller]
pub(crate) fn broken(how: &str) -> ! {
    panic!("a law is broken: {how}")
}

thread_local! {
    /// By their hashes: the laws read each list and rig once.
    static PLANS: RefCell<Plans> = RefCell::default();
}

/// The walk that a trip's journal tells.
pub(crate) fn fold(disk: &Pretend, device: &str, folder: &TripFolder) -> Walk {
    let books = Books::open(&disk.after_death(), Path::new(ROOT)).unwrap();
    let device = Id::read(device).unwrap();
    let read = PLANS.with_borrow_mut(|plans| books.read(&device, folder, plans).unwrap());
    read.walk()
        .unwrap_or_else(|trouble| broken(&trouble.to_string()))
}

/// One thing that verification finds.
#[derive(Clone, Debug)]
pub(crate) struct Found {
    pub(crate) finding: Finding,
    /// The laptop it is told of.
    pub(crate) device: Option<Id>,
    /// The trip, by its folder or its number.
    pub(crate) trip: Option<u64>,
    /// Whose key had been taken out, if it says that.
    pub(crate) taken_out: Option<Id>,
    /// A text the trip was walked by is not here.
    pub(crate) lacks_text: bool,
    pub(crate) told: String,
}

/// Everything that verification finds in the logbook on a disk.
pub(crate) fn judged(disk: &Pretend) -> Vec<Found> {
    let books = Books::open(&disk.after_death(), Path::new(ROOT)).unwrap();
    let trips = books.trips().unwrap().into_iter();
    let read: Vec<(Id, TripRead)> = trips
        .map(|(device, folder)| {
            let read = PLANS.with_borrow_mut(|plans| books.read(&device, &folder, plans));
            (device, read.unwrap())
        })
        .collect();
    let statements = books.statements().unwrap();
    let mut order = Order::new(&statements);
    read.iter()
        .filter_map(|(_, read)| read.trip())
        .for_each(|trip| order.take(trip));
    let mut found: Vec<Found> = read.iter().map(of_trip).collect();
    found.extend(order.judge().faults.iter().map(of_order));
    found.extend(statements.faults().iter().map(|fault| Found {
        finding: fault.finding(),
        device: None,
        trip: None,
        taken_out: None,
        lacks_text: false,
        told: fault.to_string(),
    }));
    found
}

fn of_trip((device, read): &(Id, TripRead)) -> Found {
    Found {
        finding: read.finding(),
        device: Some(device.clone()),
        trip: Some(read.folder.seq),
        taken_out: None,
        lacks_text: read.checklist.is_empty() || read.rig.is_empty(),
        told: format!("{}: {:?}", read.folder.path.display(), read.faults()),
    }
}

fn of_order(fault: &OrderFault) -> Found {
    let taken_out = match fault {
        OrderFault::TakenOut { who, .. } => Some(who.clone()),
        _ => None,
    };
    Found {
        finding: fault.finding(),
        device: Some(fault.device().clone()),
        trip: Some(fault.numbers().0),
        taken_out,
        lacks_text: false,
        told: fault.to_string(),
    }
}

/// What verification finds in the logbook on a disk: the gravest finding, and every sentence.
pub(crate) fn verified(disk: &Pretend) -> (Finding, Vec<String>) {
    let found = judged(disk);
    let gravest = found.iter().map(|one| one.finding).max();
    let told = found.into_iter().map(|one| one.told).collect();
    (gravest.unwrap_or(Finding::Intact), told)
}

/// Files of records by their names and bytes.
pub(crate) type Records = BTreeSet<(&'static str, Vec<u8>)>;

/// Files of records, whatever the folders are called: what has to be the same on every laptop in
/// the end. Of a journal only whole lines count.
pub(crate) fn records(disk: &Pretend) -> Records {
    of_folder(disk, Path::new(ROOT))
}

/// The same, of one folder of the logbook.
pub(crate) fn of_folder(disk: &Pretend, folder: &Path) -> Records {
    let root = Path::new(ROOT);
    let mut records = BTreeSet::new();
    for path in disk.files() {
        let ours = ["dev", "mgr"]
            .iter()
            .any(|part| path.starts_with(root.join(part)));
        let name = RECORDS.iter().find(|name| path.ends_with(name));
        let Some(name) = name.filter(|_| ours && path.starts_with(folder)) else {
            continue;
        };
        // What a loss of power left of a statement is none.
        let stated = path.with_file_name("statement.json");
        if path.starts_with(root.join("mgr")) && disk.seen(&stated).is_none() {
            continue;
        }
        let mut bytes = disk.seen(&path).unwrap();
        if *name == JOURNAL {
            bytes.truncate(whole_lines(&bytes));
        }
        if !bytes.is_empty() {
            records.insert((*name, bytes));
        }
    }
    records
}

/// How many bytes of a journal are whole lines: of the last a loss of power may have left a part,
/// its end among it.
fn whole_lines(journal: &[u8]) -> usize {
    let mut end = journal.len();
    while let Some(line) = journal[..end]
        .split_inclusive(|byte| *byte == b'\n')
        .next_back()
    {
        let whole = line.strip_suffix(b"\n");
        if whole.is_some_and(|line| Envelope::read(line).is_ok()) {
            break;
        }
        end -= line.len();
    }
    end
}

/// Whether no loss of power can take anything of the logbook that is seen now, drafts and locks
/// apart.
pub(crate) fn is_certain(disk: &Pretend) -> bool {
    let draft = |path: &Path| {
        let name = path.file_name().unwrap().as_encoded_bytes();
        name == b"hold" || name.starts_with(b".")
    };
    let mut uncertain = disk.uncertain().into_iter();
    uncertain.all(|path| draft(&path) || !path.starts_with(ROOT))
}

const JOURNAL: &str = "trip.jsonl";

const RECORDS: [&str; 7] = [
    JOURNAL,
    "seal.json",
    "seal.person.sig",
    "seal.device.sig",
    "statement.json",
    "statement.sig",
    "allowed_signers",
];

/// Whether every record is among those on a disk, or grew on there.
pub(crate) fn are_among(records: &Records, on_disk: &Records) -> Result<(), String> {
    for (name, bytes) in records {
        // What begins so comes next in the order.
        let next = on_disk.range((*name, bytes.clone())..).next();
        if !next.is_some_and(|next| next.0 == *name && next.1.starts_with(bytes)) {
            let text = String::from_utf8_lossy(bytes);
            let begin: String = text.chars().take(200).collect();
            return Err(format!("{name}: {begin}"));
        }
    }
    Ok(())
}
