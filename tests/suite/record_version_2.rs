//! Version 2 of line 0: the haul, what was carried in, and walks entered from paper.

use crate::architecture::root;
use crate::record_trip::{Trip, begun, id, words};
use crate::record_wire::EVERYTHING;
use crate::walk::bench::Bench;
use hames::checklist::{Checklist, Plan};
use hames::record::{
    Answered, Begun, Crew, Digest, Finding, Left, Mode, Pinned, Previous, Said, Tip, Unreadable,
    Version, Wall, append, read_chain,
};
use hames::rig::Rig;
use hames::rig::demo::JUNIPER;
use hames::rules::{Carried, Carry};
use hames::walk::{Entry, Event, Walk};
use std::sync::Arc;

fn left(what: Carry, part: Option<&str>, since: &str) -> Left {
    let part = part.map(str::to_owned);
    Left {
        carried: Carried { what, part },
        since: id(since),
    }
}

/// Line 0 of a walk on the way, entered from paper, with two things left open before it.
fn on_the_way() -> Begun {
    Begun {
        haul: Some(id("9f0c11b20001")),
        carried: vec![
            left(Carry::WheelOff, Some("left-front"), "9f0c11b20001"),
            left(Carry::RigLeft, None, "77ab03"),
        ],
        paper: Wall::read("2026-11-25T06:10:00.000-05:00"),
        ..begun(2, Some(Previous::Unsealed(Digest::of(b"a"))))
    }
}

fn line_0(begun: &Begun) -> String {
    let said = Said::Begun(Box::new(begun.clone()));
    let at = Bench::new().walk.began().clone();
    let (bytes, _) = append(Tip::START, &at, &words("Wren Ashdown"), &said).unwrap();
    String::from_utf8(bytes).unwrap()
}

fn read(line: &str) -> Result<Said, Unreadable> {
    let chain = read_chain(line.as_bytes());
    match chain.faults.first() {
        Some(fault) => panic!("{fault}"),
        None => chain.links[0].said.clone(),
    }
}

#[test]
fn line_0_comes_back_as_it_was_in_the_lowest_version_that_can_hold_it() {
    let whole = on_the_way();
    let apart = Begun {
        haul: None,
        carried: vec![],
        paper: None,
        ..whole.clone()
    };
    let of = |haul: bool, carried: bool, paper: bool| Begun {
        haul: whole.haul.clone().filter(|_| haul),
        carried: whole.carried.iter().filter(|_| carried).cloned().collect(),
        paper: whole.paper.filter(|_| paper),
        ..whole.clone()
    };
    for (begun, version) in [
        (apart, Version::V1),
        (of(true, false, false), Version::V2),
        (of(false, true, false), Version::V2),
        (of(false, false, true), Version::V2),
        (whole.clone(), Version::V2),
    ] {
        let line = line_0(&begun);
        assert_eq!(
            read_chain(line.as_bytes()).links[0].heading.version,
            version
        );
        assert_eq!(read(&line), Ok(Said::Begun(Box::new(begun))));
    }
}

#[test]
fn version_2_has_the_fields_of_version_1_and_three_behind_them() {
    let line = line_0(&on_the_way());
    let (_, tail) = line.split_once("\"doer\"").unwrap();
    assert!(line.starts_with("{\"v\":2,\"i\":0,"), "{line}");
    assert_eq!(
        tail.trim_end(),
        ":\"Tobias Fenn\",\"haul\":\"9f0c11b20001\",\"carried\":[\
         {\"what\":\"wheel-off\",\"part\":\"left-front\",\"since\":\"9f0c11b20001\"},\
         {\"what\":\"rig-left\",\"part\":null,\"since\":\"77ab03\"}],\
         \"paper\":{\"walked\":\"2026-11-25T06:10:00.000-05:00\"}}}"
    );
}

