//! # Height gap of a level frame
//!
//! A trailer that stands nose high or nose low carries more on one axle and steers worse. Two marks
//! on its frame, a known base apart, show the pitch as a difference of their heights.
//!
//! `g = L · tan 0.5°`, with `g` and the base `L` in the same unit. Valid for small angles on ground
//! that is itself level. The half degree is common practice, no source; the tangent is taken as
//! 0.0087, a third of a percent on the strict side, so that the figure reads plainly.

use crate::figures::{Fact, Found, Lacking, Today};
use crate::rig::Rig;
use crate::units::{Exact, Quantity};

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

/// The highest the rear mark may stand by half a degree: the trailer is then nose low.
pub(crate) fn rear_high(today: &Today<'_>) -> Result<Found, Lacking> {
    higher(today, &half_a_degree(today)?)
}

/// The lowest the rear mark may stand by half a degree: the trailer is then nose high.
pub(crate) fn rear_low(today: &Today<'_>) -> Result<Found, Lacking> {
    lower(today, &half_a_degree(today)?)
}

fn half_a_degree(today: &Today<'_>) -> Result<Found, Lacking> {
    gap(today.rig).ok_or(Lacking::Absent)
}

/// The front mark, at the lowest it may be by its tape, and so much above it.
fn higher(today: &Today<'_>, gap: &Found) -> Result<Found, Lacking> {
    let front = today.facts.least(Fact::FrontMark);
    beside(today, front, &gap.quantity, &gap.from)
}

/// The front mark, at the highest it may be by its tape, and so much below it.
fn lower(today: &Today<'_>, gap: &Found) -> Result<Found, Lacking> {
    let below = gap.quantity.times(&Exact::whole(-1));
    beside(today, today.facts.most(Fact::FrontMark), &below, &gap.from)
}

fn beside(
    today: &Today<'_>,
    front: Option<&Quantity>,
    gap: &Quantity,
    from: &str,
) -> Result<Found, Lacking> {
    let unread = || Lacking::Unread(Fact::FrontMark);
    let (front, read) = front
        .zip(today.facts.get(Fact::FrontMark))
        .ok_or_else(unread)?;
    let (side, amount) = if gap.value.is_negative() {
        ("less", Quantity::new(gap.value.magnitude(), gap.unit))
    } else {
        ("plus", gap.clone())
    };
    let quantity = front.plus(gap).ok_or(Lacking::Absent)?;
    Ok(Found {
        quantity,
        from: format!("front mark read as {read}, {side} {amount}: {from}"),
        by_maker: false,
        working: None,
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
