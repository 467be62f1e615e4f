//! Trips: read one after the other, planned, and written under the lock of their device.

use crate::cli::logbook::merge::{Came, How, Merge, Open};
use crate::logbook::merge::{
    Assembled, Awaited, Bundle, Course, Files, JournalTexts, SealTexts, Step, Theirs, TripKey,
    What, Why, course,
};
use crate::record::{Crew, Digest, Id, Role};
use crate::store::{Device, Disk, Logbook, StoreFault, TripFolder, Trips};
use std::collections::HashMap;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};

/// What is at hand while the trips of one device are taken in.
struct Drawer<D: Disk> {
    device: Id,
    trips: Trips,
    /// The device's lock, once something is written.
    held: Option<Device<D>>,
    /// Whether another program has it.
    in_use: bool,
}

impl<D: Disk> Merge<D> {
    /// Puts together what belongs together. Where something is left over, it may be what a trip
    /// lacks that is here already.
    pub(super) fn assembled(&mut self) -> Result<Assembled, StoreFault> {
        let known: Vec<Crew> = self.trusted.crews().cloned().collect();
        let parts = self.brought.pile.assemble(&known);
        if parts.loose.is_empty() {
            return Ok(parts);
        }
        for (_, folder) in self.books.trips()? {
            let mut there = Vec::new();
            for path in places(&folder) {
                if self.books.logbook.has(&path)? {
                    there.push(path);
                }
            }
            if there.len() == places(&folder).len() {
                continue;
            }
            for path in there {
                let bytes = self.books.logbook.read_any(&path)?;
                self.brought.take_ours(&path, bytes);
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
            if let Some(why) = self.is_strange(key, bundle, &theirs) {
                self.all_aside(bundle, &why)?;
                continue;
            }
            let mut here = match drawer.take() {
                Some(drawer) if drawer.device == key.device => drawer,
                _ => Drawer {
                    device: key.device.clone(),
                    trips: self.books.logbook.trips(&key.device)?,
                    held: None,
                    in_use: false,
                },
            };
            self.trip(key, &theirs, &mut here)?;
            drawer = Some(here);
        }
        Ok(())
    }

    fn trip(
        &mut self,
        key: &TripKey,
        theirs: &Theirs,
        drawer: &mut Drawer<D>,
    ) -> Result<(), StoreFault> {
        let (folders, mut planned) = self.plan(key, theirs, drawer)?;
        let writes = |step: &Step| !matches!(step, Step::Aside { .. });
        if planned.steps.iter().any(writes) && !self.look && self.take(drawer)? {
            // What was read without the lock may have changed by now.
            drawer.trips = self.books.logbook.trips(&key.device)?;
            planned = self.plan(key, theirs, drawer)?.1;
        }
        for (at, faults) in planned.damaged {
            if let Some(folder) = folders.get(at) {
                let faults = faults.iter().map(ToString::to_string).collect();
                self.merged.damaged(&folder.path, faults);
            }
        }
        let set_aside = |piece| {
            let is = |step: &Step| matches!(step, Step::Aside { piece: one, .. } if *one == piece);
            planned.steps.iter().any(is)
        };
        for journal in theirs.journals.iter().filter(|one| !set_aside(one.piece)) {
            let Files {
                checklist,
                rig,
                crew,
                ..
            } = &journal.files;
            let texts = [checklist, rig, crew].into_iter().flatten();
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
                wrote |= self.write(key, step, &folders, drawer)?;
            }
        }
        self.merged.known += usize::from(!wrote && !asided && !theirs.journals.is_empty());
        Ok(())
    }

    /// Takes the lock of the device. Answers whether it was taken just now.
    fn take(&self, drawer: &mut Drawer<D>) -> Result<bool, StoreFault> {
        if drawer.held.is_some() || drawer.in_use {
            return Ok(false);
        }
        match Device::take(&self.books.logbook, &drawer.device) {
            Ok(device) => drawer.held = Some(device),
            Err(StoreFault::InUse { .. }) => drawer.in_use = true,
            Err(fault) => return Err(fault),
        }
        Ok(drawer.held.is_some())
    }

    /// The folders of that number here, and what is done.
    fn plan(
        &self,
        key: &TripKey,
        theirs: &Theirs,
        drawer: &Drawer<D>,
    ) -> Result<(Vec<TripFolder>, Course), StoreFault> {
        let same = drawer.trips.trips.iter().filter(|one| one.seq == key.seq);
        let folders: Vec<TripFolder> = same.cloned().collect();
        let mut ours = Vec::new();
        let mut free = Vec::new();
        for (at, folder) in folders.iter().enumerate() {
            let files = files_in(&self.books.logbook, folder)?;
            if files.journal.is_none() && is_named_for(folder, &key.trip) {
                free.push(at);
            }
            ours.push(files);
        }
        let planned = course(key, theirs, &ours, &free, self.mode);
        Ok((folders, planned))
    }

