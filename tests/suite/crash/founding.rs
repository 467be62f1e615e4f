//! A logbook that is founded on a disk that fails, or where the power goes.

use super::{REFUSALS, Seen, fates};
use crate::sim::barn::{PEOPLE, passphrase, place, unfounded};
use crate::sim::world::Given;
use crate::store::pretend::{Fate, Pretend, Trouble};
use hames::cli::clerk::{Books, Person, found, is_founded};
use hames::record::{Id, PrintedName, Role};

fn people() -> Vec<Person> {
    let person = |(id, name, role): (&str, &str, Role)| Person {
        id: Id::read(id).unwrap(),
        name: PrintedName::read(name).unwrap(),
        roles: vec![role],
        passphrase: passphrase(id),
    };
    PEOPLE.into_iter().map(person).collect()
}

/// Founds the logbook; whether it was called founded. Then it is, past every loss of power.
fn founds(disk: &Pretend, seed: u64) -> bool {
    let world = Given::new("this laptop", seed);
    let done = found(disk, &world, &place(), "Quillwater Stables", &people()).is_ok();
    if done {
        let left = disk.after_power_loss(Fate::Lost);
        assert!(is_founded(&left, &place().root).unwrap());
        holds(&left);
    }
    done
}

/// A logbook that is founded has everybody in its crew, and their keys.
fn holds(disk: &Pretend) {
    let books = Books::open(disk, &place().root).unwrap();
    assert_eq!(books.crew.signers().len(), PEOPLE.len() + 1);
    for signer in books.crew.signers() {
        let key = disk.seen(&books.logbook.key(&signer.id));
        assert!(key.is_some(), "no key of {}", signer.id);
    }
}

/// Whatever is left, the next founding finishes.
fn is_finished(left: &Pretend, told: &str) {
    if !is_founded(left, &place().root).unwrap() {
        assert!(founds(left, 2), "{told}");
    }
    holds(left);
}

#[test]
fn a_founding_that_fails_at_any_call_is_finished_by_the_next_one() {
    let start = unfounded().image();
    let disk = Pretend::with(start.clone());
    disk.film();
    assert!(founds(&disk, 1));
    let mut seen = Seen::default();
    for (call, image) in disk.filmed().iter().enumerate() {
        for fate in fates(call) {
            let left = Pretend::with(image.after_power_loss(fate));
            if seen.is_new(&[], &left) {
                is_finished(&left, &format!("after change {call}, {fate:?}"));
            }
        }
    }
    let changing = disk.changing_calls();
    for call in 0..disk.calls() {
        let kind = REFUSALS[call % REFUSALS.len()];
        let mut troubles = vec![Trouble::Refuses(kind)];
        if changing.contains(&call) {
            troubles.extend([Trouble::RefusesChanges(kind), Trouble::WritesHalf]);
        }
        for trouble in troubles {
            let disk = Pretend::with(start.clone());
            disk.trouble_after(call, trouble);
            founds(&disk, 1);
            for fate in fates(call) {
                let left = disk.after_power_loss(fate);
                if seen.is_new(&[], &left) {
                    is_finished(&left, &format!("call {call}, {trouble:?}, {fate:?}"));
                }
            }
        }
    }
}
