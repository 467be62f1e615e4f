//! Drills that come along with a logbook: each once, none lost, none taken for a walk.

use super::barn::{kinds, names, put, take, text};
use crate::barn50::drills::CALLED_AWAY;
use crate::barn50::making::{Barn, Files, Left};
use crate::store::pretend::{Fate, Pretend, Trouble};
use hames::cli::merge::{Merged, Status, merge};
use hames::store::Logbook;
use std::collections::BTreeSet;
use std::io::ErrorKind;
use std::path::Path;
use std::sync::LazyLock;

/// A trip, and three drills of two laptops.
fn barn() -> Barn {
    static MADE: LazyLock<Barn> = LazyLock::new(|| {
        let mut barn = Barn::with_drills();
        barn.walk(0, "wren.ashdown", Left::Sealed);
        barn.drill(0, CALLED_AWAY);
        barn.drill(0, "hooks-in");
        barn.drill(1, "hooks-in");
        barn
    });
    MADE.clone()
}

fn disk_with(files: &Files) -> Pretend {
    let disk = Pretend::empty();
    drop(Logbook::make(disk.clone(), Path::new("/barn")).unwrap());
    put(&disk, "/barn", files);
    disk
}

fn without_drills(barn: &Barn) -> Files {
    let files = barn.files.clone().into_iter();
    files
        .filter(|(path, _)| !path.starts_with("drill/"))
        .collect()
}

/// The files of drills in the logbook.
fn drills(disk: &Pretend) -> Files {
    let named = names(disk).into_iter();
    let ours = named.filter(|name| name.starts_with("drill/") && !name.ends_with("/hold"));
    let ours = ours.filter(|name| !name.contains(".draft-"));
    let read = |name: String| {
        let bytes = disk.seen(&Path::new("/barn").join(&name)).unwrap();
        (name, bytes)
    };
    ours.map(read).collect()
}

fn of_drills(files: &Files) -> Files {
    let files = files.clone().into_iter();
    files
        .filter(|(path, _)| path.starts_with("drill/"))
        .collect()
}

/// The same journal as far as its first lines, and nothing that signs it.
fn begun(files: &mut Files, folder: &str, lines: usize) {
    files.retain(|path, _| !path.starts_with(&format!("{folder}/seal.")));
    let journal = files.get_mut(&format!("{folder}/trip.jsonl")).unwrap();
    let short = journal.split_inclusive(|byte| *byte == b'\n').take(lines);
    *journal = short.collect::<Vec<_>>().concat();
}

#[test]
fn drills_come_along_each_once_and_it_is_told_in_one_line() {
    let barn = barn();
    let disk = disk_with(&without_drills(&barn));
    put(&disk, "/stick/book", &barn.files);
    let looked = merge(&disk, Path::new("/barn"), Path::new("/stick"), true).unwrap();
    assert!(
        text(&looked).contains("3 drills would come"),
        "{}",
        text(&looked)
    );
    assert_eq!(drills(&disk), Files::new());
    let merged = take(&disk, "/stick").unwrap();
    assert!(
        text(&merged).contains("From /stick: 3 drills came; "),
        "{}",
        text(&merged)
    );
    assert!(
        !kinds(&merged).contains(&"came".to_owned()),
        "{}",
        text(&merged)
    );
    assert_eq!(drills(&disk), of_drills(&barn.files));
    for from in ["/stick", "/barn"] {
        let again = take(&disk, from).unwrap();
        assert!(!again.is_new(), "{}", text(&again));
        assert_eq!(again.status(), Status::Fine, "{}", text(&again));
    }
    assert_eq!(drills(&disk), of_drills(&barn.files));
}

