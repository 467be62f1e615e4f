//! Two months of an invented barn to look over, and one trip of them opened.

use crate::demo_year::trends::TOLD;
use crate::screens::bench::Bench;
use chrono::{DateTime, FixedOffset, TimeDelta};
use hames::desk::{
    ClosedTrip, Exception, HeldTo, Lookout, OpenedTrip, ReadingBeside, SeenTrip, Tale,
};
use hames::logbook::TripCounts;
use hames::record::{Finding, Id, Mode, Opinion};
use hames::review::{Earlier, Filter, Glance, Stretch, Went};
use hames::rules::{Authority, Basis, Outcome, Verdict};
use hames::units::{Dimension, Typed};
use hames::walk::{Ended, Words};

/// A trip: when, rig, list, who signed, who else took part.
type Row = (
    &'static str,
    &'static str,
    &'static str,
    &'static str,
    &'static str,
    fn(&mut Glance),
);

const WREN: &str = "Wren Ashdown";
const TOBIAS: &str = "Tobias Fenn";
const HITCH: &str = "Hitch up a bumper pull";
const NECK: &str = "Hitch up a gooseneck";

/// Two months of trips, one of each weight and each word of a manager among them.
const TRIPS: [Row; 9] = [
    (
        "2026-10-04T06:30:00-04:00",
        "juniper",
        HITCH,
        WREN,
        TOBIAS,
        |one| {
            one.worst = Verdict::Fix;
            one.doubts = 2;
        },
    ),
    (
        "2026-10-20T06:10:00-04:00",
        "mesquite",
        NECK,
        TOBIAS,
        WREN,
        |one| {
            one.worst = Verdict::Stop;
            one.ended = Some(Ended::NotFitToGo);
        },
    ),
    (
        "2026-11-02T07:03:00-05:00",
        "juniper",
        HITCH,
        WREN,
        TOBIAS,
        |one| {
            one.said = Some(Opinion::Agreed);
        },
    ),
    (
        "2026-11-03T06:12:00-05:00",
        "mesquite",
        NECK,
        TOBIAS,
        WREN,
        |one| {
            one.worst = Verdict::Fix;
            one.said = Some(Opinion::Asked);
        },
    ),
    (
        "2026-11-03T09:40:00-05:00",
        "mesquite",
        "Arrive and unload",
        TOBIAS,
        WREN,
        |one| {
            one.said = Some(Opinion::Agreed);
        },
    ),
    (
        "2026-11-13T18:20:00-05:00",
        "juniper",
        HITCH,
        WREN,
        TOBIAS,
        |one| one.left_open = 2,
    ),
    (
        "2026-11-14T06:05:00-05:00",
        "mesquite",
        NECK,
        TOBIAS,
        WREN,
        |one| one.worst = Verdict::Stop,
    ),
    (
        "2026-11-14T23:50:00-05:00",
        "juniper",
        HITCH,
        WREN,
        TOBIAS,
        |_| {},
    ),
    (
        "2026-11-25T06:31:00-05:00",
        "juniper",
        HITCH,
        WREN,
        TOBIAS,
        |one| {
            one.finding = Finding::Altered;
        },
    ),
];

fn glance(number: u64, (at, rig, title, who, with, change): Row) -> Glance {
    let mut glance = Glance {
        trip: Id::read("9f0c11b2").unwrap(),
        device: Id::read("laptop-7f3a").unwrap(),
        seq: number,
        rig: rig.to_owned(),
        checklist: "hitch".to_owned(),
        title: title.to_owned(),
        revision: 4,
        who: who.to_owned(),
        others: vec![with.to_owned()],
        at: at.parse().unwrap(),
        from_paper: false,
        took_ms: 1_800_000,
        ended: Some(Ended::Complete),
        signed: true,
        worst: Verdict::Ok,
        left_open: 0,
        counts: TripCounts::default(),
        finding: Finding::NotCountersigned,
        said: None,
        doubts: 0,
    };
    change(&mut glance);
    glance
}

fn seen(number: u64, row: Row) -> SeenTrip {
    SeenTrip {
        glance: glance(number, row),
        folder: format!("{number:06}-9f0c11b2"),
    }
}

