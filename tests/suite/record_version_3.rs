//! Version 3: line 0 of a drill, and the lines there are in drills alone.

use crate::record_trip::{begun, id, words};
use crate::walk::bench::Bench;
use hames::checklist::StepKey;
use hames::drill::{Drilled, Stage, Vantage};
use hames::record::{
    Begun, BegunDrill, Digest, MOST_SEED, Mode, Pinned, Said, Tip, Unreadable, Version, append,
    read_chain,
};
use hames::rules::Verdict;
use hames::units::{Quantity, Unit};

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
