//! One thing that stands open, and the marks at which it is read again.

use crate::haul::lasting;
use crate::rules::Carried;
use crate::units::Quantity;
use crate::walk::Words;
use chrono::{DateTime, FixedOffset};

/// Something a walk left that no later one has closed.
#[derive(Clone, Debug, PartialEq)]
pub struct Open {
    /// What, and at which part.
    pub carried: Carried,
    /// The answer that left it.
    pub since: Since,
    /// The distances after that at which it is still to be read; none where the next closing
    /// answer closes it.
    pub marks_left: Vec<Quantity>,
    /// The trip that took the last mark without an odometer.
    taken_by: Option<String>,
}

/// Since when something stands open, and by whom.
#[derive(Clone, Debug, PartialEq)]
pub struct Since {
    /// The trip.
    pub trip: String,
    /// When.
    pub at: DateTime<FixedOffset>,
    /// The odometer of that walk, where it was read.
    pub odometer: Option<Quantity>,
    /// The step, by its key.
    pub step: String,
    /// Who did the work.
    pub who: Words,
}

impl Open {
    /// What was just left.
    pub(super) fn left(carried: Carried, since: Since) -> Self {
        Self {
            marks_left: lasting(carried.what).marks(),
            carried,
            since,
            taken_by: None,
        }
    }

    /// The odometer at which it is next to be read, where it is to be read at one and the
    /// odometer was known when it was left.
    pub fn due_at(&self) -> Option<Quantity> {
        self.dues().into_iter().next()
    }

    /// Every odometer at which it is still to be read.
    pub fn dues(&self) -> Vec<Quantity> {
        let Some(left_at) = &self.since.odometer else {
            return Vec::new();
        };
        let due = |mark: &Quantity| left_at.plus(mark);
        self.marks_left.iter().filter_map(due).collect()
    }

    /// Takes in that it was read again, with this on the odometer, and says whether nothing is
    /// left of it. A reading counts for every mark it was driven past; where the miles are not
    /// known, because an odometer is missing or runs backward, a later walk counts for one mark.
    pub(super) fn read_again(&mut self, trip: &str, odometer: Option<&Quantity>) -> bool {
        match self.driven(odometer) {
            Some(driven) => self
                .marks_left
                .retain(|mark| mark.compare(&driven).is_some_and(std::cmp::Ordering::is_gt)),
            None if self.since.trip == trip || self.taken_by.as_deref() == Some(trip) => {}
            None => {
                self.marks_left = self.marks_left.split_off(1.min(self.marks_left.len()));
                self.taken_by = Some(trip.to_owned());
            }
        }
        self.marks_left.is_empty()
    }

    fn driven(&self, odometer: Option<&Quantity>) -> Option<Quantity> {
        let driven = odometer?.minus(self.since.odometer.as_ref()?)?;
        (!driven.value.is_negative()).then_some(driven)
    }
}
