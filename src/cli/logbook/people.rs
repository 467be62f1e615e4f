//! `hames logbook people`: who is signed off for what, and who has walked it and when.

use crate::cli::Status;
use crate::cli::args::PeopleArgs;
use crate::cli::clerk::{Plans, TripRead};
use crate::cli::logbook::shelf::Failed;
use crate::cli::logbook::unknown;
use crate::cli::logbook::{AboutLogbook, demo_line};
use crate::cli::lot::{Lot, lots};
use crate::document::nearest;
use crate::plain;
use crate::record::Id;
use crate::review::{Currency, Lists, OnRig, People, Person, Practice};
use crate::store::TripFolder;
use crate::world::{Machine, World};
use chrono::NaiveDate;
use serde::Serialize;
use std::collections::{BTreeSet, HashMap, HashSet};
use std::io::{self, Write};
use std::path::PathBuf;

const SCHEMA: &str = "hames-people/1";

pub(super) fn people(
    asked: &PeopleArgs,
    about: &AboutLogbook,
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    let today = Machine::this().now().wall.date_naive();
    let Some(people) = gather(about.place().to_owned())? else {
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
fn gather(place: PathBuf) -> Result<Option<People>, Failed> {
    let mut plans = Plans::default();
    let lots = lots(&[place], &[])?;
    let Some(lot) = lots.first() else {
        return Ok(None);
    };
    let roster = lot.statements.roster();
    let in_force = roster.in_force().map(|revision| &revision.crew);
    let Some(crew) = in_force.or(lot.crews.first()) else {
        return Ok(None);
    };
    let practice = practice(lot, &mut plans, crew)?;
    Ok(Some(People::of(crew, roster, &practice)))
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
    let all = all.filter(move |one| {
        let wanted = asked.person.as_ref();
        wanted.is_none_or(|wanted| one.is_named(wanted))
    });
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
