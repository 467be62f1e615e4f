//! The shipped lists laid on the demo rigs.

use chrono::DateTime;
use hames::checklist::{Checklist, Plan, shipped_by_default};
use hames::figures::Each;
use hames::rig::Rig;
use hames::rig::demo::{JUNIPER, MESQUITE};
use hames::rules::{Carried, Carry};
use hames::walk::{Moment, Walk, Words};
use std::fmt;

/// A shipped list and a rig it is for.
#[derive(Clone)]
pub(crate) struct Laid {
    pub(crate) list: Checklist,
    pub(crate) rig: Rig,
}

impl fmt::Display for Laid {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} on {}", self.list.id, self.rig.id)
    }
}

pub(crate) fn rigs() -> [Rig; 2] {
    [JUNIPER, MESQUITE].map(|text| Rig::read(text).unwrap())
}

/// Every shipped list with every demo rig of its kind.
pub(crate) fn laid() -> Vec<Laid> {
    let lists = shipped_by_default().map(|put| &put.checklist);
    let pairs = lists.flat_map(|list| rigs().map(|rig| (list.clone(), rig)));
    let own = pairs.filter(|(list, rig)| list.rigs.contains(&rig.kind()));
    own.map(|(list, rig)| Laid { list, rig }).collect()
}

/// Everything an earlier walk can leave, for every part it can be left for.
pub(crate) fn everything_carried(rig: &Rig) -> Vec<Carried> {
    let mut carried = Vec::new();
    for (_, what) in Carry::WORDS {
        let each = match what {
            Carry::WheelOff | Carry::HubWarm => Some(Each::TrailerWheel),
            // Of one wheel only, so that `unless` leaves the others.
            Carry::TorqueLoose => None,
            _ => {
                carried.push(Carried { what, part: None });
                continue;
            }
        };
        let wheels = Each::TrailerWheel.items(rig).into_iter();
        let parts = if each.is_some() { wheels.len() } else { 1 };
        carried.extend(wheels.take(parts).map(|wheel| Carried {
            what,
            part: Some(wheel.id),
        }));
    }
    carried
}

pub(crate) fn moment() -> Moment {
    Moment {
        wall: DateTime::parse_from_rfc3339("2026-11-25T07:30:00-05:00").unwrap(),
        boot: "boot-1".to_owned(),
        mono_ms: 1_000_000,
    }
}

pub(crate) fn begin(laid: &Laid, carried: Vec<Carried>) -> Walk {
    begin_with(laid.list.clone(), laid.rig.clone(), carried)
        .unwrap_or_else(|gaps| panic!("{laid}: {gaps:?}"))
}

pub(crate) fn begin_with(
    list: Checklist,
    rig: Rig,
    carried: Vec<Carried>,
) -> Result<Walk, Vec<hames::checklist::Gap>> {
    let words = |text| Words::read(text).unwrap();
    let plan = Plan::lay_for(list, rig, carried)?;
    Ok(Walk::begin(
        plan,
        words("Wren Ashdown"),
        words("Tobias Fenn"),
        moment(),
    ))
}
