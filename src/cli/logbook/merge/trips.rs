//! Trips: read one after the other, planned, and written under the lock of their device.

use crate::cli::logbook::merge::open::Damaged;
use crate::cli::logbook::merge::write::{places, places_of_walk};
use crate::cli::logbook::merge::{Merge, Open};
use crate::logbook::merge::{
    Assembled, Awaited, Bundle, Course, Files, JournalTexts, SealTexts, Step, Theirs, TripKey,
    What, Why, course,
};
use crate::record::{Crew, Digest, Id, Mode, Role};
use crate::store::{Device, Disk, Logbook, StoreFault, TripFolder, Trips, is_place};
use std::collections::{HashMap, HashSet};
use std::path::{Path, PathBuf};

/// What is at hand while the trips of one device are taken in.
pub(super) struct Drawer<D: Disk> {
    /// The logbook they lie in, or its drills, and the mode of these.
    of: (Logbook<D>, Mode),
    device: Id,
    trips: Trips,
    /// The device's lock, once something is written.
    pub(super) held: Option<Device<D>>,
    /// Whether another program has it.
    in_use: bool,
}

impl<D: Disk> Drawer<D> {
    /// The trips of a device in a logbook, or in its drills.
    pub(super) fn of(of: (Logbook<D>, Mode), device: &Id) -> Result<Self, StoreFault> {
        Ok(Self {
            device: device.clone(),
            trips: of.0.trips(device)?,
            of,
            held: None,
            in_use: false,
        })
    }

    /// Whose trips they are.
    pub(super) const fn device(&self) -> &Id {
        &self.device
    }

    /// With what lies there now.
    pub(super) fn again(self) -> Result<Self, StoreFault> {
        let trips = self.of.0.trips(&self.device)?;
        Ok(Self { trips, ..self })
    }

    /// Whether this merge has the lock of the device, or gets it.
    pub(super) fn hold(&mut self) -> Result<bool, StoreFault> {
        self.take()?;
        Ok(self.held.is_some())
    }

    /// Takes the lock of the device. Answers whether it was taken just now.
    fn take(&mut self) -> Result<bool, StoreFault> {
        if self.held.is_some() || self.in_use {
            return Ok(false);
        }
        match Device::take(&self.of.0, &self.device) {
            Ok(device) => self.held = Some(device),
            Err(StoreFault::InUse { .. }) => self.in_use = true,
            Err(fault) => return Err(fault),
        }
        Ok(self.held.is_some())
    }
}

/// What lies here of one number, and what is done with it.
struct Planned {
    folders: Vec<TripFolder>,
    ours: Vec<Files>,
    course: Course,
}

impl<D: Disk> Merge<D> {
    /// Puts together what belongs together. Where something is left over, it may be what a trip
    /// lacks that is here already, or has damaged.
    pub(super) fn assembled(&mut self) -> Result<Assembled, StoreFault> {
        let known: Vec<Crew> = self.trusted.crews().cloned().collect();
        let parts = self.brought.pile.assemble(&known);
        if parts.loose.is_empty() {
            return Ok(parts);
        }
        let brought = parts.trips.keys().map(|key| (&key.device, key.seq));
        let brought: HashSet<(&Id, u64)> = brought.collect();
        let paths = parts.loose.iter().filter_map(|one| self.brought.path(*one));
        let near: HashSet<PathBuf> = paths.filter_map(place_of_trip).collect();
        for (device, folder) in self.books.trips()? {
            let mut there = Vec::new();
            for path in places(&folder) {
                if self.books.logbook.is_file(&path)? {
                    there.push(path);
                }
            }
            let mut wanted = places_of_walk(&folder).into_iter();
            let is_whole = wanted.all(|path| there.contains(&path));
            let place = folder.path.strip_prefix(self.books.logbook.root());
            let is_near = place.is_ok_and(|place| near.contains(place));
            if is_whole && !is_near && !brought.contains(&(&device, folder.seq)) {
                continue;
            }
            for path in there {
                let bytes = self.books.logbook.read_any(&path)?;
                // What lies here is told where it is damaged, and is kept aside only there.
                self.aside.extend(self.brought.take_ours(&path, bytes));
            }
        }
        Ok(self.brought.pile.assemble(&known))
    }

    /// Takes trips in, device by device.
    pub(super) fn trips(&mut self, parts: &Assembled) -> Result<(), StoreFault> {
        let mut drawer: Option<Drawer<D>> = None;
        let mut texts = HashMap::new();
        for (key, bundle) in &parts.trips {
            let theirs = self.theirs(bundle, &mut texts)?;
            if let Some(why) = self.other_mode(bundle) {
                self.all_aside(bundle, &why)?;
                continue;
            }
            if let Some(why) = self.is_strange(key, bundle, &theirs) {
                self.all_aside(bundle, &why)?;
                continue;
            }
            let mut here = match drawer.take() {
                Some(drawer) if drawer.device == key.device => drawer,
                _ => self.drawer(&key.device)?,
            };
            self.trip(key, &theirs, &mut here)?;
            drawer = Some(here);
        }
        Ok(())
    }

