//! A laptop with its disk, its world and the program on it. Every answer is held to the disk at
//! once: what is called recorded or sealed has to be there, and past every loss of power.

use super::barn::{MANAGER, ROOT, SMALL, passphrase, place};
use super::law::{Finding, broken, records, verified};
use super::world::Given;
use crate::store::pretend::{Fate, Pretend};
use hames::cli::clerk::{Clerk, Stock, Trouble};
use hames::desk::{Barn, Consent, Errand, Reply};
use hames::record::{CrewAct, Envelope, Says, Signer};
use hames::store::{StatementFolder, TripFolder};
use hames::walk::{Act, Entry, Walk};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// The crew file in force.
const CREW: &str = "crew/allowed_signers";

/// What a person was told of a trip, so what has to be there from then on.
#[derive(Clone, Debug, Default)]
pub(crate) struct Told {
    /// The journal as it was when its last line was called recorded.
    pub(crate) lines: Vec<u8>,
    /// Seal and signatures, once the trip was called sealed.
    pub(crate) seal: BTreeMap<PathBuf, Vec<u8>>,
}

/// The walk on the screen.
#[derive(Clone, Debug)]
pub(crate) struct InHand {
    pub(crate) folder: TripFolder,
    pub(crate) walk: Walk,
}

/// A laptop.
#[derive(Debug)]
pub(crate) struct Laptop {
    pub(crate) device: &'static str,
    pub(crate) disk: Pretend,
    pub(crate) world: Given,
    pub(crate) told: BTreeMap<TripFolder, Told>,
    /// Statements that were called kept, by their files.
    pub(crate) kept: BTreeMap<PathBuf, Vec<u8>>,
    pub(crate) clerk: Option<Clerk<Pretend>>,
    pub(crate) in_hand: Option<InHand>,
    /// The disk refused a line; nothing is recorded here until the program is started anew.
    pub(crate) read_only: bool,
    /// A stick brought a part of something, so that here the rest of it is missing.
    pub(crate) partial: bool,
    /// A backup was put back, so that lines of its own trips may come back from elsewhere.
    pub(crate) restored: bool,
}

impl Laptop {
    pub(crate) fn new(device: &'static str, disk: Pretend, seed: u64) -> Self {
        Self {
            device,
            disk,
            world: Given::new(device, seed),
            told: BTreeMap::new(),
            kept: BTreeMap::new(),
            clerk: None,
            in_hand: None,
            read_only: false,
            partial: false,
            restored: false,
        }
    }

    /// A laptop that was told the same, on this disk; the program is not started.
    pub(crate) fn twin(&self, disk: Pretend) -> Self {
        let mut twin = Self::new(self.device, disk, 0);
        twin.world = self.world.twin();
        twin.told.clone_from(&self.told);
        twin.kept.clone_from(&self.kept);
        twin
    }

    /// Starts the program, which offers this.
    pub(crate) fn open(&mut self, stock: &Stock) {
        self.close();
        let clerk = Clerk::new(
            self.disk.clone(),
            self.world.clone(),
            place(),
            stock.clone(),
        );
        self.clerk = Some(clerk);
    }

    /// Closes the program, or the program is killed: to what it wrote, that is the same.
    pub(crate) fn close(&mut self) {
        self.clerk = None;
        self.in_hand = None;
        self.read_only = false;
    }

    /// Power goes, and comes back.
    pub(crate) fn lose_power(&mut self, fate: Fate) {
        self.close();
        self.disk = self.disk.after_power_loss(fate);
        self.world.start();
    }

