//! Forks: the histories a manager looks into, and by which of them the laptop goes on.

use crate::cli::clerk::around::trip_name;
use crate::cli::clerk::branches::BranchOf;
use crate::cli::clerk::{Books, Clerk, Plans, TripRead, Trouble};
use crate::cli::command::quoted;
use crate::desk::{Consent, told};
use crate::record::{
    Branch, ForkClosed, Id, Previous, Receipt, Says, Signer, Statements, Verified,
};
use crate::store::{Disk, StatementFolder, StoreFault, TripFolder};
use crate::walk::Words;

/// One of the histories of a number.
#[derive(Clone, Debug)]
pub struct History {
    /// The trip's folder by name.
    pub name: String,
    /// What it is, in lines.
    pub told: Vec<String>,
    branch: Branch,
    trip: Verified,
    read: TripRead,
}

impl<D: Disk> Clerk<D> {
    /// The different histories that this number of a device has here.
    ///
    /// # Errors
    /// A sentence, where there is no fork to close.
    pub fn histories(&self, device: &Id, seq: u64) -> Result<Vec<History>, Trouble> {
        let books = self.books()?;
        books.is_known(device)?;
        let mut histories: Vec<History> = Vec::new();
        let mut plans = Plans::of_stock(&self.stock);
        for folder in books.with_number(device, seq)? {
            let read = books.read(device, &folder, &mut plans)?;
            let Some(trip) = read.trip().cloned() else {
                continue;
            };
            if !histories.iter().any(|other| is_same(&trip, &other.trip)) {
                histories.push(History::of(read, trip));
            }
        }
        if histories.len() < 2 {
            let here = match histories.len() {
                0 => "no trip that can be relied on has that number here",
                _ => "one trip has that number here, and no other",
            };
            return Err(Trouble::Said(format!(
                "There is no fork at trip {seq} of {device}: {here}. See every fork with: \
                 hames verify {}",
                quoted(books.logbook.root())
            )));
        }
        let statements = books.statements()?;
        let now = self.world.now();
        let own = self.device_here().is_some_and(|own| own == *device);
        for history in &mut histories {
            let branch = BranchOf {
                device,
                folder: &history.read.folder,
                trip: &history.trip,
                ends: history.branch.ends,
            };
            let told = books.tell_branch(&branch, &statements, own.then_some(&now))?;
            history.told.extend(told);
        }
        let ended = books.ended(device, &statements)?;
        let mut open = histories
            .iter()
            .filter(|one| !ended.contains(&one.read.folder));
        if let (first, None) = (open.next(), open.next()) {
            let goes_on = first.map(|one| format!(", and goes on by trip {}", one.branch.trip));
            return Err(Trouble::Said(format!(
                "The fork at trip {seq} of {device} is closed already{}. \
                 A statement is never taken back; a later fork has a later number.",
                goes_on.unwrap_or_default()
            )));
        }
        Ok(histories)
    }

    /// States by which of the histories the device goes on.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn close_fork(
        &self,
        (device, seq, goes_on): (&Id, u64, &str),
        why: &Words,
        who: (&Signer, &Consent),
    ) -> Result<StatementFolder, Trouble> {
        let histories = self.histories(device, seq)?;
        let chosen = one_called(&histories, goes_on)?;
        let branches = histories.iter().map(|one| one.branch.clone());
        let says = Says::ForkClosed(ForkClosed {
            device: device.clone(),
            seq,
            goes_on: chosen.branch.clone(),
            ended: branches.filter(|one| *one != chosen.branch).collect(),
            words: why.clone(),
        });
        self.state(who, says)
    }
}

impl<D: Disk> Books<D> {
    /// The trips of a device that have begun with this number.
    pub(super) fn with_number(&self, device: &Id, seq: u64) -> Result<Vec<TripFolder>, Trouble> {
        let mut same = Vec::new();
        for folder in self.logbook.trips(device)?.trips {
            if folder.seq == seq && self.ends(&folder)?.is_some() {
                same.push(folder);
            }
        }
        Ok(same)
    }

    /// Whether two trips of a device have one number.
    pub(super) fn has_a_number_twice(&self, device: &Id) -> Result<bool, StoreFault> {
        Ok(!self.numbers_twice(device)?.is_empty())
    }

    fn numbers_twice(&self, device: &Id) -> Result<Vec<u64>, StoreFault> {
        let trips = self.logbook.trips(device)?.trips;
        let pairs = trips.windows(2);
        let twice = pairs.filter_map(|pair| match pair {
            [one, next] if one.seq == next.seq => Some(one.seq),
            _ => None,
        });
        Ok(twice.collect())
    }