pub(super) fn year() -> Lookout {
    Lookout {
        mode: Mode::Demo,
        trips: (1..).zip(TRIPS).map(|(at, row)| seen(at, row)).collect(),
        closed: vec![ClosedTrip {
            finding: Finding::Unreadable,
            why: "hames verify /barn/dev/laptop-7f3a/t/000010-4e1d88c0".to_owned(),
        }],
        unread: 0,
    }
}

fn exception(named: &str, told: &[&str]) -> Exception {
    Exception {
        named: Words::read(named).unwrap(),
        told: told.iter().map(|line| (*line).to_owned()).collect(),
    }
}

/// A trip with three exceptions and a question.
pub(super) fn opened() -> OpenedTrip {
    let at: DateTime<FixedOffset> = "2026-11-03T06:12:00-05:00".parse().unwrap();
    let psi = |text: &str| Typed::read(text, Dimension::Pressure).unwrap();
    let reading = |line, text: &str, outcome, replaced| ReadingBeside {
        line,
        step: "tire-cold/left-front".to_owned(),
        name: "Trailer tire, left front".to_owned(),
        typed: psi(text),
        instrument: "dial gauge to 100 psi".to_owned(),
        tool: "gauge-100".to_owned(),
        outcome,
        came_to: outcome.to_owned(),
        limit: Some(HeldTo {
            bound: "fix below 62.5 psi".to_owned(),
            basis: Basis {
                authority: Authority::Plate,
                source: "tire label".to_owned(),
            },
        }),
        replaced,
        earlier: vec![Earlier {
            at: at - TimeDelta::days(9),
            typed: psi("64 psi"),
            outcome: Outcome::Judged(Verdict::Ok),
        }],
    };
    let stretch = |minutes, what| Stretch {
        from: at + TimeDelta::minutes(minutes),
        took_ms: 252_000,
        what,
    };
    let answers = |section: &str, answers| Went::Answers {
        section: section.to_owned(),
        answers,
        again: 1,
    };
    OpenedTrip {
        tale: Tale {
            heading: vec![
                "Trip 000004-9f0c11b2, number 4 of laptop-7f3a.".to_owned(),
                "Mesquite, gooseneck".to_owned(),
            ],
            findings: vec!["nobody has countersigned it".to_owned()],
            lines: vec![],
            signatures: vec!["Tobias Fenn, groom, 2026-11-03 07:01: I did this walk".to_owned()],
        },
        said: vec![
            "Odile Marsh asked on 2026-11-04 19:10, in statement 5: “Why twice?”".to_owned(),
        ],
        already: vec![],
        refused: vec![],
        asked: vec!["Step after step took 2 s; was it typed up from the seat?".to_owned()],
        exceptions: vec![
            exception(
                "lines 22 to 25, tire-cold/left-front",
                &[
                    "06:25  Trailer tire, left front: 58 psi with dial gauge to 100 psi: fix",
                    "06:29  Put right: pumped up to 65 psi",
                    "06:31  Trailer tire, left front: 65 psi with dial gauge to 100 psi: ok",
                ],
            ),
            exception(
                "line 30, chains-crossed",
                &["06:34  Chains crossed: a note “one hook worn; 馬 new ones are ordered”"],
            ),
            exception("lines 41 to 42", &["06:40  Held: a horse was loose"]),
            exception(
                "question: hurried",
                &["Step after step took 2 s; was it typed up from the seat?"],
            ),
        ],
        timeline: vec![
            stretch(0, answers("Tires and wheels", 17)),
            stretch(16, Went::Nothing),
            stretch(
                28,
                Went::OnHold {
                    why: Some("a horse was loose".to_owned()),
                    look_again: 2,
                },
            ),
        ],
        readings: vec![
            reading(22, "58 psi", "fix", true),
            reading(25, "65 psi", "ok", false),
        ],
    }
}

/// The demo barn's logbook looked over.
pub(crate) fn barn() -> Bench {
    Bench::over(year(), opened(), Filter::default())
}

/// The same, with the readings of a whole year to follow.
pub(crate) fn followed() -> Bench {
    let mut bench = barn();
    bench.desk.trends.clone_from(&TOLD);
    bench
}
