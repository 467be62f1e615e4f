//! The store on a disk that fails: what was called recorded is there afterwards, whatever failed
//! and whenever the power went.

mod local;
pub(crate) mod pretend;
mod trouble;

use hames::record::{Id, MAX_LINE};
use hames::store::{Device, Pinned};
use hames::store::{
    Disk, Journal, JournalText, Kind, LineProblem, Logbook, MOST_FILE_BYTES, Mode, StoreFault,
    replace, write_once,
};
use pretend::{Fate, Pretend, Trouble};
use std::io::ErrorKind;
use std::path::Path;

const PINNED: Pinned<'_> = Pinned {
    checklist: b"checklist",
    rig: b"rig",
    crew: b"crew",
    drill: None,
};

fn name(text: &str) -> Id {
    Id::read(text).unwrap()
}

fn logbook() -> (Pretend, Logbook<Pretend>) {
    let disk = Pretend::empty();
    let logbook = Logbook::make(disk.clone(), Path::new("/barn")).unwrap();
    (disk, logbook)
}

fn journal(disk: &Pretend) -> Journal<Pretend> {
    Journal::create(disk.clone(), Path::new("/trip.jsonl"), b"{0}").unwrap()
}

fn lines(disk: &Pretend) -> String {
    String::from_utf8(disk.seen(Path::new("/trip.jsonl")).unwrap()).unwrap()
}

#[test]
fn each_line_is_certain_when_append_returns() {
    let disk = Pretend::empty();
    let mut journal = journal(&disk);
    assert_eq!(lines(&disk.after_power_loss(Fate::Lost)), "{0}\n");
    journal.append(b"{1}").unwrap();
    assert_eq!(lines(&disk.after_power_loss(Fate::Lost)), "{0}\n{1}\n");
    assert_eq!(journal.lines(), 2);
}

#[test]
fn after_a_refusal_the_journal_takes_no_more_and_asks_the_disk_no_more() {
    for (calls, trouble) in [
        (0, Trouble::Refuses(ErrorKind::StorageFull)),
        (0, Trouble::WritesHalf),
        (1, Trouble::Refuses(ErrorKind::Other)),
    ] {
        let disk = Pretend::empty();
        let mut journal = journal(&disk);
        journal.append(b"{1}").unwrap();
        disk.trouble_after(calls, trouble);
        let refused = journal.append(b"{2}").unwrap_err();
        assert!(matches!(
            refused,
            StoreFault::NotRecorded { recorded: 2, .. }
        ));
        assert!(
            refused
                .to_string()
                .contains("Its first 2 lines are recorded")
        );
        let before = disk.calls();
        assert_eq!(journal.append(b"{3}"), Err(refused.clone()));
        assert_eq!(journal.refusal(), Some(&refused));
        assert_eq!((disk.calls(), journal.lines()), (before, 2));
    }
}

#[test]
fn what_is_not_one_line_is_refused_before_the_disk_is_asked() {
    let disk = Pretend::empty();
    let mut journal = journal(&disk);
    let before = disk.calls();
    let long = vec![b'x'; MAX_LINE + 1];
    for (line, problem) in [
        (&b""[..], LineProblem::Empty),
        (b"a\nb", LineProblem::Broken),
        (b"a\0", LineProblem::Broken),
        (&long, LineProblem::TooLong),
    ] {
        assert_eq!(journal.append(line), Err(StoreFault::NotALine(problem)));
    }
    assert_eq!(disk.calls(), before);
    journal.append(&long[1..]).unwrap();
}

#[test]
fn a_journal_stops_at_the_size_that_readers_accept() {
    let disk = Pretend::empty();
    let mut journal = journal(&disk);
    let line = vec![b'x'; MAX_LINE - 1];
    let full = (0..).find_map(|_| journal.append(&line).err()).unwrap();
    assert!(
        matches!(full, StoreFault::JournalFull { recorded: 256, .. }),
        "{full:?}"
    );
    let text = JournalText::read(&disk, Path::new("/trip.jsonl")).unwrap();
    assert_eq!(text.lines.len(), 4 + 255 * MAX_LINE);
}