    pub(super) fn drawer(&self, device: &Id) -> Result<Drawer<D>, StoreFault> {
        Drawer::of((self.books.logbook.clone(), self.mode), device)
    }

    /// Takes in one trip, and puts in order what lies here of its number.
    pub(super) fn trip(
        &mut self,
        key: &TripKey,
        theirs: &Theirs,
        drawer: &mut Drawer<D>,
    ) -> Result<(), StoreFault> {
        if let Some(path) = self.no_file(key.seq, drawer)? {
            // Neither taken nor kept aside: it stays where it is until the place is free.
            let texts = theirs.journals.iter().flat_map(|one| one.files.texts());
            self.placed.extend(texts.map(|text| Digest::of(text)));
            self.merged.open(Open::NoFile(path));
            return Ok(());
        }
        let mut plan = self.plan(key, theirs, drawer)?;
        let writes = plan.course.steps.iter().any(|step| self.writes(step));
        if writes && !self.look && drawer.take()? {
            // What was read without the lock may have changed by now.
            drawer.trips = drawer.of.0.trips(&key.device)?;
            plan = self.plan(key, theirs, drawer)?;
        }
        let Planned {
            folders,
            ours,
            course: planned,
        } = plan;
        self.seen.insert(key.clone());
        self.tell_damage(&key.device, (&folders, &ours), &planned);
        // What lies here, or comes with a step, need not wait for its record.
        let come = planned.steps.iter().filter_map(|step| match step {
            Step::Keep { files, .. } | Step::Heal { files, .. } | Step::Add { files, .. } => {
                Some(files)
            }
            _ => None,
        });
        let texts = ours.iter().chain(come).flat_map(Files::texts);
        self.placed.extend(texts.map(|text| Digest::of(text)));
        let set_aside = |piece| {
            let is = |step: &Step| matches!(step, Step::Aside { piece: one, .. } if *one == piece);
            planned.steps.iter().any(is)
        };
        for journal in theirs.journals.iter().filter(|one| !set_aside(one.piece)) {
            let texts = journal.files.texts();
            self.placed.extend(texts.map(|text| Digest::of(text)));
        }
        let mut wrote = false;
        let mut asided = false;
        for step in planned.steps {
            if let Step::Aside { piece, why } = step {
                self.aside(piece, &why)?;
                asided = true;
            } else if drawer.in_use {
                self.merged.open(Open::InUse(key.device.clone()));
                asided = true;
            } else {
                let faults = planned.damaged.as_slice();
                wrote |= self.write(key, step, (&folders, faults), drawer)?;
            }
        }
        let mut journals = theirs.journals.iter();
        let brought = journals.any(|one| !self.brought.was_aside(one.piece));
        if !wrote && !asided && brought {
            self.known.insert(place_of(key));
        }
        Ok(())
    }

    /// Tells what cannot be relied on here, and is neither healed nor held by another folder.
    fn tell_damage(
        &mut self,
        device: &Id,
        (folders, ours): (&[TripFolder], &[Files]),
        planned: &Course,
    ) {
        let whole = (0..).zip(ours).any(|(at, files)| {
            files.journal.is_some() && planned.damaged.iter().all(|(one, _)| *one != at)
        });
        for (at, faults) in &planned.damaged {
            let mends = |step: &Step| match step {
                Step::Heal { ours, .. } | Step::Dissolve { ours, .. } => ours == at,
                _ => false,
            };
            let Some(folder) = folders.get(*at) else {
                continue;
            };
            // A damaged first line may have made it look like another trip, told as such before.
            self.damaged.retain(|one| one.path != folder.path);
            if !planned.steps.iter().any(mends) {
                let faults = faults.iter().map(ToString::to_string).collect();
                self.damaged.push(Damaged {
                    device: device.clone(),
                    seq: folder.seq,
                    path: folder.path.clone(),
                    faults,
                    beside: whole,
                });
            }
        }
    }

    /// What has the place of a file of this trip here, and is none.
    fn no_file(&self, seq: u64, drawer: &Drawer<D>) -> Result<Option<PathBuf>, StoreFault> {
        let logbook = &self.books.logbook;
        for folder in drawer.trips.trips.iter().filter(|one| one.seq == seq) {
            for path in places(folder) {
                if logbook.has(&path)? && !logbook.is_file(&path)? {
                    return Ok(Some(path));
                }
            }
        }
        Ok(None)
    }

    /// The folders of that number here, and what is done.
    fn plan(
        &self,
        key: &TripKey,
        theirs: &Theirs,
        drawer: &Drawer<D>,
    ) -> Result<Planned, StoreFault> {
        let same = drawer.trips.trips.iter().filter(|one| one.seq == key.seq);
        let folders: Vec<TripFolder> = same.cloned().collect();
        let mut ours = Vec::new();
        let mut named = Vec::new();
        for (at, folder) in folders.iter().enumerate() {
            if folder.begins_with_name_of(&key.trip) {
                named.push(at);
            }
            ours.push(files_in(&self.books.logbook, folder)?);
        }
        let course = course(key, theirs, &ours, &named, drawer.of.1);
        Ok(Planned {
            folders,
            ours,
            course,
        })
    }

