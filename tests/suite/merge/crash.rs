//! Power goes at any call of a merge: nothing that was there is lost, and merging again completes it.

use super::barn::{Files, contents, disk_with, put, take, trips, whole};
use crate::store::pretend::{Fate, Pretend, Trouble};
use std::collections::BTreeSet;
use std::io::ErrorKind;

/// A logbook with a part of the barn, and a stick with all of it.
fn before() -> Pretend {
    let mut ours = trips("laptop-one", 1);
    let open: Files = whole()
        .into_iter()
        .filter(|(name, _)| name.contains("/000003-"))
        .map(|(name, bytes)| {
            let short = bytes.split_inclusive(|byte| *byte == b'\n').take(2);
            let short: Vec<u8> = short.collect::<Vec<_>>().concat();
            let cut = name.ends_with("trip.jsonl");
            (name, if cut { short } else { bytes })
        })
        .collect();
    ours.extend(open);
    let disk = disk_with(&ours);
    let mut stick = whole();
    stick.retain(|name, _| !name.contains("laptop-two"));
    put(&disk, "/stick", &stick);
    // Everything until here is on the disk for certain.
    disk.after_power_loss(Fate::Kept)
}

/// What a crash may not take: every line and file there was.
fn keeps(disk: &Pretend, there: &BTreeSet<Vec<u8>>) -> bool {
    let now = contents(disk);
    there
        .iter()
        .all(|bytes| now.iter().any(|one| one.starts_with(bytes)))
}

#[test]
fn after_a_crash_at_any_call_nothing_is_lost_and_merging_again_completes_it() {
    let start = before();
    let there = contents(&start);
    let done = start.after_power_loss(Fate::Kept);
    take(&done, "/stick").unwrap();
    let aim = contents(&done);
    assert!(keeps(&done, &there));
    let fates = [
        Fate::Lost,
        Fate::Kept,
        Fate::Half,
        Fate::OtherHalf,
        Fate::Lots(7),
    ];
    // A crash at a call that only reads is one before the next that writes.
    for (turn, at) in done.changing_calls().into_iter().enumerate() {
        // Before a call is after the one before it.
        let trouble = [Trouble::StopsBefore, Trouble::StopsAfter][turn % 2];
        let disk = start.after_power_loss(Fate::Kept);
        disk.trouble_after(at, trouble);
        drop(take(&disk, "/stick"));
        let fate = fates[turn % fates.len()];
        let left = if turn % 7 == 0 {
            disk.after_death()
        } else {
            disk.after_power_loss(fate)
        };
        assert!(keeps(&left, &there), "call {at}, {fate:?}");
        let merged = take(&left, "/stick");
        let merged = merged.unwrap_or_else(|stopped| panic!("{}", stopped.sentence));
        let now = contents(&left);
        assert!(aim.is_subset(&now), "call {at}, {fate:?}: {merged:?}");
    }
}

#[test]
fn a_disk_that_refuses_is_told_and_merging_again_completes_it() {
    let start = before();
    let there = contents(&start);
    let done = start.after_power_loss(Fate::Kept);
    take(&done, "/stick").unwrap();
    let aim = contents(&done);
    for (turn, at) in done.changing_calls().into_iter().enumerate().step_by(3) {
        let trouble = if turn % 2 == 0 {
            Trouble::Refuses(ErrorKind::StorageFull)
        } else {
            Trouble::WritesHalf
        };
        let disk = start.after_power_loss(Fate::Kept);
        disk.trouble_after(at, trouble);
        drop(take(&disk, "/stick"));
        assert!(keeps(&disk, &there), "call {at}");
        take(&disk, "/stick").unwrap();
        assert!(aim.is_subset(&contents(&disk)), "call {at}");
    }
}
