//! Taking up a trip that was left: after a hold, a closed lid, a crash.

use crate::cli::clerk::around::trip_name;
use crate::cli::clerk::open::Open;
use crate::cli::clerk::{Books, Clerk, TripRead, Trouble};
use crate::desk::Reply;
use crate::record::Id;
use crate::store::{Device, Disk, TripFolder};
use crate::walk::Act;

impl<D: Disk> Clerk<D> {
    /// Opens a trip's journal, sets aside what a crash left of a line, rebuilds the walk from
    /// what is on the disk, and records that it was taken up. One that has ended is opened to be
    /// signed.
    pub(super) fn take_up(&mut self, trip: &str) -> Result<Reply, Trouble> {
        self.open = None;
        let books = self.books()?;
        let name = books.device()?;
        let folder = own_trip(&books, &name, trip)?;
        let device = Device::take(&books.logbook, &name)?;
        let resumed = device.resume(&folder)?;
        if let Some(torn) = resumed.torn {
            self.notices.push(format!(
                "A line that was not finished was set aside in {}. Nobody was told it was recorded.",
                torn.display()
            ));
        }
        let read = books.read(&name, &folder, &mut self.history.plans)?;
        let walk = read.walk()?;
        let TripRead {
            examined,
            checklist,
            ..
        } = read;
        let Some(trip) = examined.trip.filter(|trip| trip.sealed().is_none()) else {
            return Err(Trouble::Said(
                "This trip is sealed. Read its record.".to_owned(),
            ));
        };
        let mut open = Open {
            _held: device,
            journal: resumed.journal,
            folder,
            begun: trip.begun().clone(),
            tip: trip.tip(),
            walk,
        };
        if open.walk.ended().is_none() {
            open.record(&Act::TakeUp, self.world.now())?;
        }
        self.open = Some(open);
        let id = trip.begun().checklist.id.clone();
        self.walking(books.standing(&id, &checklist), Vec::new())
    }
}

/// The folder of a trip of this laptop. A laptop writes only its own.
fn own_trip<D: Disk>(books: &Books<D>, device: &Id, trip: &str) -> Result<TripFolder, Trouble> {
    let trips = books.logbook.trips(device)?.trips;
    trips.into_iter().find(|folder| trip_name(folder) == trip).ok_or_else(|| {
        Trouble::Said(format!(
            "There is no trip “{}” of this laptop. A trip is taken up on the laptop it began on.",
            trip.escape_debug()
        ))
    })
}
