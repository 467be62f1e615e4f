//! One month of a barn: its days, what was found, what is open.

use crate::desk::BarnDefects;
use crate::haul::{Flagged, Standing};
use crate::record::counted;
use crate::report::flagged::{self, FlaggedTold};
use crate::report::page::{Block, DayCell, Days, Page, list_or, list_to};
use crate::report::standing::{closed, defects};
use crate::report::trips::{Most, Rigs, TripTold, table, weights};
use crate::report::{Cover, Made};
use crate::review::{Day, Glance, Weight, days};
use chrono::{Datelike, Days as Span, Months, NaiveDate};
use serde::Serialize;

/// Most trips, things that were found and sentences of a part, so that two pages hold a full month;
/// the JSON has all.
const MOST_TRIPS: usize = 12;
const MOST_FLAGGED: usize = 24;
const MOST_LINES: usize = 8;

/// What a month's report is made of.
#[derive(Clone, Debug)]
pub struct MonthSources<'a> {
    /// Its first day.
    pub month: NaiveDate,
    /// Its last day.
    pub last: NaiveDate,
    /// Its trips, in order.
    pub glances: Vec<&'a Glance>,
    /// What each of them found not to be well.
    pub flagged: Vec<&'a [Flagged]>,
    /// Trips in the logbook that cannot be looked at, as sentences.
    pub closed: &'a [String],
    /// Questions of managers about its trips that stand, as sentences.
    pub asked: &'a [String],
    /// What may be asked about how its records came about, as sentences.
    pub came_about: &'a [String],
    /// What the walks of each rig had left at its end, by the rig's id.
    pub standing: Vec<(&'a str, &'a Standing)>,
    /// The same as the list of defects has it.
    pub defects: BarnDefects,
    /// How the report came about.
    pub made: &'a Made,
}

/// A month's report.
#[derive(Clone, Debug, Serialize)]
pub struct MonthReport {
    #[serde(flatten)]
    cover: Cover,
    month: String,
    trips: Vec<TripTold>,
    flagged: Vec<FlaggedTold>,
    closed: Vec<String>,
    days: Vec<DayTold>,
    asked: Vec<String>,
    came_about: Vec<String>,
    #[serde(skip)]
    defects: BarnDefects,
    #[serde(skip)]
    stand: Vec<String>,
    #[serde(skip)]
    closed_defects: Vec<String>,
    #[serde(skip)]
    first: NaiveDate,
}

#[derive(Clone, Debug, Serialize)]
struct DayTold {
    date: NaiveDate,
    trips: usize,
    worst: &'static str,
    open: usize,
}

impl MonthReport {
    /// The report of a month.
    pub fn of(from: &MonthSources<'_>) -> Self {
        let of_rig = |(rig, standing): &(&str, &Standing)| {
            let all = defects(standing, from.last).into_iter();
            all.map(|told| format!("{rig}: {told}")).collect::<Vec<_>>()
        };
        let in_month =
            |at: NaiveDate| (at.year(), at.month()) == (from.month.year(), from.month.month());
        let ended = from.standing.iter().flat_map(|(rig, standing)| {
            let own = standing.closed.iter();
            let own = own.filter(|one| in_month(one.by.at.date_naive()));
            own.map(move |one| format!("{rig}: {}", closed(one)))
        });
        let glances = from.glances.iter().copied();
        let days = days(glances.clone());
        Self {
            cover: Cover::new("month", from.made),
            month: from.month.format("%Y-%m").to_string(),
            trips: from.glances.iter().map(|one| TripTold::of(one)).collect(),
            flagged: flagged::told(glances.zip(from.flagged.iter().copied())),
            closed: from.closed.to_vec(),
            days: days.iter().map(DayTold::of).collect(),
            asked: from.asked.to_vec(),
            came_about: from.came_about.to_vec(),
            stand: from.standing.iter().flat_map(of_rig).collect(),
            defects: closed_in(from.defects.clone(), in_month),
            closed_defects: ended.collect(),
            first: from.month,
        }
    }

    /// The defects at its end, with those that were closed in it.
    pub const fn defects(&self) -> &BarnDefects {
        &self.defects
    }

    /// Laid out for people.
    pub(super) fn page(&self) -> Page {
        let title = self.first.format("%B %Y").to_string();
        let mut page = self.cover.page(title, self.about());
        page.part("Day by day", vec![Block::Days(self.calendar())]);
        page.part("What was found, the gravest first", self.found());
        page.part("What stands open", self.stands());
        page.part("Not signed, not countersigned", self.open());
        page.part(
            "What may be asked about how records came about",
            self.asks(),
        );
        page
    }

