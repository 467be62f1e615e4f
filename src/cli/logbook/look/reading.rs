//! A logbook read for a screen: the newest trips at once, all the others while somebody looks at
//! those.

use crate::cli::clerk::{Plans, TripRead};
use crate::cli::command::quoted;
use crate::cli::logbook::glances::{Glances, Looked};
use crate::cli::logbook::known::{Knowing, Known};
use crate::cli::logbook::look::screen::name;
use crate::cli::logbook::shelf::Failed;
use crate::cli::logbook::trends::Followed;
use crate::cli::lot::{Judging, Lot};
use crate::desk::{ClosedTrip, Lookout, SeenTrip};
use crate::record::Id;
use crate::store::TripFolder;
use crate::world::{Machine, World};

/// So many trips are read before anything is shown: a tenth of a second on the laptop it was tried
/// on.
const AT_ONCE: usize = 200;

/// So many between two looks at the keys: less than a frame's wait is felt.
const A_STRETCH: usize = 40;

/// A logbook that is being read.
pub(super) struct Reading<'l> {
    lot: &'l Lot,
    judging: Judging<'l>,
    plans: Plans,
    glances: Glances,
    knowing: Knowing,
    followed: Followed,
}

/// A logbook that was read.
pub(super) struct Whole {
    /// Everything there is to look over.
    pub(super) lookout: Lookout,
    /// What is known beside each trip.
    pub(super) known: Known,
    /// How the readings of its rigs move.
    pub(super) followed: Followed,
}

impl<'l> Reading<'l> {
    pub(super) fn begin(lot: &'l Lot) -> Result<Self, Failed> {
        Ok(Self {
            lot,
            judging: lot.judging()?,
            plans: Plans::default(),
            glances: Glances::beside(&lot.statements),
            knowing: Knowing::beside(&lot.statements),
            followed: Followed::default(),
        })
    }

    /// How many trips are not read yet.
    pub(super) fn unread(&self) -> usize {
        self.judging.to_read().len()
    }

    /// Whether all of it is read before anything is shown.
    pub(super) fn is_short(&self) -> bool {
        self.unread() <= AT_ONCE
    }

    /// The newest trips of each laptop, each as it stands by itself: what the whole says of them is
    /// not known yet.
    pub(super) fn newest(&mut self) -> Lookout {
        let to_read = self.judging.to_read();
        let devices = to_read.chunk_by(|(one, _), (next, _)| one == next);
        let of_each = AT_ONCE / devices.clone().count().max(1);
        let newest: Vec<&(Id, TripFolder)> = devices
            .flat_map(|trips| trips.iter().rev().take(of_each))
            .collect();
        let mut trips = Vec::new();
        for (device, folder) in newest {
            let read = self.lot.read(folder, Some(device), &mut self.plans);
            let glances = &mut self.glances;
            let glance = read.as_ref().ok();
            let glance = glance.and_then(|read| glances.take(folder, read));
            trips.extend(glance.map(|glance| SeenTrip {
                glance: glance.clone(),
                folder: name(&folder.path),
            }));
        }
        Lookout {
            mode: self.glances.mode(),
            trips,
            closed: Vec::new(),
            unread: self.unread(),
        }
    }

    /// Reads some more; says how many are left.
    pub(super) fn go_on(&mut self) -> usize {
        for _ in 0..A_STRETCH {
            let Self {
                lot,
                judging,
                plans,
                glances,
                knowing,
                followed,
            } = self;
            let mut see = |folder: &TripFolder, read: &TripRead| {
                followed.take(read);
                glances.take(folder, read);
                knowing.take(folder, read, &lot.statements);
            };
            if !judging.read_next(plans, &mut see) {
                break;
            }
        }
        self.unread()
    }

    /// Reads what is left.
    pub(super) fn end(self) -> Result<Whole, Failed> {
        let Self {
            lot,
            judging,
            mut plans,
            mut glances,
            mut knowing,
            mut followed,
        } = self;
        let now = Some(Machine::this().now().wall);
        let mut see = |folder: &TripFolder, read: &TripRead| {
            followed.take(read);
            glances.take(folder, read);
            knowing.take(folder, read, &lot.statements);
        };
        let section = judging.end(&mut plans, now, &mut see)?;
        let known = knowing.settled(&section, now);
        Ok(Whole {
            lookout: Lookout::from(glances.settled(&section).beside(&known)),
            known,
            followed,
        })
    }
}

impl From<Looked> for Lookout {
    fn from(looked: Looked) -> Self {
        let trips = looked.glances.into_iter().map(|(glance, folder)| SeenTrip {
            glance,
            folder: name(&folder),
        });
        let closed = looked.closed.into_iter();
        let closed = closed.map(|(folder, finding)| ClosedTrip {
            finding,
            why: format!("hames verify {}", quoted(&folder)),
        });
        Self {
            mode: looked.mode,
            trips: trips.collect(),
            closed: closed.collect(),
            unread: 0,
        }
    }
}
