//! Version 3: line 0 of a drill, and the lines there are in drills alone.

use crate::architecture::root;
use crate::barn50::drills::CALLED_AWAY;
use crate::barn50::making::Barn;
use crate::record_trip::{begun, id, words};
use crate::walk::bench::Bench;
use hames::checklist::StepKey;
use hames::drill::{Did, Drill, DrillTexts, Drilled, Run, Stage, Vantage};
use hames::record::{
    Begun, BegunDrill, Crew, Digest, DrillFiles, Finding, MOST_SEED, Mode, Pinned, Said, SealFiles,
    Tip, TripFiles, Unreadable, Version, append, read_chain, verify,
};
use hames::rules::Verdict;
use hames::units::{Quantity, Unit};
use std::collections::HashSet;
use std::fs;
use std::path::Path;

fn drill() -> Begun {
    Begun {
        mode: Mode::Drill,
        trip: id("d-9f3c01ab77de4410"),
        drill: Some(BegunDrill {
            scenario: Pinned {
                id: "receiver-pin".to_owned(),
                hash: Digest::of(b"scenario"),
            },
            sights: Digest::of(b"sights"),
            seed: MOST_SEED,
            stage: Stage::Solo,
            examiner: None,
        }),
        ..begun(1, None)
    }
}

fn every_kind() -> Vec<Drilled> {
    let step = || StepKey::named("tire-cold/left-front");
    vec![
        Drilled::Looked(step(), Vantage::Under),
        Drilled::Used {
            step: step(),
            instrument: "stick-gauge".to_owned(),
            showed: Quantity::whole(64, Unit::Psi),
        },
        Drilled::Called(step(), Verdict::Fix),
        Drilled::Returned(step()),
        Drilled::Learned(words("I look from the far side first.")),
    ]
}

fn written(said: &Said) -> Result<String, Unreadable> {
    let at = Bench::new().walk.began().clone();
    let (bytes, _) = append(Tip::START, &at, &words("Wren Ashdown"), said)?;
    Ok(String::from_utf8(bytes).unwrap())
}

fn begins(begun: Begun) -> Said {
    Said::Begun(Box::new(begun))
}

fn read(line: &str) -> Result<Said, Unreadable> {
    let chain = read_chain(line.as_bytes());
    match chain.faults.first() {
        Some(fault) => panic!("{fault}"),
        None => chain.links[0].said.clone(),
    }
}

#[test]
fn a_drill_comes_back_as_it_was_in_version_3() {
    let lines = every_kind()
        .into_iter()
        .map(|one| Said::Drilled(Box::new(one)));
    for said in lines.chain([begins(drill())]) {
        let line = written(&said).unwrap();
        let chain = read_chain(line.as_bytes());
        assert_eq!(chain.links[0].heading.version, Version::V3);
        assert_eq!(read(&line).unwrap(), said, "{line}");
    }
}

#[test]
fn what_is_no_drill_is_neither_written_nor_read_as_one() {
    let of = |change: &dyn Fn(&mut BegunDrill)| {
        let mut begun = drill();
        begun.drill.iter_mut().for_each(change);
        begun
    };
    let odd = [
        Begun {
            mode: Mode::Real,
            ..drill()
        },
        Begun {
            trip: id("9f3c01ab77de4410"),
            ..drill()
        },
        of(&|drill| drill.seed = MOST_SEED + 1),
        of(&|drill| drill.stage = Stage::CheckRide),
        of(&|drill| drill.examiner = Some(words("Odile Marsh"))),
    ];
    for begun in odd {
        assert!(written(&begins(begun)).is_err());
    }
    let line = written(&begins(drill())).unwrap();
    for (part, other) in [
        ("\"mode\":\"drill\"", "\"mode\":\"real\""),
        ("\"d-9f3c", "\"9f3c"),
        ("\"stage\":\"solo\"", "\"stage\":\"check-ride\""),
        ("\"examiner\":null", "\"examiner\":\"Odile Marsh\""),
        ("\"stage\":\"solo\"", "\"stage\":\"expert\""),
        ("{\"v\":3", "{\"v\":2"),
    ] {
        assert!(line.contains(part), "{part}");
        assert!(read(&line.replacen(part, other, 1)).is_err(), "{other}");
    }
}

