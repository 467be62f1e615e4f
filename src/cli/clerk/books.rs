//! Reading a logbook: its crew, its devices, its trips, each verified as it is read.

use crate::cli::clerk::{Plans, TripRead, Trouble, Trust, in_force, read_trip};
use crate::record::{Crew, Id, Mode, Role, Roster, Signer, Statements};
use crate::store::{Disk, Logbook, StatementText, StoreFault, TripFolder};
use std::path::Path;

/// A logbook with its crew, to read from.
#[derive(Clone, Debug)]
pub struct Books<D: Disk> {
    /// The logbook.
    pub logbook: Logbook<D>,
    /// Who may sign, as the logbook has it now.
    pub crew: Crew,
    /// By whose signatures trips count: the crew's, and those of the crews before it.
    pub trust: Trust,
    /// The crew files there were. Where it forks, only every statement together tells whether
    /// somebody has settled it.
    pub(super) roster: Roster,
}

impl<D: Disk> Books<D> {
    /// Opens a logbook with its crew.
    ///
    /// # Errors
    /// What the disk refused, or a crew file that cannot be used.
    pub fn open(disk: &D, root: &Path) -> Result<Self, Trouble> {
        let logbook = Logbook::open(disk.clone(), root)?;
        let crew = in_force::crew(&logbook)?;
        Self::by(logbook, crew)
    }

    /// A logbook by the crew file given, whatever lies in the place of its own.
    ///
    /// # Errors
    /// What the disk refused.
    pub(in crate::cli) fn by(logbook: Logbook<D>, crew: Crew) -> Result<Self, Trouble> {
        let roster = roster(&logbook, mode_of(&crew))?;
        let trust = Trust::with_roster(std::slice::from_ref(&crew), &roster);
        Ok(Self {
            logbook,
            crew,
            trust,
            roster,
        })
    }

    /// The drills of the same people: their trips lie in a tree of their own, and are signed in
    /// namespaces of their own.
    #[must_use]
    pub fn drills(&self) -> Self {
        Self {
            logbook: self.logbook.drills(),
            crew: self.crew.clone(),
            trust: self.trust.clone().of_drills(),
            roster: self.roster.clone(),
        }
    }

    /// Whether its crew file is one that managers stated, or they stated none.
    pub(in crate::cli) fn knows_its_crew(&self) -> bool {
        let revisions = self.roster.revisions();
        revisions.is_empty() || self.roster.crew(&self.crew.revision()).is_some()
    }

    /// What the logbook is for: its crew signs in the namespaces of one mode.
    pub fn mode(&self) -> Mode {
        self.trust.mode().unwrap_or_else(|| mode_of(&self.crew))
    }

    /// This laptop: the device of the crew whose key is here.
    pub(super) fn device(&self) -> Result<Id, Trouble> {
        let devices = self
            .crew
            .signers()
            .iter()
            .filter(|signer| signer.roles.contains(&Role::Device));
        let here = |signer: &&Signer| {
            let key = self.logbook.key(&signer.id);
            self.logbook.disk().exists(&key).unwrap_or(false)
        };
        let mut devices = devices.filter(here);
        if let Some(device) = devices.next() {
            return Ok(device.id.clone());
        }
        Err(Trouble::Said(match self.asked_to_be_let_in()? {
            Some((device, _)) => format!(
                "This laptop waits for a manager to let it into the crew as {device}, and cannot begin \
                 a trip before. Its key is made, and lies in {}. Where the manager has not got the \
                 line of it, get it again, into a file, with: hames crew request --to FILE. The \
                 manager says: hames crew add --device --public FILE. Then merge the manager's logbook \
                 here: hames logbook merge FOLDER",
                self.logbook.key(&device).display()
            ),
            None => "This laptop has no key in this logbook, so it cannot begin a trip here. Make \
                     one, and the line by which a manager lets it in: hames crew request"
                .to_owned(),
        }))
    }

    /// The person with this printed name or id.
    pub(super) fn person(&self, name: &str) -> Option<&Signer> {
        person_of(&self.crew, name)
    }

    /// Every trip of every device, in the order of devices and trips.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn trips(&self) -> Result<Vec<(Id, TripFolder)>, StoreFault> {
        let mut trips = Vec::new();
        for (device, trip) in self.folders()? {
            if self.logbook.is_sealed(&trip)? || self.logbook.has_begun(&trip)? {
                trips.push((device, trip));
            }
        }
        Ok(trips)
    }

    /// Every folder of a trip, one that a crash left without a line among them.
    pub(super) fn folders(&self) -> Result<Vec<(Id, TripFolder)>, StoreFault> {
        let mut folders = Vec::new();
        for device in self.logbook.devices()? {
            let trips = self.logbook.trips(&device)?.trips;
            folders.extend(trips.into_iter().map(|trip| (device.clone(), trip)));
        }
        Ok(folders)
    }

    /// Reads and verifies a trip by this logbook's crew.
    ///
    /// # Errors
    /// What the disk refused. What is wrong with the trip itself is in [`TripRead::examined`].
    pub fn read(
        &self,
        device: &Id,
        folder: &TripFolder,
        plans: &mut Plans,
    ) -> Result<TripRead, StoreFault> {
        self.read_as(device, folder, &self.trust, plans)
    }

    /// Reads and verifies a trip by the crew files given.
    ///
    /// # Errors
    /// As [`read`](Self::read).
    pub fn read_as(
        &self,
        device: &Id,
        folder: &TripFolder,
        trust: &Trust,
        plans: &mut Plans,
    ) -> Result<TripRead, StoreFault> {
        let read = read_trip(self.logbook.disk(), folder, trust, plans)?;
        Ok(read.in_its_place(device))
    }
}

/// The mode a crew signs in; real unless every signature counts elsewhere. Everyone's drills are
/// signed in a mode of their own, whatever the logbook is for.
pub(in crate::cli) fn mode_of(crew: &Crew) -> Mode {
    let signers = crew.signers().iter();
    let signed = signers.flat_map(|signer| &signer.namespaces);
    let modes: Vec<Mode> = signed.map(|namespace| namespace.mode).collect();
    match modes.as_slice() {
        [] => Mode::Real,
        modes if modes.contains(&Mode::Real) => Mode::Real,
        modes if modes.contains(&Mode::Demo) => Mode::Demo,
        _ => Mode::Drill,
    }
}

/// The person with this printed name or id, letter case forgiven.
pub(super) fn person_of<'c>(crew: &'c Crew, name: &str) -> Option<&'c Signer> {
    let wanted = name.trim().to_lowercase();
    crew.signers().iter().find(|signer| {
        !signer.roles.contains(&Role::Device)
            && (signer.name.as_str().to_lowercase() == wanted || signer.id.as_str() == wanted)
    })
}

/// The crew files there were, where managers stated any. Only what puts one in force is read.
fn roster<D: Disk>(logbook: &Logbook<D>, mode: Mode) -> Result<Roster, StoreFault> {
    let mut texts = Vec::new();
    for folder in logbook.statements()? {
        if logbook.puts_a_crew_in_force(&folder)? {
            texts.extend(logbook.read_statement(&folder)?);
        }
    }
    let files: Vec<_> = texts.iter().map(StatementText::files).collect();
    Ok(Statements::read(&files, mode, &[]).roster().clone())
}
