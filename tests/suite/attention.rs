//! Questions about invented trips, honest and dishonest. How the trips were made stands in
//! `tests/vectors/attention/make.py`; none of its numbers comes from the program.

use crate::harness::good;
use crate::year::bench::{begin, laid, moment};
use chrono::{DateTime, FixedOffset};
use hames::checklist::{Haul, StepKey};
use hames::figures::Fact;
use hames::record::Id;
use hames::review::{Act, Asking, Brief, Measured, Named, Trace, What, attention};
use hames::rig::InstrumentKind;
use hames::units::{Dimension, Quantity, parse_quantity};
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::time::Duration;

#[derive(Deserialize)]
struct About {
    read: HashMap<String, (String, String)>,
}

#[derive(Deserialize)]
struct Told {
    season: serde_json::Value,
    at: DateTime<FixedOffset>,
    list: String,
    device: String,
    who: String,
    doer: String,
    paper: bool,
    how: String,
    honest: bool,
    acts: Vec<Answer>,
}

/// A step, what it took, and what was read.
#[derive(Deserialize)]
#[serde(untagged)]
enum Answer {
    Seen(String, u64),
    Read(String, u64, String),
}

struct Set {
    told: Vec<Told>,
    asked: Vec<Asking>,
}

fn set() -> Set {
    let text = include_str!("../vectors/attention/traces.jsonl");
    let mut lines = text.lines();
    let about: About = serde_json::from_str(lines.next().unwrap()).unwrap();
    let told: Vec<Told> = lines
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    let traces = told
        .iter()
        .enumerate()
        .map(|(at, told)| trace(at, told, &about));
    let asked = attention(traces.map(|trace| Brief::of(&trace)).collect());
    Set { told, asked }
}

fn quantity(text: &str) -> Quantity {
    let read = Dimension::ALL
        .into_iter()
        .find_map(|of| parse_quantity(text, of).ok());
    read.unwrap_or_else(|| panic!("{text}"))
}

fn trace(number: usize, told: &Told, about: &About) -> Trace {
    let mut at = told.at;
    let acts = told.acts.iter().map(|answer| {
        let (key, took_ms, read) = match answer {
            Answer::Seen(key, took) => (key, *took, None),
            Answer::Read(key, took, read) => (key, *took, Some(read)),
        };
        at += chrono::TimeDelta::milliseconds(i64::try_from(took_ms).unwrap());
        let what = read.map_or(What::Seen, |read| {
            let (kind, mark) = &about.read[key];
            let known = InstrumentKind::WORDS.iter().find(|(word, _)| word == kind);
            What::Read(Measured {
                value: quantity(read),
                kind: known.unwrap().1,
                mark: Some(quantity(mark)),
                tells: (key == "air").then_some(Fact::AirTemperature),
                limits: Vec::new(),
            })
        });
        Act {
            key: StepKey::named(key),
            name: key.clone(),
            at,
            took_ms,
            least_ms: None,
            actor: told.who.clone(),
            doer: told.doer.clone(),
            first: true,
            what,
        }
    });
    Trace {
        of: Named {
            trip: Id::read(&format!("{number:016x}")).unwrap(),
            device: Id::read(&told.device).unwrap(),
            seq: u64::try_from(number).unwrap() + 1,
            at: told.at,
            who: told.who.clone(),
        },
        rig: format!("rig of season {}", told.season),
        haul: match told.list.as_str() {
            "hitch" => Haul::Begins,
            "unhitch" => Haul::Ends,
            _ => Haul::During,
        },
        from_paper: told.paper,
        found: false,
        acts: acts.collect(),
    }
}

