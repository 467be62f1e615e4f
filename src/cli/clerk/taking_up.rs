//! Taking up a trip that was left: after a hold, a closed lid, a crash.

use crate::cli::clerk::around::trip_name;
use crate::cli::clerk::open::Open;
use crate::cli::clerk::{Books, Clerk, TripRead, Trouble};
use crate::desk::DRILL;
use crate::desk::Reply;
use crate::record::{Id, TripFault, Verified};
use crate::store::{Device, Disk, TripFolder};
use crate::walk::Act;

impl<D: Disk> Clerk<D> {
    /// Opens a trip's journal, sets aside what a crash left of a line, rebuilds the walk from
    /// what is on the disk, and records that it was taken up. One that has ended is opened to be
    /// signed.
    pub(super) fn take_up(&mut self, trip: &str) -> Result<Reply, Trouble> {
        (self.open, self.alone) = (None, None);
        if trip.starts_with(DRILL) {
            return self.take_up_drill(trip);
        }
        let books = self.books()?;
        let (mut open, read) = self.resumed(&books, trip)?;
        if open.walk.ended().is_none() {
            open.record(&Act::TakeUp, self.world.now())?;
        }
        let id = open.begun.checklist.id.clone();
        self.open = Some(open);
        self.walking(books.standing(&id, &read.checklist), Vec::new())
    }

    /// A trip of this laptop, its journal open to go on with it.
    pub(super) fn resumed(
        &mut self,
        books: &Books<D>,
        trip: &str,
    ) -> Result<(Open<D>, TripRead), Trouble> {
        let name = books.device()?;
        let folder = own_trip(books, &name, trip)?;
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
        let trip = read.examined.trip.as_ref();
        let waits = |trip: &&Verified| trip.sealed().is_none() || is_to_examine(&read);
        let Some(trip) = trip.filter(waits) else {
            return Err(Trouble::Said(
                "This trip is sealed. Read its record.".to_owned(),
            ));
        };
        let open = Open {
            _held: device,
            journal: resumed.journal,
            folder,
            begun: trip.begun().clone(),
            tip: trip.tip(),
            walk,
            drill: None,
            is_signed: false,
        };
        Ok((open, read))
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

/// Whether a drill waits for the examiner's signature alone.
fn is_to_examine(read: &TripRead) -> bool {
    let faults = &read.examined.faults;
    faults.contains(&TripFault::NoExaminer)
}
