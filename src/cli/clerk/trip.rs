//! One trip: read, verified, laid on its plan, and held to the place it lies in.

use crate::checklist::{Checklist, Plan};
use crate::cli::clerk::books::mode_of;
use crate::cli::clerk::{Listed, Stock, Trouble, Trust};
use crate::cli::command::quoted;
use crate::record::{
    Begun, Crew, Digest, DrillFiles, Examined, Finding, Hashed, Id, MAX_TRIP, Mode, SealFiles,
    TripFiles, Verified, verify_next,
};
use crate::rig::Rig;
use crate::rules::Carried;
use crate::store::{Disk, MOST_FILE_BYTES, StoreFault, TripFolder};
use crate::walk::Walk;
use std::collections::HashMap;
use std::fmt;
use std::io::ErrorKind;
use std::path::Path;
use std::sync::Arc;

/// A trip as read, and what verification found.
#[derive(Clone, Debug)]
pub struct TripRead {
    /// The folder.
    pub folder: TripFolder,
    /// What verification found.
    pub examined: Examined,
    /// The checklist's text.
    pub checklist: Vec<u8>,
    /// The rig's text.
    pub rig: Vec<u8>,
    /// The texts of scenario and sights; empty where it is no drill.
    pub drill: (Vec<u8>, Vec<u8>),
    /// Where the folder's name or place says another trip than the record in it.
    pub misplaced: Option<Misplaced>,
    /// Whether the crew file beside the record is another than the one line 0 names.
    other_crew: bool,
    /// The one laid on the other, where the bytes can be relied on and this program can lay them.
    plan: Option<Arc<Plan>>,
}

/// A record in a folder of another trip: copied, renamed or moved by hand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misplaced {
    /// What it is of: a trip or a drill.
    pub what: &'static str,
    /// The device that wrote the record.
    pub device: Id,
    /// The place in its sequence.
    pub seq: u64,
}

/// Checklists laid on rigs, with what earlier walks had left open. Most trips of a barn share
/// theirs: each file is read once, and each such three are laid once.
#[derive(Clone, Debug, Default)]
pub struct Plans {
    checklists: HashMap<Digest, Option<Checklist>>,
    rigs: HashMap<Digest, Option<Rig>>,
    laid: HashMap<(Digest, Digest, Vec<Carried>), Option<Arc<Plan>>>,
    hashed: Hashed,
}

const OTHER_CREW: &str =
    "the crew file beside the record is not the one that was in force when the walk began";

/// Reads and verifies a trip by the crew files trusted. They also say what the logbook is for;
/// without any, the trip is taken to be where it belongs.
///
/// # Errors
/// What the disk refused.
pub fn read_trip<D: Disk>(
    disk: &D,
    folder: &TripFolder,
    trust: &Trust,
    plans: &mut Plans,
) -> Result<TripRead, StoreFault> {
    let journal = read_file(disk, &folder.journal(), MAX_TRIP)?.unwrap_or_default();
    let file = |path: &Path| read_file(disk, path, MOST_FILE_BYTES);
    let checklist = file(&folder.checklist())?.unwrap_or_default();
    let rig = file(&folder.rig())?.unwrap_or_default();
    let crew = file(&folder.crew())?.unwrap_or_default();
    let scenario = file(&folder.scenario())?.unwrap_or_default();
    let sights = file(&folder.sights())?.unwrap_or_default();
    let by_examiner = file(&folder.examiner_signature())?;
    let seal = file(&folder.seal())?;
    let by_person = file(&folder.person_signature())?;
    let by_device = file(&folder.device_signature())?;
    let files = TripFiles {
        journal: &journal,
        checklist: &checklist,
        rig: &rig,
        drill: DrillFiles {
            scenario: &scenario,
            sights: &sights,
            by_examiner: by_examiner.as_deref(),
        },
        seal: seal.as_ref().map(|seal| SealFiles {
            seal,
            by_person: by_person.as_deref(),
            by_device: by_device.as_deref(),
        }),
    };
    let own = || Crew::read(&crew).map_or(Mode::Real, |crew| mode_of(&crew));
    let mode = trust.mode().unwrap_or_else(own);
    let mut examined = verify_next(&mut plans.hashed, &files, mode, &trust.for_trip(&crew));
    let (mut plan, mut other_crew) = (None, false);
    if let Some(trip) = &examined.trip {
        // It proves nothing and may be missing; one that is there is what whoever reads by hand has.
        other_crew = !crew.is_empty() && Digest::of(&crew) != trip.begun().crew;
        plan = plans.of(trip.begun(), &checklist, &rig);
        examined = examined.repeated(plan.as_ref());
    }
    Ok(TripRead {
        folder: folder.clone(),
        examined,
        checklist,
        rig,
        drill: (scenario, sights),
        misplaced: None,
        other_crew,
        plan,
    })
}

