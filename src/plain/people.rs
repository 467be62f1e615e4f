//! Who may do what, as lines of text.

use crate::drill::{Currency, LAPSED_DAYS, REFRESHER_DAYS};
use crate::record::counted;
use crate::review::{DrilledSection, Lists, OnRig, People, Person, Walked};
use crate::text::put;
use chrono::NaiveDate;

/// What is told of the crew.
#[derive(Clone, Copy, Debug)]
pub struct Wanted<'a> {
    /// The day it is told on.
    pub today: NaiveDate,
    /// Of whoever is called so alone, list by list.
    pub person: Option<&'a str>,
    /// Of this rig alone.
    pub rig: Option<&'a str>,
}

/// Everyone, rig by rig. No line is longer than 80 columns.
pub fn people(people: &People, wanted: Wanted<'_>) -> String {
    let mut text = String::new();
    let head = format!(
        "Who may do what, by what managers stated and what was walked, {}.",
        day(wanted.today)
    );
    put(&mut text, 0, &head);
    let means = format!(
        "After {REFRESHER_DAYS} days without a walk a refresher is due, after {LAPSED_DAYS} it has \
         lapsed: ours, no source. It bars nothing; the manager decides."
    );
    put(&mut text, 0, &means);
    if !people.signs_off() {
        put(
            &mut text,
            0,
            "No manager has signed anybody off yet. One does with: hames crew sign-off ID",
        );
    }
    let chosen = people.all().iter();
    let chosen = chosen.filter(|one| wanted.person.is_none_or(|name| one.is_named(name)));
    for person in chosen {
        text.push('\n');
        put(&mut text, 0, &heading(person));
        let rigs: Vec<&OnRig> = rigs(person, wanted.rig).collect();
        for rig in rigs.iter().filter(|rig| !is_nothing(rig)) {
            put(&mut text, 2, &on_rig(rig, people.signs_off(), wanted.today));
            if wanted.person.is_some() {
                for walked in &rig.walked {
                    put(
                        &mut text,
                        4,
                        &list(walked, people.signs_off(), wanted.today),
                    );
                }
            }
        }
        let nothing = rigs.iter().filter(|rig| is_nothing(rig));
        let nothing: Vec<&str> = nothing.map(|rig| &*rig.name).collect();
        tell_drills(&mut text, person, wanted.today);
        if !nothing.is_empty() {
            let not = if people.signs_off() {
                ", and not signed off"
            } else {
                ""
            };
            put(
                &mut text,
                2,
                &format!("Never walked{not}: {}.", nothing.join("; ")),
            );
        }
    }
    let asked: Vec<String> = asked(people, wanted).collect();
    if !asked.is_empty() {
        text.push('\n');
        put(&mut text, 0, "To ask:");
        for question in asked {
            put(&mut text, 2, &question);
        }
    }
    text
}

/// The drills somebody passed, list by list, and their check rides. How any drill went is theirs.
fn tell_drills(text: &mut String, person: &Person, today: NaiveDate) {
    let mut lists: Vec<&str> = person.drills.iter().map(|one| &*one.checklist.0).collect();
    lists.dedup();
    for id in lists {
        let own = person.drills.iter().filter(|one| one.checklist.0 == id);
        let own: Vec<&DrilledSection> = own.collect();
        let (Some(first), Some(last)) = (own.first(), own.iter().map(|one| one.last).max()) else {
            continue;
        };
        let sections = own.iter().map(|one| {
            let stage = one.stage.word().replace('-', " ");
            format!("{} up to {stage}", one.section.1)
        });
        let sections: Vec<String> = sections.collect();
        let told = format!(
            "Drilled {}, {}: {}.",
            first.checklist.1,
            since(last, today),
            sections.join("; ")
        );
        put(text, 2, &told);
    }
    for ride in &person.rides {
        let passed = match (ride.ridden.passed, ride.signed_off) {
            (true, true) => "passed, and in the roster",
            (true, false) => "passed, and not in the roster",
            (false, _) => "not passed",
        };
        let told = format!(
            "Check ride of {}, revision {}, {}, on {}, examined by {}: {passed}.",
            ride.checklist.1,
            ride.ridden.revision,
            ride.ridden.rigs.word().replace('-', " "),
            day(ride.day),
            ride.ridden.examiner
        );
        put(text, 2, &told);
    }
}

/// What there is to ask: who walked what they are not signed off for.
fn asked<'p>(people: &'p People, wanted: Wanted<'p>) -> impl Iterator<Item = String> + 'p {
    let all = people.all().iter().filter(|_| people.signs_off());
    let chosen = all.filter(move |one| wanted.person.is_none_or(|name| one.is_named(name)));
    chosen.flat_map(move |person| {
        let rigs = rigs(person, wanted.rig).filter(|rig| rig.without().next().is_some());
        rigs.map(|rig| {
            let lists: Vec<String> = rig
                .without()
                .map(|one| format!("“{}” {}", one.title, counted(one.times, "time")))
                .collect();
            format!(
                "{} walked {} without being signed off for it now: {}. Is that as it should be?",
                person.name,
                rig.name,
                lists.join(", ")
            )
        })
    })
}

fn rigs<'p>(person: &'p Person, rig: Option<&str>) -> impl Iterator<Item = &'p OnRig> {
    let all = person.rigs.iter();
    all.filter(move |one| rig.is_none_or(|id| one.rig == id))
}

fn is_nothing(rig: &OnRig) -> bool {
    rig.signed_off == Lists::No && rig.walked.is_empty()
}

/// `Tobias Fenn (tobias.fenn), groom`.
fn heading(person: &Person) -> String {
    let roles: Vec<&str> = person.roles.iter().map(|role| role.word()).collect();
    format!("{} ({}), {}", person.name, person.id, roles.join(", "))
}

/// `Juniper: signed off for every list. 41 walks, the last on 20 Nov 2026, 6 days ago: current.`
fn on_rig(rig: &OnRig, signs_off: bool, today: NaiveDate) -> String {
    let signed = match &rig.signed_off {
        _ if !signs_off => String::new(),
        Lists::No => " Not signed off.".to_owned(),
        Lists::Every => " Signed off for every list.".to_owned(),
        Lists::These(ids) => {
            let ids: Vec<&str> = ids.iter().map(crate::record::Id::as_str).collect();
            format!(" Signed off for {}.", ids.join(", "))
        }
    };
    let walked = match rig.last() {
        Some(last) => format!("{}, {}", counted(rig.times(), "walk"), since(last, today)),
        None => "never walked".to_owned(),
    };
    format!("{}: {walked}.{signed}", rig.name)
}

/// `Hitch up a bumper pull: 14 times, the last on 20 Nov 2026, 6 days ago: current`.
fn list(walked: &Walked, signs_off: bool, today: NaiveDate) -> String {
    let signed = if signs_off && !walked.signed_off {
        "; not signed off"
    } else {
        ""
    };
    format!(
        "{}: {}, {}{signed}",
        walked.title,
        counted(walked.times, "time"),
        since(walked.last, today)
    )
}

fn since(last: NaiveDate, today: NaiveDate) -> String {
    let ago = match (today - last).num_days() {
        ..=0 => "today".to_owned(),
        days => format!("{} ago", counted(usize::try_from(days).unwrap_or(0), "day")),
    };
    let currency = Currency::on(today, last).told();
    format!("the last on {}, {ago}: {currency}", day(last))
}

fn day(day: NaiveDate) -> String {
    day.format("%-d %b %Y").to_string()
}