    /// Reads what was brought of one trip.
    fn theirs(
        &self,
        bundle: &Bundle,
        texts: &mut HashMap<Digest, Option<Vec<u8>>>,
    ) -> Result<Theirs, StoreFault> {
        let mut theirs = Theirs::default();
        for at in &bundle.journals {
            let Some((_, journal)) = self.brought.fetch(&self.books.logbook, *at)? else {
                continue;
            };
            let Some(What::Journal(beginning)) = self.brought.pile.get(*at).map(|one| &one.what)
            else {
                continue;
            };
            let mut found = Vec::new();
            for hash in &beginning.texts {
                if !texts.contains_key(hash) {
                    let trusted = self.trusted.get(hash).map(|crew| crew.text().as_bytes());
                    let text = match self.brought.text(&self.books.logbook, hash)? {
                        None => trusted.map(<[u8]>::to_vec),
                        brought => brought,
                    };
                    texts.insert(*hash, text);
                }
                found.push(texts.get(hash).cloned().flatten());
            }
            let mut found = found.into_iter();
            theirs.journals.push(JournalTexts {
                piece: *at,
                files: Files {
                    journal: Some(journal),
                    checklist: found.next().flatten(),
                    rig: found.next().flatten(),
                    crew: found.next().flatten(),
                    ..Files::default()
                },
            });
        }
        for pieces in &bundle.seals {
            let seal = self.small(&[pieces.seal]).into_iter().next();
            theirs.seals.extend(seal.map(|seal| SealTexts {
                seal,
                by_person: self.small(&pieces.by_person),
                by_device: self.small(&pieces.by_device),
            }));
        }
        Ok(theirs)
    }

    /// Whether it is of a crew that has nothing to do with the one here.
    fn is_strange(&self, key: &TripKey, bundle: &Bundle, theirs: &Theirs) -> Option<Why> {
        let is_device = |crew: &Crew| {
            let device = crew.signer(&key.device);
            device.is_some_and(|one| one.roles.contains(&Role::Device))
        };
        if self.trusted.crews().any(is_device) {
            return None;
        }
        let crews = theirs.journals.iter().filter_map(|one| {
            let crew = one.files.crew.as_deref()?;
            Crew::read(crew).ok()
        });
        let mut crews = crews.peekable();
        let kin = crews.peek().is_some() && crews.all(|crew| self.trusted.is_kin(&crew));
        let only_seals = bundle.journals.is_empty();
        (!kin).then_some(if only_seals {
            Why::Waits(Awaited::Journal)
        } else {
            Why::Foreign
        })
    }
}

/// The files of a trip as they lie in a folder.
pub(super) fn files_in<D: Disk>(
    logbook: &Logbook<D>,
    folder: &TripFolder,
) -> Result<Files, StoreFault> {
    let file = |path: &Path| -> Result<Option<Vec<u8>>, StoreFault> {
        if logbook.is_file(path)? {
            logbook.read_any(path).map(Some)
        } else {
            Ok(None)
        }
    };
    Ok(Files {
        journal: file(&folder.journal())?,
        checklist: file(&folder.checklist())?,
        rig: file(&folder.rig())?,
        scenario: file(&folder.scenario())?,
        sights: file(&folder.sights())?,
        crew: file(&folder.crew())?,
        seal: file(&folder.seal())?,
        by_person: file(&folder.person_signature())?,
        by_device: file(&folder.device_signature())?,
        by_examiner: file(&folder.examiner_signature())?,
    })
}

/// The folder of a trip that a path would be in, from the logbook's folder on. It is a hint where to
/// look; only the bytes decide.
fn place_of_trip(path: &Path) -> Option<PathBuf> {
    let parts: Vec<_> = path.parent()?.components().collect();
    let place: PathBuf = parts.iter().skip(parts.len().checked_sub(4)?).collect();
    is_place(&place.join(TripFolder::FILES.first()?)).then_some(place)
}

/// The same of a trip whichever of its histories lies there.
pub(super) fn place_of_any_history(path: &Path) -> Option<PathBuf> {
    let place = place_of_trip(path)?;
    let mut parts = place.file_name()?.to_str()?.splitn(3, '-');
    let name = format!("{}-{}", parts.next()?, parts.next()?);
    Some(place.with_file_name(name))
}

/// The place of a trip, from the logbook's folder on.
pub(super) fn place_of(key: &TripKey) -> PathBuf {
    let trips: PathBuf = ["dev", key.device.as_str(), "t"].iter().collect();
    TripFolder::below(&trips, key.seq, &key.trip).path
}

/// The laptop and the number of the trip in whose folder a file lay, by the names of the folders.
pub(super) fn trip_beside(path: &Path) -> Option<(Id, u64)> {
    let place = place_of_trip(path)?;
    let mut parts = place.iter().skip(1).map(|part| part.to_str());
    let device = Id::read(parts.next()??).ok()?;
    let (number, _) = parts.nth(1)??.split_once('-')?;
    Some((device, number.parse().ok()?))
}