#[test]
fn a_line_0_spelt_otherwise_is_refused() {
    let line = line_0(&on_the_way());
    for (part, other, reason) in [
        (
            "\"wheel-off\"",
            "\"wheel-on\"",
            "“wheel-on” cannot be its what",
        ),
        (
            "\"since\":\"77ab03\"",
            "\"since\":\"77 ab\"",
            "“77 ab” cannot be its since",
        ),
        ("\"left-front\"", "\" left\"", "“ left” cannot be its part"),
        (
            "06:10:00.000",
            "06:10:00",
            "“2026-11-25T06:10:00-05:00” cannot be its walked",
        ),
        (
            "\"paper\":",
            "\"pages\":0,\"paper\":",
            "its fields are not in the order records have",
        ),
        (
            "\"haul\":\"9f0c11b20001\",",
            "",
            "its fields are not in the order records have",
        ),
        (
            "\"since\":\"77ab03\"",
            "\"since\":\"77ab03\",\"by\":0",
            "unknown field `by`, expected one of `what`, `part`, `since`",
        ),
        (
            "\"kind\":\"begun\"",
            "\"kind\":\"noted\"",
            "version 2 has no line of kind “noted”",
        ),
    ] {
        assert!(line.contains(part), "{part}");
        let refused = read(&line.replacen(part, other, 1)).unwrap_err();
        assert_eq!(refused.to_string(), reason, "{part}");
    }
    let (head, _) = line.split_once(",\"haul\"").unwrap();
    let empty = format!("{head},\"haul\":null,\"carried\":[],\"paper\":null}}}}\n");
    assert_eq!(
        read(&empty).unwrap_err().to_string(),
        "it holds nothing that version 1 has no room for, and is written in version 2"
    );
}

/// Line 0 of a walk whose doer answers a manager, and nothing else that version 1 has no room for.
pub(crate) fn answering() -> Begun {
    Begun {
        answers: vec![Answered {
            question: Digest::of(b"statement 3"),
            by: words("Tobias Fenn"),
            words: words("The ferry was late, and we waited."),
        }],
        ..begun(2, Some(Previous::Unsealed(Digest::of(b"a"))))
    }
}

#[test]
fn an_answer_to_a_manager_makes_line_0_version_2_and_stands_behind_everything_else() {
    let alone = answering();
    let line = line_0(&alone);
    assert!(line.starts_with("{\"v\":2,\"i\":0,"), "{line}");
    let hash = Digest::of(b"statement 3");
    let answers = format!(
        ",\"answers\":[{{\"question\":\"{hash}\",\"by\":\"Tobias Fenn\",\
         \"words\":\"The ferry was late, and we waited.\"}}]}}}}\n"
    );
    assert!(
        line.ends_with(&format!(
            ",\"haul\":null,\"carried\":[],\"paper\":null{answers}"
        )),
        "{line}"
    );
    assert_eq!(read(&line), Ok(Said::Begun(Box::new(alone.clone()))));
    let with_all = Begun {
        answers: alone.answers,
        ..on_the_way()
    };
    let line = line_0(&with_all);
    assert!(line.ends_with(&format!("}}{answers}")), "{line}");
    assert_eq!(read(&line), Ok(Said::Begun(Box::new(with_all))));
}

#[test]
fn an_answer_spelt_otherwise_is_refused() {
    let line = line_0(&answering());
    for (part, other, reason) in [
        (
            "\"by\":\"Tobias Fenn\"",
            "\"by\":\"Odile Marsh\"",
            "an answer is given by whoever reads or does the walk",
        ),
        ("\"by\":\"Tobias", "\"to\":\"Tobias", "unknown field `to`"),
        ("The ferry", " The ferry", "cannot be its words"),
        (
            "\"question\":\"",
            "\"question\":\"0",
            "cannot be its question",
        ),
    ] {
        let refused = read(&line.replacen(part, other, 1)).unwrap_err();
        assert!(refused.to_string().contains(reason), "{part}: {refused}");
    }
    let (head, rest) = line.split_once(",\"answers\":[").unwrap();
    let answer = rest.trim_end().strip_suffix("]}}").unwrap();
    for (answers, reason) in [
        (
            format!("[{answer},{answer}]"),
            "each question is answered once",
        ),
        ("null".to_owned(), "invalid type: null, expected a sequence"),
        ("[]".to_owned(), "not in the order records have"),
    ] {
        let refused = read(&format!("{head},\"answers\":{answers}}}}}\n")).unwrap_err();
        assert!(refused.to_string().contains(reason), "{answers}: {refused}");
    }
    let mut twice = answering();
    twice.answers.push(twice.answers[0].clone());
    let said = Said::Begun(Box::new(twice));
    let at = Bench::new().walk.began().clone();
    assert!(append(Tip::START, &at, &words("Wren Ashdown"), &said).is_err());
}

#[test]
fn a_seal_has_version_1_alone() {
    let sealed = Trip::of(EVERYTHING).seal.unwrap();
    let text = String::from_utf8(sealed)
        .unwrap()
        .replacen("\"v\":1", "\"v\":2", 1);
    assert_eq!(
        hames::record::Seal::read(text.as_bytes())
            .unwrap_err()
            .to_string(),
        "it is written in version 2 of the format and this program reads up to version 1; use a \
         newer Hames"
    );
}

