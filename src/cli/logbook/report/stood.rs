//! The defects of rigs as they stood on a day that is past, as the list of defects has them.

use crate::cli::clerk::Left;
use crate::desk::{BarnDefects, ClosedDefect, RigDefects, StandingDefect};
use crate::haul::{Standing, Today};
use chrono::NaiveDate;

/// What these rigs, each by its id and its name, had left on that day. Which lists that keeps back
/// is not asked here: a report goes where nobody has them.
pub(super) fn on<'s>(
    day: NaiveDate,
    left: &Left,
    rigs: impl IntoIterator<Item = (&'s str, &'s str, &'s Standing)>,
) -> BarnDefects {
    let rigs = rigs.into_iter();
    let of_rig = |(id, name, standing): (&str, &str, &Standing)| RigDefects {
        rig: id.to_owned(),
        name: name.to_owned(),
        standing: open(day, left, standing),
        closed: closed(left, standing),
        odometer: standing.odometer.as_ref().map(|read| read.shown.clone()),
    };
    BarnDefects {
        day,
        rigs: rigs.map(of_rig).collect(),
        of_none: Vec::new(),
        notices: Vec::new(),
    }
}

fn open(day: NaiveDate, left: &Left, standing: &Standing) -> Vec<StandingDefect> {
    let today = Today {
        day,
        odometer: None,
    };
    let open = standing.defects.iter().map(|defect| {
        let lists = (Vec::new(), Ok(Vec::new()));
        StandingDefect::of(defect.clone(), today, left.place(&defect.trip), lists)
    });
    let mut open: Vec<StandingDefect> = open.collect();
    open.sort_by_key(|one| one.rank(today));
    open
}

fn closed(left: &Left, standing: &Standing) -> Vec<ClosedDefect> {
    let closed = standing.closed.iter().rev().map(|closed| ClosedDefect {
        trip: left.place(&closed.defect.trip),
        by_trip: left.place(&closed.trip),
        closed: closed.clone(),
    });
    closed.collect()
}
