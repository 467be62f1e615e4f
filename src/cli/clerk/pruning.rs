//! Pruning: a manager's statement keeps what order needs of a trip, then its files are removed.

use crate::cli::clerk::around::trip_name;
use crate::cli::clerk::{Books, Clerk, Plans, PrunedTrips, TripRead, Trouble};
use crate::desk::{Consent, earlier};
use crate::logbook::order::{OrderFault, stub};
use crate::logbook::{opinions, thought_of};
use crate::record::{
    Digest, Finding, Id, Opinion, Pruned, Says, Seal, Signer, Statements, Stub, Verified,
};
use crate::rig::Rig;
use crate::store::{Disk, StatementFolder, TripFolder};
use crate::walk::Words;
use chrono::NaiveDate;
use std::collections::{BTreeSet, HashMap, HashSet};

/// Most trips of one statement, which has an end to its length.
const MOST: usize = 700;

/// Which trips are to go.
#[derive(Clone, Debug)]
pub enum Which {
    /// Every trip begun before this day.
    Before(NaiveDate),
    /// These.
    Named(Vec<(Id, TripFolder)>),
}

/// What pruning comes to, before anything is done.
#[derive(Clone, Debug, Default)]
pub struct Pruning {
    /// What goes.
    pub goes: Vec<Going>,
    /// What stays although it was meant, and why.
    pub stays: Vec<(String, String)>,
    /// How many more could go by another run.
    pub more: usize,
}

/// A trip that goes.
#[derive(Clone, Debug)]
pub struct Going {
    /// The trip in one line.
    pub told: String,
    folder: TripFolder,
    stub: Stub,
}

impl<D: Disk> Clerk<D> {
    /// What of these trips may go: sealed, without a fault, and agreed to by a manager; with
    /// `even_so` also what no manager has countersigned. What something open rests on stays.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn to_prune(&mut self, which: &Which, even_so: bool) -> Result<Pruning, Trouble> {
        let books = self.books()?;
        let statements = books.statements()?;
        let (thought, pruned) = (thought_of(&statements), PrunedTrips::of(&statements));
        let mut plans = Plans::of_stock(&self.stock);
        let mut pruning = Pruning::default();
        let meant = match which {
            Which::Before(_) => books.trips()?,
            Which::Named(trips) => trips.clone(),
        };
        let needed = self.needed(&books, &meant)?;
        let (order, _) = books.order(&statements, &mut plans)?;
        for (device, folder) in meant {
            if pruned.left_in(&self.disk, &device, &folder).is_some() {
                continue;
            }
            let read = books.read(&device, &folder, &mut plans)?;
            if let Which::Before(day) = which
                && read
                    .trip()
                    .is_none_or(|trip| trip.at().wall.date_naive() >= *day)
            {
                continue;
            }
            let name = trip_name(&folder);
            match may_go((&read, &order), &thought, even_so, &needed) {
                Ok(trip) => pruning.goes.push(Going {
                    told: line_of(&name, &device, trip, &statements),
                    stub: stub(trip),
                    folder,
                }),
                Err(why) => pruning.stays.push((name, why)),
            }
        }
        let key = |going: &Going| {
            let stub = &going.stub;
            (stub.device.clone(), stub.seq, stub.trip.clone())
        };
        pruning.goes.sort_by_key(key);
        let all = pruning.goes.len();
        // Of two histories of one trip, as a backup put back leaves them, each goes by a statement of
        // its own.
        pruning.goes.dedup_by_key(|going| key(going));
        pruning.goes.truncate(MOST);
        pruning.more = all.saturating_sub(pruning.goes.len());
        Ok(pruning)
    }

    /// States that these trips are pruned. Their files are still there then.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn state_pruned(
        &self,
        goes: &[Going],
        why: &Words,
        who: (&Signer, &Consent),
    ) -> Result<StatementFolder, Trouble> {
        let books = self.books()?;
        books.may_state(&books.statements()?)?;
        for going in goes {
            let now = books.logbook.read(&going.folder.seal())?;
            if Some(Seal::hash(&now)) != going.stub.seal {
                return Err(Trouble::Said(format!(
                    "{} has changed since it was listed. Nothing was pruned; list it again.",
                    trip_name(&going.folder)
                )));
            }
        }
        let says = Says::Pruned(Pruned {
            trips: goes.iter().map(|going| going.stub.clone()).collect(),
            words: why.clone(),
        });
        self.state(who, says)
    }

    /// The folders of trips that managers pruned and that are still here: what a crash left, or
    /// what came back from another laptop.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn left_of_pruned(&self) -> Result<Vec<TripFolder>, Trouble> {
        let books = self.books()?;
        let statements = books.statements()?;
        let mut left = Vec::new();
        let pruned = PrunedTrips::of(&statements);
        let devices: BTreeSet<&Id> = pruned.all().map(|one| &one.stub.device).collect();
        for device in devices {
            for folder in books.logbook.trips(device)?.trips {
                if pruned.left_in(&self.disk, device, &folder).is_some() {
                    left.push(folder);
                }
            }
        }
        Ok(left)
    }

    /// Removes the files of pruned trips.
    ///
    /// # Errors
    /// What the disk refused; what is left is removed by the next run.
    pub fn remove_pruned(&self) -> Result<usize, Trouble> {
        let books = self.books()?;
        let left = self.left_of_pruned()?;
        for folder in &left {
            books.logbook.remove_trip(folder)?;
        }
        Ok(left.len())
    }

    /// The trips that what stands open of a rig rests on.
    fn needed(
        &mut self,
        books: &Books<D>,
        meant: &[(Id, TripFolder)],
    ) -> Result<HashSet<String>, Trouble> {
        let rig = |folder: &TripFolder| {
            let text = books.logbook.read(&folder.rig()).ok()?;
            Some(Rig::read(&String::from_utf8_lossy(&text)).ok()?.id)
        };
        let rigs: BTreeSet<String> = meant.iter().filter_map(|(_, folder)| rig(folder)).collect();
        let mut needed = HashSet::new();
        for rig in rigs {
            let standing = self.look_back(&rig, None)?.standing;
            needed.extend(standing.open.into_iter().map(|open| open.since.trip));
            needed.extend(standing.defects.into_iter().flat_map(|defect| defect.trips));
            needed.extend(standing.haul.map(|haul| haul.trip));
        }
        Ok(needed)
    }
}

