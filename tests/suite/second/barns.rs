//! Whole barns, each with a plan that can be walked again, judged by the program as its user runs it
//! and by the second verifier.

use super::bench::run;
use crate::barn50::making::{Barn, Left, lay, people};
use crate::barn50::words::{close, forked};
use crate::harness::home::Home;
use hames::record::{Changed, Crew, Digest, Mode, Statement};

const WREN: &str = "wren.ashdown";
const ODILE: &str = "odile.marsh";

/// The finding of the whole logbook, by both; that no manager has countersigned it is none here.
#[track_caller]
pub(super) fn both(barn: &Barn) -> String {
    let word = whole(barn);
    if word == "not-countersigned" {
        "intact".to_owned()
    } else {
        word
    }
}

/// The finding of the whole logbook, by both.
#[track_caller]
pub(super) fn whole(barn: &Barn) -> String {
    let home = Home::new();
    lay(&barn.files, &home.path("book"));
    let ours = home.hames("verify book").run();
    let word = ours.out.trim_end().rsplit(": ").next().unwrap();
    let told = run("tests/second/logbook.py", &[home.path("book").into()]);
    let theirs = &told.lines.last().unwrap().1;
    assert_eq!(word, theirs, "\n{}\n{}", ours.out, told.all);
    word.to_owned()
}

pub(super) fn without(crew: &Crew, who: &str) -> Crew {
    let lines = crew.text().split_inclusive('\n');
    let left: String = lines.filter(|line| !line.starts_with(who)).collect();
    Crew::read(left.as_bytes()).unwrap()
}

/// A change of the crew by either manager.
pub(super) fn change(barn: &mut Barn, by: &str, crew: Crew, changes: &[(&str, Changed)]) -> Digest {
    barn.office.heads = barn.heads();
    let text = crew.text().to_owned();
    barn.office.change_crew(by, crew, changes);
    barn.keep_statement();
    barn.files
        .insert("crew/allowed_signers".to_owned(), text.into_bytes());
    Statement::hash(&barn.office.last().statement)
}

/// Two barns that were apart, with all that either has.
pub(super) fn merged(one: &Barn, other: &Barn) -> Barn {
    let mut both = one.clone();
    for (path, bytes) in &other.files {
        both.files
            .entry(path.clone())
            .or_insert_with(|| bytes.clone());
    }
    let new = other.office.said.iter();
    let known = |said: &Vec<u8>| one.office.said.iter().any(|own| own.statement == *said);
    both.office
        .said
        .extend(new.filter(|said| !known(&said.statement)).cloned());
    let new = other.trips.iter();
    let known = |folder: &str| one.trips.iter().any(|own| own.folder == folder);
    both.trips
        .extend(new.filter(|trip| !known(&trip.folder)).cloned());
    both
}

#[test]
fn both_count_a_crew_file_put_in_force_again_from_where_it_came_back() {
    let mut barn = Barn::founded();
    barn.walk(0, WREN, Left::Sealed);
    let mut thief = barn.clone();
    let gone = without(&people(false), WREN);
    change(&mut barn, ODILE, gone, &[(WREN, Changed::Retired)]);
    assert_eq!(both(&barn), "intact");
    // To the byte the file that was in force before.
    change(&mut barn, ODILE, people(false), &[(WREN, Changed::Added)]);
    barn.walk(0, WREN, Left::Sealed);
    assert_eq!(
        both(&barn),
        "intact",
        "back, and signing by the file put in force again"
    );
    // A trip nobody knew of, which quotes a statement from before Wren left.
    thief.walked += 100;
    thief.walk(1, WREN, Left::Sealed);
    assert_eq!(both(&merged(&barn, &thief)), "outside-bracket");
}

#[test]
fn both_hold_the_crew_file_of_the_logbook_to_the_one_in_force() {
    let mut barn = Barn::founded();
    let file = "crew/allowed_signers";
    let older = barn.files[file].clone();
    barn.walk(0, WREN, Left::Sealed);
    let text = people(false).text().to_owned() + "# newer\n";
    let newer = Crew::read(text.as_bytes()).unwrap();
    change(&mut barn, ODILE, newer, &[]);
    barn.walk(0, WREN, Left::Sealed);
    assert_eq!(both(&barn), "intact");
    barn.files.insert(file.to_owned(), older.clone());
    assert_eq!(both(&barn), "gap");
    let other = [older.as_slice(), b"# by hand\n"].concat();
    barn.files.insert(file.to_owned(), other);
    assert_eq!(both(&barn), "altered");
    barn.files.insert(file.to_owned(), b"nonsense\n".to_vec());
    assert_eq!(both(&barn), "altered");
    barn.files.remove(file);
    assert_eq!(both(&barn), "altered");
}

#[test]
fn both_take_a_drill_among_real_trips_for_what_it_is() {
    let mut barn = Barn::founded();
    barn.walk(0, WREN, Left::Sealed);
    barn.mode = Mode::Drill;
    barn.walk(0, WREN, Left::Unsealed);
    assert_eq!(both(&barn), "other-mode");
}

#[test]
fn both_pass_by_a_folder_in_which_no_walk_was_begun() {
    let mut barn = Barn::founded();
    barn.walk(0, WREN, Left::Sealed);
    let begun = "dev/laptop-0a11/t/000002-0badc0de";
    for name in ["checklist.yaml", "rig.yaml"] {
        barn.files
            .insert(format!("{begun}/{name}"), b"id: x\n".to_vec());
    }
    assert_eq!(both(&barn), "intact");
    barn.files
        .insert(format!("{begun}/trip.jsonl"), b"{\"v\":1".to_vec());
    assert_eq!(both(&barn), "intact", "no whole line");
    barn.files
        .insert(format!("{begun}/seal.json"), b"{}\n".to_vec());
    assert_ne!(both(&barn), "intact");
}

#[test]
fn both_go_over_numbers_that_only_a_history_used_which_a_manager_ended() {
    let (mut barn, [shorter, longer], last) = forked();
    assert_eq!(both(&barn), "fork");
    close(&mut barn, &shorter, &longer);
    let next = barn.walk_on(0, WREN, last);
    assert_eq!(both(&barn), "intact");
    let whole = barn.clone();
    // Trip 6 names a trip 5 that is not here.
    barn.walk(0, WREN, Left::Sealed);
    let folder = barn.trips[next].folder.clone();
    barn.lose(&folder);
    assert_eq!(both(&barn), "gap");
    let mut barn = whole;
    let tobias = [("tobias.fenn", Changed::Retired)];
    change(&mut barn, ODILE, people(false), &tobias);
    close(&mut barn, &longer, &shorter);
    assert_eq!(both(&barn), "intact");
}
