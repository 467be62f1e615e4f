//! The three reports, each from a logbook that was read.

use super::drawn;
use super::stood;
use super::whole::{self, Whole};
use crate::cli::Status;
use crate::cli::logbook::known::Known;
use crate::cli::logbook::shelf::{Failed, name};
use crate::cli::logbook::{show, unknown};
use crate::cli::supply::settings;
use crate::desk::Tale;
use crate::document::nearest;
use crate::due::{Day, Walked, due_by, odometer};
use crate::haul::{Past, Standing};
use crate::logbook::table::OpenQuestion;
use crate::record::{Finding, counted};
use crate::report::{
    MonthReport, MonthSources, Report, RigReport, RigSources, TripReport, TripSources,
};
use crate::review::{Asking, Filter, Glance};
use chrono::{Datelike, Months, NaiveDate};
use std::collections::BTreeSet;
use std::path::Path;

/// A report, or why there is none.
pub(in crate::cli::logbook) enum Reported {
    /// It, and the status to end with.
    Made(Report, Status),
    /// Of a trip that cannot be walked again only this can be told.
    Shut(Tale, Status),
}

/// The report of the trip that is meant.
pub(in crate::cli::logbook) fn trip(typed: &str, place: &Path) -> Result<Reported, Failed> {
    let made = whole::made(place)?;
    let known = Known::read(place)?.unwrap_or_default();
    let open = match show::open(typed, place, &known)? {
        Ok(open) => open,
        Err(shut) => return Ok(Reported::Shut(shut.tale, Status::Verified(shut.finding))),
    };
    let (Some(trip), Ok(walk)) = (open.read.trip(), open.read.walk()) else {
        return Ok(Reported::Shut(
            open.told.tale,
            Status::Verified(open.finding),
        ));
    };
    let (own, rig) = (&trip.begun().trip, &trip.begun().rig.id);
    let over = known.left.ended(own);
    let before = |past: &Past| over.is_none_or(|over| past.at <= over);
    let is_own = |past: &Past| past.trip == own.as_str();
    let standing = (
        &known.left.by(rig, |past| before(past) && !is_own(past)),
        &known.left.by(rig, before),
    );
    let day = trip.at().wall.date_naive();
    let name_of = walk.plan().rig().name.as_str();
    let stood =
        |standing: &Standing| stood::on(day, &known.left, [(rig.as_str(), name_of, standing)]);
    let report = TripReport::of(&TripSources {
        trip,
        walk: &walk,
        opened: &open.told,
        folder: &name(&open.read.folder),
        finding: open.finding,
        statements: &known.statements,
        answers: &known.answers,
        standing,
        defects: (stood(standing.0), stood(standing.1)),
        picture: Some(drawn::of_walk(&walk, &open.told.exceptions)),
        made: &made,
    });
    let status = match open.finding {
        Finding::Intact | Finding::NotCountersigned | Finding::Unsealed => Status::Fine,
        finding => Status::Verified(finding),
    };
    Ok(Reported::Made(Report::Trip(Box::new(report)), status))
}

/// The history of a rig in these days.
pub(in crate::cli::logbook) fn rig(
    id: &str,
    (since, until): (Option<NaiveDate>, Option<NaiveDate>),
    place: &Path,
) -> Result<Reported, Failed> {
    unknown::days(since, until)?;
    let whole = whole::read(place, until)?;
    let report = rig_of(&whole, (id, (since, until)), place)?;
    Ok(Reported::Made(report, Status::Fine))
}

