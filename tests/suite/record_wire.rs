//! What lines say: every event comes back as it was, and contradictions are refused.

use crate::record_trip::{Trip, begun, words};
use crate::walk::bench::Bench;
use hames::record::{
    Crew, Digest, Envelope, Id, Mode, Previous, Said, Tip, Unreadable, append, read_chain,
};
use std::collections::BTreeSet;

/// A walk in which everything happens that can.
pub(crate) const EVERYTHING: &str = "
    open
    see down
    note first frost, the ball is icy
    open
    see hair
    remark closed by the farrier, by Friday
    open
    see flat
    correct gap: looked from the wrong side
    open
    see none
    open
    hold the vet called | the cord
    wait 300
    resume
    open
    see down
    open
    see none
    defer it is in the other truck
    unsure is that the right pin
    wait 10
    settle asked Odile, it is
    open
    see-as Odile Marsh: seated
    close
    open
    see loose
    put-right pushed home until it clicked
    open
    see in
    open
    read 6.5 psi by gauge-100
    read 62 psi by gauge-100
    open
    read 58.0 psi by gauge-100
    put-right
    open
    read 65 psi by gauge-100
    restart
    take-up
    hand-over Odile Marsh | Wren Ashdown
    end not-fit-to-go: it began to hail";

fn line(entry: &hames::walk::Entry) -> (Envelope, Vec<u8>) {
    let said = Said::Happened(Box::new(entry.event.clone()));
    let (bytes, _) = append(Tip::START, &entry.at, &entry.actor, &said).unwrap();
    let bytes = bytes.strip_suffix(b"\n").unwrap().to_vec();
    (Envelope::read(&bytes).unwrap(), bytes)
}

#[test]
fn every_kind_of_event_comes_back_as_it_was() {
    let mut bench = Bench::new();
    assert_eq!(bench.play(EVERYTHING), "ended not-fit-to-go");
    let mut kinds = BTreeSet::new();
    for entry in &bench.journal {
        let (envelope, _) = line(entry);
        assert_eq!(envelope.entry().unwrap().as_ref(), Some(entry));
        kinds.insert(envelope.heading.kind.to_string());
    }
    assert_eq!(
        kinds.iter().map(String::as_str).collect::<Vec<_>>(),
        [
            "corrected",
            "deferred",
            "doubted",
            "ended",
            "handed-over",
            "held",
            "noted",
            "opened",
            "put-right",
            "reading",
            "remarked",
            "resumed",
            "section-closed",
            "settled",
            "sighting",
            "unsure"
        ]
    );
}

#[test]
fn a_walk_rebuilt_from_its_journals_bytes_is_the_walk_that_was() {
    let mut bench = Bench::new();
    bench.play(EVERYTHING);
    let trip = Trip::of(EVERYTHING).verified();
    assert_eq!(trip.entries(), bench.journal);
    let begun = trip.begun();
    let mut walk = hames::walk::Walk::begin(
        bench.walk.plan().clone(),
        begun.reader.clone(),
        begun.doer.clone(),
        trip.at().clone(),
    );
    trip.entries().iter().for_each(|entry| walk.apply(entry));
    assert_eq!(walk, bench.walk);
}

#[test]
fn line_0_comes_back_as_it_was() {
    let hash = Digest::of(b"a");
    for previous in [
        None,
        Some(Previous::Sealed(hash)),
        Some(Previous::Unsealed(hash)),
    ] {
        for (mode, manager) in Mode::ALL.into_iter().zip([None, Some(hash), None]) {
            let mut begun = begun(7, previous);
            begun.mode = mode;
            begun.manager = manager;
            begun.odometer = begun.odometer.filter(|_| mode != Mode::Drill);
            let said_so = Said::Begun(Box::new(begun));
            let at = Bench::new().walk.began().clone();
            let (bytes, _) = append(Tip::START, &at, &words("Wren Ashdown"), &said_so).unwrap();
            let chain = read_chain(&bytes);
            assert_eq!(chain.links[0].said, Ok(said_so));
        }
    }
}

/// A reading's line with one part replaced, read back.
fn changed(part: &str, other: &str) -> Result<Option<hames::walk::Entry>, Unreadable> {
    let mut bench = Bench::new();
    bench.play(EVERYTHING);
    let low = bench
        .journal
        .iter()
        .map(line)
        .find(|(_, bytes)| String::from_utf8_lossy(bytes).contains("58.0 psi"));
    let text = String::from_utf8(low.unwrap().1).unwrap();
    assert!(text.contains(part), "{part} is not in {text}");
    Envelope::read(text.replacen(part, other, 1).as_bytes())?.entry()
}

