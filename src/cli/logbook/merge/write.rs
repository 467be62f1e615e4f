//! The steps of a plan, done: what is new is put in its place, and what gives way is kept aside first.

use crate::cli::logbook::merge::aside::{Mended, SetAside};
use crate::cli::logbook::merge::open::Neighbours;
use crate::cli::logbook::merge::trips::Drawer;
use crate::cli::logbook::merge::{Came, How, Merge};
use crate::logbook::merge::{Files, History, Step, TripKey, Why};
use crate::record::{Digest, TripFault};
use crate::store::{Device, Disk, Logbook, StoreFault, TripFolder};
use std::path::{Path, PathBuf};

/// The folders of one number here, and the faults of those that are damaged.
type Here<'a> = (&'a [TripFolder], &'a [(usize, Vec<TripFault>)]);

impl<D: Disk> Merge<D> {
    /// Whether a step changes anything of a device, so that its lock has to be had: not where what it
    /// would bring has been pruned.
    pub(super) fn writes(&self, step: &Step) -> bool {
        match step {
            Step::Keep { history, .. } | Step::Heal { history, .. } => {
                !self.told.is_pruned(history)
            }
            Step::Aside { .. } => false,
            _ => true,
        }
    }

    /// Does one step. Answers whether there was anything to do or to tell.
    pub(super) fn write(
        &mut self,
        key: &TripKey,
        step: Step,
        here: Here<'_>,
        drawer: &Drawer<D>,
    ) -> Result<bool, StoreFault> {
        let held = drawer.held.as_ref();
        let folder = |ours: usize| here.0.get(ours);
        match step {
            Step::Keep { history, .. } | Step::Heal { history, .. }
                if self.told.is_pruned(&history) =>
            {
                self.merged.pruned(key);
            }
            Step::Keep {
                files,
                history,
                beside,
            } => {
                if self.look {
                    self.would_be_in_part(key, &files);
                }
                let place = keep(held, key, &files, &history)?;
                let how = if beside { How::Beside } else { How::New };
                self.came(key, how, place);
            }
            Step::Extend { ours, lines } => {
                let Some(folder) = folder(ours) else {
                    return Ok(false);
                };
                if let Some(device) = held {
                    let mut journal = device.resume(folder)?.journal;
                    for line in &lines {
                        journal.append(line)?;
                    }
                }
                self.came(key, How::Longer(lines.len()), Some(folder.path.clone()));
            }
            Step::Add { ours, files } => {
                let Some(folder) = folder(ours) else {
                    return Ok(false);
                };
                if let Some(device) = held {
                    device.keep(folder, &in_order(folder, &files))?;
                }
                let new = files.journal.is_some();
                let how = if new { How::New } else { How::Completed };
                self.came(key, how, Some(folder.path.clone()));
            }
            Step::Clear { ours, files } => {
                let Some(folder) = folder(ours) else {
                    return Ok(false);
                };
                self.clear(key, &in_order(folder, &files), held.is_some())?;
            }
            Step::Heal { ours, files, .. } => {
                let Some(folder) = folder(ours) else {
                    return Ok(false);
                };
                self.heal(key, (folder, &files), faults(here, ours), held)?;
            }
            Step::Dissolve { ours, into } => {
                let Some((folder, whole)) = folder(ours).zip(folder(into)) else {
                    return Ok(false);
                };
                self.dissolve(key, (folder, whole), &faults(here, ours), held)?;
            }
            Step::Aside { .. } => return Ok(false),
        }
        Ok(true)
    }

    fn came(&mut self, key: &TripKey, how: How, path: Option<PathBuf>) {
        if self.look {
            self.completed.extend(path.clone());
        }
        let key = key.clone();
        self.merged.came(Came { key, how, path });
    }

    /// Moves signatures aside that are of another seal than the one that comes. They are taken up
    /// again where theirs comes.
    fn clear(
        &mut self,
        key: &TripKey,
        files: &[(PathBuf, &[u8])],
        write: bool,
    ) -> Result<(), StoreFault> {
        let logbook = &self.books.logbook;
        let why = Why::OfAnotherSeal;
        for (path, bytes) in files {
            if write {
                let text = format!("{}\n\n{why}.\n{}\n", path.display(), why.next_step());
                logbook.move_aside(path, &text)?;
            }
            self.merged.aside.push(SetAside {
                path: path.clone(),
                kept: logbook.aside(&Digest::of(bytes)),
                why: why.clone(),
                of: Some((key.clone(), Neighbours::default())),
                beside: None,
            });
        }
        Ok(())
    }

