//! What managers pruned: whose word it was, and whether files of it lie here still.

use crate::desk::earlier;
use crate::record::{
    Id, MAX_TRIP, Receipt, Says, Seal, Stated, Statement, Statements, Stub, read_chain,
};
use crate::store::{Disk, TripFolder};
use std::collections::HashMap;
use std::fmt;

/// Every trip that managers pruned, by number. Nothing goes by the word of a key that had
/// been taken out.
pub(in crate::cli) struct PrunedTrips<'s>(HashMap<u64, Vec<PrunedTrip<'s>>>);

/// A trip that a manager pruned.
#[derive(Clone, Copy)]
pub(in crate::cli) struct PrunedTrip<'s> {
    pub(super) stub: &'s Stub,
    by: &'s Statement,
}

impl<'s> PrunedTrips<'s> {
    pub(in crate::cli) fn of(statements: &'s Statements) -> Self {
        let mut by_number: HashMap<_, Vec<_>> = HashMap::new();
        for by in statements.counting().map(Stated::statement) {
            let Says::Pruned(pruned) = &by.says else {
                continue;
            };
            for stub in &pruned.trips {
                let of_number = by_number.entry(stub.seq).or_default();
                of_number.push(PrunedTrip { stub, by });
            }
        }
        Self(by_number)
    }

    /// All of them.
    pub(super) fn all(&self) -> impl Iterator<Item = &PrunedTrip<'s>> {
        self.0.values().flatten()
    }

    /// The pruned trip that lies in this folder still, or that a crash left a part of: of two
    /// histories of one trip each has a folder that begins with its name.
    pub(in crate::cli) fn left_in<D: Disk>(
        &self,
        disk: &D,
        device: &Id,
        folder: &TripFolder,
    ) -> Option<&PrunedTrip<'s>> {
        let mut of_number = self.0.get(&folder.seq)?.iter();
        of_number.find(|one| {
            let stub = one.stub;
            let named = stub.device == *device && folder.begins_with_name_of(&stub.trip);
            named && is_left(disk, folder, stub)
        })
    }

    /// The pruned trip that is meant by its folder's name, its receipt, or `device/number`.
    pub(super) fn meant(&self, typed: &str) -> Option<&PrunedTrip<'s>> {
        let receipt = Receipt::read(typed).ok();
        let place = typed.split_once('/');
        self.all().find(|PrunedTrip { stub, .. }| {
            let is_place = |(device, number): (&str, &str)| {
                device == stub.device.as_str() && number.parse() == Ok(stub.seq)
            };
            let folder = TripFolder {
                seq: stub.seq,
                path: typed.into(),
            };
            place.is_some_and(is_place)
                || folder.begins_with_name_of(&stub.trip)
                || receipt.is_some() && stub.seal.map(|seal| Receipt::of(&seal)) == receipt
        })
    }
}

/// Whose word it was, and when.
impl fmt::Display for PrunedTrip<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Statement {
            name, number, wall, ..
        } = self.by;
        let date = earlier::date(&wall.moment());
        write!(f, "{name} pruned it by statement {number}, {date}")
    }
}

/// Whether what lies in the folder is the trip of the stub, or what a crash left of it.
fn is_left<D: Disk>(disk: &D, folder: &TripFolder, stub: &Stub) -> bool {
    if let Ok(seal) = disk.read(&folder.seal(), MAX_TRIP) {
        return Some(Seal::hash(&seal)) == stub.seal;
    }
    match disk.read(&folder.journal(), MAX_TRIP) {
        Ok(journal) => read_chain(&journal).tip().last == stub.last,
        // Neither seal nor journal: a folder by this name is what is left of it.
        Err(_) => !disk.exists(&folder.journal()).unwrap_or(true),
    }
}
