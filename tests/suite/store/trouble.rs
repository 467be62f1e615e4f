//! Every trouble at every call of a day's work, then every fate of what was not certain.

use super::pretend::{Fate, Pretend, Trouble};
use super::{PINNED, name};
use hames::store::{Device, Disk, Journal, Logbook, Mode, StoreFault, replace, write_once};
use proptest::prelude::*;
use std::io::ErrorKind;
use std::path::Path;

const ROOT: &str = "/home/barn";
const TRIP: &str = "/home/barn/dev/laptop/t/000001-9f3c01ab";

const TROUBLES: [Trouble; 6] = [
    Trouble::Refuses(ErrorKind::StorageFull),
    Trouble::Refuses(ErrorKind::Other),
    Trouble::Refuses(ErrorKind::ReadOnlyFilesystem),
    Trouble::WritesHalf,
    Trouble::StopsBefore,
    Trouble::StopsAfter,
];

const FATES: [Fate; 6] = [
    Fate::Lost,
    Fate::Kept,
    Fate::Half,
    Fate::OtherHalf,
    Fate::Lots(1),
    Fate::Lots(2),
];

/// What the store said it had done.
#[derive(Clone, Default)]
struct Told {
    lines: Vec<String>,
    seal: bool,
    crew: Option<&'static str>,
}

/// A line of its number, long enough to be torn in many ways.
fn line(number: usize) -> String {
    format!("{{\"i\":{number},\"kind\":\"reading\",\"typed\":\"{number}5 psi\"}}")
}

/// The lines as they lie in a journal.
fn text(lines: &[String]) -> String {
    lines.iter().flat_map(|line| [line, "\n"]).collect()
}

fn count(journal: &Journal<Pretend>) -> usize {
    usize::try_from(journal.lines()).unwrap()
}

/// Makes a logbook, walks with a break in the middle, seals. Ends at the first refusal, as every
/// caller does.
fn work(disk: &Pretend, told: &mut Told) -> Result<(), StoreFault> {
    let logbook = Logbook::make(disk.clone(), Path::new(ROOT))?;
    for crew in ["wren", "wren, tobias"] {
        logbook.replace_crew(crew.as_bytes())?;
        told.crew = Some(crew);
    }
    let device = Device::take(&logbook, &name("laptop"))?;
    let number = device.next_seq()?;
    let first = line(0);
    let (folder, mut journal) =
        device.begin(number, &name("9f3c01ab"), PINNED, first.as_bytes())?;
    told.lines.push(first);
    append(&mut journal, told, 2)?;
    drop(journal);
    let mut journal = device.resume(&folder)?.journal;
    append(&mut journal, told, 2)?;
    write_once(disk, &folder.seal(), b"the seal, whole", Mode::Shared)?;
    told.seal = true;
    Ok(())
}

fn append<D: Disk>(
    journal: &mut Journal<D>,
    told: &mut Told,
    lines: usize,
) -> Result<(), StoreFault> {
    for _ in 0..lines {
        let next = line(told.lines.len());
        if let Err(fault) = journal.append(next.as_bytes()) {
            assert_eq!(journal.append(b"again"), Err(fault.clone()));
            return Err(fault);
        }
        told.lines.push(next);
    }
    Ok(())
}

/// How many calls the work takes when nothing goes wrong.
fn calls_of_the_work() -> usize {
    let disk = Pretend::empty();
    work(&disk, &mut Told::default()).unwrap();
    disk.calls()
}

/// The work with a trouble at one call; the disk afterwards and what was told.
fn troubled(call: usize, trouble: Trouble) -> (Pretend, Told) {
    let disk = Pretend::empty();
    let mut told = Told::default();
    disk.trouble_after(call, trouble);
    work(&disk, &mut told).expect_err("the trouble is told");
    (disk, told)
}

/// All that was told is on the disk, and at most one line more.
fn check(found: &Pretend, told: &Told, when: &str) {
    let journal = found.seen(&Path::new(TRIP).join("trip.jsonl"));
    let told_text = text(&told.lines);
    let bytes = journal.clone().unwrap_or_default();
    assert!(
        bytes.starts_with(told_text.as_bytes()),
        "{when}: a recorded line is gone"
    );
    let more = &bytes[told_text.len()..];
    let next = line(told.lines.len());
    assert!(
        more.len() <= next.len() + 1,
        "{when}: more than one line more"
    );
    let seal = found.seen(&Path::new(TRIP).join("seal.json"));
    let whole = seal.as_deref() == Some(b"the seal, whole");
    assert!(whole || (seal.is_none() && !told.seal), "{when}: {seal:?}");
    let crew = found.seen(&Path::new(ROOT).join("crew/allowed_signers"));
    let crew = crew.map(|bytes| String::from_utf8(bytes).unwrap());
    let good = match told.crew {
        None => matches!(crew.as_deref(), None | Some("wren")),
        Some("wren") => matches!(crew.as_deref(), Some("wren" | "wren, tobias")),
        Some(last) => crew.as_deref() == Some(last),
    };
    assert!(good, "{when}: crew {crew:?}");
}