    /// The first number of a device that two histories have of which no manager's word, or more
    /// than one, says which goes on.
    pub(super) fn open_fork(
        &self,
        device: &Id,
        statements: &Statements,
    ) -> Result<Option<u64>, Trouble> {
        let ended = self.ended(device, statements)?;
        for seq in self.numbers_twice(device)? {
            let here = self.with_number(device, seq)?.into_iter();
            if here.filter(|folder| !ended.contains(folder)).count() > 1 {
                return Ok(Some(seq));
            }
        }
        Ok(None)
    }
}

/// The one of the histories that is meant by its folder, its id or its receipt.
///
/// # Errors
/// A sentence that names them all.
pub fn one_called<'h>(histories: &'h [History], typed: &str) -> Result<&'h History, Trouble> {
    let mut called = histories.iter().filter(|one| one.is_called(typed));
    if let (Some(one), None) = (called.next(), called.next()) {
        return Ok(one);
    }
    let names: Vec<&str> = histories.iter().map(|one| one.name.as_str()).collect();
    Err(Trouble::NotHere(format!(
        "“{}” is not one of the histories: {}. Name one of them with --goes-on.",
        typed.escape_debug(),
        names.join(", ")
    )))
}

impl History {
    fn of(read: TripRead, trip: Verified) -> Self {
        Self {
            name: trip_name(&read.folder),
            told: describe(&read, &trip),
            branch: branch(&trip),
            trip,
            read,
        }
    }

    fn is_called(&self, typed: &str) -> bool {
        let sealed = self.trip.sealed();
        typed == self.name
            || typed == self.trip.begun().trip.as_str()
            || sealed.is_some_and(|sealed| Receipt::read(typed) == Ok(sealed.receipt()))
    }

    /// Where two histories part: the line, counted from 1, and what each says there.
    pub fn parts_from(&self, other: &Self) -> Vec<String> {
        let (one, two) = (&self.trip, &other.trip);
        let same = one
            .lines()
            .iter()
            .zip(two.lines())
            .take_while(|(left, right)| left == right)
            .count();
        vec![
            format!("They part at line {} of the journal.", same + 1),
            format!("  {}: {}", self.name, self.line(same)),
            format!("  {}: {}", other.name, other.line(same)),
        ]
    }

    /// What happened in the line at this place, from 0.
    fn line(&self, at: usize) -> String {
        let trip = &self.trip;
        let Some(before) = at.checked_sub(1) else {
            let begun = trip.begun();
            return format!(
                "begun {}, {} reads, {} does",
                trip.at().wall.format(SHOWN),
                begun.reader,
                begun.doer
            );
        };
        let (Some(entry), Ok(walk)) = (trip.entries().get(before), self.read.walk()) else {
            return "no such line".to_owned();
        };
        let (what, _) = told::happened(&entry.event, walk.plan());
        format!("{}  {what}", entry.at.wall.format("%H:%M"))
    }
}

/// Day and time as they are told.
const SHOWN: &str = "%Y-%m-%d %H:%M %:z";

fn describe(read: &TripRead, trip: &Verified) -> Vec<String> {
    let begun = trip.begun();
    let mut told = vec![
        format!("{}, trip {}", trip_name(&read.folder), begun.trip),
        format!(
            "begun {}; {} reads, {} does the work",
            trip.at().wall.format(SHOWN),
            begun.reader,
            begun.doer
        ),
    ];
    told.push(match trip.sealed() {
        Some(sealed) => format!(
            "{} lines, {}, signed by {}, {}",
            trip.lines().len(),
            sealed.seal.outcome.word().replace('-', " "),
            sealed.seal.name,
            sealed.seal.wall.moment().format(SHOWN)
        ),
        None => format!("{} lines, not sealed", trip.lines().len()),
    });
    told
}

fn branch(trip: &Verified) -> Branch {
    let ends = match trip.sealed() {
        Some(sealed) => Previous::Sealed(sealed.hash),
        None => Previous::Unsealed(trip.tip().last),
    };
    Branch {
        trip: trip.begun().trip.clone(),
        ends,
    }
}

/// Whether one is the other, or its beginning.
fn is_same(one: &Verified, other: &Verified) -> bool {
    let seals = one.sealed().zip(other.sealed());
    let mut lines = one.lines().iter().zip(other.lines());
    seals.is_none_or(|(left, right)| left.hash == right.hash)
        && lines.all(|(left, right)| left == right)
}
