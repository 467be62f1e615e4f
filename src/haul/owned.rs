//! Who sees to a defect, and by when: what managers said of it. No word closes one.

use crate::checklist::StepKey;
use crate::due::When;
use crate::haul::{Defect, Standing};
use crate::rules::{Authority, Basis, Verdict};
use crate::units::{Quantity, Typed};
use crate::walk::Words;
use chrono::{DateTime, FixedOffset, NaiveDate};
use std::cmp::Ordering;

/// What a manager said of a defect.
#[derive(Clone, Debug, PartialEq)]
pub struct Owned {
    /// A trip on which it was found.
    pub trip: String,
    /// The step, with its part.
    pub step: StepKey,
    /// Who sees to it, as told.
    pub owner: String,
    /// The last day it is in time.
    pub by_day: Option<NaiveDate>,
    /// The odometer up to which it is in time.
    pub by_odometer: Option<Typed>,
    /// What else was said.
    pub words: Option<Words>,
    /// The manager, by name.
    pub manager: String,
    /// The manager's statement, by its number.
    pub number: u64,
    /// When it was stated, by the manager's clock.
    pub at: DateTime<FixedOffset>,
    /// Its place among everything that managers said.
    pub place: usize,
    /// The places of what its manager knew of, which it takes the place of.
    pub knew: Vec<usize>,
}

/// What due days and odometers are held to.
#[derive(Clone, Copy, Debug)]
pub struct Today<'a> {
    /// The day.
    pub day: NaiveDate,
    /// The odometer typed as the walk begins, where one is.
    pub odometer: Option<&'a Quantity>,
}

impl Owned {
    /// When it is due, with what is left by then; below 0 when it is past.
    pub fn when(&self, today: Today<'_>, furthest: Option<&Quantity>) -> When {
        let at = self.by_odometer.as_ref().map(Typed::quantity);
        let now = further(today.odometer, furthest);
        When {
            date: self.by_day,
            days: self
                .by_day
                .map(|day| day.signed_duration_since(today.day).num_days()),
            odometer: at.cloned(),
            left: at.zip(now).and_then(|(at, now)| at.minus(now)),
            from_past: false,
        }
    }

    /// Whether it is due by a day or at an odometer at all.
    pub const fn is_dated(&self) -> bool {
        self.by_day.is_some() || self.by_odometer.is_some()
    }

    /// Whose word the due day is.
    pub fn basis(&self) -> Basis {
        let day = self.at.format("%Y-%m-%d");
        Basis {
            authority: Authority::Barn,
            source: format!("statement {} of {}, {day}", self.number, self.manager),
        }
    }

    fn is_of(&self, defect: &Defect) -> bool {
        self.step == defect.found.step && defect.trips.contains(&self.trip)
    }
}

impl Defect {
    /// What stands of what managers said of it: what none of them said anything later to, knowing of
    /// it. Several stand only where managers did not know of each other.
    pub fn owners(&self) -> impl Iterator<Item = &Owned> {
        let taken = |one: &Owned| {
            self.owned
                .iter()
                .any(|later| later.knew.contains(&one.place))
        };
        self.owned.iter().filter(move |one| !taken(one))
    }

    /// Whether a day or an odometer by which it was due is past. The furthest odometer since it was
    /// found counts, so that one which runs backward, since another truck pulls, hides nothing.
    pub fn is_overdue(&self, today: Today<'_>) -> bool {
        self.owners().any(|one| {
            let when = one.when(today, self.furthest.as_ref());
            is_past(&when)
        })
    }

    /// What it means today: a note that is overdue is put right before the rig goes on the road.
    pub fn verdict(&self, today: Today<'_>) -> Verdict {
        match self.found.verdict {
            Verdict::Note if self.is_overdue(today) => Verdict::Fix,
            found => found,
        }
    }

    /// Whether it keeps the rig off the road, and does not only warn.
    pub fn blocks(&self, today: Today<'_>) -> bool {
        self.verdict(today).blocks()
    }

    /// Takes in an odometer read since it was found.
    pub(super) fn driven_to(&mut self, odometer: Option<&Quantity>) {
        self.furthest = further(odometer, self.furthest.as_ref()).cloned();
    }
}

impl Standing {
    /// The same, with what managers said of the defects, whether they stand or are closed.
    #[must_use]
    pub fn with_words(mut self, said: &[Owned]) -> Self {
        let closed = self.closed.iter_mut().map(|closed| &mut closed.defect);
        for defect in self.defects.iter_mut().chain(closed) {
            let own = said.iter().filter(|one| one.is_of(defect));
            defect.owned = own.cloned().collect();
        }
        self
    }
}

/// Whether the last day, or the odometer, is behind.
pub fn is_past(when: &When) -> bool {
    let driven = when.left.as_ref();
    when.days.is_some_and(|days| days < 0) || driven.is_some_and(|left| left.value.is_negative())
}

/// Of two odometers the one that shows more; of what cannot be held against each other, the first.
fn further<'q>(one: Option<&'q Quantity>, other: Option<&'q Quantity>) -> Option<&'q Quantity> {
    match (one, other) {
        (Some(one), Some(other)) => {
            let less = one.compare(other) == Some(Ordering::Less);
            Some(if less { other } else { one })
        }
        (one, other) => one.or(other),
    }
}
