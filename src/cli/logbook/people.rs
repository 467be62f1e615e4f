//! `hames logbook people`: who is signed off for what, and who has walked it and when.

use crate::cli::Status;
use crate::cli::args::PeopleArgs;
use crate::cli::clerk::{Books, Drilled, Plans, TripRead};
use crate::cli::logbook::shelf::Failed;
use crate::cli::logbook::unknown;
use crate::cli::logbook::{AboutLogbook, demo_line};
use crate::cli::lot::{Lot, lots};
use crate::document::nearest;
use crate::drill::{Currency, Progress};
use crate::plain;
use crate::record::Id;
use crate::review::{DrilledSection, Lists, OnRig, People, Person, Practice, RodeList};
use crate::store::{Local, TripFolder};
use crate::world::{Machine, World};
use chrono::NaiveDate;
use serde::Serialize;
use serde_json::json;
use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

const SCHEMA: &str = "hames-people/1";

pub(super) fn people(
    asked: &PeopleArgs,
    about: &AboutLogbook,
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    let today = Machine::this().now().wall.date_naive();
    let Some(people) = gather(about.place())? else {
        let sentence = "This logbook has no crew file that can be read. See why with: hames doctor";
        return Err(Failed::Said(Status::Store, sentence.to_owned()));
    };
    if let Some(fault) = unknown(&people, asked) {
        return Err(Failed::Said(Status::Usage, fault));
    }
    if asked.json {
        for (person, rig) in chosen(&people, asked) {
            let told = Told::of(person, rig, today);
            serde_json::to_writer(&mut *out, &told).map_err(io::Error::from)?;
            writeln!(out)?;
        }
        for person in people.all().iter().filter(|one| is_asked(one, asked)) {
            for drilled in &person.drills {
                writeln!(out, "{}", drilled_told(person, drilled, today))?;
            }
            for ride in &person.rides {
                writeln!(out, "{}", ride_told(person, ride))?;
            }
        }
        return Ok(Status::Fine);
    }
    demo_line(about, out)?;
    let wanted = plain::PeopleWanted {
        today,
        person: asked.person.as_deref(),
        rig: asked.rig.as_deref(),
    };
    write!(out, "{}", plain::people_report(&people, wanted))?;
    Ok(Status::Fine)
}

/// The people of the crew in force, by the walks that verification finds nothing wrong with.
fn gather(place: &Path) -> Result<Option<People>, Failed> {
    let mut plans = Plans::default();
    let lots = lots(&[place.to_owned()], &[])?;
    let Some(lot) = lots.first() else {
        return Ok(None);
    };
    let roster = lot.statements.roster();
    let in_force = roster.in_force().map(|revision| &revision.crew);
    let Some(crew) = in_force.or(lot.crews.first()) else {
        return Ok(None);
    };
    let practice = practice(lot, &mut plans, crew)?;
    let drills = drills(place)?;
    Ok(Some(People::of(crew, roster, &practice, &drills)))
}

/// How far everybody is with their drills.
fn drills(place: &Path) -> Result<BTreeMap<Id, Progress>, Failed> {
    let Ok(books) = Books::open(&Local, place) else {
        return Ok(BTreeMap::new());
    };
    let played = Drilled::default().of(&books.drills())?;
    let who: BTreeSet<&Id> = played.iter().map(|(who, _)| who).collect();
    let progress = |id: &Id| {
        let own = played.iter().filter(|(who, _)| who == id);
        Progress::of(own.map(|(_, played)| played))
    };
    Ok(who
        .into_iter()
        .map(|id| (id.clone(), progress(id)))
        .collect())
}

fn is_asked(person: &Person, asked: &PeopleArgs) -> bool {
    let wanted = asked.person.as_ref();
    wanted.is_none_or(|wanted| person.is_named(wanted))
}

/// A section somebody drilled, as JSON.
fn drilled_told(person: &Person, drilled: &DrilledSection, today: NaiveDate) -> serde_json::Value {
    json!({
        "schema": "hames-drilled/1",
        "person": person.id.as_str(),
        "checklist": drilled.checklist.0,
        "section": drilled.section.0,
        "stage": drilled.stage.word(),
        "last": drilled.last,
        "currency": Currency::on(today, drilled.last).key(),
    })
}

/// A check ride somebody rode, as JSON.
fn ride_told(person: &Person, ride: &RodeList) -> serde_json::Value {
    json!({
        "schema": "hames-ridden/1",
        "person": person.id.as_str(),
        "checklist": ride.checklist.0,
        "revision": ride.ridden.revision,
        "rigs": ride.ridden.rigs.word(),
        "day": ride.day,
        "examiner": ride.ridden.examiner,
        "passed": ride.ridden.passed,
        "signed_off": ride.signed_off,
    })
}