/// A file of at most so many bytes; nothing where there is none.
fn read_file<D: Disk>(disk: &D, path: &Path, most: usize) -> Result<Option<Vec<u8>>, StoreFault> {
    match disk.read(path, most) {
        Ok(bytes) => Ok(Some(bytes)),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        Err(error) => Err(StoreFault::of_reading(path, most)(error)),
    }
}

impl Plans {
    /// Those on offer, which need not be read again from the copies beside trips.
    pub(super) fn of_stock(stock: &Stock) -> Self {
        let lists = stock.checklists.iter().filter_map(Listed::at_hand);
        let lists = lists.map(|one| (Digest::of(one.text.as_bytes()), Some(one.read.clone())));
        let rigs = stock.rigs.iter();
        let rigs = rigs.map(|one| (Digest::of(one.text.as_bytes()), Some(one.read.clone())));
        Self {
            checklists: lists.collect(),
            rigs: rigs.collect(),
            ..Self::default()
        }
    }

    /// The checklist laid on the rig, as they were when the trip began.
    fn of(&mut self, begun: &Begun, checklist: &[u8], rig: &[u8]) -> Option<Arc<Plan>> {
        let of = (begun.checklist.hash, begun.rig.hash, begun.carried());
        if let Some(laid) = self.laid.get(&of) {
            return laid.clone();
        }
        let read = || Checklist::read(str::from_utf8(checklist).ok()?).ok();
        let checklist = self.checklists.entry(of.0).or_insert_with(read).clone();
        let read = || Rig::read(str::from_utf8(rig).ok()?).ok();
        let rig = self.rigs.entry(of.1).or_insert_with(read).clone();
        let lay = |(checklist, rig)| Plan::lay_for(checklist, rig, of.2.clone()).ok();
        let plan = checklist.zip(rig).and_then(lay).map(Arc::new);
        self.laid.insert(of, plan.clone());
        plan
    }
}

impl TripRead {
    /// The same, held to the folder it lies in: by device, number and id.
    pub(in crate::cli) fn in_its_place(self, device: &Id) -> Self {
        let misplaced = self.examined.trip.as_ref().and_then(|trip| {
            let begun = trip.begun();
            // Letters of its end tell another history of the same trip apart.
            let own = self.folder.begins_with_name_of(&begun.trip);
            let here = begun.device == *device && begun.seq == self.folder.seq && own;
            (!here).then(|| Misplaced {
                what: begun.what(),
                device: begun.device.clone(),
                seq: begun.seq,
            })
        });
        Self { misplaced, ..self }
    }

    /// What is found of the trip, its place included.
    pub fn finding(&self) -> Finding {
        let found = self.examined.finding();
        if self.misplaced.is_some() || self.other_crew {
            found.max(Finding::Altered)
        } else {
            found
        }
    }

    /// Everything wrong or missing, as sentences.
    pub fn faults(&self) -> Vec<String> {
        let faults = self.examined.faults.iter().map(ToString::to_string);
        faults
            .chain(self.misplaced.as_ref().map(ToString::to_string))
            .chain(self.other_crew.then(|| OTHER_CREW.to_owned()))
            .collect()
    }

    /// The trip, where its bytes can be relied on and it lies where it belongs.
    pub fn trip(&self) -> Option<&Verified> {
        self.examined
            .trip
            .as_ref()
            .filter(|_| self.misplaced.is_none())
    }

    /// The walk as its journal tells it; why not, when the journal cannot be relied on.
    ///
    /// # Errors
    /// A sentence with what verification found.
    pub fn walk(&self) -> Result<Walk, Trouble> {
        match (&self.plan, self.trip()) {
            (Some(plan), Some(trip)) if self.examined.is_reliable() => {
                Ok(fold(Arc::clone(plan), trip))
            }
            _ => Err(Trouble::Said(format!(
                "This trip cannot be relied on: {}. See it with: hames verify {}",
                self.finding(),
                quoted(&self.folder.path)
            ))),
        }
    }
}

/// State is a fold of events.
fn fold(plan: Arc<Plan>, trip: &Verified) -> Walk {
    let mut walk = trip.begun().walk(plan, trip.at().clone());
    for entry in trip.entries() {
        walk.apply(entry);
    }
    walk
}

impl fmt::Display for Misplaced {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "the record is {} {} of {}, and lies in the folder of another",
            self.what, self.seq, self.device
        )
    }
}