    /// Does an errand and holds the answer to the disk.
    pub(crate) fn perform(&mut self, errand: Errand) -> Reply {
        let before = self.disk.changes();
        let begins = matches!(errand, Errand::Begin { .. });
        let records = matches!(errand, Errand::Record(_));
        let looks = matches!(
            errand,
            Errand::LookAround
                | Errand::LookAtRig { .. }
                | Errand::Show { .. }
                | Errand::FindKey { .. }
                | Errand::LookOver
                | Errand::Drill(_)
                | Errand::LookAtDrills
                | Errand::BeginDrill(_)
                | Errand::ReadOn
                | Errand::LookAtTrends
                | Errand::OpenTrip { .. }
        );
        if begins || matches!(errand, Errand::TakeUp { .. }) {
            self.in_hand = None;
        }
        let clerk = self.clerk.as_mut().expect("the program runs");
        let reply = clerk.perform(errand);
        let quiet = looks || matches!(reply, Reply::Refused(_));
        if quiet && self.disk.changes() != before {
            broken("what only looks, or was refused, wrote something");
        }
        if records && self.read_only && !matches!(reply, Reply::ReadOnly(_) | Reply::Cannot(_)) {
            broken("a line was taken after the disk had refused one");
        }
        match &reply {
            Reply::Walking { walk, trip, .. } => {
                self.read_only = false;
                let folder = self.folder(trip);
                if begins {
                    self.is_numbered(&folder);
                }
                self.in_hand = Some(InHand {
                    folder,
                    walk: (**walk).clone(),
                });
                self.is_recorded(None);
            }
            Reply::Recorded(entry) => self.is_recorded(Some(entry)),
            Reply::Sealed(_) => self.is_sealed(),
            Reply::ReadOnly(sentence) => {
                self.read_only = true;
                self.tells_what_is_recorded(sentence);
            }
            Reply::Cannot(sentence) if !sentence.ends_with(['.', ')']) && sentence.len() < 20 => {
                broken(&format!("no sentence with a next step: {sentence}"));
            }
            _ => {}
        }
        reply
    }

    /// An act on the walk in hand.
    pub(crate) fn act(&mut self, act: Act) -> Reply {
        self.perform(Errand::Record(act))
    }

    /// The manager states something on this laptop. When this answers, it was called kept.
    pub(crate) fn state(&mut self, says: &Says) -> Result<StatementFolder, String> {
        let state = |clerk: &Clerk<Pretend>, manager: &Signer, consent: &Consent| {
            clerk.state((manager, consent), says.clone())
        };
        self.keeps(state, false)
    }

    /// The manager changes the crew on this laptop. When this answers, it was called in force.
    pub(crate) fn change_crew(&mut self, act: &CrewAct) -> Result<StatementFolder, String> {
        let change = |clerk: &Clerk<Pretend>, manager: &Signer, consent: &Consent| {
            let put = clerk.change_crew(manager, consent, act);
            put.map(|put| put.folder)
        };
        self.keeps(change, true)
    }

    /// The manager does something in another window.
    pub(crate) fn keeps(
        &mut self,
        act: impl Fn(&Clerk<Pretend>, &Signer, &Consent) -> Result<StatementFolder, Trouble>,
        crew: bool,
    ) -> Result<StatementFolder, String> {
        self.keeps_of(MANAGER, act, crew)
    }

    /// A window beside the program, in which nothing is walked.
    pub(crate) fn window(&self, stock: &Stock) -> Clerk<Pretend> {
        let (disk, world) = (self.disk.clone(), self.world.clone());
        Clerk::new(disk, world, place(), stock.clone())
    }

    /// One of the managers does something in another window.
    pub(crate) fn keeps_of(
        &mut self,
        manager: &str,
        act: impl Fn(&Clerk<Pretend>, &Signer, &Consent) -> Result<StatementFolder, Trouble>,
        crew: bool,
    ) -> Result<StatementFolder, String> {
        let before = self.disk.after_death();
        let office = self.window(&SMALL);
        let consent = Consent::Passphrase(passphrase(manager));
        let signer = |managers: Vec<Signer>| {
            let mut managers = managers.into_iter();
            managers.find(|one| one.id.as_str() == manager).unwrap()
        };
        let folder = office
            .managers()
            .and_then(|managers| act(&office, &signer(managers), &consent))
            .map_err(|trouble| trouble.to_string());
        let folder = folder.inspect_err(|why| {
            if !self.disk.is_troubled() && records(&self.disk) != records(&before) {
                broken(&format!("refused, and something was stated: {why}"));
            }
        })?;
        let mut files = vec![folder.statement(), folder.signature()];
        if crew {
            files.extend([folder.crew(), place().root.join(CREW)]);
        }
        for path in files {
            let Some(bytes) = self.disk.certain(&path) else {
                broken(&format!("called kept, and {} may be lost", path.display()));
            };
            self.kept.insert(path, bytes);
        }
        Ok(folder)
    }

    pub(crate) fn look_around(&mut self) -> Result<Barn, String> {
        match self.perform(Errand::LookAround) {
            Reply::Barn(barn) => Ok(barn),
            Reply::Cannot(sentence) => Err(sentence),
            other => panic!("{other:?}"),
        }
    }