/// How many trips of each manner there are, and of how many something is asked.
fn by_manner(set: &Set) -> BTreeMap<(bool, &str), (usize, usize)> {
    let about: BTreeSet<u64> = set
        .asked
        .iter()
        .filter(|asking| !asking.what.is_of_many())
        .map(|asking| asking.of.seq)
        .collect();
    let mut manners = BTreeMap::new();
    // Only what is worth the name is counted: a walk of four steps is honest in all of them.
    for (told, seq) in set
        .told
        .iter()
        .zip(1..)
        .filter(|(told, _)| told.list == "hitch")
    {
        let (all, asked) = manners
            .entry((told.honest, told.how.as_str()))
            .or_insert((0, 0));
        *all += 1;
        *asked += usize::from(about.contains(&seq));
    }
    manners
}

#[test]
fn nine_of_ten_dishonest_trips_are_asked_about_and_at_most_one_of_twenty_honest_ones() {
    let set = set();
    let mut manners = by_manner(&set);
    manners.remove(&(false, PATIENT));
    let sum = |honest: bool| {
        let of = manners.iter().filter(|((is, _), _)| *is == honest);
        of.fold((0, 0), |(all, asked), (_, (more, more_asked))| {
            (all + more, asked + more_asked)
        })
    };
    let ((dishonest, found), (honest, wrongly)) = (sum(false), sum(true));
    assert!(
        dishonest > 60 && 10 * found >= 9 * dishonest,
        "{found} of {dishonest}: {manners:#?}"
    );
    assert!(
        honest > 200 && 20 * wrongly <= honest,
        "{wrongly} of {honest}: {manners:#?}"
    );
}

#[test]
fn no_manner_of_dishonesty_goes_by_altogether() {
    let set = set();
    for ((honest, how), (all, asked)) in by_manner(&set) {
        let seen = honest || how == PATIENT;
        assert!(seen || 4 * asked >= 3 * all, "{how}: {asked} of {all}");
    }
}

/// What no time and no digit tells from work.
const PATIENT: &str = "patient";

#[test]
fn whoever_is_patient_and_makes_up_likely_numbers_is_not_seen_as_the_manual_says() {
    let set = set();
    let (all, asked) = by_manner(&set)[&(false, PATIENT)];
    assert!(all > 4 && 4 * asked < all, "{asked} of {all}");
    let manual = include_str!("../../docs/logbook.md");
    let manual = manual.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(manual.contains("patient and makes up likely numbers"));
}

#[test]
fn every_question_names_its_trip_and_ends_with_a_question() {
    let set = set();
    for asking in &set.asked {
        let told = asking.to_string();
        assert!(
            told.ends_with('?') && told.contains(&asking.of.who),
            "{told}"
        );
        assert!(!told.contains("safe"), "{told}");
    }
}

/// Trips of three people on one rig, day by day; what each reads and finds is given.
fn many(of: impl Fn(&str, u32) -> (&'static str, bool)) -> Vec<Asking> {
    let people = ["Ivo Larch", "Nell Harrow", "Maud Teasel"];
    let first: DateTime<FixedOffset> = "2026-01-05T07:00:00-05:00".parse().unwrap();
    let trip = |day: u32| {
        let who = people[usize::try_from(day).unwrap() % people.len()];
        let (read, found) = of(who, day);
        let at = first + chrono::TimeDelta::days(i64::from(day));
        let limit = (hames::rules::Side::Below, quantity("60 psi"));
        let read = Measured {
            value: quantity(read),
            kind: InstrumentKind::PressureGauge,
            mark: Some(quantity("1 psi")),
            tells: None,
            limits: vec![limit],
        };
        let act = Act {
            key: StepKey::named("tire-cold/left-front"),
            name: "Cold pressure".to_owned(),
            at,
            took_ms: 20_000,
            least_ms: None,
            actor: who.to_owned(),
            doer: who.to_owned(),
            first: true,
            what: What::Read(read),
        };
        Brief::of(&Trace {
            of: Named {
                trip: Id::read(&format!("{day:016x}")).unwrap(),
                device: Id::read("laptop-a").unwrap(),
                seq: u64::from(day) + 1,
                at,
                who: who.to_owned(),
            },
            rig: "juniper".to_owned(),
            haul: Haul::Apart,
            from_paper: false,
            found,
            acts: vec![act],
        })
    };
    attention((0..150).map(trip).collect())
}

/// The words and people that are asked about.
fn words(asked: &[Asking]) -> Vec<(&'static str, &str)> {
    asked
        .iter()
        .map(|one| (one.what.word(), one.of.who.as_str()))
        .collect()
}

/// Pressures as they come, none near the limit more often than another.
const AS_THEY_COME: [&str; 7] = [
    "66 psi", "63 psi", "65 psi", "64 psi", "67 psi", "62 psi", "68 psi",
];

fn as_it_comes(day: u32) -> &'static str {
    AS_THEY_COME[usize::try_from(day).unwrap() % AS_THEY_COME.len()]
}