#[test]
fn a_second_opener_is_told_that_the_journal_is_in_use_until_the_first_lets_go() {
    let disk = Pretend::empty();
    let first = journal(&disk);
    let second = Journal::resume(disk.clone(), Path::new("/trip.jsonl")).unwrap_err();
    assert!(matches!(second, StoreFault::InUse { .. }));
    assert!(second.to_string().contains("nothing needs to be deleted"));
    drop(first);
    Journal::resume(disk, Path::new("/trip.jsonl")).unwrap();
}

#[test]
fn a_torn_end_is_kept_beside_the_journal_and_cut_off() {
    for (text, whole, torn) in [
        ("{0}\n{1", "{0}\n", "{1"),
        ("{0", "", "{0"),
        ("{0}\n\0\0\0\0}\n", "{0}\n", "\0\0\0\0}\n"),
    ] {
        let disk = Pretend::empty();
        disk.place(Path::new("/trip.jsonl"), text.as_bytes());
        disk.place(Path::new("/trip.torn-1"), b"another");
        let mut resumed = Journal::resume(disk.clone(), Path::new("/trip.jsonl")).unwrap();
        assert_eq!(resumed.lines, whole.as_bytes());
        assert_eq!(resumed.torn.as_deref(), Some(Path::new("/trip.torn-2")));
        resumed.journal.append(b"{n}").unwrap();
        let found = disk.after_power_loss(Fate::Lost);
        assert_eq!(lines(&found), format!("{whole}{{n}}\n"));
        assert_eq!(
            found.seen(Path::new("/trip.torn-2")).unwrap(),
            torn.as_bytes()
        );
        assert_eq!(found.seen(Path::new("/trip.torn-1")).unwrap(), b"another");
    }
}

#[test]
fn a_whole_journal_is_resumed_without_a_torn_file() {
    let disk = Pretend::empty();
    drop(journal(&disk));
    let resumed = Journal::resume(disk.clone(), Path::new("/trip.jsonl")).unwrap();
    assert_eq!((resumed.torn, resumed.journal.lines()), (None, 1));
    assert_eq!(disk.files(), [Path::new("/trip.jsonl")]);
}

#[test]
fn a_line_whose_sync_failed_is_made_certain_before_another_is_chained_to_it() {
    let disk = Pretend::empty();
    let mut journal = journal(&disk);
    disk.trouble_after(1, Trouble::Refuses(ErrorKind::Other));
    journal.append(b"{1}").unwrap_err();
    drop(journal);
    assert_eq!(lines(&disk.after_power_loss(Fate::Kept)), "{0}\n");
    let restarted = disk.after_death();
    let mut resumed = Journal::resume(restarted.clone(), Path::new("/trip.jsonl")).unwrap();
    assert_eq!(resumed.lines, b"{0}\n{1}\n");
    resumed.journal.append(b"{2}").unwrap();
    assert_eq!(
        lines(&restarted.after_power_loss(Fate::Lost)),
        "{0}\n{1}\n{2}\n"
    );
}

#[test]
fn a_file_written_once_is_never_replaced() {
    let disk = Pretend::empty();
    let path = Path::new("/seal.json");
    write_once(&disk, path, b"first", Mode::Shared).unwrap();
    for bytes in [&b"second"[..], b"first"] {
        let taken = write_once(&disk, path, bytes, Mode::Shared).unwrap_err();
        assert_eq!(
            taken,
            StoreFault::Taken {
                path: path.to_owned()
            }
        );
    }
    assert_eq!(
        disk.after_power_loss(Fate::Lost).seen(path).unwrap(),
        b"first"
    );
    assert_eq!(disk.files(), [path]);
}

#[test]
fn a_draft_that_a_crash_left_is_in_nobodys_way() {
    let disk = Pretend::empty();
    disk.place(Path::new("/.crew.draft-0"), b"half of");
    replace(&disk, Path::new("/crew"), b"new", Mode::Shared).unwrap();
    assert_eq!(disk.seen(Path::new("/crew")).unwrap(), b"new");
    assert_eq!(disk.seen(Path::new("/.crew.draft-0")).unwrap(), b"half of");
}

