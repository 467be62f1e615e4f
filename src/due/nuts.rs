//! Wheel nuts after a wheel was off: due by an event and a few miles, not by the calendar.

use crate::due::{Due, When};
use crate::figures::{Each, Fact, Facts, Figure, Today};
use crate::rig::Rig;
use crate::rules::{Authority, Basis, Verdict};
use crate::units::Quantity;

/// The next look at the nuts of each axle that had a wheel off lately. Without an
/// odometer nothing is known of it here; the walks ask for it then.
pub(super) fn all(rig: &Rig, odometer: Option<&Quantity>) -> Vec<Due> {
    let Some(read) = odometer else {
        return Vec::new();
    };
    let facts = Facts::default().with(Fact::Odometer, read.clone());
    let today = Today { rig, facts: &facts };
    let mut wheels = Each::TrailerWheel.items(rig);
    wheels.dedup_by_key(|wheel| wheel.index);
    let axles = Each::TrailerAxle.items(rig).into_iter();
    axles
        .filter_map(|axle| {
            let wheel = wheels.iter().find(|wheel| wheel.index == axle.index)?;
            let next = Figure::WheelRecheckAt.of(today, Some(wheel)).ok()?;
            let off = rig.trailer.axles.get(axle.index)?.wheel_off_at.as_ref()?;
            Some(Due {
                what: "wheel nuts".to_owned(),
                of: Some(format!("{} axle", axle.name())),
                verdict: Verdict::Note,
                when: When {
                    left: next.quantity.minus(read),
                    odometer: Some(next.quantity),
                    ..When::default()
                },
                why: format!(
                    "A wheel was off at {}, so its nuts are set again as the miles go by.",
                    off.quantity
                ),
                basis: Basis {
                    authority: Authority::Default,
                    source: next.from,
                },
                way_out: None,
            })
        })
        .collect()
}
