//! `hames logbook defects`: every defect of the barn, by rig.

use crate::cli::Status;
use crate::cli::amount::Amount;
use crate::cli::args::DefectsArgs;
use crate::cli::clerk::{Books, Clerk, Place};
use crate::cli::logbook::shelf::Failed;
use crate::cli::logbook::unknown;
use crate::cli::logbook::{AboutLogbook, demo_line};
use crate::cli::supply;
use crate::desk::{BarnDefects, ClosedDefect, RigDefects, StandingDefect};
use crate::haul::{Defect, Found, Owned, Today};
use crate::plain;
use crate::rules::Limit;
use crate::store::Local;
use crate::units::Typed;
use crate::walk::Words;
use crate::world::Machine;
use chrono::NaiveDate;
use serde::Serialize;
use std::io::{self, Write};

const SCHEMA: &str = "hames-defects/1";

pub(super) fn defects(
    asked: &DefectsArgs,
    about: &AboutLogbook,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failed> {
    let root = about.place().to_owned();
    let mode = Books::open(&Local, &root)?.mode();
    let place = Place { root, mode };
    let stock = supply::all(&place);
    let mut barn = Clerk::new(Local, Machine::this(), place, stock).defects()?;
    for notice in &barn.notices {
        writeln!(err, "{notice}")?;
    }
    if let Some(only) = &asked.rig {
        unknown::rig(only, barn.rigs.iter().map(|rig| rig.rig.as_str()))?;
        barn.rigs.retain(|rig| rig.rig == *only);
        barn.of_none.clear();
    }
    if asked.json {
        json(&barn, asked.all, out)?;
    } else {
        demo_line(about, out)?;
        write!(out, "{}", plain::defects_report(&barn, asked.all))?;
    }
    Ok(if barn.rigs.iter().any(RigDefects::is_off_the_road) {
        Status::Findings
    } else {
        Status::Fine
    })
}

fn json(barn: &BarnDefects, all: bool, out: &mut dyn Write) -> io::Result<()> {
    for told in objects(barn, all) {
        serde_json::to_writer(&mut *out, &told?)?;
        writeln!(out)?;
    }
    Ok(())
}

/// Each defect as JSON: those that stand, and of each rig behind them those that were closed.
fn objects(barn: &BarnDefects, all: bool) -> impl Iterator<Item = Made<Told<'_>>> {
    barn.rigs.iter().flat_map(move |rig| {
        let standing = rig.standing.iter();
        let open = standing.map(|one| Told::standing(rig, one, barn.today()));
        let closed = rig.closed.iter().filter(move |_| all);
        open.chain(closed.map(|one| Told::closed(rig, one)))
    })
}

/// The same for a report, which goes where nobody has the lists of this laptop.
pub(super) fn reported(barn: &BarnDefects) -> Made<Vec<Told<'_>>> {
    let without_lists = |told: Made<_>| {
        Ok(Told {
            keeps_back: None,
            asked_by: None,
            ..told?
        })
    };
    objects(barn, true).map(without_lists).collect()
}

/// A defect as JSON.
#[derive(Serialize)]
pub(super) struct Told<'d> {
    schema: &'static str,
    rig: &'d str,
    step: &'d str,
    name: &'d str,
    /// What it means today; `found_as` what it was found to be.
    verdict: &'static str,
    found_as: &'static str,
    found: &'d str,
    limit: Option<LimitTold<'d>>,
    remark: Option<&'d str>,
    who: &'d str,
    at: String,
    trip: &'d str,
    place: &'d str,
    list: &'d str,
    since: String,
    trips: &'d [String],
    overdue: bool,
    owners: Vec<OwnerTold<'d>>,
    blocks: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    keeps_back: Option<&'d [String]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    asked_by: Option<&'d [String]>,
    closed: Option<ClosedTold<'d>>,
}

#[derive(Serialize)]
struct LimitTold<'d> {
    at: Amount,
    side: &'static str,
    authority: &'static str,
    source: &'d str,
}

