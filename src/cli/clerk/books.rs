//! Reading a logbook: its crew, its devices, its trips, each verified as it is read.

use crate::checklist::{Checklist, Plan};
use crate::cli::clerk::Trouble;
use crate::record::{
    Begun, Crew, Digest, Examined, Id, MAX_TRIP, Mode, Role, SealFiles, Signer, TripFiles,
    Verified, verify,
};
use crate::rig::Rig;
use crate::store::{Disk, Logbook, MOST_FILE_BYTES, StoreFault, TripFolder};
use crate::walk::Walk;
use std::collections::HashMap;
use std::io::ErrorKind;
use std::path::Path;
use std::rc::Rc;

/// A logbook with its crew, to read from.
#[derive(Clone, Debug)]
pub struct Books<D: Disk> {
    /// The logbook.
    pub logbook: Logbook<D>,
    /// Who may sign, as the logbook has it now.
    pub crew: Crew,
}

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
    /// The one laid on the other, where the bytes can be relied on and this program can lay them.
    plan: Option<Rc<Plan>>,
}

/// Checklists laid on rigs. Most trips of a barn share theirs, and each pair is read once.
#[derive(Clone, Debug, Default)]
pub struct Plans(HashMap<(Digest, Digest), Option<Rc<Plan>>>);

impl<D: Disk> Books<D> {
    /// Opens a logbook with its crew.
    ///
    /// # Errors
    /// What the disk refused, or a crew file that cannot be used.
    pub fn open(disk: &D, root: &Path) -> Result<Self, Trouble> {
        let logbook = Logbook::open(disk.clone(), root)?;
        let crew = Crew::read(&logbook.read(&logbook.crew())?)?;
        Ok(Self { logbook, crew })
    }

    /// What the logbook is for: its crew signs in the namespaces of one mode.
    pub fn mode(&self) -> Mode {
        mode_of(&self.crew)
    }

    /// This laptop: the device of the crew whose key is here.
    pub(super) fn device(&self) -> Result<Id, Trouble> {
        let devices = self
            .crew
            .signers()
            .iter()
            .filter(|signer| signer.roles.contains(&Role::Device));
        let here = |signer: &&Signer| {
            let key = self.logbook.key(&signer.id);
            self.logbook.disk().exists(&key).unwrap_or(false)
        };
        devices
            .filter(here)
            .map(|signer| signer.id.clone())
            .next()
            .ok_or_else(|| {
                Trouble::Said(
                    "This laptop has no key in this logbook, so it cannot begin a trip here. \
                 Ask the manager to enrol it."
                        .to_owned(),
                )
            })
    }

    /// The person with this printed name or id.
    pub(super) fn person(&self, name: &str) -> Option<&Signer> {
        person_of(&self.crew, name)
    }

    /// Every trip of every device, in the order of devices and trips.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn trips(&self) -> Result<Vec<(Id, TripFolder)>, StoreFault> {
        let mut trips = Vec::new();
        for device in self.logbook.devices()? {
            for trip in self.logbook.trips(&device)?.trips {
                if self.logbook.has_begun(&trip)? || self.logbook.is_sealed(&trip)? {
                    trips.push((device.clone(), trip));
                }
            }
        }
        Ok(trips)
    }

    /// Reads and verifies a trip by this logbook's crew.
    ///
    /// # Errors
    /// What the disk refused. What is wrong with the trip itself is in [`TripRead::examined`].
    pub fn read(&self, folder: &TripFolder, plans: &mut Plans) -> Result<TripRead, StoreFault> {
        let crews = std::slice::from_ref(&self.crew);
        read_trip(self.logbook.disk(), folder, Some(self.mode()), crews, plans)
    }
}

