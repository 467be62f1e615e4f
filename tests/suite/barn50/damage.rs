//! Ways to damage the barn, each with the word it is found by.

mod beside;
mod histories;
mod stated;
mod trips;

use super::making::{Barn, Files, LAPTOPS, Left, barn};
use crate::record_trip::id;
use hames::record::{Branch, Previous};

/// One way to damage it: what it is, what is done, the word, and what is told.
pub(super) struct Damage {
    pub(super) what: &'static str,
    pub(super) make: fn() -> Files,
    pub(super) word: &'static str,
    pub(super) told: &'static [&'static str],
}

/// What nothing at all is found as: one trip of the barn was never sealed.
pub(super) const SOUND: &str = "unsealed";

pub(super) fn changed(change: impl FnOnce(&mut Barn)) -> Files {
    let mut barn = barn();
    change(&mut barn);
    barn.files
}

pub(super) fn file<'b>(barn: &'b mut Barn, folder: &str, name: &str) -> &'b mut Vec<u8> {
    barn.files.get_mut(&format!("{folder}/{name}")).unwrap()
}

/// One byte of a file of trip 8 of the first laptop.
pub(super) fn one_byte(name: &str) -> Files {
    changed(|barn| {
        let folder = barn.trip(0, 8).folder.clone();
        let bytes = file(barn, &folder, name);
        let middle = bytes.len() / 2;
        bytes[middle] ^= 1;
    })
}

pub(super) fn lines_of(journal: &[u8]) -> Vec<Vec<u8>> {
    let lines = journal.split_inclusive(|byte| *byte == b'\n');
    lines.map(<[u8]>::to_vec).collect()
}

pub(super) fn cut(barn: &mut Barn, folder: &str, lines: usize) {
    let journal = file(barn, folder, "trip.jsonl");
    let mut kept = lines_of(journal);
    kept.truncate(kept.len() - lines);
    *journal = kept.concat();
}

pub(super) fn rename(barn: &mut Barn, from: &str, to: &str) {
    let inside: Vec<String> = barn
        .files
        .keys()
        .filter(|path| path.starts_with(&format!("{from}/")))
        .cloned()
        .collect();
    for path in inside {
        let bytes = barn.files.remove(&path).unwrap();
        barn.files.insert(path.replacen(from, to, 1), bytes);
    }
}

/// The first laptop was put back to its trip 16, and goes on from there.
pub(super) fn restored(trips: usize) -> Barn {
    let mut barn = barn();
    barn.put_back(0, 16);
    for _ in 0..trips {
        barn.walk(0, "wren.ashdown", Left::Sealed);
    }
    barn
}

/// Two histories of the first laptop from its trip 17 on, in one logbook.
pub(super) fn forked() -> (Barn, Previous, Previous) {
    let (mut whole, other) = (barn(), restored(2));
    let (one, two) = (whole.trip(0, 17).ends, other.trip(0, 17).ends);
    whole.files.extend(other.files);
    whole.trips.extend(
        other
            .trips
            .into_iter()
            .filter(|trip| trip.device == LAPTOPS[0] && trip.seq > 16),
    );
    (whole, one, two)
}

pub(super) fn branch(barn: &Barn, ends: Previous) -> Branch {
    let trip = barn.trips.iter().find(|trip| trip.ends == ends).unwrap();
    Branch {
        trip: id(&trip.id),
        ends,
    }
}

/// A copy of a file of the unsealed trip beside it.
pub(super) fn beside(name: &'static str, bytes: impl FnOnce(&Barn, &str) -> Vec<u8>) -> Files {
    changed(|barn| {
        let folder = barn.trip(1, 5).folder.clone();
        let copy = bytes(barn, &folder);
        barn.files.insert(format!("{folder}/{name}"), copy);
    })
}

pub(super) fn journal(barn: &Barn, folder: &str) -> Vec<u8> {
    barn.files[&format!("{folder}/trip.jsonl")].clone()
}

/// Every one.
pub(super) fn damages() -> impl Iterator<Item = &'static Damage> {
    let all = [trips::ALL, histories::ALL, stated::ALL, beside::ALL];
    all.into_iter().flatten()
}