/// What a manager said; `stands` says whether nothing later took its place.
#[derive(Serialize)]
struct OwnerTold<'d> {
    owner: &'d str,
    stands: bool,
    by_day: Option<NaiveDate>,
    days: Option<i64>,
    by_odometer: Option<Amount>,
    left: Option<Amount>,
    words: Option<&'d str>,
    manager: &'d str,
    statement: u64,
    stated: String,
}

#[derive(Serialize)]
struct ClosedTold<'d> {
    step: &'d str,
    found: &'d str,
    who: &'d str,
    at: String,
    trip: &'d str,
    place: &'d str,
    days: i64,
    by_the_finder: bool,
}

impl<'d> Told<'d> {
    fn standing(rig: &'d RigDefects, one: &'d StandingDefect, today: Today<'_>) -> Made<Self> {
        let asked_by = one.asked_by.as_deref().unwrap_or_default();
        Ok(Self {
            verdict: one.verdict.word(),
            overdue: one.overdue,
            blocks: one.verdict.blocks(),
            keeps_back: Some(&one.keeps_back),
            asked_by: Some(asked_by),
            ..Self::of(rig, (&one.defect, &one.trip), Some(today))?
        })
    }

    fn closed(rig: &'d RigDefects, one: &'d ClosedDefect) -> Made<Self> {
        let by: &Found = &one.closed.by;
        Ok(Self {
            closed: Some(ClosedTold {
                step: by.step.as_str(),
                found: &by.found,
                who: by.who.as_str(),
                at: by.at.to_rfc3339(),
                trip: &one.closed.trip,
                place: &one.by_trip,
                days: one.closed.days(),
                by_the_finder: one.closed.by_the_finder(),
            }),
            ..Self::of(rig, (&one.closed.defect, &one.trip), None)?
        })
    }

    fn of(
        rig: &'d RigDefects,
        (defect, place): (&'d Defect, &'d str),
        today: Option<Today<'_>>,
    ) -> Made<Self> {
        let found = &defect.found;
        let owners = defect
            .owned
            .iter()
            .map(|said| OwnerTold::of(defect, said, today));
        Ok(Self {
            schema: SCHEMA,
            rig: &rig.rig,
            step: found.step.as_str(),
            name: &found.name,
            verdict: found.verdict.word(),
            found_as: found.verdict.word(),
            found: &found.found,
            limit: found.limit.as_ref().map(LimitTold::of).transpose()?,
            remark: found.remark.as_ref().map(Words::as_str),
            who: found.who.as_str(),
            at: found.at.to_rfc3339(),
            trip: &defect.trip,
            place,
            list: &defect.list,
            since: defect.since.to_rfc3339(),
            trips: &defect.trips,
            overdue: false,
            owners: owners.collect::<Made<_>>()?,
            blocks: false,
            keeps_back: Some(&[]),
            asked_by: Some(&[]),
            closed: None,
        })
    }
}

pub(super) type Made<T> = Result<T, serde_json::Error>;

impl<'d> LimitTold<'d> {
    fn of(limit: &'d Limit) -> Made<Self> {
        Ok(Self {
            at: Amount::of(&limit.bound)?,
            side: limit.side.word(),
            authority: limit.basis.authority.word(),
            source: &limit.basis.source,
        })
    }
}

impl<'d> OwnerTold<'d> {
    fn of(defect: &Defect, said: &'d Owned, today: Option<Today<'_>>) -> Made<Self> {
        // What is closed has nothing left to it.
        let when = today.map(|today| said.when(today, defect.furthest.as_ref()));
        let at = said.by_odometer.as_ref().map(Typed::quantity);
        Ok(Self {
            owner: &said.owner,
            stands: defect.owners().any(|one| one.place == said.place),
            by_day: said.by_day,
            days: when.as_ref().and_then(|when| when.days),
            by_odometer: at.map(Amount::of).transpose()?,
            left: when
                .and_then(|when| when.left)
                .as_ref()
                .map(Amount::of)
                .transpose()?,
            words: said.words.as_ref().map(Words::as_str),
            manager: &said.manager,
            statement: said.number,
            stated: said.at.to_rfc3339(),
        })
    }
}
