//! The history of one rig: what stands open and is due, how its readings move, its trips.

use crate::desk::trend::limit_alone;
use crate::desk::{BarnDefects, DueCard, earlier, told_due};
use crate::due::{Day, Due, Odometer, reckoned};
use crate::haul::Standing;
use crate::record::counted;
use crate::report::chart::chart;
use crate::report::page::{Block, Chart, Page, Row, Table, list, list_or};
use crate::report::standing::{closed, defects};
use crate::report::trips::{Most, Rigs, TripTold, by_weight, table, weights};
use crate::report::{Cover, Made, Picture};
use crate::review::trend::{RigTrends, Series};
use crate::review::{Glance, Weight};
use chrono::NaiveDate;
use serde::Serialize;
use std::collections::BTreeMap;

/// Most trips that stand in a row each, so that a year takes two pages.
const MOST_TRIPS: usize = 6;

/// Most questions of managers that are told; the JSON has all.
const MOST_ASKED: usize = 6;

/// Most closed defects that are told; the JSON has all.
const MOST_CLOSED: usize = 5;

/// Fewest points that are drawn.
const LEAST_POINTS: usize = 3;

/// What a rig's report is made of.
#[derive(Clone, Debug)]
pub struct RigSources<'a> {
    /// The rig, by its id.
    pub rig: &'a str,
    /// Its name.
    pub name: &'a str,
    /// The first and the last day that is told of, where they were named.
    pub days: (Option<NaiveDate>, Option<NaiveDate>),
    /// Its trips in that time, in order.
    pub glances: Vec<&'a Glance>,
    /// Trips in the logbook that cannot be looked at, as sentences.
    pub closed: &'a [String],
    /// How its readings move, up to the last day.
    pub trends: Option<&'a RigTrends>,
    /// What its walks left, up to the last day.
    pub standing: &'a Standing,
    /// The last day that is told of, or today.
    pub day: Day,
    /// The same as the list of defects has it, on that day.
    pub defects: BarnDefects,
    /// What is due for it on that day, by the file it had on its newest walk.
    pub due: &'a [Due],
    /// From which odometer the distance that is left is reckoned.
    pub odometer: Option<&'a Odometer>,
    /// Questions of managers about its trips that stand, as sentences.
    pub asked: &'a [String],
    /// The rig drawn.
    pub picture: Option<Picture>,
    /// How the report came about.
    pub made: &'a Made,
}

/// A rig's report.
#[derive(Clone, Debug, Serialize)]
pub struct RigReport {
    #[serde(flatten)]
    cover: Cover,
    rig: String,
    name: String,
    since: Option<NaiveDate>,
    until: Option<NaiveDate>,
    trips: Vec<TripTold>,
    closed: Vec<String>,
    open: Vec<String>,
    due: Vec<DueTold>,
    asked: Vec<String>,
    #[serde(skip)]
    defects: BarnDefects,
    #[serde(skip)]
    day: Day,
    #[serde(skip)]
    stand: Vec<String>,
    #[serde(skip)]
    closed_defects: Vec<String>,
    #[serde(skip)]
    trends: Option<RigTrends>,
    #[serde(skip)]
    odometer: Option<Odometer>,
    #[serde(skip)]
    reckoned_from: Option<String>,
    #[serde(skip)]
    matters: Vec<String>,
    #[serde(skip)]
    picture: Option<Picture>,
}

#[derive(Clone, Debug, Serialize)]
struct DueTold {
    what: String,
    verdict: &'static str,
    date: Option<NaiveDate>,
    told: String,
}

impl RigReport {
    /// The report of a rig.
    pub fn of(from: &RigSources<'_>) -> Self {
        let due = from.due.iter().map(|due| DueTold {
            what: due.name(),
            verdict: due.verdict.word(),
            date: due.when.date,
            told: told_due(due),
        });
        Self {
            cover: Cover::new("rig", from.made),
            rig: from.rig.to_owned(),
            name: from.name.to_owned(),
            since: from.days.0,
            until: from.days.1,
            trips: from.glances.iter().map(|one| TripTold::of(one)).collect(),
            closed: from.closed.to_vec(),
            day: from.day,
            stand: defects(from.standing, from.day.date()),
            defects: from.defects.clone(),
            open: earlier::opens(from.standing),
            closed_defects: from.standing.closed.iter().map(closed).collect(),
            due: due.collect(),
            reckoned_from: reckoned(from.due, from.odometer),
            asked: from.asked.to_vec(),
            trends: from.trends.cloned(),
            odometer: from.odometer.cloned(),
            matters: matters(from.due),
            picture: from.picture.clone(),
        }
    }