/// Reads and verifies a trip, trusting these crew files and what they grew from. Without a mode
/// it is taken to be where it belongs.
///
/// # Errors
/// What the disk refused.
pub fn read_trip<D: Disk>(
    disk: &D,
    folder: &TripFolder,
    mode: Option<Mode>,
    trusted: &[Crew],
    plans: &mut Plans,
) -> Result<TripRead, StoreFault> {
    let journal = read_file(disk, &folder.journal(), MAX_TRIP)?.unwrap_or_default();
    let file = |path: &Path| read_file(disk, path, MOST_FILE_BYTES);
    let checklist = file(&folder.checklist())?.unwrap_or_default();
    let rig = file(&folder.rig())?.unwrap_or_default();
    let crew = file(&folder.crew())?.unwrap_or_default();
    let seal = file(&folder.seal())?;
    let by_person = file(&folder.person_signature())?;
    let by_device = file(&folder.device_signature())?;
    let files = TripFiles {
        journal: &journal,
        checklist: &checklist,
        rig: &rig,
        seal: seal.as_ref().map(|seal| SealFiles {
            seal,
            by_person: by_person.as_deref(),
            by_device: by_device.as_deref(),
        }),
    };
    let own = || Crew::read(&crew).map_or(Mode::Real, |crew| mode_of(&crew));
    let mode = mode.unwrap_or_else(own);
    let mut examined = verify(&files, mode, &with_earlier(trusted, &crew));
    let mut plan = None;
    if let Some(trip) = &examined.trip {
        plan = plans.of(trip.begun(), &checklist, &rig);
        examined = examined.repeated(plan.as_deref());
    }
    Ok(TripRead {
        folder: folder.clone(),
        examined,
        checklist,
        rig,
        plan,
    })
}

/// The crews trusted, and the pinned one where a trusted one grew from it: lines are only ever
/// added, so the earlier file is the beginning of the later one, to the byte.
fn with_earlier(trusted: &[Crew], pinned: &[u8]) -> Vec<Crew> {
    let grew = trusted
        .iter()
        .any(|crew| crew.text().as_bytes().starts_with(pinned));
    let earlier = Crew::read(pinned).ok().filter(|_| grew);
    trusted.iter().cloned().chain(earlier).collect()
}

/// A file of at most so many bytes; nothing where there is none.
fn read_file<D: Disk>(disk: &D, path: &Path, most: usize) -> Result<Option<Vec<u8>>, StoreFault> {
    match disk.read(path, most) {
        Ok(bytes) => Ok(Some(bytes)),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        Err(error) => Err(StoreFault::of_reading(path, most)(error)),
    }
}

/// The mode a crew signs in; real unless every signature counts elsewhere.
pub fn mode_of(crew: &Crew) -> Mode {
    let all_in = |mode: Mode| {
        let mut namespaces = crew
            .signers()
            .iter()
            .flat_map(|signer| &signer.namespaces)
            .peekable();
        namespaces.peek().is_some() && namespaces.all(|namespace| namespace.mode == mode)
    };
    [Mode::Demo, Mode::Drill]
        .into_iter()
        .find(|mode| all_in(*mode))
        .unwrap_or(Mode::Real)
}

/// The person with this printed name or id, letter case forgiven.
pub(super) fn person_of<'c>(crew: &'c Crew, name: &str) -> Option<&'c Signer> {
    let wanted = name.trim().to_lowercase();
    crew.signers().iter().find(|signer| {
        !signer.roles.contains(&Role::Device)
            && (signer.name.as_str().to_lowercase() == wanted || signer.id.as_str() == wanted)
    })
}

impl Plans {
    /// The checklist laid on the rig, as they were when the trip began.
    fn of(&mut self, begun: &Begun, checklist: &[u8], rig: &[u8]) -> Option<Rc<Plan>> {
        let lay = || {
            let checklist = Checklist::read(str::from_utf8(checklist).ok()?).ok()?;
            let rig = Rig::read(str::from_utf8(rig).ok()?).ok()?;
            Plan::lay(checklist, rig).ok().map(Rc::new)
        };
        let pair = (begun.checklist.hash, begun.rig.hash);
        self.0.entry(pair).or_insert_with(lay).clone()
    }
}

impl TripRead {
    /// The walk as its journal tells it; why not, when the journal cannot be relied on.
    ///
    /// # Errors
    /// A sentence with what verification found.
    pub fn walk(&self) -> Result<Walk, Trouble> {
        match (&self.plan, &self.examined.trip) {
            (Some(plan), Some(trip)) if self.examined.is_reliable() => {
                Ok(fold(Plan::clone(plan), trip))
            }
            _ => Err(Trouble::Said(format!(
                "This trip cannot be relied on: {}. See it with: hames verify {}",
                self.examined.finding(),
                self.folder.path.display()
            ))),
        }
    }
}

/// State is a fold of events.
fn fold(plan: Plan, trip: &Verified) -> Walk {
    let begun = trip.begun();
    let mut walk = Walk::begin(
        plan,
        begun.reader.clone(),
        begun.doer.clone(),
        trip.at().clone(),
    );
    for entry in trip.entries() {
        walk.apply(entry);
    }
    walk
}