/// The frozen trip: version 2 as it was first stored. Its files are never edited; a program that
/// cannot read them any more is wrong.
#[test]
fn the_frozen_trip_of_version_2_is_intact_and_is_written_again_to_the_byte() {
    let file = |name: &str| {
        let path = root().join("tests/vectors/record/v2").join(name);
        std::fs::read(path).unwrap()
    };
    let frozen = Trip {
        journal: file("journal.jsonl"),
        checklist: file("checklist.yaml"),
        rig: file("rig.yaml"),
        seal: Some(file("seal.json")),
        by_person: Some(file("seal.person.sig")),
        by_device: Some(file("seal.device.sig")),
    };
    let crew = Crew::read(&file("crew")).unwrap();
    let examined = frozen.examined_as(Mode::Real, &[crew]);
    assert_eq!(examined.faults, []);
    let verified = examined.trip.unwrap();
    assert_eq!(verified.begun().haul, on_the_way().haul);
    assert_eq!(verified.begun().carried, on_the_way().carried);
    assert_eq!(verified.begun().paper, on_the_way().paper);
    let written = Trip::recorded(verified.begun(), verified.at(), verified.entries());
    assert_eq!(written.journal, file("journal.jsonl"));
    let versions: Vec<Version> = read_chain(&written.journal)
        .links
        .iter()
        .map(|link| link.heading.version)
        .collect();
    assert_eq!(versions[0], Version::V2);
    assert!(versions[1..].iter().all(|version| *version == Version::V1));
    assert!(versions.len() > 10);
}

const LIST: &str = include_str!("../vectors/carry.yaml");

/// A trip of the list of carried things, of which one step stands only for what was left.
fn carried_trip(carried: Vec<Left>) -> (Trip, Arc<Plan>) {
    let list = LIST.as_bytes();
    let pinned = |id: &str, bytes: &[u8]| Pinned {
        id: id.to_owned(),
        hash: Digest::of(bytes),
    };
    let begun = Begun {
        haul: None,
        paper: None,
        carried,
        checklist: pinned("carry", list),
        rig: pinned("juniper", JUNIPER.as_bytes()),
        ..on_the_way()
    };
    let lay = |carried| {
        let (list, rig) = (Checklist::read(LIST).unwrap(), Rig::read(JUNIPER).unwrap());
        Arc::new(Plan::lay_for(list, rig, carried).unwrap())
    };
    let at = Bench::new().walk.began().clone();
    let mut walk: Walk = begun.walk(lay(begun.carried()), at.clone());
    let mut entries: Vec<Entry> = Vec::new();
    for act in [
        hames::walk::Act::Open,
        hames::walk::Act::End {
            outcome: hames::walk::Ended::Incomplete,
            words: "rain".to_owned(),
        },
    ] {
        entries.push(crate::harness::good::step(&mut walk, &act, &at).unwrap());
    }
    let mut trip = Trip::recorded(&begun, &at, &entries);
    (trip.checklist, trip.rig) = (list.to_vec(), JUNIPER.as_bytes().to_vec());
    (trip, lay(begun.carried()))
}

#[test]
fn a_walk_is_walked_again_on_the_plan_with_what_was_carried_in() {
    let parts = [None, Some("left-front")];
    for part in parts {
        let (trip, plan) = carried_trip(vec![left(Carry::WheelOff, part, "77ab03")]);
        let asked = plan
            .steps()
            .iter()
            .filter(|step| step.step.id == "nuts-asked");
        assert_eq!(asked.count(), if part.is_some() { 1 } else { 4 });
        let examined = trip.examined().repeated(Some(&plan));
        assert_eq!(
            examined.finding(),
            Finding::Unsealed,
            "{:?}",
            examined.faults
        );
    }
}

#[test]
fn typing_a_paper_in_may_be_left_for_a_while_and_nothing_is_looked_at_again() {
    let walked = on_the_way().paper.unwrap().moment();
    let script = "open\n see down\n open\n see none\n hold\n wait 600\n resume\n restart\n take-up";
    let again = |mut bench: Bench| {
        bench.play(script);
        let looks = bench.walk.to_look_at_again().count();
        let told = bench.journal.iter().filter_map(|entry| match &entry.event {
            Event::Resumed { look_again, .. } => Some(look_again.len()),
            _ => None,
        });
        (looks, told.sum::<usize>())
    };
    assert_eq!(again(Bench::new()), (2, 2));
    assert_eq!(again(Bench::from_paper(walked)), (0, 0));
}