#[test]
fn of_people_who_read_and_find_alike_nothing_is_asked() {
    assert_eq!(words(&many(|_, day| (as_it_comes(day), day % 4 == 0))), []);
    // Where nobody finds anything it is the rig that is sound, not a person who does not look.
    assert_eq!(words(&many(|_, day| (as_it_comes(day), false))), []);
}

#[test]
fn whoever_never_finds_anything_where_others_do_is_asked_about_it() {
    let asked = many(|who, day| (as_it_comes(day), who != "Ivo Larch" && day % 4 == 0));
    assert_eq!(words(&asked), [("nothing-found", "Ivo Larch")]);
    let told = asked[0].to_string();
    assert!(
        told.contains("nothing found on any of 50; of the trips of others on the same rigs 75 %"),
        "{told}"
    );
}

#[test]
fn readings_that_lie_just_inside_a_limit_are_asked_about_where_those_of_others_do_not() {
    let asked = many(|who, day| {
        let nudged = who == "Nell Harrow" && day % 2 == 0;
        (
            if nudged { "61 psi" } else { as_it_comes(day) },
            day % 4 == 0,
        )
    });
    assert_eq!(words(&asked), [("just-inside", "Nell Harrow")]);
}

#[test]
fn digits_are_asked_about_where_others_read_finer_on_the_same_rig() {
    let asked = many(|who, day| {
        let rounds = who == "Maud Teasel";
        (
            if rounds { "65 psi" } else { as_it_comes(day) },
            day % 4 == 0,
        )
    });
    assert_eq!(words(&asked), [("round-digits", "Maud Teasel")]);
}

/// Whether the pace is asked about of a walk with twenty seconds to each answer, on a list whose
/// steps say so of their least time.
fn is_asked_at_twenty_seconds(least: Option<Duration>) -> bool {
    let mut all = laid().into_iter();
    let mut laid = all.find(|laid| laid.list.id == "departure").unwrap();
    for section in &mut laid.list.sections {
        for step in &mut section.steps {
            step.least = least;
        }
    }
    let mut walk = begin(&laid, vec![]);
    let (began, mut at, mut entries) = (moment(), moment(), Vec::new());
    while let Some((act, _)) = good::next(&walk, "Odile Marsh") {
        at.mono_ms += 10_000;
        at.wall += chrono::TimeDelta::seconds(10);
        entries.push(good::step(&mut walk, &act, &at).unwrap());
    }
    let of = Named {
        trip: Id::read("9f0c11b2").unwrap(),
        device: Id::read("laptop-a").unwrap(),
        seq: 1,
        at: began.wall,
        who: "Wren Ashdown".to_owned(),
    };
    let trace = Trace::new(of, &walk, (&began, &entries));
    assert!(trace.acts.len() > 20);
    let asked = attention(vec![Brief::of(&trace)]);
    words(&asked).iter().any(|(word, _)| *word == "hurried")
}

#[test]
fn a_step_that_names_its_least_time_is_held_to_that_and_any_other_to_its_kind_of_act() {
    assert!(!is_asked_at_twenty_seconds(None));
    assert!(!is_asked_at_twenty_seconds(Some(Duration::from_secs(15))));
    assert!(is_asked_at_twenty_seconds(Some(Duration::from_secs(120))));
}