    /// Everything this laptop was told about its trips, held to a disk as it is found.
    pub(crate) fn hold_to(&self, disk: &Pretend) {
        for (folder, told) in &self.told {
            let journal = disk.seen(&folder.journal()).unwrap_or_default();
            let Some(more) = journal.strip_prefix(told.lines.as_slice()) else {
                broken(&format!("lines of {} are lost", folder.path.display()));
            };
            if lines(more) > 1 && !self.restored {
                broken("more than one line was written that nobody was told of");
            }
        }
        let seals = self.told.values().flat_map(|told| &told.seal);
        for (path, bytes) in seals.chain(&self.kept) {
            let seen = disk.seen(path);
            // Of a change that was cut off the file may be in force already, never half of it.
            let later =
                path.ends_with(CREW) && seen.as_ref().is_some_and(|now| is_stated(disk, now));
            if seen.as_ref() != Some(bytes) && !later {
                broken(&format!("{} is lost", path.display()));
            }
        }
    }

    /// What verification finds on this laptop's disk, the gravest.
    pub(crate) fn verified(&self) -> (Finding, Vec<String>) {
        verified(&self.disk)
    }

    fn folder(&self, trip: &str) -> TripFolder {
        let (seq, _) = trip.split_once('-').unwrap();
        TripFolder {
            seq: seq.parse().unwrap(),
            path: Path::new(ROOT)
                .join("dev")
                .join(self.device)
                .join("t")
                .join(trip),
        }
    }

    /// A trip that is begun has a higher number than every one there was.
    fn is_numbered(&self, folder: &TripFolder) {
        let newest = self.told.keys().next_back();
        if newest.is_some_and(|newest| newest.seq >= folder.seq) {
            broken("a new trip has the number of an older one");
        }
    }

    /// The last line is certain, and says what the answer says.
    fn is_recorded(&mut self, entry: Option<&Entry>) {
        let hand = self.in_hand.as_mut().expect("a walk in hand");
        let journal = self.disk.certain(&hand.folder.journal());
        let Some(journal) = journal else {
            broken("a trip was called recorded whose journal is not certain");
        };
        if Some(&journal) != self.disk.seen(&hand.folder.journal()).as_ref() {
            broken("a line was called recorded that a loss of power may take");
        }
        if let Some(entry) = entry {
            let lines = journal.strip_suffix(b"\n").unwrap_or(&journal);
            let last = lines.rsplit(|byte| *byte == b'\n').next().unwrap();
            let last = Envelope::read(last).unwrap().entry().unwrap();
            if last.as_ref() != Some(entry) {
                broken(&format!("told {entry:?}, and the disk has {last:?}"));
            }
            hand.walk.apply(entry);
        }
        let told = self.told.entry(hand.folder.clone()).or_default();
        if !journal.starts_with(&told.lines) {
            broken("a line that was called recorded is another now");
        }
        told.lines = journal;
    }

    fn is_sealed(&mut self) {
        let folder = self.in_hand.take().expect("a walk in hand").folder;
        let told = self.told.entry(folder.clone()).or_default();
        for path in [
            folder.seal(),
            folder.person_signature(),
            folder.device_signature(),
        ] {
            let Some(bytes) = self.disk.certain(&path) else {
                broken(&format!(
                    "called sealed, and {} may be lost",
                    path.display()
                ));
            };
            told.seal.insert(path, bytes);
        }
    }

    /// After a refused line the person is told how many lines of which journal there are, and
    /// that is true.
    fn tells_what_is_recorded(&self, sentence: &str) {
        let named = |folder: &&TripFolder| sentence.contains(folder.journal().to_str().unwrap());
        let trip = self
            .told
            .keys()
            .find(named)
            .map(|folder| &self.told[folder]);
        let lines = trip.map_or(0, |told| lines(&told.lines));
        let says = match lines {
            0 => "Nothing of it is recorded".to_owned(),
            1 => "Its first line is recorded, and nothing after it".to_owned(),
            lines => format!("Its first {lines} lines are recorded, and nothing after them"),
        };
        if !sentence.contains(&says) {
            broken(&format!("{says}, and the program said: {sentence}"));
        }
    }
}

/// Whether a statement on the disk puts this crew file in force.
fn is_stated(disk: &Pretend, crew: &[u8]) -> bool {
    let stated = place().root.join("mgr");
    let mut files = disk.files().into_iter();
    files.any(|path| {
        let of_a_statement = path.starts_with(&stated) && path.ends_with("allowed_signers");
        of_a_statement && disk.seen(&path).as_deref() == Some(crew)
    })
}

/// How many whole lines these are.
pub(crate) fn lines(journal: &[u8]) -> usize {
    journal.split(|byte| *byte == b'\n').count() - 1
}
