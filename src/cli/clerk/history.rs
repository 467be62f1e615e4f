//! What the walks of a rig have left, by the records of this logbook that can be relied on.

use crate::cli::clerk::remembered::Remembered;
use crate::cli::clerk::{Books, Plans, TripRead};
use crate::cli::command::quoted;
use crate::haul::{self, Past, Standing, Told, fold};
use crate::logbook::{Owned, owned};
use crate::record::{Finding, Id, Statements, Verified};
use crate::store::{Disk, StoreFault, TripFolder};
use crate::walk::Walk;
use chrono::{DateTime, FixedOffset, NaiveDate};
use std::collections::HashMap;
use std::path::PathBuf;

/// How many of a device's walks with a rig are looked back at. What stood open before them has
/// been gone over a hundred times since.
const MOST_WALKS: usize = 100;

/// The same, where a manager gave a defect an owner that was found before.
const MOST_OWNED: usize = 400;

/// What was read of the walks of this logbook. A sealed trip never changes, so that each is read
/// and verified once a sitting.
#[derive(Debug, Default)]
pub(super) struct History {
    pub(super) plans: Plans,
    sealed: HashMap<PathBuf, Past>,
    rigs: HashMap<PathBuf, String>,
    remembered: Option<Remembered>,
    /// The name of each rig that was read of.
    names: HashMap<String, String>,
    /// Trips the start screen has read, which need not be read again to look back at them.
    at_hand: HashMap<PathBuf, TripRead>,
}

/// What stands open of a rig, and the trips that cannot be relied on.
#[derive(Debug, Default)]
pub(super) struct Looked {
    pub(super) standing: Standing,
    pub(super) notices: Vec<String>,
    /// The folder of each trip that counted.
    pub(super) folders: HashMap<String, PathBuf>,
}

/// One walk, and where its trip lies.
#[derive(Debug)]
pub(super) struct Walked {
    pub(super) device: Id,
    pub(super) folder: TripFolder,
    pub(super) past: Past,
    pub(super) rig_name: String,
}

impl History {
    /// Of which nothing was read yet but these lists and rigs.
    pub(super) fn by(plans: Plans) -> Self {
        Self {
            plans,
            ..Self::default()
        }
    }

    /// Hands over a trip just read, for who looks back next.
    pub(super) fn hand_over(&mut self, read: TripRead) {
        self.at_hand.insert(read.folder.path.clone(), read);
    }

    /// Puts out of hand what was handed over, and keeps what the next start can use.
    pub(super) fn put_away<D: Disk>(&mut self, books: &Books<D>) {
        self.at_hand.clear();
        if let Some(remembered) = &mut self.remembered {
            remembered.keep(&books.logbook);
        }
    }

    /// What the walks of this rig have left, or had left by then, with what managers said of it.
    pub(super) fn of<D: Disk>(
        &mut self,
        books: &Books<D>,
        rig: &str,
        by: Option<DateTime<FixedOffset>>,
        said: &[Owned],
    ) -> Result<Looked, StoreFault> {
        let mut looked = Looked::default();
        let mut unsealed = HashMap::new();
        let mut counted = Vec::new();
        for device in books.logbook.devices()? {
            let mut last = None;
            for folder in self.newest(books, &device, (rig, said))? {
                if !self.sealed.contains_key(&folder.path) {
                    match self.read(books, &device, &folder, last) {
                        Ok((past, true)) => drop(self.sealed.insert(folder.path.clone(), past)),
                        Ok((past, false)) => drop(unsealed.insert(folder.path.clone(), past)),
                        Err(why) => {
                            looked.notices.push(why);
                            continue;
                        }
                    }
                }
                let past = self.sealed.get(&folder.path);
                if let Some(past) = past.or_else(|| unsealed.get(&folder.path)) {
                    last = last.max(Some(past.at));
                    looked
                        .folders
                        .insert(past.trip.clone(), folder.path.clone());
                    counted.push(folder.path);
                }
            }
        }
        let known = |path: &PathBuf| self.sealed.get(path).or_else(|| unsealed.get(path));
        let past = counted.iter().filter_map(known);
        let in_time = past.filter(|past| by.is_none_or(|by| past.at <= by));
        let words: Vec<_> = said.iter().map(|one| one.said.clone()).collect();
        looked.standing = fold(rig, in_time).with_words(&words);
        Ok(looked)
    }

    /// Every walk of every rig, as far back as there are trips, and the trips that cannot be relied on.
    pub(super) fn all<D: Disk>(
        &mut self,
        books: &Books<D>,
    ) -> Result<(Vec<Walked>, Vec<String>), StoreFault> {
        let (mut walked, mut notices) = (Vec::<Walked>::new(), Vec::new());
        for (device, folder) in books.trips()? {
            let before = walked.last().filter(|before| before.device == device);
            let last = before.map(|before| before.past.at);
            match self.read(books, &device, &folder, last) {
                Ok((past, _)) => {
                    let rig_name = self.names.get(&past.rig).cloned().unwrap_or_default();
                    walked.push(Walked {
                        device,
                        folder,
                        past,
                        rig_name,
                    });
                }
                Err(why) => notices.push(why),
            }
        }
        Ok((walked, notices))
    }