#[test]
fn a_line_that_contradicts_itself_is_refused() {
    for (part, other, reason) in [
        (
            "\"typed\":\"58.0 psi\"",
            "\"typed\":\"68.0 psi\"",
            "what was typed does not mean the value beside it",
        ),
        (
            "\"outcome\":\"fix\"",
            "\"outcome\":\"ok\"",
            "the verdict does not follow from the limits beside it",
        ),
        (
            "\"outcome\":\"fix\"",
            "\"outcome\":\"measure-again\"",
            "the verdict does not follow from the limits beside it",
        ),
        (
            "\"crossed\"",
            "\"clear\"",
            "the verdict does not follow from the limits beside it",
        ),
        (
            "\"verdict\":\"fix\"",
            "\"verdict\":\"note\"",
            "the verdict does not follow from the limits beside it",
        ),
        (
            "\"side\":\"below\"",
            "\"side\":\"above\"",
            "the verdict does not follow from the limits beside it",
        ),
        (
            "\"bound\":\"61.75 psi\"",
            "\"bound\":\"51.75 psi\"",
            "the verdict does not follow from the limits beside it",
        ),
        (
            "\"bound\":\"61.75 psi\"",
            "\"bound\":\"61.75 lb\"",
            "the verdict does not follow from the limits beside it",
        ),
        (
            "\"low\":\"56 psi\"",
            "\"low\":\"59 psi\"",
            "the reading lies outside the values it may stand for",
        ),
        (
            "\"decided\":0",
            "\"decided\":9",
            "the verdict does not follow from the limits beside it",
        ),
        (
            "\"decided\":0",
            "\"decided\":null",
            "the verdict does not follow from the limits beside it",
        ),
        (
            "\"bound\":\"61.75 psi\"",
            "\"bound\":\"61.750 psi\"",
            "“61.750 psi” cannot be its bound",
        ),
        (
            "\"authority\":\"default\"",
            "\"authority\":\"barn rule\"",
            "“barn rule” cannot be its authority",
        ),
        (
            "\"round\":\"measured-again\"",
            "\"round\":\"again\"",
            "“again” cannot be its round",
        ),
    ] {
        assert_eq!(
            changed(part, other).unwrap_err().to_string(),
            reason,
            "{part}"
        );
    }
}

#[test]
fn a_body_spelt_otherwise_is_refused() {
    for (part, other, reason) in [
        (
            "\"low\":\"56 psi\",\"high\":\"60 psi\"",
            "\"high\":\"60 psi\",\"low\":\"56 psi\"",
            "its fields are not in the order records have",
        ),
        (
            ",\"decided\":0",
            "",
            "its fields are not in the order records have",
        ),
        (
            "\"kind\":\"reading\"",
            "\"kind\":\"rumour\"",
            "version 1 has no line of kind “rumour”",
        ),
        (
            "\"kind\":\"reading\"",
            "\"kind\":\"sighting\"",
            "unknown field `typed`, expected one of `step`, `doer`, `round`, `state`, `verdict`, `by`",
        ),
        (
            "\"doer\":\"",
            "\"doer\":\" ",
            "“ Tobias Fenn” cannot be its doer",
        ),
    ] {
        assert_eq!(
            changed(part, other).unwrap_err().to_string(),
            reason,
            "{part}"
        );
    }
}

/// The frozen trip: version 1 as it was first stored. Its files are never edited; a program that
/// cannot read them any more is wrong.
#[test]
fn the_frozen_trip_of_version_1_is_intact_and_is_written_again_to_the_byte() {
    let file = |name: &str| {
        let path = crate::architecture::root()
            .join("tests/vectors/record/v1")
            .join(name);
        std::fs::read(path).unwrap()
    };
    let crew = Crew::read(&file("crew")).unwrap();
    let frozen = Trip {
        journal: file("journal.jsonl"),
        checklist: file("checklist.yaml"),
        rig: file("rig.yaml"),
        seal: Some(file("seal.json")),
        by_person: Some(file("seal.person.sig")),
        by_device: Some(file("seal.device.sig")),
    };
    let examined = frozen.examined_as(Mode::Real, std::slice::from_ref(&crew));
    assert_eq!(examined.faults, []);
    let verified = examined.trip.unwrap();
    let sealed = verified.sealed().unwrap();
    assert_eq!(sealed.seal.write().unwrap(), file("seal.json"));
    assert_eq!(sealed.receipt().to_string(), "MC7JP-AQ4QN");

    let begun = Said::Begun(Box::new(verified.begun().clone()));
    let (mut written, mut tip) =
        append(Tip::START, verified.at(), verified.actor(), &begun).unwrap();
    for entry in verified.entries() {
        let said = Said::Happened(Box::new(entry.event.clone()));
        let (line, next) = append(tip, &entry.at, &entry.actor, &said).unwrap();
        written.extend(line);
        tip = next;
    }
    assert_eq!(written, file("journal.jsonl"));

    let mut kinds: Vec<_> = read_chain(&written)
        .links
        .iter()
        .map(|link| link.heading.kind.to_string())
        .collect();
    kinds.sort();
    kinds.dedup();
    assert_eq!(kinds.len(), 17, "every kind of line is in the frozen trip");

    let [person, device] =
        ["seal.person.sig", "seal.device.sig"].map(|name| String::from_utf8(file(name)).unwrap());
    for (who, namespace, armor) in [
        ("wren.ashdown", "hames.performed.v1", person),
        ("role:device", "hames.witnessed.v1", device),
    ] {
        let stock = crate::stock::Bench::new();
        let answer = stock.verify(crew.text(), who, namespace, &file("seal.json"), &armor);
        assert!(answer.good, "{}", answer.said);
    }
}

#[test]
fn every_kind_has_an_id_of_its_own() {
    let mut bench = Bench::new();
    bench.play(EVERYTHING);
    for entry in &bench.journal {
        let (envelope, _) = line(entry);
        for other in ["opened", "noted", "ended", "begun", "held"] {
            if envelope.heading.kind.as_str() != other {
                let mut told = envelope.clone();
                told.heading.kind = Id::read(other).unwrap();
                assert_ne!(told.entry().ok().flatten().as_ref(), Some(entry));
            }
        }
    }
}
