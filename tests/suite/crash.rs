//! Power lost at every call of every errand, and a disk that fails at every call: what was
//! answered stays true, and the trip can be taken up and sealed.

mod errands;
mod founding;

use crate::sim::barn::{self, SMALL};
use crate::sim::laptop::Laptop;
use crate::sim::law::{Finding, WELL, verified};
use crate::store::pretend::{Fate, Pretend, Trouble};
use errands::{Case, ERRANDS, begin, end, make_good, seal};
use hames::record::Digest;
use std::collections::HashSet;
use std::io::ErrorKind;

const FATES: [Fate; 7] = [
    Fate::Lost,
    Fate::Kept,
    Fate::Half,
    Fate::OtherHalf,
    Fate::Lots(7),
    Fate::Lots(8),
    Fate::Lots(9),
];

/// EIO has no kind of its own; the program is told “other”, as of any error it does not know.
const REFUSALS: [ErrorKind; 3] = [
    ErrorKind::Other,
    ErrorKind::StorageFull,
    ErrorKind::ReadOnlyFilesystem,
];

impl Case {
    /// A laptop on which the errand can be done.
    fn ready(&self) -> Laptop {
        let mut laptop = Laptop::new("barn-laptop", barn::disk("barn-laptop"), 1);
        laptop.open(&SMALL);
        (self.before)(&mut laptop);
        laptop
    }

    /// How many calls the errand takes when nothing goes wrong.
    fn calls(&self) -> usize {
        let mut laptop = self.ready();
        let before = laptop.disk.calls();
        assert!((self.errand)(&mut laptop), "{}", self.name);
        laptop.disk.calls() - before
    }

    /// The laptop after the errand went wrong at this call, and whether it was called done.
    fn broken_at(&self, call: usize, trouble: Trouble) -> (Laptop, bool) {
        let mut laptop = self.ready();
        laptop.disk.trouble_after(call, trouble);
        let done = (self.errand)(&mut laptop);
        (laptop, done)
    }
}

/// Disks that were seen already: many fates leave the same.
#[derive(Default)]
struct Seen(HashSet<Digest>);

impl Seen {
    fn is_new(&mut self, laptop: &Laptop, disk: &Pretend) -> bool {
        let mut all = Vec::new();
        for path in disk.files() {
            all.extend(path.as_os_str().as_encoded_bytes());
            all.extend(disk.seen(&path).unwrap());
        }
        for told in laptop.told.values() {
            all.extend(&told.lines);
        }
        self.0.insert(Digest::of(&all))
    }
}

/// Whoever starts the program on the disk that is left finds all that was answered, and brings
/// every trip to its seal.
fn goes_on(laptop: &Laptop, disk: Pretend, told: &str) {
    laptop.hold_to(&disk);
    let (finding, faults) = verified(&disk);
    assert!(finding <= Finding::Unsealed, "{told}: {finding} {faults:?}");
    let mut later = Laptop::new(laptop.device, disk, 2);
    later.told.clone_from(&laptop.told);
    later.kept.clone_from(&laptop.kept);
    later.world.start();
    later.open(&SMALL);
    make_good(&mut later, told);
    let next = begin(&mut later) && end(&mut later) && seal(&mut later);
    assert!(next, "{told}: no next trip");
    later.hold_to(&later.disk);
    let (finding, faults) = later.verified();
    assert!(finding <= WELL, "{told}: {finding} {faults:?}");
    let torn = later.disk.files().into_iter();
    let torn = torn.filter(|path| path.to_string_lossy().contains(".torn-"));
    assert!(torn.count() <= 1, "{told}: more than one line was torn");
}

#[test]
fn whatever_call_the_power_fails_at_what_was_answered_is_there_and_the_trip_is_sealed() {
    for case in ERRANDS {
        let mut seen = Seen::default();
        for call in 0..case.calls() {
            for trouble in [Trouble::StopsBefore, Trouble::StopsAfter] {
                let (laptop, _) = case.broken_at(call, trouble);
                for fate in FATES {
                    let disk = laptop.disk.after_power_loss(fate);
                    if seen.is_new(&laptop, &disk) {
                        let told = format!("{}, call {call}, {trouble:?}, {fate:?}", case.name);
                        goes_on(&laptop, disk, &told);
                    }
                }
            }
        }
    }
}

#[test]
fn whatever_call_the_disk_refuses_nothing_is_called_done_that_is_not() {
    for case in ERRANDS {
        let mut seen = Seen::default();
        for call in 0..case.calls() {
            let kind = REFUSALS[call % REFUSALS.len()];
            for (trouble, again) in [
                (Trouble::Refuses(kind), case.errand),
                (Trouble::Refuses(kind), begin),
                (Trouble::RefusesChanges(kind), begin),
                (Trouble::WritesHalf, case.errand),
            ] {
                let (mut laptop, _) = case.broken_at(call, trouble);
                let told = format!("{}, call {call}, {trouble:?}", case.name);
                let left = laptop.disk.after_power_loss(Fate::Lost);
                if seen.is_new(&laptop, &left) {
                    goes_on(&laptop, left, &told);
                }
                laptop.disk.mend();
                again(&mut laptop);
                for fate in [Fate::Lost, Fate::Lots(5)] {
                    let disk = laptop.disk.after_power_loss(fate);
                    if seen.is_new(&laptop, &disk) {
                        goes_on(&laptop, disk, &format!("{told}, and again, {fate:?}"));
                    }
                }
            }
        }
    }
}