    /// The defects of the rig, with those that were closed.
    pub const fn defects(&self) -> &BarnDefects {
        &self.defects
    }

    /// How its readings move.
    pub const fn trends(&self) -> Option<&RigTrends> {
        self.trends.as_ref()
    }

    /// From which odometer the distance that is left is reckoned, where any is told.
    pub fn odometer(&self) -> Option<(&Odometer, NaiveDate)> {
        let odometer = self
            .odometer
            .as_ref()
            .filter(|_| self.reckoned_from.is_some());
        Some((odometer?, self.day.date()))
    }

    fn series(&self) -> &[Series] {
        self.trends.as_ref().map_or(&[], |trends| &trends.series)
    }

    /// Laid out for people.
    pub(super) fn page(&self) -> Page {
        let title = format!("History of {}", self.name);
        let mut page = self.cover.page(title, self.about());
        page.picture.clone_from(&self.picture);
        page.part("What stands open", self.stands());
        page.part(self.due_title(), self.what_is_due());
        let (asks, quiet): (Vec<&Series>, Vec<&Series>) =
            self.series().iter().partition(|one| one.ask.is_some());
        page.part("How its readings move: what there is to ask", asked(&asks));
        page.part("How its readings move: what is quiet", quietly(&quiet));
        page.part("Its trips", self.walked());
        page
    }

    fn about(&self) -> Vec<String> {
        let days = match (self.since, self.until) {
            (None, None) => "Everything this logbook holds of it.".to_owned(),
            (Some(since), None) => format!("From {since} on."),
            (None, Some(until)) => format!("Up to {until}."),
            (Some(since), Some(until)) => format!("From {since} to {until}."),
        };
        let trips = weights(&self.trips);
        let open = self.trips.iter().filter(|trip| trip.is_open).count();
        let open = format!("{open} of them no manager has agreed to yet.");
        let closed = match self.closed.len() {
            0 => None,
            some => Some(format!(
                "{} of the logbook cannot be looked at and may be of this rig: {}",
                counted(some, "trip"),
                self.closed.join("; ")
            )),
        };
        let rig = format!("Rig {}. {days}", self.rig);
        [rig, trips, open].into_iter().chain(closed).collect()
    }

    fn stands(&self) -> Vec<Block> {
        let mut blocks = vec![list_or(
            &[self.stand.clone(), self.open.clone()].concat(),
            "Its signed walks left nothing open, and no defect stands.",
        )];
        if !self.asked.is_empty() {
            blocks.push(Block::Words(
                "Asked by managers, and not answered, the newest first:".to_owned(),
            ));
            let newest = self.asked.iter().rev().take(MOST_ASKED).cloned();
            let more = self.asked.len().saturating_sub(MOST_ASKED);
            let more = (more > 0).then(|| format!("and {more} more, in the JSON of this report"));
            blocks.push(Block::Run(newest.chain(more).collect()));
        }
        if !self.closed_defects.is_empty() {
            blocks.push(Block::Words(
                "Defects closed last, the newest first:".to_owned(),
            ));
            let newest = self.closed_defects.iter().rev().take(MOST_CLOSED);
            blocks.extend(list(&newest.cloned().collect::<Vec<_>>()));
        }
        blocks
    }

