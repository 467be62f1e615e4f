//! When a service was last done: by the rig file, or by a walk since.

use crate::due::Done;
use crate::figures::{Each, Item};
use crate::rig::{Rig, ServiceKind};
use crate::units::Quantity;
use chrono::NaiveDate;

/// The last time a service was done.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Last {
    pub(super) on: NaiveDate,
    pub(super) odometer: Option<Quantity>,
    /// Who did it on which trip, where a walk has it.
    pub(super) walked: Option<(String, String)>,
}

/// What is known of a service: of the part that has waited longest, where parts differ.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Known {
    pub(super) last: Option<Last>,
    pub(super) part: Option<String>,
}

impl Last {
    pub(super) fn by(done: &Done) -> Self {
        Self {
            on: done.on,
            odometer: done.odometer.clone(),
            walked: Some((done.by.clone(), done.trip.clone())),
        }
    }

    /// The later of two. Of one day, what a walk says: it has a name under it.
    pub(super) fn later(one: Option<Self>, other: Option<Self>) -> Option<Self> {
        match (one, other) {
            (Some(one), Some(other)) => Some(if other.on >= one.on { other } else { one }),
            (one, other) => one.or(other),
        }
    }
}

/// When the file says it was last done.
pub(super) fn filed(rig: &Rig, what: ServiceKind) -> Option<Last> {
    let last = rig.service(what)?.last.as_ref()?;
    Some(Last {
        on: last.on,
        odometer: last.odometer.clone(),
        walked: None,
    })
}

/// When a service was last done to the whole rig. Where walks did it part by part, it is as old as
/// at the part that has waited longest.
pub(super) fn known(rig: &Rig, what: ServiceKind, done: &[Done]) -> Known {
    let done = || done.iter().filter(|done| done.what == what);
    let each = parts(what).iter().find_map(|each| {
        let items = each.items(rig);
        done()
            .any(|done| is_one_of(done, &items))
            .then_some((*each, items))
    });
    let is_part = |done: &Done| matches!(&each, Some((_, items)) if is_one_of(done, items));
    let whole = done()
        .filter(|done| !is_part(done))
        .map(Last::by)
        .fold(filed(rig, what), |last, next| Last::later(last, Some(next)));
    let Some((each, items)) = &each else {
        return Known {
            last: whole,
            part: None,
        };
    };
    let ages = items.iter().map(|item| {
        let own = done().filter(|done| done.item.as_ref() == Some(&item.id));
        let last = own
            .map(Last::by)
            .fold(whole.clone(), |last, next| Last::later(last, Some(next)));
        (item, last)
    });
    let ages: Vec<_> = ages.collect();
    let alike = ages.windows(2).all(|pair| match pair {
        [(_, one), (_, other)] => {
            one.as_ref().map(|last| last.on) == other.as_ref().map(|last| last.on)
        }
        _ => true,
    });
    // Nothing is before any day, so a part of which nothing is known has waited longest.
    let oldest = ages
        .into_iter()
        .min_by_key(|(_, last)| last.as_ref().map(|last| last.on));
    oldest.map_or_else(Known::default, |(item, last)| Known {
        last,
        part: (!alike).then(|| format!("{} {}", item.name(), noun(*each))),
    })
}

fn is_one_of(done: &Done, items: &[Item]) -> bool {
    items
        .iter()
        .any(|item| done.item.as_ref() == Some(&item.id))
}

/// What a service may be done to one by one.
fn parts(what: ServiceKind) -> &'static [Each] {
    match what {
        ServiceKind::WheelBearings
        | ServiceKind::BrakeAdjustment
        | ServiceKind::BrakeInspection
        | ServiceKind::Tires
        | ServiceKind::TirePressure => &[Each::TrailerWheel, Each::TrailerAxle],
        ServiceKind::Chains => &[Each::Chain],
        _ => &[],
    }
}

fn noun(each: Each) -> &'static str {
    match each {
        Each::TrailerWheel => "wheel",
        Each::TrailerAxle | Each::TruckAxle => "axle",
        Each::Chain => "chain",
        Each::Horse => "horse",
    }
}