    /// The newest trips of a device with this rig, the oldest first; further back where a defect that
    /// has an owner was found. One that says no rig is among them, so that it is told of.
    fn newest<D: Disk>(
        &mut self,
        books: &Books<D>,
        device: &Id,
        (rig, said): (&str, &[Owned]),
    ) -> Result<Vec<TripFolder>, StoreFault> {
        let logbook = &books.logbook;
        let remembered = self
            .remembered
            .get_or_insert_with(|| Remembered::of(logbook));
        let mut newest = Vec::new();
        let trips = books.logbook.trips(device)?.trips;
        let is_named = |folder: &&TripFolder| {
            let mut said = said.iter();
            said.any(|one| one.device == *device && one.seq == folder.seq)
        };
        let of_rig = |folder: &&TripFolder| {
            let its_rig = remembered.rig_of(&books.logbook, folder);
            its_rig.is_none_or(|its_rig| its_rig == rig)
        };
        let back_to = trips.iter().filter(is_named).find(of_rig);
        let back_to = back_to.map_or(u64::MAX, |folder| folder.seq);
        for folder in trips.into_iter().rev() {
            let far = newest.len() >= MOST_WALKS && folder.seq < back_to;
            if far || newest.len() == MOST_OWNED {
                break;
            }
            let known = self.rigs.get(&folder.path).cloned();
            let its_rig = known.or_else(|| remembered.rig_of(&books.logbook, &folder));
            if let Some(its_rig) = &its_rig {
                self.rigs.insert(folder.path.clone(), its_rig.clone());
            }
            let begun = its_rig.is_some()
                || books.logbook.has_begun(&folder)?
                || books.logbook.is_sealed(&folder)?;
            if begun && its_rig.is_none_or(|its_rig| its_rig == rig) {
                newest.push(folder);
            }
        }
        newest.reverse();
        Ok(newest)
    }

    /// One trip, and whether it is sealed. A clock that was set back puts no trip before the one
    /// that its device wrote before it.
    fn read<D: Disk>(
        &mut self,
        books: &Books<D>,
        device: &Id,
        folder: &TripFolder,
        last: Option<DateTime<FixedOffset>>,
    ) -> Result<(Past, bool), String> {
        let read = match self.at_hand.remove(&folder.path) {
            Some(read) => Ok(read),
            None => books.read(device, folder, &mut self.plans),
        };
        let read = read.map_err(|fault| fault.to_string())?;
        let walk = read.walk();
        let (Ok(walk), Some(trip)) = (walk, read.trip()) else {
            return Err(format!(
                "Trip {} cannot be relied on ({}), so what it left open and what it closed counts \
                 for nothing here. See it with: hames verify {}",
                super::around::trip_name(folder),
                read.finding(),
                quoted(&folder.path)
            ));
        };
        let rig = walk.plan().rig();
        self.names.insert(rig.id.clone(), rig.name.clone());
        let sealed = read.finding() == Finding::Intact;
        Ok((past(&walk, trip, (sealed, last)), sealed))
    }
}

/// A walk brought down to what later ones need of it, and whether somebody signed for it. A clock
/// that was set back puts it before no trip that its device wrote before it.
fn past(
    walk: &Walk,
    trip: &Verified,
    (signed, last): (bool, Option<DateTime<FixedOffset>>),
) -> Past {
    let mut past = Past::of(walk, trip.entries(), told(trip, signed));
    if walk.paper().is_none() {
        past.at = last.map_or(past.at, |last| last.max(past.at));
    }
    past
}

/// What the walks of a logbook have left, gathered one after the other: device by device, in the
/// order of numbers.
#[derive(Debug, Default)]
pub(in crate::cli) struct Left {
    /// Each trip by laptop and number.
    places: HashMap<String, String>,
    last: HashMap<Id, DateTime<FixedOffset>>,
    pasts: Vec<Past>,
    said: Vec<haul::Owned>,
}

impl Left {
    /// Takes in who sees to which defect, as managers stated it.
    pub(in crate::cli) fn say(&mut self, statements: &Statements) {
        let said = owned(statements).into_iter();
        self.said.extend(said.map(|one| one.said));
    }

    /// Takes in a trip that can be walked again.
    pub(in crate::cli) fn take(&mut self, read: &TripRead, (trip, walk): (&Verified, &Walk)) {
        let device = &trip.begun().device;
        let last = self.last.get(device).copied();
        let past = past(walk, trip, (read.finding() == Finding::Intact, last));
        self.last.insert(device.clone(), past.at);
        let place = format!("{device}/{}", trip.begun().seq);
        self.places.insert(past.trip.clone(), place);
        self.pasts.push(past);
    }

    /// What stands open of a rig after the walks that were over by then.
    pub(in crate::cli) fn by(&self, rig: &str, is_in: impl Fn(&Past) -> bool) -> Standing {
        fold(rig, self.pasts.iter().filter(|past| is_in(past))).with_words(&self.said)
    }

    /// What stood open of a rig on the evening of this day, by what managers had stated by then.
    pub(in crate::cli) fn on(&self, rig: &str, day: NaiveDate) -> Standing {
        let by_then = |at: DateTime<FixedOffset>| at.date_naive() <= day;
        let said = self.said.iter().filter(|one| by_then(one.at));
        let said: Vec<haul::Owned> = said.cloned().collect();
        let pasts = self.pasts.iter().filter(|past| by_then(past.at));
        fold(rig, pasts).with_words(&said)
    }

    /// A trip by laptop and number.
    pub(in crate::cli) fn place(&self, trip: &str) -> String {
        self.places.get(trip).cloned().unwrap_or_default()
    }

    /// When a trip was over, as it is put in order.
    pub(in crate::cli) fn ended(&self, trip: &Id) -> Option<DateTime<FixedOffset>> {
        let mut pasts = self.pasts.iter();
        pasts
            .find(|past| past.trip == trip.as_str())
            .map(|past| past.at)
    }
}

fn told(trip: &Verified, signed: bool) -> Told {
    let odometer = trip.begun().odometer.as_ref();
    Told {
        trip: trip.begun().trip.to_string(),
        odometer: odometer.map(|typed| typed.quantity().clone()),
        signed,
        began_with: [trip.begun().reader.clone(), trip.begun().doer.clone()],
    }
}