/// What is found of it among all trips, as verification of the whole logbook says: one that does
/// not verify there is evidence.
fn found(read: &TripRead, order: &[OrderFault]) -> Finding {
    let of_order = read.trip().and_then(|trip| {
        let begun = trip.begun();
        let (device, seq) = (&begun.device, begun.seq);
        let told = |fault: &&OrderFault| fault.is_of(device, seq, &begun.trip, begun.manager);
        order.iter().filter(told).map(OrderFault::finding).max()
    });
    read.finding().max(of_order.unwrap_or(Finding::Intact))
}

/// Whether a trip may go; why not, as words that go on in a sentence.
fn may_go<'a>(
    (read, order): (&'a TripRead, &[OrderFault]),
    thought: &HashMap<Digest, Opinion>,
    even_so: bool,
    needed: &HashSet<String>,
) -> Result<&'a Verified, String> {
    let finding = found(read, order);
    let stands = matches!(finding, Finding::Intact | Finding::NotCountersigned);
    let sealed = read.trip().and_then(|trip| Some((trip, trip.sealed()?)));
    let Some((trip, sealed)) = sealed.filter(|_| stands) else {
        return Err(format!(
            "verification finds it {finding}; only what is whole is pruned"
        ));
    };
    if needed.contains(trip.begun().trip.as_str()) {
        return Err("what it left open, or found bad, still stands".to_owned());
    }
    let thought = thought.get(&sealed.hash);
    if thought == Some(&Opinion::Asked) {
        return Err(
            "a manager's question about it stands open; see hames logbook questions".to_owned(),
        );
    }
    if thought.is_none() && !even_so {
        return Err(
            "no manager has countersigned it; countersign it first, or add --even-so".to_owned(),
        );
    }
    Ok(trip)
}

fn line_of(name: &str, device: &Id, trip: &Verified, statements: &Statements) -> String {
    let sealed = trip.sealed();
    let outcome = sealed.map_or("not sealed", |sealed| sealed.seal.outcome.word());
    let agreed = sealed.is_some_and(|sealed| opinions(statements, &sealed.hash).next().is_some());
    let agreed = if agreed {
        "countersigned"
    } else {
        "countersigned by nobody"
    };
    format!(
        "{name} of {device}, begun {}, {}, {agreed}",
        earlier::date(&trip.at().wall),
        outcome.replace('-', " ")
    )
}