    const fn due_title(&self) -> &'static str {
        match self.day {
            Day::Today(_) => "What is due",
            Day::Past(_) => "What was due by then",
        }
    }

    fn what_is_due(&self) -> Vec<Block> {
        let later = self.due.iter().filter(|due| due.verdict == "ok");
        let mut later: Vec<&DueTold> = later.collect();
        later.sort_by_key(|due| due.date.unwrap_or(NaiveDate::MAX));
        let later: Vec<String> = later
            .into_iter()
            .map(|due| due.told.trim_start_matches("ok: ").to_owned())
            .collect();
        let (counted, nothing) = match self.day {
            Day::Today(day) => (
                format!("Days are counted from {day}."),
                "Nothing is due now or soon.",
            ),
            Day::Past(day) => (
                format!("As it stood on {day}: days are counted from then."),
                "Nothing was due then or soon after.",
            ),
        };
        let mut blocks = vec![Block::Words(counted), list_or(&self.matters, nothing)];
        blocks.extend(self.reckoned_from.clone().map(Block::Words));
        if !later.is_empty() {
            blocks.push(Block::Words("In time still:".to_owned()));
            blocks.push(Block::Run(later));
        }
        blocks
    }

    fn walked(&self) -> Vec<Block> {
        let grave = self.trips.iter();
        let grave = grave.filter(|trip| trip.weighs >= Weight::Fixed);
        let caption = "Trips on which something had to be put right, or more than that.";
        let mut blocks = vec![Block::Table(self.by_month())];
        blocks.extend(table(caption, grave, Most(MOST_TRIPS, Rigs::One)).map(Block::Table));
        blocks
    }

    fn by_month(&self) -> Table {
        let mut months: BTreeMap<&str, Vec<&TripTold>> = BTreeMap::new();
        for trip in &self.trips {
            let month = trip.at.get(..7).unwrap_or_default();
            months.entry(month).or_default().push(trip);
        }
        let rows = months.into_iter().map(|(month, trips)| {
            let counts = by_weight(trips.iter().copied());
            let open = trips.iter().filter(|trip| trip.is_open).count();
            let cells = [trips.len()].into_iter().chain(counts).chain([open]);
            let cells = cells.map(|count| count.to_string());
            Row {
                cells: std::iter::once(month.to_owned()).chain(cells).collect(),
                strong: false,
            }
        });
        Table {
            caption: "Trips by month, by the worst there was, and how many no manager has agreed \
                      to."
            .to_owned(),
            heads: vec![
                "Month",
                "Trips",
                "Clear",
                "Noted",
                "Put right",
                "Stopped",
                "Doubtful",
                "Open",
            ],
            rows: rows.collect(),
        }
    }
}

/// What is due now or soon, or of what nobody can say when.
fn matters(due: &[Due]) -> Vec<String> {
    let cards = DueCard::of(due).into_iter();
    let told = cards.map(|card| format!("{} {}", card.told, card.why));
    told.collect()
}

fn asked(asks: &[&Series]) -> Vec<Block> {
    let each: Vec<Chart> = asks.iter().map(|series| chart(series)).collect();
    if each.is_empty() {
        return Vec::new();
    }
    vec![Block::Charts(each)]
}

/// What has a few points is drawn; the rest is a line each.
fn quietly(quiet: &[&Series]) -> Vec<Block> {
    let (drawn, told): (Vec<&Series>, Vec<&Series>) =
        quiet.iter().partition(|series| is_drawn(series));
    let drawn: Vec<Chart> = drawn.into_iter().map(chart).collect();
    let told = told.into_iter().map(|series| {
        let Chart { title, told, .. } = chart(series);
        format!("{title}: {}", told.join(" "))
    });
    let told: Vec<String> = told.collect();
    let limits = (!drawn.is_empty()).then(|| Block::Words(limits(quiet)));
    let drawn = (!drawn.is_empty()).then_some(Block::Small(drawn));
    let told = (!told.is_empty()).then_some(Block::Run(told));
    drawn.into_iter().chain(limits).chain(told).collect()
}

/// The limits of what is drawn small, each of a kind once, with whose word it is.
fn limits(quiet: &[&Series]) -> String {
    let drawn = quiet.iter().filter(|one| is_drawn(one));
    let mut each: Vec<String> = Vec::new();
    for series in drawn {
        let told = format!("{} {}", series.kind.title(), limit_alone(series));
        if !each.contains(&told) {
            each.push(told);
        }
    }
    format!("Limits: {}.", each.join("; "))
}

/// Fewer points say no more than their words.
fn is_drawn(series: &Series) -> bool {
    series.points.len() >= LEAST_POINTS
}
