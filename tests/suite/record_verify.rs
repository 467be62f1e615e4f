//! One function verifies all; every way to spoil a trip has its finding and its sentence.

use crate::record_trip::{TOBIAS, Trip, WREN, begun, crew, id, phrase, signer};
use crate::record_wire::EVERYTHING;
use crate::walk::bench::Bench;
use hames::record::{Crew, Deed, Finding, Mode, Namespace, PrintedName, Role, Seal};
use hames::walk::Ended;

/// A short walk to its end.
const SHORT: &str = "open\n see down\n end incomplete: the vet called";
const DONE: Namespace = Namespace::new(Deed::Performed, Mode::Real);

/// What is found after `spoil`: the finding, then every sentence.
fn found(spoil: impl FnOnce(&mut Trip)) -> String {
    let mut trip = Trip::of(SHORT);
    spoil(&mut trip);
    let examined = trip.examined();
    let relied_on = matches!(examined.finding(), Finding::Intact | Finding::Unsealed);
    assert_eq!(examined.trip.is_some(), relied_on, "{:?}", examined.faults);
    let told: Vec<_> = examined.faults.iter().map(ToString::to_string).collect();
    format!("{}: {}", examined.finding(), told.join(" / "))
}

fn replace(bytes: &mut Vec<u8>, part: &str, other: &str) {
    let text = String::from_utf8(bytes.clone()).unwrap();
    assert!(text.contains(part), "{part} is not in {text}");
    *bytes = text.replacen(part, other, 1).into_bytes();
}

#[test]
fn a_sealed_trip_is_intact_and_tells_who_signed_what() {
    let trip = Trip::of(EVERYTHING).verified();
    let sealed = trip.sealed().unwrap();
    assert_eq!(sealed.person.name.as_str(), "Wren Ashdown");
    assert_eq!(sealed.device.id, id("laptop-7f3a"));
    assert_eq!(sealed.seal.outcome, Ended::NotFitToGo);
    assert_eq!(sealed.seal.counts.fix, 2);
    assert_eq!(trip.lines().len(), trip.entries().len() + 1);
    assert_eq!(trip.tip().last, sealed.seal.last);
    assert_eq!(sealed.receipt().to_string().len(), 11);
    assert_eq!(found(|_| {}), "intact: ");
}

#[test]
fn an_unsealed_trip_can_be_read_and_is_called_unsealed() {
    assert_eq!(
        found(|trip| trip.seal = None),
        "unsealed: the record is not sealed; nobody has signed for it"
    );
    assert_eq!(
        found(|trip| {
            trip.seal = None;
            trip.journal.truncate(trip.journal.len() - 5);
        })
        .split_once(" bytes ")
        .unwrap()
        .1,
        "are a line that was not finished; the lines before it stand / the record is not sealed; nobody has signed for it"
    );
    assert_eq!(
        found(|trip| trip.by_person = None),
        "unsealed: the person's signature, seal.person.sig, is missing here; it may not have been copied yet: merge again from where the record came from"
    );
    assert_eq!(
        found(|trip| trip.by_device = None),
        "unsealed: the device's signature, seal.device.sig, is missing here; it may not have been copied yet: merge again from where the record came from"
    );
}

