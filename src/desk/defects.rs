//! Every defect of a barn, by rig: what stands, the gravest and most overdue first, and what was
//! closed, as the list of them and the act of giving one an owner take it.

use crate::desk::earlier::date;
use crate::haul::{Closed, Defect, Owned, Today};
use crate::rules::Verdict;
use crate::text::ended;
use crate::units::Quantity;
use chrono::NaiveDate;
use std::cmp::Reverse;

/// The defects of a whole barn.
#[derive(Clone, Debug, PartialEq)]
pub struct BarnDefects {
    /// The day it is told by.
    pub day: NaiveDate,
    /// By rig, by its id.
    pub rigs: Vec<RigDefects>,
    /// What managers said of defects that are not here, each with why.
    pub of_none: Vec<(Owned, String)>,
    /// Trips that cannot be relied on.
    pub notices: Vec<String>,
}

/// The defects of one rig.
#[derive(Clone, Debug, PartialEq)]
pub struct RigDefects {
    /// The rig, by its id.
    pub rig: String,
    /// Its name.
    pub name: String,
    /// What stands, the gravest and most overdue first.
    pub standing: Vec<StandingDefect>,
    /// What was closed, the newest first.
    pub closed: Vec<ClosedDefect>,
    /// The furthest odometer known.
    pub odometer: Option<Quantity>,
}

/// A defect that stands.
#[derive(Clone, Debug, PartialEq)]
pub struct StandingDefect {
    /// It.
    pub defect: Defect,
    /// What it means today.
    pub verdict: Verdict,
    /// Whether it is overdue.
    pub overdue: bool,
    /// The trip it was last found on, by laptop and number.
    pub trip: String,
    /// The newest trip it was found on that somebody signed for, likewise: it is by that one that a
    /// manager names it.
    pub signed_trip: Option<String>,
    /// The titles of the lists that it keeps from being begun.
    pub keeps_back: Vec<String>,
    /// The titles of the lists that ask its step, or the command of the walk that does.
    pub asked_by: Result<Vec<String>, String>,
}

/// A defect that was closed.
#[derive(Clone, Debug, PartialEq)]
pub struct ClosedDefect {
    /// It, and the answer that closed it.
    pub closed: Closed,
    /// The trip it was last found on, by laptop and number.
    pub trip: String,
    /// The trip of the closing answer, likewise.
    pub by_trip: String,
}

impl BarnDefects {
    /// What due days are held to.
    pub const fn today(&self) -> Today<'static> {
        Today {
            day: self.day,
            odometer: None,
        }
    }
}

impl RigDefects {
    /// Whether something keeps it off the road.
    pub fn is_off_the_road(&self) -> bool {
        self.standing.iter().any(|one| one.verdict.blocks())
    }
}

impl StandingDefect {
    /// A defect as it is today.
    pub fn of(
        defect: Defect,
        today: Today<'_>,
        trip: String,
        (keeps_back, asked_by): (Vec<String>, Result<Vec<String>, String>),
    ) -> Self {
        Self {
            verdict: defect.verdict(today),
            overdue: defect.is_overdue(today),
            defect,
            signed_trip: None,
            trip,
            keeps_back,
            asked_by,
        }
    }

    /// By which they are ordered: the gravest, the most overdue, those due soonest, the oldest.
    pub fn rank(&self, today: Today<'_>) -> impl Ord + use<> {
        let furthest = self.defect.furthest.as_ref();
        let when = self.defect.owners().map(|one| one.when(today, furthest));
        let days = when.filter_map(|when| when.days).min();
        (
            Reverse(self.verdict),
            Reverse(self.overdue),
            days.unwrap_or(i64::MAX),
            self.defect.since,
        )
    }

    /// What was found, by whom, when, where and against which limit, in sentences.
    pub fn told(&self) -> Vec<String> {
        let found = &self.defect.found;
        let mut told = vec![format!(
            "{}. {}, {}, trip {}, {}.",
            found.found,
            found.who,
            date(&found.at),
            self.trip,
            self.defect.list
        )];
        told.extend(found.limit.as_ref().map(|limit| {
            let (side, bound) = (limit.side.word().replace('-', " "), limit.bound.shown(3));
            format!("Limit: {side} {bound} ({}).", limit.basis)
        }));
        told.extend(
            found
                .remark
                .as_ref()
                .map(|words| ended(&format!("“{words}”"))),
        );
        told.extend(again(&self.defect));
        told
    }

    /// The command that gives it an owner; none where nobody has signed for a trip it was found on.
    pub fn assign(&self) -> Option<String> {
        let (trip, step) = (self.signed_trip.as_ref()?, &self.defect.found.step);
        Some(format!("hames logbook assign {trip} {step} --owner ID"))
    }
}

/// Since when it stands, where it was found on several trips.
pub fn again(defect: &Defect) -> Option<String> {
    let (times, since) = (defect.trips.len(), date(&defect.since));
    (times > 1).then(|| format!("Found on {times} trips, first {since}."))
}

/// What a manager said, and where: `Wren Ashdown sees to it by 2026-12-01 (statement 4 of …)`.
pub fn stated(said: &Owned) -> String {
    let day = said
        .by_day
        .map_or_else(String::new, |day| format!(" by {day}"));
    let at = said.by_odometer.as_ref();
    let at = at.map_or_else(String::new, |at| format!(" at {at}"));
    let words = said.words.as_ref();
    let words = words.map_or_else(String::new, |words| format!(", “{words}”"));
    format!(
        "{} sees to it{day}{at}{words} ({})",
        said.owner,
        said.basis().source
    )
}