#[test]
fn a_drill_that_goes_on_further_goes_on_here_and_another_history_lies_beside() {
    let barn = barn();
    let folder = &barn.drills[0].folder;
    for (ours, theirs) in [(7, usize::MAX), (usize::MAX, 7), (3, 7)] {
        let (mut here, mut there) = (barn.files.clone(), barn.files.clone());
        for (files, lines) in [(&mut here, ours), (&mut there, theirs)] {
            if lines < usize::MAX {
                begun(files, folder, lines);
            }
        }
        let longer = if ours > theirs { &here } else { &there }.clone();
        let disk = disk_with(&here);
        put(&disk, "/stick", &there);
        let merged = take(&disk, "/stick").unwrap();
        assert_eq!(drills(&disk), of_drills(&longer), "{ours} {theirs}");
        assert_eq!(merged.drills.came, usize::from(ours < theirs));
    }
    let mut other = self::barn();
    let last = other.drills.pop().unwrap();
    other.lose(&last.folder);
    let played = other.drill(1, "all-good");
    assert_eq!(played.folder, last.folder);
    let disk = disk_with(&barn.files);
    put(&disk, "/stick", &other.files);
    let merged = take(&disk, "/stick").unwrap();
    assert_eq!(merged.drills.beside, 1, "{}", text(&merged));
    assert!(
        text(&merged).contains("none is chosen"),
        "{}",
        text(&merged)
    );
    let kept = drills(&disk);
    for (path, bytes) in of_drills(&barn.files) {
        assert_eq!(kept[&path], bytes, "{path}");
    }
    let beside = kept
        .keys()
        .filter(|path| path.starts_with(&format!("{}-", last.folder)));
    assert_eq!(beside.count(), 9);
    let again = take(&disk, "/stick").unwrap();
    assert!(!again.is_new(), "{}", text(&again));
}

#[test]
fn a_drill_among_trips_and_a_walk_among_drills_are_taken_for_what_they_are() {
    let barn = barn();
    let (drill, walk) = (&barn.drills[2].folder, &barn.trips[0].folder);
    let mut moved = barn.files.clone();
    for (path, bytes) in &barn.files {
        if let Some(name) = path.strip_prefix(drill.as_str()) {
            moved.remove(path);
            moved.insert(
                format!("dev/{}{name}", drill.replacen("drill/dev/", "", 1)),
                bytes.clone(),
            );
        }
    }
    let disk = disk_with(&without_drills(&barn));
    put(&disk, "/stick", &moved);
    let merged = take(&disk, "/stick").unwrap();
    assert_eq!(merged.drills.came, 2, "{}", text(&merged));
    assert!(merged.came.is_empty(), "{}", text(&merged));
    assert!(text(&merged).contains("drill"), "{}", text(&merged));
    assert!(!merged.aside.is_empty(), "{}", text(&merged));
    let among = names(&disk)
        .into_iter()
        .filter(|name| name.starts_with("dev/"));
    assert!(
        !among.clone().any(|name| name.contains("-d0b")),
        "{:?}",
        among.collect::<Vec<_>>()
    );

    // A walk is one wherever it lies, and never a drill.
    let mut lost = barn.files.clone();
    for (path, bytes) in &barn.files {
        if let Some(name) = path.strip_prefix(walk.as_str()) {
            lost.remove(path);
            lost.insert(format!("drill/{walk}{name}"), bytes.clone());
        }
    }
    let mut ours = barn.files.clone();
    ours.retain(|path, _| !path.starts_with(walk.as_str()));
    let disk = disk_with(&ours);
    put(&disk, "/stick", &lost);
    let merged = take(&disk, "/stick").unwrap();
    assert_eq!(
        (merged.came.len(), merged.drills.came),
        (1, 0),
        "{}",
        text(&merged)
    );
    assert_eq!(drills(&disk), of_drills(&barn.files));
}

#[test]
fn a_drill_that_cannot_be_used_and_a_copy_under_another_name_stay_where_they_lie() {
    let barn = barn();
    let folder = &barn.drills[0].folder;
    let mut damaged = barn.files.clone();
    damaged
        .get_mut(&format!("{folder}/scenario.yaml"))
        .unwrap()
        .push(b'#');
    let disk = disk_with(&without_drills(&barn));
    put(&disk, "/stick", &damaged);
    let merged = take(&disk, "/stick").unwrap();
    assert_eq!(
        (merged.drills.came, merged.drills.left.len()),
        (2, 1),
        "{}",
        text(&merged)
    );
    assert!(
        text(&merged).contains("not taken: a drill stays where it lies: "),
        "{}",
        text(&merged)
    );
    assert!(merged.aside.is_empty(), "{}", text(&merged));
    // The whole one comes later.
    put(&disk, "/other", &barn.files);
    take(&disk, "/other").unwrap();
    assert_eq!(drills(&disk), of_drills(&barn.files));

    let mut copied = barn.files.clone();
    for (path, bytes) in of_drills(&barn.files) {
        copied.insert(path.replace("-d0a11000/", "-d0a11000 (1)/"), bytes.clone());
        copied.insert(
            path.replace("/trip.jsonl", "/trip.sync-conflict-1.jsonl"),
            bytes,
        );
    }
    let disk = disk_with(&copied);
    let there = drills(&disk);
    let merged = take(&disk, "/barn").unwrap();
    assert!(
        !merged.is_new() && merged.aside.is_empty(),
        "{}",
        text(&merged)
    );
    assert_eq!(drills(&disk), there);
}