    /// Puts what is whole in the place of what is damaged.
    fn heal(
        &mut self,
        key: &TripKey,
        (folder, files): (&TripFolder, &Files),
        faults: Vec<String>,
        held: Option<&Device<D>>,
    ) -> Result<(), StoreFault> {
        let logbook = &self.books.logbook;
        let why = Why::Healed(faults.clone());
        let mut kept = Vec::new();
        for (path, bytes) in in_order(folder, files) {
            if !logbook.has(&path)? {
                if let Some(device) = held {
                    device.keep(folder, &[(path, bytes)])?;
                }
                continue;
            }
            kept.push(put_right(logbook, (&path, bytes), &why, held.is_some())?);
        }
        self.merged.mended.push(Mended::Healed {
            what: key.to_string(),
            path: folder.path.clone(),
            faults,
            kept,
        });
        Ok(())
    }

    /// Moves a folder aside of which another has everything.
    fn dissolve(
        &mut self,
        key: &TripKey,
        (folder, whole): (&TripFolder, &TripFolder),
        faults: &[String],
        held: Option<&Device<D>>,
    ) -> Result<(), StoreFault> {
        let why = Why::Held(whole.path.display().to_string());
        let text = format!("{why}.\n{}\n", why.next_step());
        let mut kept = Vec::new();
        if held.is_some() {
            kept = self.books.logbook.move_trip_aside(folder, &text)?;
        }
        self.merged.mended.push(Mended::Moved {
            what: if faults.is_empty() {
                format!("a second copy of {key}")
            } else {
                format!("a damaged copy of {key} ({})", faults.join("; "))
            },
            path: folder.path.clone(),
            into: whole.path.clone(),
            kept,
        });
        Ok(())
    }
}

/// Keeps a damaged file aside and puts what is whole in its place; answers where it is kept.
pub(super) fn put_right<D: Disk>(
    logbook: &Logbook<D>,
    (path, bytes): (&Path, &[u8]),
    why: &Why,
    write: bool,
) -> Result<PathBuf, StoreFault> {
    if !write {
        return Ok(logbook.aside(&Digest::of(&logbook.read_any(path)?)));
    }
    let text = format!("{}\n\n{why}.\n{}\n", path.display(), why.next_step());
    logbook.put_right(path, bytes, &text)
}

fn keep<D: Disk>(
    held: Option<&Device<D>>,
    key: &TripKey,
    files: &Files,
    history: &History,
) -> Result<Option<PathBuf>, StoreFault> {
    let Some(device) = held else { return Ok(None) };
    let folder = device.place_for(key.seq, &key.trip, &history.ends())?;
    device.keep(&folder, &in_order(&folder, files))?;
    Ok(Some(folder.path))
}

fn faults((_, damaged): Here<'_>, ours: usize) -> Vec<String> {
    let of_it = damaged.iter().filter(|(at, _)| *at == ours);
    of_it
        .flat_map(|(_, faults)| faults)
        .map(ToString::to_string)
        .collect()
}

/// Where the files of a trip lie, and those a drill has besides.
pub(super) fn places(folder: &TripFolder) -> Vec<PathBuf> {
    let mut places = vec![folder.scenario(), folder.sights()];
    places.extend(places_of_walk(folder));
    places.push(folder.examiner_signature());
    places
}

/// Where the files of a trip lie that is no drill.
pub(super) fn places_of_walk(folder: &TripFolder) -> [PathBuf; 7] {
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
        &files.scenario,
        &files.sights,
        &files.checklist,
        &files.rig,
        &files.crew,
        &files.journal,
        &files.seal,
        &files.by_person,
        &files.by_device,
        &files.by_examiner,
    ];
    let there = |(path, bytes): (PathBuf, &'f Option<Vec<u8>>)| Some((path, bytes.as_deref()?));
    places(folder)
        .into_iter()
        .zip(all)
        .filter_map(there)
        .collect()
}