    /// Does one step. Answers whether there was anything to do or to tell.
    fn write(
        &mut self,
        key: &TripKey,
        step: Step,
        folders: &[TripFolder],
        drawer: &Drawer<D>,
    ) -> Result<bool, StoreFault> {
        let held = drawer.held.as_ref();
        let (how, path) = match step {
            Step::Keep { history, .. } if self.told.is_pruned(&history) => {
                self.merged.pruned(key);
                return Ok(true);
            }
            Step::Keep {
                files,
                history,
                beside,
            } => {
                let mut place = None;
                if let Some(device) = held {
                    let folder = device.place_for(key.seq, &key.trip, &history.ends())?;
                    device.keep(&folder, &in_order(&folder, &files))?;
                    place = Some(folder.path);
                }
                let how = if beside { How::Beside } else { How::New };
                (how, place)
            }
            Step::Extend { ours, lines } => {
                let Some(folder) = folders.get(ours) else {
                    return Ok(false);
                };
                if let Some(device) = held {
                    let mut journal = device.resume(folder)?.journal;
                    for line in &lines {
                        journal.append(line)?;
                    }
                }
                (How::Longer(lines.len()), Some(folder.path.clone()))
            }
            Step::Add { ours, files } => {
                let Some(folder) = folders.get(ours) else {
                    return Ok(false);
                };
                let new = files.journal.is_some();
                if let Some(device) = held {
                    device.keep(folder, &in_order(folder, &files))?;
                }
                let how = if new { How::New } else { How::Completed };
                (how, Some(folder.path.clone()))
            }
            Step::Aside { .. } => return Ok(false),
        };
        let path = path.filter(|_| !self.look);
        self.merged.came(Came {
            key: key.clone(),
            how,
            path,
        });
        Ok(true)
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

    fn all_aside(&mut self, bundle: &Bundle, why: &Why) -> Result<(), StoreFault> {
        for piece in &bundle.journals {
            self.aside(*piece, why)?;
        }
        for seal in &bundle.seals {
            self.aside(seal.seal, why)?;
            for signature in seal.by_person.iter().chain(&seal.by_device) {
                self.aside(*signature, why)?;
            }
        }
        Ok(())
    }
}

/// The files of a trip as they lie in a folder.
pub(super) fn files_in<D: Disk>(
    logbook: &Logbook<D>,
    folder: &TripFolder,
) -> Result<Files, StoreFault> {
    let file = |path: &Path| -> Result<Option<Vec<u8>>, StoreFault> {
        if logbook.has(path)? {
            logbook.read_any(path).map(Some)
        } else {
            Ok(None)
        }
    };
    Ok(Files {
        journal: file(&folder.journal())?,
        checklist: file(&folder.checklist())?,
        rig: file(&folder.rig())?,
        crew: file(&folder.crew())?,
        seal: file(&folder.seal())?,
        by_person: file(&folder.person_signature())?,
        by_device: file(&folder.device_signature())?,
    })
}

/// Where the files of a trip lie.
fn places(folder: &TripFolder) -> [PathBuf; 7] {
    [
        folder.checklist(),
        folder.rig(),
        folder.crew(),
        folder.journal(),
        folder.seal(),
        folder.person_signature(),
        folder.device_signature(),
    ]
}

/// What each thing stands on comes before it, so that a crash on the way leaves what a later merge
/// completes.
fn in_order<'f>(folder: &TripFolder, files: &'f Files) -> Vec<(PathBuf, &'f [u8])> {
    let all = [
        &files.checklist,
        &files.rig,
        &files.crew,
        &files.journal,
        &files.seal,
        &files.by_person,
        &files.by_device,
    ];
    let there = |(path, bytes): (PathBuf, &'f Option<Vec<u8>>)| Some((path, bytes.as_deref()?));
    places(folder)
        .into_iter()
        .zip(all)
        .filter_map(there)
        .collect()
}

/// Whether a folder has the name of this trip.
fn is_named_for(folder: &TripFolder, trip: &Id) -> bool {
    let name = folder.path.file_name().and_then(OsStr::to_str);
    let mut parts = name.unwrap_or_default().split('-').skip(1);
    let letters = trip.as_str().chars().filter(char::is_ascii_alphanumeric);
    let letters: String = letters.collect();
    parts.next().is_some_and(|part| letters.starts_with(part))
}
