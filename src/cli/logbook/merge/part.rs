//! Trips of which not every file has arrived: a stick was pulled out early, or brought only some.

use crate::cli::logbook::merge::open::{InPart, Neighbours};
use crate::cli::logbook::merge::{Merge, Open};
use crate::logbook::merge::{Files, TripKey};
use crate::record::{Begun, Id, Previous, Said, Says, Stated, read_chain};
use crate::store::{Disk, Doing, Kind, StoreFault, TripFolder};
use std::collections::{BTreeMap, BTreeSet};

/// The folders of a device by the number of the trip.
pub(super) type Shelved = BTreeMap<u64, Vec<TripFolder>>;

/// What a trip needs, the journal aside. The crew file counts only where no other place has it.
const TEXTS: [&str; 2] = ["checklist.yaml", "rig.yaml"];
const SEAL: &str = "seal.json";
const SIGNATURES: [&str; 2] = ["seal.person.sig", "seal.device.sig"];
const CREW: &str = "crew.allowed_signers";

impl<D: Disk> Merge<D> {
    /// Finds the trips of a device that are here in part.
    pub(super) fn in_part(&mut self, device: &Id, trips: &Shelved) -> Result<(), StoreFault> {
        for (seq, folders) in trips {
            let mut sealed = false;
            let mut lists = Vec::new();
            for folder in folders {
                let names = self.names(folder)?;
                sealed |= names.contains(SEAL);
                lists.push(names);
            }
            for (folder, names) in folders.iter().zip(lists) {
                let mut missing = lacking(&names);
                if !names.contains(CREW) && !self.knows_the_crew_of(folder)? {
                    missing.push(CREW);
                }
                if !sealed && self.was_sealed(device, *seq, trips)? {
                    missing.extend([SEAL].into_iter().chain(SIGNATURES));
                }
                if !missing.is_empty() && !self.completed.contains(&folder.path) {
                    self.parts.push(InPart {
                        device: device.clone(),
                        seq: *seq,
                        path: folder.path.clone(),
                        missing,
                    });
                }
            }
        }
        Ok(())
    }

    /// Notes what a trip lacks that is only looked at, and lies nowhere here.
    pub(super) fn would_be_in_part(&mut self, key: &TripKey, files: &Files) {
        let there = [
            (TEXTS[0], &files.checklist),
            (TEXTS[1], &files.rig),
            (SEAL, &files.seal),
            (SIGNATURES[0], &files.by_person),
            (SIGNATURES[1], &files.by_device),
        ];
        let there = there.into_iter().filter(|(_, file)| file.is_some());
        let names = there.map(|(name, _)| name.to_owned()).collect();
        let missing = lacking(&names);
        if !missing.is_empty() {
            self.parts.push(InPart {
                device: key.device.clone(),
                seq: key.seq,
                path: self.merged.from.clone(),
                missing,
            });
        }
    }

    /// Tells what was found, each with its neighbours.
    pub(super) fn tell_parts(
        &mut self,
        around: impl Fn(&Self, &Id, u64) -> Result<Neighbours, StoreFault>,
    ) -> Result<(), StoreFault> {
        for part in std::mem::take(&mut self.parts) {
            let around = around(self, &part.device, part.seq)?;
            self.merged.open(Open::InPart(part, around));
        }
        Ok(())
    }

    /// The files in the folder of a trip. What has the name of one and is none is told.
    fn names(&mut self, folder: &TripFolder) -> Result<BTreeSet<String>, StoreFault> {
        let refused = StoreFault::of(Doing::Read, &folder.path);
        let entries = self.books.logbook.disk().list(&folder.path);
        let mut names = BTreeSet::new();
        for entry in entries.map_err(refused)? {
            let Some(name) = entry.name.to_str() else {
                continue;
            };
            let path = folder.path.join(name);
            if entry.kind == Kind::Folder && TripFolder::FILES.contains(&name) {
                self.merged.open(Open::NoFile(path));
            }
            names.insert(name.to_owned());
        }
        Ok(names)
    }

    fn knows_the_crew_of(&self, folder: &TripFolder) -> Result<bool, StoreFault> {
        let begun = self.begun(folder)?;
        Ok(begun.is_none_or(|begun| self.trusted.get(&begun.crew).is_some()))
    }

    /// Whether the next trip or a manager names a seal of this one.
    fn was_sealed(&self, device: &Id, seq: u64, trips: &Shelved) -> Result<bool, StoreFault> {
        for next in trips.get(&seq.saturating_add(1)).into_iter().flatten() {
            let previous = self.begun(next)?.and_then(|begun| begun.previous);
            if matches!(previous, Some(Previous::Sealed(_))) {
                return Ok(true);
            }
        }
        let mut stated = self.statements.stated().iter().map(Stated::statement);
        Ok(stated.any(|said| {
            let mut heads = said.heads.iter();
            let counted = matches!(&said.says, Says::Countersigned(of) if of.device == *device && of.seq == seq);
            counted
                || heads.any(|head| {
                    head.device == *device
                        && head.seq == seq
                        && matches!(head.ends, Previous::Sealed(_))
                })
        }))
    }

    fn begun(&self, folder: &TripFolder) -> Result<Option<Begun>, StoreFault> {
        let journal = folder.journal();
        if !self.books.logbook.is_file(&journal)? {
            return Ok(None);
        }
        let bytes = self.books.logbook.read_any(&journal)?;
        let first = bytes.split_inclusive(|byte| *byte == b'\n').next();
        let chain = read_chain(first.unwrap_or_default());
        Ok(match chain.links.into_iter().next().map(|link| link.said) {
            Some(Ok(Said::Begun(begun))) => Some(*begun),
            _ => None,
        })
    }
}

/// What is missing, by the names that are there.
fn lacking(names: &BTreeSet<String>) -> Vec<&'static str> {
    let wanted = TEXTS.into_iter();
    let wanted = wanted.chain(SIGNATURES.into_iter().filter(|_| names.contains(SEAL)));
    wanted.filter(|name| !names.contains(*name)).collect()
}
