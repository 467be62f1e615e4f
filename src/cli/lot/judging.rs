//! The trips of a lot, read one after the other: whoever shows a long logbook meanwhile stops
//! between any two of them and goes on later.

use crate::cli::clerk::{Plans, PrunedTrips, TripRead, read_trip};
use crate::cli::lot::{Line, Lot, Section, Shelf, Stray, alone, copies};
use crate::logbook::ClockWatch;
use crate::logbook::order::Order;
use crate::record::Id;
use crate::store::{Disk, Local, StoreFault, TripFolder};
use chrono::{DateTime, FixedOffset};
use std::path::{self, Path, PathBuf};
use std::vec;

/// Shown each trip as it is read.
type See<'a> = dyn FnMut(&TripFolder, &TripRead) + 'a;

/// A lot that is being read.
pub(in crate::cli) struct Judging<'l> {
    lot: &'l Lot,
    /// The one trip it is done for.
    asked: Option<PathBuf>,
    to_read: vec::IntoIter<(Id, TripFolder)>,
    order: Order<'l>,
    clocks: ClockWatch,
    pruned: PrunedTrips<'l>,
    lines: Vec<Line>,
    strays: Vec<Stray>,
}

impl<'l> Judging<'l> {
    /// With every trip of the logbooks before it, or, for the sake of one, those of its laptop.
    pub(super) fn begin(lot: &'l Lot, asked: Option<&Path>) -> Result<Self, StoreFault> {
        Ok(Self {
            lot,
            asked: asked.map(Path::to_owned),
            to_read: lot.trips_for(asked)?.into_iter(),
            order: if lot.drills {
                Order::of_drills(&lot.statements)
            } else {
                Order::new(&lot.statements)
            },
            clocks: ClockWatch::default(),
            pruned: PrunedTrips::of(&lot.statements),
            lines: Vec::new(),
            strays: Vec::new(),
        })
    }

    /// The trips that are not read yet.
    pub(in crate::cli) fn to_read(&self) -> &[(Id, TripFolder)] {
        self.to_read.as_slice()
    }

    /// Reads the next trip, if there is one; says whether there was.
    pub(in crate::cli) fn read_next(&mut self, plans: &mut Plans, see: &mut See<'_>) -> bool {
        let Some((device, folder)) = self.to_read.next() else {
            return false;
        };
        let is_meant = is_meant(self.asked.as_deref(), &folder);
        if let Some(gone) = self.pruned.left_in(&Local, &device, &folder) {
            let stray = is_meant.then(|| Stray::pruned(&device, &folder, gone));
            self.strays.extend(stray);
            // Without its journal there is nothing to read, and a manager said so.
            if !Local.exists(&folder.journal()).unwrap_or(true) && self.asked.is_none() {
                return true;
            }
        }
        let read = self.lot.read(&folder, Some(&device), plans);
        self.take(&folder, Some(device), read, is_meant, see);
        true
    }

    fn take(
        &mut self,
        folder: &TripFolder,
        device: Option<Id>,
        read: Result<TripRead, StoreFault>,
        is_meant: bool,
        see: &mut See<'_>,
    ) {
        if let Ok(read) = &read {
            if let Some(trip) = read.trip() {
                self.order.take(trip);
                self.clocks.take(trip);
            }
            see(folder, read);
        }
        if is_meant {
            let beside = copies::beside(folder, read.as_ref().ok(), self.lot.drills);
            self.strays.extend(beside);
            let line = Line::of(folder, device, read, self.lot.drills);
            self.lines.push(line);
        }
    }

    /// Reads what is left, and tells what all of it comes to.
    pub(in crate::cli) fn end(
        mut self,
        plans: &mut Plans,
        now: Option<DateTime<FixedOffset>>,
        see: &mut See<'_>,
    ) -> Result<Section<'l>, StoreFault> {
        while self.read_next(plans, see) {}
        if let Some(path) = self.asked.as_ref().filter(|_| self.lines.is_empty()) {
            let folder = alone(path);
            let read = self.lot.read(&folder, None, plans);
            self.take(&folder, None, read, true, &mut |_, _| {});
        }
        if self.asked.is_none() {
            for shelf in &self.lot.shelves {
                self.astray(shelf, plans)?;
            }
        }
        let mut section = Section {
            lot: self.lot,
            lines: self.lines,
            judged: self.order.judge(),
            beside: Vec::new(),
            marks: self.clocks.marks(now),
            strays: self.strays,
            whole: self.asked.is_none(),
        };
        if !section.whole {
            section.narrow(self.lot.shelves.is_empty());
        }
        Ok(section)
    }

    /// Takes in what lies under no name of ours in a logbook.
    fn astray(&mut self, kept: &Shelf, plans: &mut Plans) -> Result<(), StoreFault> {
        let logbook = &kept.logbook;
        let names = logbook.beside_devices()?.into_iter();
        let foreign = names.map(|name| Stray::foreign(&name, "device"));
        self.strays.extend(foreign);
        if !self.lot.drills {
            let aside = logbook.all_aside()?.len();
            self.strays.extend((aside > 0).then(|| Stray::aside(aside)));
        }
        for device in logbook.devices()? {
            let found = logbook.trips(&device)?;
            for trip in &found.trips {
                if !logbook.is_sealed(trip)? && !logbook.has_begun(trip)? {
                    self.strays
                        .push(match self.pruned.left_in(&Local, &device, trip) {
                            Some(gone) => Stray::pruned(&device, trip, gone),
                            None => Stray::never_begun(&device, trip),
                        });
                }
            }
            for name in found.strays {
                let folder = alone(&logbook.trip_folders(&device).join(&name));
                let read = read_trip(&Local, &folder, &self.lot.trust, plans);
                let stray = Stray::of_folder(&device, &name, read, &mut self.order);
                self.strays.push(stray);
            }
        }
        Ok(())
    }
}

fn is_meant(asked: Option<&Path>, folder: &TripFolder) -> bool {
    let place = |path: &Path| path::absolute(path).ok();
    asked.is_none_or(|asked| place(asked) == place(&folder.path))
}