/// Goes on with the journal, if it is there: the whole lines are those told, or one more, and a
/// new one is certain at once. Nothing that was in the journal is lost.
fn go_on(disk: &Pretend, told: &Told, when: &str) {
    let path = Path::new(TRIP).join("trip.jsonl");
    let Some(before) = disk.seen(&path) else {
        assert!(told.lines.is_empty(), "{when}: the journal is gone");
        return;
    };
    let resumed = Journal::resume(disk.clone(), &path).unwrap();
    let mut lines = told.lines.clone();
    if count(&resumed.journal) > told.lines.len() {
        lines.push(line(lines.len()));
    }
    assert_eq!(resumed.lines, text(&lines).as_bytes(), "{when}");
    let torn = resumed
        .torn
        .map_or(Vec::new(), |torn| disk.seen(&torn).unwrap());
    assert_eq!(
        [resumed.lines, torn].concat(),
        before,
        "{when}: bytes are lost"
    );
    let mut journal = resumed.journal;
    journal.append(b"next").unwrap();
    lines.push("next".to_owned());
    let found = disk.after_power_loss(Fate::Lost).seen(&path);
    assert_eq!(
        found,
        Some(text(&lines).into_bytes()),
        "{when}: not certain"
    );
}

#[test]
fn whatever_fails_at_whichever_call_what_was_told_is_there_after_a_power_loss() {
    for call in 0..calls_of_the_work() {
        for trouble in TROUBLES {
            let (disk, told) = troubled(call, trouble);
            for fate in FATES {
                let when = format!("{trouble:?} at call {call}, then {fate:?}");
                let found = disk.after_power_loss(fate);
                check(&found, &told, &when);
                go_on(&found, &told, &when);
            }
        }
    }
}

#[test]
fn whatever_fails_at_whichever_call_a_new_process_goes_on_and_loses_nothing_later() {
    for call in 0..calls_of_the_work() {
        for trouble in TROUBLES {
            let (disk, told) = troubled(call, trouble);
            let when = format!("{trouble:?} at call {call}, then a new process");
            let found = disk.after_death();
            check(&found, &told, &when);
            go_on(&found, &told, &when);
        }
    }
}

#[test]
fn whatever_fails_at_whichever_call_a_new_process_can_begin_anew() {
    for call in 0..calls_of_the_work() {
        for trouble in TROUBLES {
            let (disk, told) = troubled(call, trouble);
            let when = format!("{trouble:?} at call {call}, then another trip");
            let disk = disk.after_death();
            let root = Path::new(ROOT);
            let logbook = Logbook::open(disk.clone(), root)
                .or_else(|_| Logbook::make(disk.clone(), root))
                .unwrap();
            let device = Device::take(&logbook, &name("laptop")).unwrap();
            let number = device.next_seq().unwrap();
            assert!(told.lines.is_empty() || number == 2, "{when}: {number}");
            let (folder, _) = device
                .begin(number, &name("77777777"), PINNED, b"{0}")
                .unwrap();
            logbook.replace_crew(b"odile").unwrap();
            let found = disk.after_power_loss(Fate::Lost);
            let seen = |path: &Path| found.seen(path).unwrap_or_default();
            assert_eq!(seen(&folder.journal()), b"{0}\n", "{when}");
            assert_eq!(seen(&folder.checklist()), b"checklist", "{when}");
            assert_eq!(seen(&logbook.crew()), b"odile", "{when}");
            let attributes = Path::new(ROOT).join(".gitattributes");
            assert_eq!(seen(&attributes), b"* -text\n", "{when}");
        }
    }
}