fn practice(
    lot: &Lot,
    plans: &mut Plans,
    crew: &crate::record::Crew,
) -> Result<Vec<Practice>, Failed> {
    let mut read: HashMap<PathBuf, (Id, Practice)> = HashMap::new();
    let mut see = |folder: &TripFolder, trip: &TripRead| {
        if let (Some(verified), Ok(walk)) = (trip.trip(), trip.walk())
            && let Some(practice) = Practice::of(verified, &walk, crew)
        {
            let id = verified.begun().trip.clone();
            read.insert(folder.path.clone(), (id, practice));
        }
    };
    let section = lot.judge_seeing(plans, None, &mut see)?;
    let lines = section.lines.iter();
    let counted = lines.filter(|line| Practice::counts(line.finding(&section.judged)));
    let mut once: HashSet<Id> = HashSet::new();
    let counted = counted.filter_map(|line| read.remove(&line.folder.path));
    Ok(counted
        .filter(|(id, _)| once.insert(id.clone()))
        .map(|(_, practice)| practice)
        .collect())
}

/// A sentence where somebody or something is asked for that is not here.
fn unknown(people: &People, asked: &PeopleArgs) -> Option<String> {
    let all = people.all().iter();
    if let Some(wanted) = asked.person.as_ref()
        && !all.clone().any(|one| one.is_named(wanted))
    {
        let names: BTreeSet<&str> = all.map(|one| one.name.as_str()).collect();
        let meant = unknown::nearest_name(wanted, &names);
        return Some(format!(
            "Nobody in the crew is called “{}”{}",
            wanted.escape_debug(),
            unknown::there_is(meant, "They are", &names)
        ));
    }
    let rig = asked.rig.as_ref()?;
    let known: BTreeSet<&str> = all
        .flat_map(|one| one.rigs.iter().map(|on| on.rig.as_str()))
        .collect();
    (!known.contains(rig.as_str())).then(|| {
        let meant = nearest(rig, known.iter().copied());
        format!(
            "No walk and no sign-off here names a rig “{}”{}",
            rig.escape_debug(),
            unknown::there_is(meant, "Rigs that are named", &known)
        )
    })
}

fn chosen<'p>(
    people: &'p People,
    asked: &'p PeopleArgs,
) -> impl Iterator<Item = (&'p Person, &'p OnRig)> {
    let all = people.all().iter();
    let all = all.filter(move |one| is_asked(one, asked));
    let on = all.flat_map(|one| one.rigs.iter().map(move |rig| (one, rig)));
    on.filter(move |(_, on)| asked.rig.as_ref().is_none_or(|rig| on.rig == *rig))
}

/// A person and a rig as JSON.
#[derive(Serialize)]
struct Told<'p> {
    schema: &'static str,
    person: &'p str,
    name: &'p str,
    roles: Vec<&'static str>,
    rig: &'p str,
    /// `false`, `true` for every list, or these.
    signed_off: SignedOffTold<'p>,
    walks: usize,
    last: Option<NaiveDate>,
    currency: &'static str,
    lists: Vec<ListTold<'p>>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum SignedOffTold<'p> {
    All(bool),
    These(Vec<&'p str>),
}

#[derive(Serialize)]
struct ListTold<'p> {
    checklist: &'p str,
    signed_off: bool,
    walks: usize,
    last: NaiveDate,
    currency: &'static str,
}

impl<'p> Told<'p> {
    fn of(person: &'p Person, on: &'p OnRig, today: NaiveDate) -> Self {
        let currency = |last| Currency::on(today, last).key();
        Self {
            schema: SCHEMA,
            person: person.id.as_str(),
            name: person.name.as_str(),
            roles: person.roles.iter().map(|role| role.word()).collect(),
            rig: &on.rig,
            signed_off: match &on.signed_off {
                Lists::No => SignedOffTold::All(false),
                Lists::Every => SignedOffTold::All(true),
                Lists::These(ids) => SignedOffTold::These(ids.iter().map(Id::as_str).collect()),
            },
            walks: on.times(),
            last: on.last(),
            currency: on.last().map_or("never", currency),
            lists: on
                .walked
                .iter()
                .map(|one| ListTold {
                    checklist: &one.checklist,
                    signed_off: one.signed_off,
                    walks: one.times,
                    last: one.last,
                    currency: currency(one.last),
                })
                .collect(),
        }
    }
}
