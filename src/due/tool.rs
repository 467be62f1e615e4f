//! Instruments by their calibration: every gauge and torque wrench, and whatever else has a day of
//! calibration in the file.

use crate::due::history::{Last, filed};
use crate::due::interval::{Every, usual};
use crate::due::service::{self, calibrated};
use crate::due::{Done, Due, Now};
use crate::rig::{Instrument, Rig, ServiceKind};
use crate::rules::Verdict;

pub(super) fn all(rig: &Rig, now: &Now, done: &[Done]) -> Vec<Due> {
    let tools = rig.instruments.iter();
    tools.filter_map(|tool| one(rig, tool, now, done)).collect()
}

/// A tape needs none, and is left out: nobody said it was ever calibrated.
fn one(rig: &Rig, tool: &Instrument, now: &Now, done: &[Done]) -> Option<Due> {
    let what = service(tool);
    let own = tool.calibrated.map(|on| Last {
        on,
        odometer: None,
        walked: None,
    });
    if what.is_none() && own.is_none() {
        return None;
    }
    let mine = |done: &&Done| {
        let item = done.item.as_ref();
        Some(done.what) == what && item.is_none_or(|item| *item == tool.id)
    };
    let walked = done.iter().filter(mine).map(Last::by);
    let last = walked.fold(
        Last::later(what.and_then(|what| filed(rig, what)), own),
        |last, next| Last::later(last, Some(next)),
    );
    // The barn's other tools are held to what gauges are.
    let every = what.map_or_else(
        || usual(ServiceKind::PressureGauge),
        |what| Every::of(rig, what),
    );
    Some(service::of(
        "calibration".to_owned(),
        Some(tool.name.clone()),
        Verdict::Note,
        &every,
        last.as_ref(),
        now,
    ))
}

fn service(tool: &Instrument) -> Option<ServiceKind> {
    let mut kinds = ServiceKind::WORDS.into_iter().map(|(_, what)| what);
    kinds.find(|what| calibrated(*what) == Some(tool.kind))
}