#[test]
fn a_private_key_is_for_its_owner_alone() {
    let (disk, logbook) = logbook();
    logbook.keep_key(&name("wren"), b"secret").unwrap();
    assert_eq!(disk.mode(Path::new("/barn/keys/wren")), Some(Mode::Private));
    assert_eq!(disk.mode(Path::new("/barn/keys")), Some(Mode::Private));
    assert_eq!(
        logbook.read(&logbook.key(&name("wren"))).unwrap(),
        b"secret"
    );
}

#[test]
fn a_logbook_says_that_no_line_ending_may_be_changed() {
    let (disk, _) = logbook();
    let found = disk.after_power_loss(Fate::Lost);
    let attributes = found.seen(Path::new("/barn/.gitattributes")).unwrap();
    assert_eq!(attributes, b"* -text\n");
    assert_eq!(
        found.seen(Path::new("/barn/.gitignore")).unwrap(),
        b"/keys/\n"
    );
}

#[test]
fn making_a_logbook_again_changes_nothing_in_it() {
    let (disk, logbook) = logbook();
    logbook.replace_crew(b"wren").unwrap();
    let files = disk.files();
    Logbook::make(disk.clone(), Path::new("/barn")).unwrap();
    assert_eq!(disk.files(), files);
    assert_eq!(logbook.read(&logbook.crew()).unwrap(), b"wren");
}

#[test]
fn a_folder_without_a_logbook_is_named_as_such() {
    let fault = Logbook::open(Pretend::empty(), Path::new("/barn")).unwrap_err();
    assert!(matches!(fault, StoreFault::NotALogbook { .. }));
}

#[test]
fn trips_are_numbered_in_order_and_the_unsealed_ones_are_found() {
    let (disk, logbook) = logbook();
    let laptop = name("barn-laptop");
    let device = Device::take(&logbook, &laptop).unwrap();
    for (number, id) in [(1, "9f3c01ab77de"), (2, "00aa11bb22cc")] {
        assert_eq!(device.next_seq().unwrap(), number);
        device.begin(number, &name(id), PINNED, b"{0}").unwrap();
    }
    let trips = logbook.trips(&laptop).unwrap().trips;
    let path = Path::new("/barn/dev/barn-laptop/t/000001-9f3c01ab");
    assert_eq!(trips[0].path, path);
    assert_eq!(logbook.read(&trips[0].checklist()).unwrap(), b"checklist");
    write_once(&disk, &trips[0].seal(), b"{}", Mode::Shared).unwrap();
    assert_eq!(logbook.unsealed(&laptop).unwrap(), trips[1..]);
    assert_eq!(logbook.devices().unwrap(), [laptop]);
    assert_eq!(device.next_seq().unwrap(), 3);
}

#[test]
fn a_folder_without_a_first_line_has_used_no_number() {
    let (disk, logbook) = logbook();
    let laptop = name("barn-laptop");
    let device = Device::take(&logbook, &laptop).unwrap();
    let (folder, _) = device.begin(1, &name("9f3c01ab"), PINNED, b"{0}").unwrap();
    disk.place(&folder.journal(), b"{\"v\":1,");
    assert_eq!(device.next_seq().unwrap(), 1);
    assert_eq!(logbook.unsealed(&laptop).unwrap(), []);
    let taken = device.begin(1, &name("9f3c01ab"), PINNED, b"{0}");
    assert!(matches!(taken, Err(StoreFault::Taken { .. })));
    device.begin(1, &name("11111111"), PINNED, b"{0}").unwrap();
}

#[test]
fn the_last_number_is_the_last() {
    let (_, logbook) = logbook();
    let device = Device::take(&logbook, &name("barn-laptop")).unwrap();
    device
        .begin(999_999, &name("9f3c01ab"), PINNED, b"{0}")
        .unwrap();
    let fault = device.next_seq().unwrap_err();
    assert!(matches!(fault, StoreFault::NoSeqLeft { .. }));
}