#[test]
fn the_third_signature_of_a_check_ride_goes_along_with_the_other_two() {
    let mut barn = barn();
    let folder = barn.drills[0].folder.clone();
    let armor = barn.files[&format!("{folder}/seal.person.sig")].clone();
    let third = format!("{folder}/seal.examiner.sig");
    barn.files.insert(third.clone(), armor);
    let mut lacks = barn.files.clone();
    lacks.remove(&third);
    for ours in [without_drills(&barn), lacks] {
        let disk = disk_with(&ours);
        put(&disk, "/stick", &barn.files);
        take(&disk, "/stick").unwrap();
        assert_eq!(drills(&disk), of_drills(&barn.files));
    }
}

#[test]
fn what_is_missing_of_a_drill_is_put_beside_it_and_what_has_not_arrived_waits() {
    let barn = barn();
    let folder = &barn.drills[0].folder;
    for gone in [
        "scenario.yaml",
        "sights.yaml",
        "rig.yaml",
        "seal.person.sig",
        "trip.jsonl",
    ] {
        let mut ours = barn.files.clone();
        ours.remove(&format!("{folder}/{gone}")).unwrap();
        let disk = disk_with(&ours);
        put(&disk, "/stick", &barn.files);
        let merged = take(&disk, "/stick").unwrap();
        assert_eq!(merged.drills.came, 1, "{gone}: {}", text(&merged));
        assert_eq!(drills(&disk), of_drills(&barn.files), "{gone}");
        let disk = disk_with(&without_drills(&barn));
        put(&disk, "/stick", &ours);
        take(&disk, "/stick").unwrap();
        put(&disk, "/other", &barn.files);
        take(&disk, "/other").unwrap();
        assert_eq!(drills(&disk), of_drills(&barn.files), "{gone}");
    }
}

/// A logbook with a part of the drills, and a stick with all of them.
fn before() -> Pretend {
    let barn = barn();
    let mut ours = barn.files.clone();
    begun(&mut ours, &barn.drills[0].folder, 5);
    ours.retain(|path, _| !path.starts_with(&barn.drills[1].folder));
    let disk = disk_with(&ours);
    put(&disk, "/stick", &barn.files);
    disk.after_power_loss(Fate::Kept)
}

/// What a crash may not take: every line and file there was.
fn keeps(disk: &Pretend, there: &Files) -> bool {
    let now: BTreeSet<Vec<u8>> = drills(disk).into_values().collect();
    there
        .values()
        .all(|bytes| now.iter().any(|one| one.starts_with(bytes)))
}

#[test]
fn after_a_crash_at_whatever_call_no_drill_is_lost_and_merging_again_completes_it() {
    let start = before();
    let there = drills(&start);
    let done = start.after_power_loss(Fate::Kept);
    done.film();
    take(&done, "/stick").unwrap();
    let aim = drills(&done);
    assert_eq!(aim, of_drills(&barn().files));
    let fates = [
        Fate::Lost,
        Fate::Kept,
        Fate::Half,
        Fate::OtherHalf,
        Fate::Lots(7),
    ];
    let film = done.filmed().into_iter().step_by(3);
    let film = film.zip(fates.into_iter().cycle());
    for (at, (left, fate)) in film.enumerate() {
        let left = Pretend::with(left.after_power_loss(fate));
        assert!(keeps(&left, &there), "call {at}, {fate:?}");
        let merged: Merged = take(&left, "/stick").unwrap();
        let now = drills(&left);
        let lacks = aim
            .iter()
            .find(|(path, bytes)| now.get(*path) != Some(bytes));
        assert_eq!(lacks, None, "call {at}, {fate:?}: {}", text(&merged));
    }
    for at in done.changing_calls().into_iter().step_by(7) {
        let disk = start.after_power_loss(Fate::Kept);
        disk.trouble_after(at, Trouble::Refuses(ErrorKind::StorageFull));
        drop(take(&disk, "/stick"));
        assert!(keeps(&disk, &there), "call {at}");
        take(&disk, "/stick").unwrap();
        assert!(keeps(&disk, &aim), "call {at}");
    }
}