#[test]
fn a_changed_file_is_altered_and_a_cut_one_truncated() {
    assert_eq!(
        found(|trip| replace(
            &mut trip.journal,
            "\"state\":\"down\"",
            "\"state\":\"fine\""
        )),
        "altered: line 4 does not follow line 3: one of the two was changed after it was written"
    );
    assert_eq!(
        found(|trip| replace(&mut trip.journal, "the vet called", "the vet phoned")),
        "altered: the last line of the journal is not the one that was sealed"
    );
    assert_eq!(
        found(|trip| {
            let last = trip
                .journal
                .trim_ascii_end()
                .iter()
                .rposition(|byte| *byte == b'\n');
            trip.journal.truncate(last.unwrap() + 1);
        }),
        "truncated: the seal counts 4 lines and the journal has 3"
    );
    assert_eq!(
        found(|trip| trip.journal.truncate(trip.journal.len() - 1))
            .split(" bytes ")
            .last()
            .unwrap(),
        "of a line that is not whole"
    );
    assert_eq!(
        found(|trip| trip.checklist.push(b'\n')),
        "altered: the checklist beside the record is not the one that was walked"
    );
    assert_eq!(
        found(|trip| trip.rig.push(b'\n')),
        "altered: the rig file beside the record is not the one the walk was judged by"
    );
    let comes = "is missing here; it may not have been copied yet: merge again from where the record came from";
    assert_eq!(
        found(|trip| trip.checklist.clear()),
        format!("gap: the checklist that was walked, checklist.yaml, {comes}")
    );
    assert_eq!(
        found(|trip| trip.rig.clear()),
        format!("gap: the rig file the walk was judged by, rig.yaml, {comes}")
    );
    assert_eq!(
        found(|trip| replace(trip.seal.as_mut().unwrap(), "\"ok\":1", "\"ok\":2")),
        "altered: the seal and the journal do not agree on the counts / \
         this is not a good signature of wren.ashdown: the signed bytes or the signature were changed after signing / \
         this is not a good signature of laptop-7f3a: the signed bytes or the signature were changed after signing"
    );
    let crlf = found(|trip| {
        let text = String::from_utf8(trip.journal.clone()).unwrap();
        trip.journal = text.replace('\n', "\r\n").into_bytes();
    });
    assert!(crlf.starts_with("altered: line 1 cannot be read: it ends with a carriage return: the line endings were changed in transit"));
}

#[test]
fn whoever_holds_the_keys_still_cannot_seal_what_the_journal_does_not_say() {
    type Change = fn(&mut Seal);
    let changes: [(&str, Change); 4] = [
        ("outcome", |seal| seal.outcome = Ended::Complete),
        ("counts", |seal| seal.counts.stop = 1),
        ("trip", |seal| seal.trip = id("another")),
        ("number", |seal| seal.seq = 2),
    ];
    for (point, change) in changes {
        assert_eq!(
            found(|trip| trip.reseal(change)),
            format!("altered: the seal and the journal do not agree on the {point}")
        );
    }
    assert_eq!(
        found(|trip| trip.reseal(|seal| seal.lines = 3)),
        "altered: the seal counts 3 lines and the journal has 4"
    );
    assert_eq!(
        found(|trip| trip.reseal(|seal| seal.name = PrintedName::read("W. Ashdown").unwrap())),
        "altered: the seal prints the name W. Ashdown and the crew file Wren Ashdown"
    );
}

#[test]
fn a_signature_counts_for_its_signer_role_namespace_and_crew_alone() {
    assert_eq!(
        found(|trip| trip.reseal(|seal| seal.role = Role::Manager)),
        "unknown-signer: wren.ashdown does not hold the role manager"
    );
    assert_eq!(
        found(|trip| trip.reseal(|seal| seal.person = id("odile.marsh"))),
        "unknown-signer: nobody in the crew is called odile.marsh"
    );
    let other_key = found(|trip| {
        let seal = trip.seal.clone().unwrap();
        let armor = TOBIAS.sign(&phrase(), DONE, &seal).unwrap();
        trip.by_person = Some(armor.into_bytes());
    });
    assert_eq!(
        other_key,
        format!(
            "unknown-signer: this is not a good signature of wren.ashdown: it was made with another key, {}",
            TOBIAS.public().fingerprint()
        )
    );
    assert_eq!(
        found(|trip| {
            let seal = trip.seal.clone().unwrap();
            let drill = Namespace::new(Deed::Performed, Mode::Drill);
            trip.by_person = Some(WREN.sign(&phrase(), drill, &seal).unwrap().into_bytes());
        }),
        "altered: this is not a good signature of wren.ashdown: it was made as “hames.performed.v1.drill” and cannot stand for “hames.performed.v1”"
    );
    assert_eq!(
        found(|trip| std::mem::swap(&mut trip.by_person, &mut trip.by_device))
            .split(':')
            .next(),
        Some("unknown-signer")
    );
    let trip = Trip::of(SHORT);
    assert_eq!(
        trip.examined_as(Mode::Real, &[]).finding(),
        Finding::UnknownSigner
    );
}

#[test]
fn who_may_sign_is_settled_by_the_crew_in_force_then_not_by_a_later_one() {
    let trip = Trip::of(SHORT);
    let without_wren = signer("tobias.fenn", Role::Groom, TOBIAS.public(), "Tobias Fenn");
    let later = Crew::read(b"").unwrap().add(&without_wren).unwrap();
    let both = [crew(), later.clone()];
    assert_eq!(
        trip.examined_as(Mode::Real, &both).finding(),
        Finding::Intact
    );
    let only_later = trip.examined_as(Mode::Real, &[later]);
    assert_eq!(only_later.finding(), Finding::UnknownSigner);
    assert!(
        only_later.faults[0]
            .to_string()
            .contains("not one of those you trust")
    );
}

