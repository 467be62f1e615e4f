//! Power goes at any call of a merge: nothing that was there is lost, and merging again completes it.

use super::barn::{Files, contents, disk_with, put, take, trips, whole};
use crate::store::pretend::{Fate, Pretend, Trouble};
use std::collections::BTreeSet;
use std::io::ErrorKind;
use std::path::Path;

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
    done.film();
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
    // A crash at a call that only reads is one after the last that wrote.
    for (at, (left, fate)) in done
        .filmed()
        .into_iter()
        .zip(fates.into_iter().cycle())
        .enumerate()
    {
        let left = if at % 7 == 0 {
            Pretend::with(left)
        } else {
            Pretend::with(left.after_power_loss(fate))
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

/// A logbook with a damaged trip, a second copy of another, and a damaged statement; and a stick
/// that has all of it whole.
fn damaged() -> Pretend {
    let whole = whole();
    let mut ours = whole.clone();
    ours.retain(|name, _| !name.contains("/000003-") && !name.contains("-copy"));
    let journal = "dev/laptop-one/t/000001-9f0c11b2/trip.jsonl";
    let cut = ours[journal].len() / 2;
    ours.get_mut(journal).unwrap().truncate(cut);
    let beside = ours.clone().into_iter();
    let beside = beside.filter(|(name, _)| name.contains("two/t/000002-"));
    ours.extend(beside.map(|(name, bytes)| (name.replace("9f0c11b2/", "9f0c11b2-aa/"), bytes)));
    for (name, bytes) in &mut ours {
        if name.ends_with("statement.json") {
            bytes.extend(b"more");
        }
    }
    let disk = disk_with(&ours);
    let mut stick = whole;
    stick.retain(|name, _| !name.contains("-copy"));
    put(&disk, "/stick", &stick);
    disk.after_power_loss(Fate::Kept)
}

/// Every file of records by name, without what a crash left of one in the making.
fn records(disk: &Pretend) -> Files {
    let names = super::barn::names(disk).into_iter();
    let ours = names.filter(|name| name.starts_with("dev") || name.starts_with("mgr"));
    let ours = ours.filter(|name| !name.contains(".draft-") && !name.ends_with("/hold"));
    let read = |name: String| {
        let bytes = disk.seen(&Path::new("/barn").join(&name)).unwrap();
        (name, bytes)
    };
    ours.map(read).collect()
}

/// Every file of records, and every one that is kept aside.
fn all(disk: &Pretend) -> BTreeSet<Vec<u8>> {
    let files = disk.files().into_iter();
    let kept = files.filter(|path| path.ends_with("as-found"));
    let kept = kept.map(|path| disk.seen(&path).unwrap());
    contents(disk).into_iter().chain(kept).collect()
}

#[test]
fn power_that_goes_while_something_is_healed_takes_neither_what_was_damaged_nor_what_is_whole() {
    let start = damaged();
    let there = all(&start);
    let done = start.after_power_loss(Fate::Kept);
    done.film();
    take(&done, "/stick").unwrap();
    let aim = records(&done);
    let mended = contents(&done).difference(&there).count();
    assert!(mended >= 2, "a journal and a statement are whole again");
    let fates = [
        Fate::Lost,
        Fate::Kept,
        Fate::Half,
        Fate::OtherHalf,
        Fate::Lots(7),
    ];
    let film = done.filmed().into_iter().zip(fates.into_iter().cycle());
    let cut = film.map(|(left, fate)| (Pretend::with(left.after_power_loss(fate)), "a cut"));
    let half = done.changing_calls().into_iter().map(|at| {
        let disk = start.after_power_loss(Fate::Kept);
        disk.trouble_after(at, Trouble::WritesHalf);
        drop(take(&disk, "/stick"));
        (disk.after_death(), "half a write")
    });
    for (at, (left, what)) in cut.chain(half).enumerate() {
        assert!(there.is_subset(&all(&left)), "{at}: {what}");
        let merged = take(&left, "/stick");
        let merged = merged.unwrap_or_else(|stopped| panic!("{}", stopped.sentence));
        assert!(records(&left) == aim, "{at}: {what}: {merged:?}");
        assert!(there.is_subset(&all(&left)), "{at}: {what}");
    }
}
