//! What is remembered of trips from one start to the next: it spares reading, and shows nothing
//! that reading would not show.

use crate::store::pretend::Pretend;
use hames::cli::clerk::{Clerk, Place, Stock};
use hames::desk::{Barn, Errand, Reply};
use hames::record::Mode;
use hames::store::Disk;
use hames::world::Machine;
use std::path::{Path, PathBuf};

const KEPT: &str = "/demo/cache/trips.json";

/// More than are looked back at.
const TRIPS: u64 = 150;

fn clerk(disk: &Pretend) -> Clerk<Pretend> {
    let place = Place {
        root: "/demo".into(),
        mode: Mode::Demo,
    };
    Clerk::new(disk.clone(), Machine::this(), place, Stock::demo())
}

/// What a start shows, and how often it asked the disk.
fn start(disk: &Pretend) -> (Barn, usize) {
    let before = disk.calls();
    match clerk(disk).perform(Errand::LookAround) {
        Reply::Barn(barn) => (barn, disk.calls() - before),
        other => panic!("{other:?}"),
    }
}

fn shown(disk: &Pretend) -> String {
    format!("{:?}", start(disk).0)
}

/// One trip begun, and many copies of its folder, each with something for a seal.
fn long_logbook() -> (Pretend, PathBuf) {
    let disk = Pretend::empty();
    let begun = clerk(&disk).perform(Errand::Begin {
        rig: "juniper".into(),
        checklist: "hitch-bumper".into(),
        reader: "Wren Ashdown".into(),
        doer: "Tobias Fenn".into(),
        odometer: "48210 mi".into(),
        walked: String::new(),
        answers: Vec::new(),
    });
    assert!(matches!(begun, Reply::Walking { .. }), "{begun:?}");
    let is_journal = |path: &PathBuf| path.ends_with("trip.jsonl");
    let journal = disk.files().into_iter().find(is_journal).unwrap();
    let first = journal.parent().unwrap().to_owned();
    let trips = first.parent().unwrap();
    for seq in 2..=TRIPS {
        let folder = folder(trips, seq);
        disk.make_folder(&folder, hames::store::Mode::Shared)
            .unwrap();
        for file in disk.files() {
            if file.parent() == Some(&first) {
                let copy = folder.join(file.file_name().unwrap());
                disk.place(&copy, &disk.seen(&file).unwrap());
            }
        }
        disk.place(&folder.join("seal.json"), b"{}\n");
    }
    (disk, trips.to_owned())
}

fn folder(trips: &Path, seq: u64) -> PathBuf {
    trips.join(format!("{seq:06}-{seq:08x}"))
}

#[test]
fn the_second_start_asks_the_disk_less_and_shows_the_same() {
    let (disk, _) = long_logbook();
    let (first, asked_first) = start(&disk);
    assert!(disk.seen(Path::new(KEPT)).is_some());
    let (second, asked_second) = start(&disk);
    assert_eq!(format!("{first:?}"), format!("{second:?}"));
    let spared = asked_first - asked_second;
    assert!(spared >= usize::try_from(TRIPS).unwrap(), "{spared}");
}

#[test]
fn a_short_logbook_keeps_nothing_beside_its_records() {
    let disk = Pretend::empty();
    let begun = clerk(&disk).perform(Errand::Begin {
        rig: "juniper".into(),
        checklist: "hitch-bumper".into(),
        reader: "Wren Ashdown".into(),
        doer: "Tobias Fenn".into(),
        odometer: String::new(),
        walked: String::new(),
        answers: Vec::new(),
    });
    assert!(matches!(begun, Reply::Walking { .. }), "{begun:?}");
    shown(&disk);
    assert_eq!(disk.seen(Path::new(KEPT)), None);
}

#[test]
fn damaged_foreign_or_cut_off_it_is_as_if_there_were_none() {
    let (disk, _) = long_logbook();
    let without = shown(&disk);
    let kept = disk.seen(Path::new(KEPT)).unwrap();
    let text = String::from_utf8(kept.clone()).unwrap();
    for bad in [
        String::new(),
        "{}".to_owned(),
        "[1,2,3]\n".to_owned(),
        text[..text.len() / 2].to_owned(),
        text.replace("hames-trips/1", "hames-trips/2"),
        text.replace("dev/", "elsewhere/"),
        text.replace("\"bytes\":", "\"bytes\":1"),
    ] {
        disk.place(Path::new(KEPT), bad.as_bytes());
        assert_eq!(shown(&disk), without, "{bad}");
    }
    disk.place(Path::new(KEPT), b"\xff\xfe");
    assert_eq!(shown(&disk), without);
    assert_eq!(disk.seen(Path::new(KEPT)).unwrap(), kept);
}

#[test]
fn a_journal_that_was_changed_since_is_looked_into_again() {
    let (disk, trips) = long_logbook();
    let before = shown(&disk);
    let changed = folder(&trips, 2);
    let told = format!("Trip {}", changed.file_name().unwrap().to_str().unwrap());
    // It is of a rig with many newer trips, so nobody looks back as far.
    assert!(!before.contains(&told));

    let journal = changed.join("trip.jsonl");
    let text = String::from_utf8(disk.seen(&journal).unwrap()).unwrap();
    let other = text.replacen("\"juniper\"", "\"mesquite\"", 1);
    assert_ne!(text, other);
    disk.place(&journal, other.as_bytes());
    let with = shown(&disk);
    assert!(with.contains(&told), "{with}");

    disk.place(Path::new(KEPT), b"");
    assert_eq!(shown(&disk), with);
}
