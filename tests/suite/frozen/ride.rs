//! A whole logbook of version 3: a trip that a manager agreed to, a check ride signed by who rode it,
//! the laptop and who examined it, and the statement that puts it into the roster. Its files are
//! never edited; a program that finds anything wrong with them is wrong itself.
//!
//! `tests/vectors/logbook/v3` was written once, by the last test below, which leaves the folder
//! `ride-to-freeze` below `target/tmp`. Its keys are those of the barn of three laptops
//! (`barn50::making::key`), as of the other vectors of version 3: made of dice that stand in the
//! tests, so that whoever reads them can sign anew what is to be refused.

use crate::architecture::root;
use crate::barn50::making::{Barn, Left, lay};
use crate::harness::home::{Home, files_below};
use hames::drill::{Did, Drill, DrillTexts, Run, Stage};
use hames::record::{
    Crew, DrillFiles, Mode, Says, Seal, SealFiles, Statement, Tip, TripFiles, Version, append,
    read_chain, verify,
};
use hames::store::TripFolder;
use std::fs;
use std::path::{Path, PathBuf};

pub(crate) fn stored() -> PathBuf {
    root().join("tests/vectors/logbook/v3")
}

/// The file of the stored logbook whose path begins and ends so.
fn file(begins: &str, ends: &str) -> Vec<u8> {
    let files = files_below(&stored());
    let is_it = |path: &&String| path.starts_with(begins) && path.ends_with(ends);
    fs::read(stored().join(files.iter().find(is_it).unwrap())).unwrap()
}

fn of_ride(name: &str) -> Vec<u8> {
    file("drill/dev/", &format!("/{name}"))
}

#[test]
fn a_check_ride_and_its_place_in_the_roster_as_version_3_stored_them_are_intact_to_the_program() {
    let home = Home::new();
    let told = home
        .hames(&format!("verify --json {}", stored().display()))
        .run();
    assert_eq!(told.status, 0, "{told:?}");
    let mut found = told.out.lines().filter(|line| line.contains("\"finding\""));
    assert!(
        found.all(|line| line.contains("\"finding\":\"intact\"")),
        "{}",
        told.out
    );
    let whole = told.out.lines().last().unwrap();
    assert!(
        whole.contains("\"drills\":{\"drills\":1,\"finding\":\"intact\"}"),
        "{whole}"
    );
}

#[test]
fn the_stored_check_ride_is_written_again_to_the_byte_and_ridden_again_it_is_passed() {
    let [
        journal,
        checklist,
        rig,
        scenario,
        sights,
        crew,
        seal,
        person,
        device,
        examiner,
    ] = TripFolder::FILES.map(of_ride);
    let files = TripFiles {
        journal: &journal,
        checklist: &checklist,
        rig: &rig,
        drill: DrillFiles {
            scenario: &scenario,
            sights: &sights,
            by_examiner: Some(&examiner),
        },
        seal: Some(SealFiles {
            seal: &seal,
            by_person: Some(&person),
            by_device: Some(&device),
        }),
    };
    let crew = Crew::read(&crew).unwrap();
    let found = verify(&files, Mode::Drill, &[crew]);
    assert_eq!(found.faults, []);
    let verified = found.trip.unwrap();
    let (at, who) = (verified.at().clone(), verified.actor());
    let first = hames::record::Said::Begun(Box::new(verified.begun().clone()));
    let (mut written, mut tip) = append(Tip::START, &at, who, &first).unwrap();
    for line in verified.drilled() {
        let said = match line.did.clone() {
            Did::Walked(event) => hames::record::Said::Happened(event),
            Did::Drilled(drilled) => hames::record::Said::Drilled(Box::new(drilled)),
        };
        let (bytes, next) = append(tip, &line.at, who, &said).unwrap();
        written.extend(bytes);
        tip = next;
    }
    assert_eq!(written, journal);
    assert_eq!(read_chain(&journal).links[0].heading.version, Version::V3);
    let text = |bytes| str::from_utf8(bytes).unwrap();
    let texts = DrillTexts {
        checklist: text(&checklist),
        rig: text(&rig),
        scenario: text(&scenario),
        sights: text(&sights),
    };
    let drill = verified.begun().drill.clone().unwrap();
    assert_eq!(drill.stage, Stage::CheckRide);
    let again = Drill::again(texts, (drill.seed, drill.stage)).unwrap();
    let run = Run::begin(again.into(), drill.stage, who, at).told_by(verified.drilled());
    assert_eq!(run.is_passed(), Some(true));
}

#[test]
fn the_stored_statement_names_the_ride_by_its_seal_and_is_written_again_to_the_byte() {
    let bytes = file("mgr/odile.marsh/000003-", "/statement.json");
    assert!(bytes.starts_with(b"{\"v\":3,"));
    let statement = Statement::read(&bytes).unwrap();
    assert_eq!(statement.write().unwrap(), bytes);
    let Says::Crew(change) = statement.says else {
        panic!("{:?}", statement.says)
    };
    let [line] = &change.signed_off[..] else {
        panic!("{:?}", change.signed_off)
    };
    let [ride] = &line.rides[..] else {
        panic!("{:?}", line.rides)
    };
    let seal = of_ride("seal.json");
    let named = (line.person.as_str(), ride.checklist.as_str(), ride.seal);
    assert_eq!(named, ("wren.ashdown", "hitch-bumper", Seal::hash(&seal)));
    assert_eq!(ride.drill, Seal::read(&seal).unwrap().trip);
}

#[test]
fn a_check_ride_as_it_is_stored_today_lies_ready_to_be_frozen() {
    let mut barn = Barn::with_drills();
    barn.walk(0, "wren.ashdown", Left::Sealed);
    barn.countersign(0, hames::record::Opinion::Agreed);
    let ride = barn.ride(0);
    barn.sign_off(&ride);
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("ride-to-freeze");
    drop(fs::remove_dir_all(&folder));
    lay(&barn.files, &folder);
    let home = Home::new();
    let verify = home.hames("verify").argument(folder.to_str().unwrap());
    assert_eq!(verify.run().status, 0);
}