#[test]
fn a_second_trouble_while_a_torn_end_is_set_aside_loses_no_byte_of_it() {
    let path = Path::new("/trip.jsonl");
    let torn_disk = || {
        let disk = Pretend::empty();
        disk.place(path, b"{0}\n{1}\n{2, torn in the middle");
        disk
    };
    let disk = torn_disk();
    Journal::resume(disk.clone(), path).unwrap();
    for call in 0..disk.calls() {
        for trouble in TROUBLES {
            for fate in FATES {
                let when = format!("{trouble:?} at call {call}, then {fate:?}");
                let disk = torn_disk();
                disk.trouble_after(call, trouble);
                Journal::resume(disk.clone(), path).unwrap_err();
                for found in [disk.after_power_loss(fate), disk.after_death()] {
                    let resumed = Journal::resume(found.clone(), path).unwrap();
                    assert_eq!(resumed.lines, b"{0}\n{1}\n", "{when}");
                    let found = found.after_power_loss(Fate::Lost);
                    assert_eq!(found.seen(path).unwrap(), resumed.lines, "{when}");
                    check_set_aside(&found, &when);
                }
            }
        }
    }
}

#[test]
fn a_torn_end_is_certain_in_its_own_file_before_a_new_process_cuts_it_off() {
    let path = Path::new("/trip.jsonl");
    let interrupted = |call: usize| {
        let disk = Pretend::empty();
        disk.place(path, b"{0}\n{2, torn in the middle");
        disk.trouble_after(call, Trouble::StopsBefore);
        let done = Journal::resume(disk.clone(), path).is_ok();
        (disk, done)
    };
    for call in (0..).take_while(|call| !interrupted(*call).1) {
        let found = interrupted(call).0.after_death();
        let again = found.after_death();
        Journal::resume(again.clone(), path).unwrap();
        for second in 0..again.calls() {
            let when = format!("calls {call} and {second}");
            let disk = found.after_death();
            disk.trouble_after(second, Trouble::StopsAfter);
            Journal::resume(disk.clone(), path).unwrap_err();
            let disk = disk.after_power_loss(Fate::Lost);
            if disk.seen(path).unwrap() == b"{0}\n" {
                check_set_aside(&disk, &when);
            }
        }
    }
}

/// The torn end lies in a file of its own, and no such file holds less.
fn check_set_aside(found: &Pretend, when: &str) {
    let kept: Vec<Vec<u8>> = found
        .files()
        .into_iter()
        .filter(|file| file.to_str().unwrap().starts_with("/trip.torn-"))
        .map(|file| found.seen(&file).unwrap())
        .collect();
    let whole = kept.iter().all(|torn| torn == b"{2, torn in the middle");
    assert!(whole && !kept.is_empty(), "{when}: {kept:?}");
}

#[test]
fn a_replaced_file_is_always_the_old_one_or_the_new_one() {
    let path = Path::new("/crew");
    let work = |disk: &Pretend| replace(disk, path, b"the new list", Mode::Shared);
    let start = || {
        let disk = Pretend::empty();
        disk.place(path, b"the old list");
        disk
    };
    let disk = start();
    work(&disk).unwrap();
    for call in 0..disk.calls() {
        for trouble in TROUBLES {
            for fate in FATES {
                let disk = start();
                disk.trouble_after(call, trouble);
                work(&disk).unwrap_err();
                let found = disk.after_power_loss(fate).seen(path).unwrap();
                let either = found == b"the old list" || found == b"the new list";
                assert!(
                    either,
                    "{trouble:?} at call {call}, then {fate:?}: {found:?}"
                );
            }
        }
    }
}

fn any_trouble() -> impl Strategy<Value = Trouble> {
    prop::sample::select(TROUBLES.to_vec())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn by_any_lot_what_was_told_survives_trouble_after_trouble(
        first in (0..150_usize, any_trouble(), any::<u64>()),
        later in prop::collection::vec((0..12_usize, any_trouble(), any::<u64>()), 0..4),
    ) {
        let mut disk = Pretend::empty();
        let mut told = Told::default();
        disk.trouble_after(first.0, first.1);
        drop(work(&disk, &mut told));
        disk = disk.after_power_loss(Fate::Lots(first.2));
        check(&disk, &told, "at first");
        let path = Path::new(TRIP).join("trip.jsonl");
        for (calls, trouble, lots) in later {
            if told.lines.is_empty() {
                break;
            }
            disk.trouble_after(calls, trouble);
            if let Ok(mut resumed) = Journal::resume(disk.clone(), &path) {
                let more = count(&resumed.journal) - told.lines.len();
                prop_assert!(more <= 1);
                for _ in 0..more {
                    told.lines.push(line(told.lines.len()));
                }
                drop(append(&mut resumed.journal, &mut told, 3));
            }
            disk = disk.after_power_loss(Fate::Lots(lots));
            let found = disk.seen(&path).unwrap();
            prop_assert!(found.starts_with(text(&told.lines).as_bytes()));
        }
        go_on(&disk, &told, "at last");
    }
}