    fn about(&self) -> Vec<String> {
        let trips = weights(&self.trips);
        let closed = (!self.closed.is_empty()).then(|| {
            format!(
                "{} of the logbook cannot be looked at, and may be of this month: {}",
                counted(self.closed.len(), "trip"),
                self.closed.join("; ")
            )
        });
        std::iter::once(trips).chain(closed).collect()
    }

    fn calendar(&self) -> Days {
        let before = u64::from(self.first.weekday().num_days_from_sunday());
        let start = self.first.checked_sub_days(Span::new(before));
        let next = self.first.checked_add_months(Months::new(1));
        let (start, next) = (start.unwrap_or(self.first), next.unwrap_or(self.first));
        let all: Vec<NaiveDate> = start.iter_days().take_while(|day| *day < next).collect();
        let weeks = all.chunks(7).map(|week| {
            let cells = week.iter().map(|day| self.cell(*day));
            let empty = std::iter::repeat(None);
            cells.chain(empty).take(7).collect()
        });
        Days {
            caption: "Each day with its trips, the worst there was, and how many no manager has \
                      agreed to (open)."
                .to_owned(),
            weeks: weeks.collect(),
        }
    }

    fn cell(&self, date: NaiveDate) -> Option<DayCell> {
        if date < self.first {
            return None;
        }
        let day = self.days.iter().find(|day| day.date == date);
        let lines = day.map_or_else(Vec::new, |day| {
            let open = (day.open > 0).then(|| format!("{} open", day.open));
            let all = [counted(day.trips, "trip"), day.worst.to_owned()];
            all.into_iter().chain(open).collect()
        });
        Some(DayCell {
            day: date.day(),
            lines,
            strong: day.is_some_and(|day| ["stopped", "doubtful"].contains(&day.worst)),
        })
    }

    fn found(&self) -> Vec<Block> {
        let doubtful = self
            .trips
            .iter()
            .filter(|trip| trip.weighs == Weight::Doubtful);
        let caption =
            "Trips whose record is in question: what stands below of them counts for little.";
        let doubtful = table(caption, doubtful, Most(MOST_TRIPS, Rigs::Several));
        let flagged = flagged::table(&self.flagged, MOST_FLAGGED).map(Block::Table);
        let none = || Block::Words("No step was found to be other than well.".to_owned());
        let doubtful = doubtful.map(Block::Table).into_iter();
        doubtful.chain([flagged.unwrap_or_else(none)]).collect()
    }

    fn stands(&self) -> Vec<Block> {
        let mut blocks = vec![list_or(
            &self.stand,
            "No defect stood at the end of the month, as far as signed walks tell.",
        )];
        if !self.closed_defects.is_empty() {
            blocks.push(Block::Words(
                "Defects closed in the month, the last of each rig:".to_owned(),
            ));
            blocks.extend(list_to(&self.closed_defects, MOST_LINES));
        }
        if !self.asked.is_empty() {
            blocks.push(Block::Words(
                "Asked by managers, and not answered:".to_owned(),
            ));
            blocks.extend(list_to(&self.asked, MOST_LINES));
        }
        blocks
    }

    fn open(&self) -> Vec<Block> {
        let unsigned = self.trips.iter().filter(|trip| !trip.is_signed);
        let waiting = self
            .trips
            .iter()
            .filter(|trip| trip.is_signed && trip.is_open);
        let tables = [
            table(
                "Trips that nobody has signed for.",
                unsigned,
                Most(MOST_TRIPS, Rigs::Several),
            ),
            table(
                "Signed, and no manager has agreed to it yet.",
                waiting,
                Most(MOST_TRIPS, Rigs::Several),
            ),
        ];
        let tables: Vec<Block> = tables.into_iter().flatten().map(Block::Table).collect();
        if tables.is_empty() {
            let none = "Every trip is signed, and a manager has agreed to each.";
            return vec![Block::Words(none.to_owned())];
        }
        tables
    }

    fn asks(&self) -> Vec<Block> {
        if self.came_about.is_empty() {
            return Vec::new();
        }
        let each = "Each with what gave rise to it and the honest reasons there may be. None is a \
                    verdict on a person, and a record without one is not proved by that.";
        let mut blocks = vec![Block::Words(each.to_owned())];
        blocks.extend(list_to(&self.came_about, MOST_LINES));
        blocks
    }
}

/// Of what was closed only what was closed on such a day.
fn closed_in(mut barn: BarnDefects, is_in: impl Fn(NaiveDate) -> bool) -> BarnDefects {
    for rig in &mut barn.rigs {
        rig.closed
            .retain(|one| is_in(one.closed.by.at.date_naive()));
    }
    barn
}

impl DayTold {
    fn of(day: &Day) -> Self {
        Self {
            date: day.date,
            trips: day.trips,
            worst: day.worst.key(),
            open: day.open,
        }
    }
}
