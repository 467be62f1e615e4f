//! Drills that come along: they go by the rules of trips, in a tree of their own. What cannot be used
//! of them is left where it lies, and so is a copy under another name.

use crate::cli::logbook::merge::trips::{Drawer, files_in};
use crate::cli::logbook::merge::{How, Merge};
use crate::logbook::merge::{Files, JournalTexts, SealTexts, Theirs, TripKey};
use crate::record::{Crew, Mode, Role, Seal, split_torn};
use crate::store::{Disk, Logbook, StoreFault, TripFolder};
use std::path::{Path, PathBuf};

/// What came of the drills.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct DrillsCame {
    /// How many of them had anything that was not here.
    pub came: usize,
    /// How many of these went on in another way here, or had another's number; none was chosen.
    pub beside: usize,
    /// Those that were not taken, and why.
    pub left: Vec<(PathBuf, String)>,
}

/// Whether files that lie together are of a drill, by their place: `drill/dev/DEVICE/t/DRILL`; a
/// record of a walk that lies there is none.
pub(super) fn are_of_a_drill<D: Disk>(logbook: &Logbook<D>, folder: &Path) -> bool {
    let above: Vec<_> = folder.iter().rev().skip(1).take(4).collect();
    let [t, _, dev, drill] = above.as_slice() else {
        return false;
    };
    if *t != "t" || *dev != "dev" || *drill != crate::store::DRILLS {
        return false;
    }
    let modes = modes_in(logbook, folder);
    modes.is_empty() || modes.contains(&Mode::Drill)
}

/// In which modes the journal and the seal in a folder were made, as far as they can be read.
fn modes_in<D: Disk>(logbook: &Logbook<D>, folder: &Path) -> Vec<Mode> {
    let files = files_in(logbook, &TripFolder::at(folder)).unwrap_or_default();
    let seal = files.seal.as_deref().and_then(|seal| Seal::read(seal).ok());
    let begun = files.begun().map(|begun| begun.mode);
    begun
        .into_iter()
        .chain(seal.map(|seal| seal.mode))
        .collect()
}

impl<D: Disk> Merge<D> {
    /// Takes drills in, one after the other.
    pub(super) fn drills(&mut self) -> Result<(), StoreFault> {
        let (known, damaged) = (self.known.clone(), self.damaged.len());
        let trips = self.merged.came.len();
        let drills = self.books.logbook.drills();
        let mut drawer: Option<Drawer<D>> = None;
        for (at, folder) in std::mem::take(&mut self.brought.drills).iter().enumerate() {
            let Some((key, theirs)) = self.brought_drill(folder, self.brought.beyond(at))? else {
                continue;
            };
            let mut here = match drawer.take() {
                Some(drawer) if *drawer.device() == key.device => drawer,
                _ => Drawer::of((drills.clone(), Mode::Drill), &key.device)?,
            };
            self.trip(&key, &theirs, &mut here)?;
            // What was written lies there from now on.
            drawer = Some(here.again()?);
        }
        let came = self.merged.came.split_off(trips);
        let beside = came.iter().filter(|one| one.how == How::Beside);
        self.merged.drills.beside = beside.count();
        self.merged.drills.came = came.len();
        for one in self.damaged.split_off(damaged) {
            let left = (one.path, one.faults.join("; "));
            if !self.merged.drills.left.contains(&left) {
                self.merged.drills.left.push(left);
            }
        }
        self.known = known;
        Ok(())
    }

    /// What lies in a folder of a drill; nothing where that is nothing that could be used, which is
    /// told, or was never begun.
    fn brought_drill(
        &mut self,
        folder: &Path,
        piece: usize,
    ) -> Result<Option<(TripKey, Theirs)>, StoreFault> {
        let mut files = files_in(&self.books.logbook, &TripFolder::at(folder))?;
        let journal = files.journal.take().unwrap_or_default();
        let whole = split_torn(&journal).0;
        if whole.is_empty() && files.seal.is_none() {
            return Ok(None);
        }
        files.journal = (!whole.is_empty()).then(|| match files.seal {
            None => whole.to_vec(),
            Some(_) => journal.clone(),
        });
        let is_own = folder.starts_with(self.books.logbook.root());
        let key = files.keys().into_iter().next();
        let why = match &key {
            None => Some("its first line cannot be read".to_owned()),
            Some(key) => self.no_use(key, &mut files),
        };
        if let Some(key) = key.filter(|_| why.is_none()) {
            return Ok(Some((key, theirs(files, piece))));
        }
        // What is wrong here is for verification to tell.
        let left = why.filter(|_| !is_own).map(|why| (folder.to_owned(), why));
        self.merged.drills.left.extend(left);
        Ok(None)
    }

    /// Why it cannot be taken, if so.
    fn no_use(&self, key: &TripKey, files: &mut Files) -> Option<String> {
        if let Some(begun) = files.begun()
            && files.crew.is_none()
        {
            let trusted = self.trusted.get(&begun.crew);
            files.crew = trusted.map(|crew| crew.text().as_bytes().to_vec());
        }
        if key.seq > TripFolder::LAST_SEQ {
            return Some("its number is beyond the last there is".to_owned());
        }
        let is_device = |crew: &Crew| {
            let device = crew.signer(&key.device);
            device.is_some_and(|one| one.roles.contains(&Role::Device))
        };
        let own = files.crew.as_deref().and_then(|crew| Crew::read(crew).ok());
        let is_kin = own.is_some_and(|crew| self.trusted.is_kin(&crew));
        if !is_kin && !self.trusted.crews().any(is_device) {
            return Some("it is of people who have nothing to do with this logbook".to_owned());
        }
        // A seal alone may be what a drill here lacks.
        let faults = match files.journal {
            Some(_) => files.faults(Mode::Drill),
            None => Vec::new(),
        };
        faults.first().map(ToString::to_string)
    }
}

/// One drill as a merge takes a trip.
fn theirs(files: Files, piece: usize) -> Theirs {
    let mut theirs = Theirs::default();
    let Files {
        seal,
        by_person,
        by_device,
        ..
    } = files.clone();
    let signature =
        |armor: Option<Vec<u8>>| armor.map(|armor| (piece, armor)).into_iter().collect();
    theirs.seals.extend(seal.map(|seal| SealTexts {
        seal: (piece, seal),
        by_person: signature(by_person),
        by_device: signature(by_device),
    }));
    if files.journal.is_some() {
        // The examiner's signature goes with the journal of a drill that is sealed.
        let by_examiner = files.by_examiner.clone().filter(|_| files.seal.is_some());
        let files = Files {
            by_examiner,
            seal: None,
            by_person: None,
            by_device: None,
            ..files
        };
        theirs.journals.push(JournalTexts { piece, files });
    }
    theirs
}
