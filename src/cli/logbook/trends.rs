//! `hames logbook trends`: how the readings of each rig move over its trips.

pub(super) mod json;

use crate::cli::Status;
use crate::cli::args::{TrendsArgs, What};
use crate::cli::clerk::{Plans, TripRead};
use crate::cli::command::quoted;
use crate::cli::logbook::shelf::Failed;
use crate::cli::logbook::unknown;
use crate::cli::logbook::{AboutLogbook, demo_line};
use crate::cli::lot::lots;
use crate::cli::supply::settings;
use crate::due::Day;
use crate::plain;
use crate::record::{Finding, Id};
use crate::review::trend::{RigTrends, Trends};
use crate::store::TripFolder;
use crate::world::{Machine, World};
use chrono::NaiveDate;
use std::collections::HashSet;
use std::io::{self, Write};
use std::path::PathBuf;

/// Tells what moves.
pub(super) fn trends(
    asked: &TrendsArgs,
    about: &AboutLogbook,
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    let (followed, closed) = gather(&about.places)?;
    let all = followed.told(asked.since, &about.places);
    if let Some(rig) = &asked.rig {
        unknown::rig(rig, all.iter().map(|one| one.rig.as_str()))?;
    }
    let is_any = !all.is_empty();
    let told: Vec<RigTrends> = all
        .into_iter()
        .filter(|one| asked.rig.as_ref().is_none_or(|rig| *rig == one.rig))
        .map(|one| only(one, asked.what))
        .collect();
    if asked.json {
        for rig in &told {
            json::tell(rig, out)?;
        }
    } else {
        demo_line(about, out)?;
        tell(&told, is_any, out)?;
        for (path, finding) in &closed {
            writeln!(
                out,
                "Not counted, a trip that is {finding}. See why:\n  hames verify {}",
                quoted(path)
            )?;
        }
    }
    let asks = told.iter().flat_map(|rig| &rig.series);
    let asks = asks.filter(|series| series.ask.is_some()).count();
    Ok(if asks > 0 || told.is_empty() {
        Status::Findings
    } else {
        Status::Fine
    })
}

/// The readings of trips that were taken in one after the other.
#[derive(Default)]
pub(super) struct Followed {
    trends: Trends,
    seen: HashSet<Id>,
}

impl Followed {
    /// Takes the next trip in, and says whether it counts: it can be walked again. One that lies
    /// there twice counts once.
    pub(super) fn take(&mut self, read: &TripRead) -> bool {
        let (Some(trip), Ok(walk)) = (read.trip(), read.walk()) else {
            return false;
        };
        if self.seen.insert(trip.begun().trip.clone()) {
            self.trends.take((trip, &walk));
        }
        true
    }

    /// How they move, from this day on or as far back as each kind is looked at; tires as
    /// they are today, by the years that the barn of these places has set.
    pub(super) fn told(&self, since: Option<NaiveDate>, places: &[PathBuf]) -> Vec<RigTrends> {
        let mut places = places.iter();
        let barn = places.find_map(|place| settings(place).ok().flatten());
        let years = barn.map(|barn| barn.tires).unwrap_or_default();
        let today = Machine::this().now().wall.date_naive();
        self.trends.told(since, years, Day::Today(today))
    }
}

/// Reads every trip once, and keeps of it what is followed.
fn gather(places: &[PathBuf]) -> Result<(Followed, Vec<(PathBuf, Finding)>), Failed> {
    let (mut plans, mut followed) = (Plans::default(), Followed::default());
    let mut closed = Vec::new();
    for lot in lots(places, &[])? {
        let mut counted: HashSet<PathBuf> = HashSet::new();
        let mut see = |folder: &TripFolder, read: &TripRead| {
            if followed.take(read) {
                counted.insert(folder.path.clone());
            }
        };
        let section = lot.judge_seeing(&mut plans, None, &mut see)?;
        let lines = section.lines.iter();
        let others = lines.filter(|line| !counted.contains(&line.folder.path));
        closed.extend(others.map(|line| (line.folder.path.clone(), line.finding(&section.judged))));
    }
    Ok((followed, closed))
}

/// What was asked for alone.
fn only(mut rig: RigTrends, what: Option<What>) -> RigTrends {
    if let Some(what) = what {
        rig.series.retain(|one| Some(one.kind) == what.kind());
        if what != What::TireAge {
            rig.tires.clear();
        }
    }
    rig
}

fn tell(told: &[RigTrends], is_any: bool, out: &mut dyn Write) -> io::Result<()> {
    if told.is_empty() {
        let sentence = if is_any {
            "No reading here is followed."
        } else {
            "No trip here can be looked at."
        };
        return writeln!(out, "{sentence}");
    }
    for (at, rig) in told.iter().enumerate() {
        if at > 0 {
            writeln!(out)?;
        }
        write!(out, "{}", plain::trend_report(rig))?;
        if rig.series.is_empty() && rig.tires.is_empty() {
            writeln!(out, "  No reading of it is of that kind.")?;
        }
    }
    Ok(())
}
