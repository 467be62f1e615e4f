//! Writing a device's trips: one process at a time, in sequence.

use crate::record::{Digest, Id};
use crate::store::journal::lock;
use crate::store::whole::{make_folders, make_folders_below};
use crate::store::{
    Disk, Doing, Journal, Logbook, Mode, Resumed, StoreFault, TripFolder, keep, write_once,
};
use std::io::ErrorKind;
use std::path::PathBuf;

/// A device's folder, held by this process until the value is dropped or the process ends.
///
/// Each trip names the one before it, so two may not begin at once.
#[derive(Debug)]
pub struct Device<D: Disk> {
    logbook: Logbook<D>,
    name: Id,
    _hold: D::File,
}

/// The texts a trip was walked by, kept beside its journal byte for byte.
#[derive(Clone, Copy, Debug)]
pub struct Pinned<'a> {
    /// The checklist.
    pub checklist: &'a [u8],
    /// The rig.
    pub rig: &'a [u8],
    /// The list of who may sign.
    pub crew: &'a [u8],
    /// Scenario and sights, where the trip is a drill.
    pub drill: Option<(&'a [u8], &'a [u8])>,
}

impl<D: Disk> Device<D> {
    /// Takes the device's folder, making it if need be.
    ///
    /// # Errors
    /// [`StoreFault::InUse`] while another process has it; else what the disk refused.
    pub fn take(logbook: &Logbook<D>, name: &Id) -> Result<Self, StoreFault> {
        let disk = logbook.disk();
        let trips = logbook.trip_folders(name);
        make_folders_below(disk, logbook.root(), &trips, Mode::Shared)?;
        let hold = logbook.device_folder(name).join("hold");
        let file = match disk.create_new(&hold, Mode::Shared) {
            Err(error) if error.kind() == ErrorKind::AlreadyExists => disk.open(&hold),
            made => made,
        };
        let file = file.map_err(StoreFault::of(Doing::Open, &hold))?;
        lock(disk, &file, &hold)?;
        Ok(Self {
            logbook: logbook.clone(),
            name: name.clone(),
            _hold: file,
        })
    }

    /// The place of the next trip: one after the last that has begun, and 1 at first.
    ///
    /// # Errors
    /// [`StoreFault::NoSeqLeft`], or what the disk refused.
    pub fn next_seq(&self) -> Result<u64, StoreFault> {
        let last = self.logbook.newest(&self.name)?.map_or(0, |trip| trip.seq);
        if last < TripFolder::LAST_SEQ {
            return Ok(last + 1);
        }
        let folder = self.logbook.trip_folders(&self.name);
        Err(StoreFault::NoSeqLeft { folder })
    }

    /// Begins a trip: its folder, the texts it is walked by, then the journal with its first
    /// line. All of it is on the disk when this returns.
    ///
    /// # Errors
    /// [`StoreFault::Taken`] when the trip has a folder already; else what the disk refused.
    pub fn begin(
        &self,
        seq: u64,
        trip: &Id,
        pinned: Pinned<'_>,
        first: &[u8],
    ) -> Result<(TripFolder, Journal<D>), StoreFault> {
        let disk = self.logbook.disk();
        let trips = self.logbook.trip_folders(&self.name);
        let folder = TripFolder::below(&trips, seq, trip);
        if disk
            .exists(&folder.path)
            .map_err(StoreFault::of(Doing::Read, &folder.path))?
        {
            return Err(StoreFault::Taken { path: folder.path });
        }
        make_folders(disk, &folder.path, Mode::Shared)?;
        for (path, bytes) in [
            (folder.checklist(), pinned.checklist),
            (folder.rig(), pinned.rig),
            (folder.crew(), pinned.crew),
        ] {
            write_once(disk, &path, bytes, Mode::Shared)?;
        }
        if let Some((scenario, sights)) = pinned.drill {
            write_once(disk, &folder.scenario(), scenario, Mode::Shared)?;
            write_once(disk, &folder.sights(), sights, Mode::Shared)?;
        }
        let journal = Journal::create(disk.clone(), &folder.journal(), first)?;
        Ok((folder, journal))
    }

    /// The folder for a trip that came from elsewhere: that of its number and id, or, where that
    /// has another history, one told apart by how this one ends. A name that is taken by something
    /// else gets letters of the next digest.
    ///
    /// # Errors
    /// What the disk refused; [`StoreFault::Taken`] when every name is.
    pub fn place_for(&self, seq: u64, trip: &Id, ends: &Digest) -> Result<TripFolder, StoreFault> {
        let plain = TripFolder::below(&self.logbook.trip_folders(&self.name), seq, trip);
        let again = Digest::of(ends.bytes());
        for folder in [plain.clone(), plain.beside(ends), plain.beside(&again)] {
            if !self.logbook.has(&folder.path)? {
                return Ok(folder);
            }
        }
        Err(StoreFault::Taken { path: plain.path })
    }

    /// Keeps files of a trip that came from elsewhere, in the order given, each once and for all:
    /// one that is there stays. All of it is on the disk when this returns.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn keep(&self, folder: &TripFolder, files: &[(PathBuf, &[u8])]) -> Result<(), StoreFault> {
        let disk = self.logbook.disk();
        make_folders(disk, &folder.path, Mode::Shared)?;
        files
            .iter()
            .try_for_each(|(path, bytes)| keep(disk, path, bytes, Mode::Shared))
    }

    /// Opens the journal of a trip to go on with it.
    ///
    /// # Errors
    /// As [`Journal::resume`].
    pub fn resume(&self, trip: &TripFolder) -> Result<Resumed<D>, StoreFault> {
        Journal::resume(self.logbook.disk().clone(), &trip.journal())
    }
}
