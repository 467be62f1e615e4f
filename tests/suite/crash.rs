//! Power lost at every call of every errand, and a disk that fails at every call: what was
//! answered stays true, and the trip can be taken up and sealed.

mod errands;
mod founding;

use crate::sim::barn::{self, SMALL};
use crate::sim::laptop::Laptop;
use crate::sim::law::{Finding, WELL, verified};
use crate::sim::world::Given;
use crate::store::pretend::{Fate, Pretend, Trouble};
use errands::{Case, ERRANDS, Errand, begin, make_good};
use hames::record::Digest;
use std::collections::HashSet;
use std::io::ErrorKind;

/// Says to the tests to try every fate and every trouble at every call, not those alone that
/// differ most.
const ALL: &str = "CRASH_ALL";

fn all() -> bool {
    std::env::var_os(ALL).is_some()
}

/// What may become of what was not certain at this call: it is lost, it is kept, or each part of it
/// by lot, which falls another way at every call.
fn fates(call: usize) -> Vec<Fate> {
    let seed = call.try_into().unwrap();
    let mut fates = vec![Fate::Lost, Fate::Kept, Fate::Lots(seed)];
    if all() {
        let lots = (1..4).map(|more| Fate::Lots(seed + more * 1000));
        fates.extend([Fate::Half, Fate::OtherHalf].into_iter().chain(lots));
    }
    fates
}

/// EIO has no kind of its own; the program is told “other”, as of any error it does not know.
const REFUSALS: [ErrorKind; 3] = [
    ErrorKind::Other,
    ErrorKind::StorageFull,
    ErrorKind::ReadOnlyFilesystem,
];

impl Case {
    /// A laptop on which all was done that comes before, and the program closed.
    fn before(&self) -> Laptop {
        let mut laptop = Laptop::new("barn-laptop", barn::disk("barn-laptop"), 1);
        laptop.open(&SMALL);
        (self.before)(&mut laptop);
        laptop.close();
        laptop
    }

    /// The same laptop, ready for the errand.
    fn ready(&self, before: &Laptop) -> Laptop {
        let mut laptop = before.twin(before.disk.after_death());
        laptop.open(&SMALL);
        (self.hand)(&mut laptop);
        laptop
    }

    /// What goes wrong at this call of the errand, and what is tried next. A call that only looks
    /// can do no more than refuse.
    fn troubles(&self, call: usize, changes: bool) -> Vec<(Trouble, Errand)> {
        let kind = REFUSALS[call % REFUSALS.len()];
        let mut next: [Errand; 2] = [self.errand, begin];
        if call % 2 == 1 {
            next.reverse();
        }
        let mut troubles = vec![(Trouble::Refuses(kind), next[0])];
        if changes {
            troubles.push((Trouble::RefusesChanges(kind), begin));
            troubles.push((Trouble::WritesHalf, self.errand));
        }
        if all() {
            troubles.push((Trouble::Refuses(kind), next[1]));
        }
        troubles
    }
}

/// Disks that were seen already: many fates leave the same.
#[derive(Default)]
struct Seen(HashSet<Digest>);

impl Seen {
    /// Whether this disk is new to whoever was told this.
    fn is_new(&mut self, told: &[u8], disk: &Pretend) -> bool {
        let mut all = told.to_vec();
        for path in disk.files() {
            all.extend(path.as_os_str().as_encoded_bytes());
            all.extend(disk.seen(&path).unwrap());
        }
        self.0.insert(Digest::of(&all))
    }
}

/// All that a laptop was told of lines.
fn told_of(laptop: &Laptop) -> Vec<u8> {
    let told = laptop.told.values();
    told.flat_map(|told| told.lines.clone()).collect()
}

/// Whoever starts the program on the disk that is left finds all that was answered, and brings
/// every trip to its seal.
fn goes_on(laptop: &Laptop, disk: Pretend, told: &str) {
    laptop.hold_to(&disk);
    let (finding, faults) = verified(&disk);
    assert!(finding <= Finding::Unsealed, "{told}: {finding} {faults:?}");
    let mut later = laptop.twin(disk);
    later.world = Given::new(laptop.device, 2);
    later.world.start();
    later.open(&SMALL);
    make_good(&mut later, told);
    let (finding, faults) = later.verified();
    assert!(finding <= WELL, "{told}: {finding} {faults:?}");
    assert!(begin(&mut later), "{told}: no next trip");
    later.hold_to(&later.disk);
    let (finding, faults) = later.verified();
    assert!(finding <= Finding::Unsealed, "{told}: {finding} {faults:?}");
    let torn = later.disk.files().into_iter();
    let torn = torn.filter(|path| path.to_string_lossy().contains(".torn-"));
    assert!(torn.count() <= 1, "{told}: more than one line was torn");
}

#[test]
fn whatever_call_the_power_fails_at_what_was_answered_is_there_and_the_trip_is_sealed() {
    for case in ERRANDS {
        let mut laptop = case.ready(&case.before());
        let unanswered = laptop.twin(Pretend::empty());
        laptop.disk.film();
        assert!((case.errand)(&mut laptop), "{}", case.name);
        let mut seen = Seen::default();
        for (call, left) in laptop.disk.filmed().iter().enumerate() {
            for fate in fates(call) {
                let disk = Pretend::with(left.after_power_loss(fate));
                if seen.is_new(&told_of(&unanswered), &disk) {
                    let told = format!("{}, after change {call}, {fate:?}", case.name);
                    goes_on(&unanswered, disk, &told);
                }
            }
        }
        for fate in fates(0) {
            let disk = laptop.disk.after_power_loss(fate);
            goes_on(&laptop, disk, &format!("{}, answered, {fate:?}", case.name));
        }
    }
}

#[test]
fn whatever_call_the_disk_refuses_nothing_is_called_done_that_is_not() {
    for case in ERRANDS {
        let before = case.before();
        let mut laptop = case.ready(&before);
        let first = laptop.disk.calls();
        assert!((case.errand)(&mut laptop), "{}", case.name);
        let (calls, changing) = (laptop.disk.calls(), laptop.disk.changing_calls());
        let mut seen = Seen::default();
        for call in first..calls {
            for (trouble, again) in case.troubles(call, changing.contains(&call)) {
                let mut laptop = case.ready(&before);
                laptop.disk.trouble_after(call - first, trouble);
                (case.errand)(&mut laptop);
                let told = format!("{}, call {}, {trouble:?}", case.name, call - first);
                let left = laptop.disk.after_power_loss(Fate::Lost);
                if seen.is_new(&told_of(&laptop), &left) {
                    goes_on(&laptop, left, &told);
                }
                laptop.disk.mend();
                again(&mut laptop);
                laptop.hold_to(&laptop.disk.after_power_loss(Fate::Lost));
                let fate = Fate::Lots(call.try_into().unwrap());
                let left = laptop.disk.after_power_loss(fate);
                if seen.is_new(&told_of(&laptop), &left) {
                    goes_on(&laptop, left, &format!("{told}, and again, {fate:?}"));
                }
            }
        }
    }
}