#[test]
fn a_copy_made_by_a_file_sync_is_told_and_not_taken_for_a_trip() {
    let (disk, logbook) = logbook();
    let laptop = name("barn-laptop");
    let device = Device::take(&logbook, &laptop).unwrap();
    let (folder, _) = device.begin(1, &name("9f3c01ab"), PINNED, b"{0}").unwrap();
    let trips = folder.path.parent().unwrap();
    disk.make_folder(&trips.join("000001-9f3c01ab (1)"), Mode::Shared)
        .unwrap();
    disk.place(&trips.join("000002-9f3c01ab"), b"a file");
    let found = logbook.trips(&laptop).unwrap();
    assert_eq!(found.trips, [folder]);
    assert_eq!(found.strays, ["000001-9f3c01ab (1)", "000002-9f3c01ab"]);
}

#[test]
fn one_process_at_a_time_writes_a_devices_trips() {
    let (_, logbook) = logbook();
    let first = Device::take(&logbook, &name("barn-laptop")).unwrap();
    let second = Device::take(&logbook, &name("barn-laptop"));
    assert!(matches!(second, Err(StoreFault::InUse { .. })));
    Device::take(&logbook, &name("yard-laptop")).unwrap();
    drop(first);
    Device::take(&logbook, &name("barn-laptop")).unwrap();
}

#[test]
fn looking_at_a_logbook_asks_the_disk_for_no_change() {
    let (disk, logbook) = logbook();
    let laptop = name("barn-laptop");
    let device = Device::take(&logbook, &laptop).unwrap();
    let (folder, _open) = device.begin(1, &name("9f3c01ab"), PINNED, b"{0}").unwrap();
    let before = disk.changes();
    let reader = Logbook::open(disk.clone(), Path::new("/barn")).unwrap();
    assert_eq!(reader.devices().unwrap().len(), 1);
    assert_eq!(
        reader.unsealed(&laptop).unwrap(),
        std::slice::from_ref(&folder)
    );
    assert_eq!(reader.read(&folder.rig()).unwrap(), b"rig");
    let text = JournalText::read(&disk, &folder.journal()).unwrap();
    assert_eq!((text.lines, text.torn), (b"{0}\n".to_vec(), Vec::new()));
    assert_eq!(disk.changes(), before);
}

#[test]
fn a_file_larger_than_any_of_ours_is_not_read() {
    let (disk, logbook) = logbook();
    let length = MOST_FILE_BYTES + 1;
    disk.place(&logbook.crew(), &vec![b'x'; length]);
    let fault = logbook.read(&logbook.crew()).unwrap_err();
    let path = logbook.crew();
    assert_eq!(
        fault,
        StoreFault::TooLarge {
            path,
            most: MOST_FILE_BYTES
        }
    );
}

#[test]
fn the_pretended_disk_loses_what_was_not_synced() {
    let disk = Pretend::empty();
    let path = Path::new("/a");
    let mut file = disk.create_new(path, Mode::Shared).unwrap();
    disk.write_at(&mut file, 0, b"0123456789abcdef").unwrap();
    assert!(disk.after_power_loss(Fate::Lost).seen(path).is_none());
    disk.sync_folder(Path::new("/")).unwrap();
    assert_eq!(disk.after_power_loss(Fate::Lost).seen(path).unwrap(), b"");
    assert_eq!(
        disk.after_power_loss(Fate::Half).seen(path).unwrap(),
        b"01234567"
    );
    let holed = disk.after_power_loss(Fate::OtherHalf).seen(path).unwrap();
    assert_eq!(holed, b"\0\0\0\0\0\0\0\089abcdef");
    disk.sync(&mut file).unwrap();
    let found = disk.after_power_loss(Fate::Lost);
    assert_eq!(found.seen(path).unwrap(), b"0123456789abcdef");
    assert_eq!(found.list(Path::new("/")).unwrap()[0].kind, Kind::File);
}