#[test]
fn a_drill_among_real_trips_is_found_even_when_it_is_relabelled() {
    let trip = Trip::of(SHORT);
    for mode in [Mode::Demo, Mode::Drill] {
        let examined = trip.examined_as(mode, &[crew()]);
        assert_eq!(examined.finding(), Finding::OtherMode);
        assert_eq!(
            examined.faults[0].to_string(),
            format!("this is a real record in a {mode} logbook")
        );
    }
    let mut drill = begun(1, None);
    drill.mode = Mode::Drill;
    let mut bench = Bench::new();
    bench.play(SHORT);
    let mut moved = Trip::recorded(&drill, &bench.walk.began().clone(), &bench.journal);
    moved.seal(&crate::record_trip::seal(
        1,
        &moved,
        Ended::Incomplete,
        &bench.journal,
    ));
    let told: Vec<_> = moved
        .examined()
        .faults
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(
        told,
        [
            "this is a drill record in a real logbook",
            "the seal and the journal do not agree on the mode"
        ]
    );
}

#[test]
fn a_file_that_is_no_record_is_unreadable() {
    for journal in ["", "{}\n", "hello", "\u{feff}\n", "\n\n\n"] {
        let mut trip = Trip::of(SHORT);
        trip.journal = journal.into();
        let examined = trip.examined();
        assert!(examined.finding() >= Finding::Truncated, "{journal:?}");
        assert_eq!(examined.trip, None);
    }
    assert_eq!(
        found(|trip| trip.seal = Some(b"sealed\n".to_vec())),
        "unreadable: the seal cannot be read: byte 1 is not JSON in the one spelling records have"
    );
    let two_beginnings = found(|trip| {
        let mut bench = Bench::new();
        bench.play("open");
        let mut again = Trip::recorded(&begun(1, None), &bench.walk.began().clone(), &[]);
        std::mem::swap(&mut again.seal, &mut trip.seal);
        let chain = hames::record::read_chain(&again.journal);
        let said = chain.links[0].said.clone().unwrap();
        let at = chain.links[0].heading.at();
        let (line, _) =
            hames::record::append(chain.tip(), &at, &chain.links[0].heading.actor, &said).unwrap();
        trip.journal = [again.journal, line].concat();
        trip.seal = None;
    });
    assert!(two_beginnings.starts_with("unreadable: line 2 begins a walk inside another"));
}

#[test]
fn no_changed_byte_in_any_file_of_a_trip_goes_unnoticed() {
    let trip = Trip::of(SHORT);
    let files: [fn(&mut Trip) -> &mut Vec<u8>; 6] = [
        |trip| &mut trip.journal,
        |trip| &mut trip.checklist,
        |trip| &mut trip.rig,
        |trip| trip.seal.as_mut().unwrap(),
        |trip| trip.by_person.as_mut().unwrap(),
        |trip| trip.by_device.as_mut().unwrap(),
    ];
    for (which, file) in files.iter().enumerate() {
        for at in 0..file(&mut trip.clone()).len() {
            let mut changed = trip.clone();
            file(&mut changed)[at] ^= 1 << (at % 8);
            let finding = changed.examined().finding();
            assert!(
                finding > Finding::Unsealed,
                "file {which}, byte {at}: {finding}"
            );
        }
    }
}

#[test]
fn the_findings_of_the_manual_page_are_those_of_the_program() {
    let page = std::fs::read_to_string(crate::architecture::root().join("docs/record-format.md"));
    let page = page.unwrap();
    let table = page.split_once("## Findings").unwrap().1;
    let rows: Vec<(&str, u8)> = table
        .lines()
        .filter_map(|line| {
            let mut cells = line.split('|').map(str::trim).skip(1);
            let word = cells.next()?;
            Some((word, cells.next()?.parse().ok()?))
        })
        .collect();
    let known: Vec<(&str, u8)> = Finding::TABLE
        .iter()
        .map(|(word, status, _)| (*word, *status))
        .collect();
    assert_eq!(rows, known);
}
