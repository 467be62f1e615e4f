//! # Height gap of a level frame
//!
//! A trailer that stands nose high or nose low carries more on one axle and steers worse. Two marks
//! on its frame, a known base apart, show the pitch as a difference of their heights.
//!
//! `g = L · tan 0.5°`, with `g` and the base `L` in the same unit. Valid for small angles on ground
//! that is itself level. The half degree is common practice, no source; the tangent is taken as
//! 0.0087, a third of a percent on the strict side, so that the figure reads plainly.

use crate::figures::attitude_level::{self, Nose};
use crate::figures::{Fact, Found, Input, Lacking, Today};
use crate::rig::Rig;
use crate::units::{Exact, Quantity, Unit};

/// The most the two frame marks may differ in height.
pub(crate) fn gap(rig: &Rig) -> Option<Found> {
    let base = &rig.trailer.frame_base.quantity;
    let tangent = Exact::ratio(87, 10_000)?;
    Some(Found {
        quantity: base.times(&tangent),
        from: format!("half a degree over the frame base of {base}"),
        by_maker: false,
        working: None,
    })
}

/// The rear mark at half a degree: higher than that, the trailer is nose low.
pub(crate) fn rear_high(today: &Today<'_>) -> Result<Found, Lacking> {
    rear(today, half_a_degree(today)?, Nose::Low)
}

/// The rear mark at half a degree: lower than that, the trailer is nose high.
pub(crate) fn rear_low(today: &Today<'_>) -> Result<Found, Lacking> {
    rear(today, half_a_degree(today)?, Nose::High)
}

/// The highest the rear mark may stand before an axle passes its limit.
pub(crate) fn rear_highest(today: &Today<'_>) -> Result<Found, Lacking> {
    rear(
        today,
        attitude_level::most(today.rig, Nose::Low)?,
        Nose::Low,
    )
}

/// The lowest the rear mark may stand before an axle passes its limit.
pub(crate) fn rear_lowest(today: &Today<'_>) -> Result<Found, Lacking> {
    let gap = attitude_level::most(today.rig, Nose::High)?;
    rear(today, gap, Nose::High)
}

fn half_a_degree(today: &Today<'_>) -> Result<Found, Lacking> {
    gap(today.rig).ok_or(Lacking::Absent)
}

/// Where the rear mark may stand by this gap: above the lowest, or below the highest, that the
/// front mark may be by its tape; to a tenth, on the strict side.
fn rear(today: &Today<'_>, gap: Found, nose: Nose) -> Result<Found, Lacking> {
    let fact = Fact::FrontMark;
    let read = today.facts.get(fact).ok_or(Lacking::Unread(fact))?;
    let (front, side) = match nose {
        Nose::Low => (today.facts.least(fact), "plus"),
        Nose::High => (today.facts.most(fact), "less"),
    };
    let front = front.and_then(|front| front.in_unit(Unit::Inch));
    let inches = gap.quantity.in_unit(Unit::Inch);
    let tenth = Exact::ratio(1, 10);
    let (front, inches, tenth) = match (front, inches, tenth) {
        (Some(front), Some(inches), Some(tenth)) => (front.value, inches.value, tenth),
        _ => return Err(Lacking::Absent),
    };
    let value = match nose {
        Nose::Low => (&front + &inches).down_to(&tenth),
        Nose::High => (&front - &inches).up_to(&tenth),
    };
    let mut working = gap.working;
    if let Some(working) = &mut working {
        working.inputs.push(Input {
            what: "front mark".to_owned(),
            value: read.to_string(),
            from: "read today".to_owned(),
        });
    }
    Ok(Found {
        quantity: Quantity::new(value.ok_or(Lacking::Absent)?, Unit::Inch),
        from: format!(
            "front mark read as {read}, {side} {}: {}",
            gap.quantity, gap.from
        ),
        by_maker: false,
        working,
    })
}

#[cfg(test)]
mod tests {
    use crate::figures::Figure;
    use crate::rig::Rig;
    use crate::rig::demo::JUNIPER;

    /// 150 in times tan 0.5° is 1.309 in; taken as 0.0087 it is 1.305 in.
    #[test]
    fn marks_150_inches_apart_may_differ_by_a_little_over_an_inch_and_a_quarter() {
        let juniper = Rig::read(JUNIPER).unwrap();
        let gap = Figure::LevelGap.of(&juniper, None).unwrap();
        assert_eq!(gap.quantity.to_string(), "1.305 in");
        assert_eq!(gap.from, "half a degree over the frame base of 150 in");
    }
}
