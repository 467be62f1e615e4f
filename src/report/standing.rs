//! Defects of a rig, as every report tells them.

use crate::desk::earlier;
use crate::haul::{Closed, Standing, Today};
use chrono::NaiveDate;

/// What was found bad and stood so on this day, those that keep the rig off the road first.
pub(super) fn defects(standing: &Standing, day: NaiveDate) -> Vec<String> {
    let today = Today {
        day,
        odometer: None,
    };
    let defects = earlier::defects(standing, today).into_iter().map(|card| {
        let off = if card.blocks { "OFF THE ROAD. " } else { "" };
        format!("{off}{}", card.told)
    });
    defects.collect()
}

/// A defect that was closed, and by what.
pub(super) fn closed(closed: &Closed) -> String {
    let by = &closed.by;
    format!(
        "{}. Closed: {}, {}, {}, {}",
        earlier::told(&closed.defect),
        by.found,
        by.verdict.word(),
        by.who,
        earlier::date(&by.at)
    )
}
