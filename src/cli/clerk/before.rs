//! What of a laptop's own log keeps it from beginning a trip, and what it leaves behind by one.

use crate::cli::clerk::around::trip_name;
use crate::cli::clerk::{Books, Plans, Trouble};
use crate::logbook::order::closings;
use crate::record::{Finding, Id, Statements};
use crate::store::Disk;

/// A trip that was begun and not ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct WithoutEnd {
    /// Its folder by name.
    pub(super) trip: String,
    /// Its number.
    pub(super) seq: u64,
}

impl<D: Disk> Books<D> {
    /// Why no trip can begin on this laptop, with the way out. The start screen asks it: where no
    /// number is there twice, what each manager saw last is here, and nothing was kept aside, the
    /// statements are not read.
    pub(super) fn why_no_walk(&self) -> Result<Option<String>, Trouble> {
        let told = |trouble: Trouble| match trouble {
            Trouble::Store(fault) => Err(fault.into()),
            other => Ok(Some(other.to_string())),
        };
        if let Err(trouble) = self.is_in_force() {
            return told(trouble);
        }
        let device = match self.device() {
            Ok(device) => device,
            Err(trouble) => return told(trouble),
        };
        let nothing_aside = self.logbook.all_aside()?.is_empty();
        if nothing_aside
            && !self.has_a_number_twice(&device)?
            && self.holds_what_was_seen_last(&device)?
        {
            return Ok(None);
        }
        self.may_begin(&device, &self.statements()?)
            .map_or_else(told, |()| Ok(None))
    }

    /// Refuses to begin on a laptop whose own log forks, or was further on when a manager last saw
    /// it: the new trip would take a number that another has.
    pub(super) fn may_begin(&self, device: &Id, statements: &Statements) -> Result<(), Trouble> {
        const MEANWHILE: &str = "Meanwhile walk on paper (hames checklist paper LIST --rig RIG), \
                                 and enter it afterwards.";
        if let Some(seq) = self.open_fork(device, statements)? {
            let closed = closings(statements, device);
            let why = if closed.iter().any(|(fork, _)| fork.seq == seq) {
                "and what managers said of them leaves more than one that goes on"
            } else {
                "so a backup was put back or its folder was copied"
            };
            return Err(Trouble::Said(format!(
                "No trip is begun on {device}: it has two different trips {seq}, {why}. A \
                 manager looks into both and closes the fork \
                 with: hames logbook close-fork {device} {seq}. {MEANWHILE}"
            )));
        }
        let unmet = self.unmet(statements, Some(device))?;
        let aside = self.kept_aside_beyond(device, statements)?;
        let aside = aside.map(|seq| {
            format!(
                "trip {seq} of {device} is not here, and a merge kept a part of it aside in \
                 quarantine/, so a backup was put back here or it has arrived in part"
            )
        });
        let Some(first) = unmet.first().map(ToString::to_string).or(aside) else {
            return Ok(());
        };
        Err(Trouble::Said(format!(
            "No trip is begun on {device}: {first}. Bring the missing trips here with hames \
             logbook merge FOLDER. Where they are lost for good, a manager says so with hames \
             logbook accept-loss {device} FROM..TO --why …, or enrols this laptop anew as another \
             device: hames crew add --device --public FILE. {MEANWHILE}"
        )))
    }

    /// The newest trip of a laptop, where it was begun and not ended: what begins after it records
    /// it as abandoned.
    pub(super) fn left_without_end(
        &self,
        device: &Id,
        plans: &mut Plans,
    ) -> Result<Option<WithoutEnd>, Trouble> {
        for folder in self.logbook.trips(device)?.trips.iter().rev() {
            if self.logbook.is_sealed(folder)? {
                return Ok(None);
            }
            if !self.logbook.has_begun(folder)? {
                continue;
            }
            let read = self.read(device, folder, plans)?;
            let open = read.finding() == Finding::Unsealed
                && read.walk().is_ok_and(|walk| walk.ended().is_none());
            return Ok(open.then(|| WithoutEnd {
                trip: trip_name(folder),
                seq: folder.seq,
            }));
        }
        Ok(None)
    }
}

impl WithoutEnd {
    /// What is told when another trip begins.
    pub(super) fn notice(&self) -> String {
        format!(
            "Trip {} was not ended, and this walk records it as abandoned. Take it up afterwards \
             and end it with a reason.",
            self.trip
        )
    }
}