#[test]
fn a_line_of_a_walk_is_not_spelt_in_version_3_nor_one_of_a_drill_in_version_1() {
    for said in every_kind() {
        let line = written(&Said::Drilled(Box::new(said))).unwrap();
        let earlier = line.replacen("{\"v\":3", "{\"v\":1", 1);
        assert!(matches!(
            read(&earlier),
            Err(Unreadable::Kind(Version::V1, _))
        ));
    }
    let line = written(&begins(begun(1, None))).unwrap();
    assert!(read(&line.replacen("{\"v\":1", "{\"v\":3", 1)).is_err());
}

/// The files of the frozen drill.
const FROZEN: [(&str, &str); 9] = [
    ("trip.jsonl", "journal.jsonl"),
    ("checklist.yaml", "checklist.yaml"),
    ("rig.yaml", "rig.yaml"),
    ("scenario.yaml", "scenario.yaml"),
    ("sights.yaml", "sights.yaml"),
    ("crew.allowed_signers", "crew"),
    ("seal.json", "seal.json"),
    ("seal.person.sig", "seal.person.sig"),
    ("seal.device.sig", "seal.device.sig"),
];

/// The frozen drill: version 3 as it was first stored. Its files are never edited; a program that
/// cannot read them any more is wrong. They were written once, by the test below it.
#[test]
fn the_frozen_drill_of_version_3_is_intact_and_is_written_again_to_the_byte() {
    let file = |name: &str| {
        let path = root().join("tests/vectors/record/v3").join(name);
        fs::read(path).unwrap()
    };
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
    ] = FROZEN.map(|(_, stored)| file(stored));
    let files = TripFiles {
        journal: &journal,
        checklist: &checklist,
        rig: &rig,
        drill: DrillFiles {
            scenario: &scenario,
            sights: &sights,
            by_examiner: None,
        },
        seal: Some(SealFiles {
            seal: &seal,
            by_person: Some(&person),
            by_device: Some(&device),
        }),
    };
    let crew = Crew::read(&crew).unwrap();
    let examined = verify(&files, Mode::Drill, std::slice::from_ref(&crew));
    assert_eq!(examined.faults, []);
    let among_walks = verify(&files, Mode::Real, &[crew]);
    assert_eq!(among_walks.finding(), Finding::OtherMode);
    let verified = examined.trip.unwrap();
    let first = Said::Begun(Box::new(verified.begun().clone()));
    let (mut written, mut tip) =
        append(Tip::START, verified.at(), verified.actor(), &first).unwrap();
    for line in verified.drilled() {
        let said = match line.did.clone() {
            Did::Walked(event) => Said::Happened(event),
            Did::Drilled(drilled) => Said::Drilled(Box::new(drilled)),
        };
        let (bytes, next) = append(tip, &line.at, verified.actor(), &said).unwrap();
        written.extend(bytes);
        tip = next;
    }
    assert_eq!(written, journal);
    let kinds: HashSet<_> = verified
        .drilled()
        .iter()
        .filter_map(|line| match &line.did {
            Did::Drilled(drilled) => Some(std::mem::discriminant(drilled)),
            Did::Walked(_) => None,
        })
        .collect();
    assert_eq!(kinds.len(), every_kind().len());
    let text = |bytes| str::from_utf8(bytes).unwrap();
    let texts = DrillTexts {
        checklist: text(&checklist),
        rig: text(&rig),
        scenario: text(&scenario),
        sights: text(&sights),
    };
    let drill = verified.begun().drill.clone().unwrap();
    let again = Drill::again(texts, (drill.seed, drill.stage)).unwrap();
    let (who, at) = (verified.actor(), verified.at().clone());
    let mut run = Run::begin(again.into(), drill.stage, who, at);
    verified.drilled().iter().for_each(|line| run.apply(line));
    assert!(run.score().is_clean(), "{:#?}", run.score());
}

#[test]
fn a_drill_as_it_is_stored_today_lies_ready_to_be_frozen() {
    let (_, files) = Barn::with_drills().next_drill(0, CALLED_AWAY);
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("drill-to-freeze");
    drop(fs::remove_dir_all(&folder));
    fs::create_dir_all(&folder).unwrap();
    for (name, stored) in FROZEN {
        fs::write(folder.join(stored), &files[name]).unwrap();
    }
    assert_eq!(files.len(), FROZEN.len());
}