/// The same of a logbook that was read up to the last day.
pub(in crate::cli::logbook) fn rig_of(
    whole: &Whole,
    (id, (since, until)): (&str, (Option<NaiveDate>, Option<NaiveDate>)),
    place: &Path,
) -> Result<Report, Failed> {
    let made = whole::made(place)?;
    let Some(rig) = whole.rigs.get(id) else {
        let walked: BTreeSet<&str> = whole.rigs.keys().map(String::as_str).collect();
        let named = "Rigs walked up to then";
        let sentence = format!(
            "There is no rig “{}” among the trips here{}",
            id.escape_debug(),
            unknown::there_is(nearest(id, walked.iter().copied()), named, &walked)
        );
        return Err(Failed::Said(Status::Usage, sentence));
    };
    let filter = Filter {
        rig: Some(id.to_owned()),
        since,
        until,
        ..Filter::default()
    };
    let glances = whole.trips.iter().map(|(glance, _)| glance);
    let glances: Vec<&Glance> = glances.filter(|glance| filter.takes(glance)).collect();
    let standing = left_by(whole, id, until);
    let years = settings(place).ok().flatten();
    let years = years.map(|barn| barn.tires).unwrap_or_default();
    let walked = Walked {
        done: &standing.served,
        odometer: standing.odometer.as_ref(),
    };
    let today = made.at.date_naive();
    let day = match until {
        Some(until) if until < today => Day::Past(until),
        until => Day::Today(until.unwrap_or(today)),
    };
    let due = due_by(years, rig, day, None, walked);
    let trends = whole.trends.told(since, years, day);
    let report = RigReport::of(&RigSources {
        rig: id,
        name: &rig.name,
        days: (since, until),
        asked: &asked(&whole.open, &glances),
        glances,
        closed: &whole.closed,
        trends: trends.iter().find(|one| one.rig == id),
        standing: &standing,
        day,
        defects: stood::on(
            day.date(),
            &whole.left,
            [(id, rig.name.as_str(), &standing)],
        ),
        due: &due,
        odometer: odometer(rig, day, None, walked).as_ref(),
        picture: Some(drawn::of_rig(rig)),
        made: &made,
    });
    Ok(Report::Rig(Box::new(report)))
}

/// One month of the barn.
pub(in crate::cli::logbook) fn month(first: NaiveDate, place: &Path) -> Result<Reported, Failed> {
    let made = whole::made(place)?;
    let last = first.checked_add_months(Months::new(1));
    let last = last.and_then(|next| next.pred_opt()).unwrap_or(first);
    let whole = whole::read(place, Some(last))?;
    let filter = Filter {
        since: Some(first),
        until: Some(last),
        ..Filter::default()
    };
    let glances = whole.trips.iter().map(|(glance, _)| glance);
    let glances: Vec<&Glance> = glances.filter(|glance| filter.takes(glance)).collect();
    if glances.is_empty() {
        return Err(none_of(first, &whole));
    }
    let left = whole
        .rigs
        .keys()
        .map(|rig| (rig, left_by(&whole, rig, Some(last))));
    let left: Vec<(&String, Standing)> = left.collect();
    let named = left.iter().map(|(rig, standing)| {
        let name = whole.rigs.get(*rig).map_or("", |rig| &rig.name);
        (rig.as_str(), name, standing)
    });
    let came_about = whole.came_about.iter();
    let in_month =
        |one: &&Asking| (one.of.at.year(), one.of.at.month()) == (first.year(), first.month());
    let came_about: Vec<String> = came_about
        .filter(in_month)
        .map(|one| format!("{}/{}: {}", one.of.device, one.of.seq, one.what))
        .collect();
    let report = MonthReport::of(&MonthSources {
        month: first,
        last,
        asked: &asked(&whole.open, &glances),
        flagged: glances.iter().map(|trip| whole.flagged(trip)).collect(),
        glances,
        closed: &whole.closed,
        came_about: &came_about,
        standing: left
            .iter()
            .map(|(rig, left)| (rig.as_str(), left))
            .collect(),
        defects: stood::on(last, &whole.left, named),
        made: &made,
    });
    Ok(Reported::Made(
        Report::Month(Box::new(report)),
        Status::Fine,
    ))
}

/// Of a month without a trip there is nothing to report; a trip that cannot be looked at may be of it.
fn none_of(month: NaiveDate, whole: &Whole) -> Failed {
    let known = whole.trips.iter().map(|(glance, _)| glance.at.date_naive());
    let mut sentence = unknown::no_trip_of(month, known);
    if !whole.closed.is_empty() {
        let closed = counted(whole.closed.len(), "trip");
        let which = whole.closed.join("; ");
        sentence = format!("{sentence} {closed} cannot be looked at, and may be of it: {which}.");
    }
    Failed::Said(Status::Usage, sentence)
}

/// What the walks of a rig had left on the evening of the last day.
fn left_by(whole: &Whole, rig: &str, until: Option<NaiveDate>) -> Standing {
    match until {
        Some(until) => whole.left.on(rig, until),
        None => whole.left.by(rig, |_| true),
    }
}

/// What managers asked about these trips, and what still stands.
fn asked(open: &[OpenQuestion], trips: &[&Glance]) -> Vec<String> {
    let about = open.iter().filter(|one| {
        let mut trips = trips.iter();
        trips.any(|trip| trip.trip == one.trip)
    });
    let told = about.map(|one| {
        format!(
            "{}/{}: {} asked on {}, in statement {}: “{}”",
            one.device,
            one.seq,
            one.by,
            one.at.format("%Y-%m-%d %H:%M"),
            one.statement,
            one.question
        )
    });
    told.collect()
}
