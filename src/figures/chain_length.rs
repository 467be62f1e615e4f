//! How long each of this rig's chains must be, may be, and how low it hangs.

use crate::figures::chain_places::{Strict, chain, eyes, found, length, mirrored, tenths, turn};
use crate::figures::gather::Gather;
use crate::figures::{Found, Lacking, Today};
use crate::mechanics::chains::usual::{CHAIN_MARGIN_IN, CLEARANCE_IN};
use crate::mechanics::chains::{
    CHAIN_LONGEST, CHAIN_NEEDS, CHAIN_SAG, ChainLongest, ChainNeeds, ChainSag, chain_longest,
    chain_needs, chain_sag,
};
use crate::rig::{Chain, HitchKind};
use crate::units::{Quantity, Unit};
use std::cmp::Ordering;

/// The least length with which one chain reaches in every turn.
pub(super) fn needed(today: &Today<'_>, index: usize) -> Result<Found, Lacking> {
    let (name, chain) = chain(today.rig, index)?;
    let mut gather = Gather::new();
    let (eyes, crossed) = mirrored(eyes(&mut gather, name, chain));
    let max_yaw_deg = turn(&mut gather, today.rig);
    let needs = chain_needs(&ChainNeeds {
        eyes,
        crossed,
        max_yaw_deg,
        margin_in: CHAIN_MARGIN_IN,
        pitch_deg: 0.0,
        ball_height_in: None,
    })?;
    let from = format!(
        "most distance of its eyes in any turn, {} at {:.0} deg, and {CHAIN_MARGIN_IN} in to hang loose",
        tenths(needs.max_in, Strict::Up)?,
        needs.yaw_at_max_deg.abs(),
    );
    found(
        tenths(needs.needed_in, Strict::Up)?,
        from,
        &CHAIN_NEEDS,
        gather,
    )
}

/// The longest one chain may be and keep off the road.
pub(super) fn longest(today: &Today<'_>, index: usize) -> Result<Found, Lacking> {
    let needed = needed(today, index)?;
    let (name, chain) = on_the_road(today, index)?;
    let mut gather = Gather::new();
    let (eyes, crossed) = mirrored(eyes(&mut gather, name, chain));
    let longest = chain_longest(&ChainLongest {
        eyes,
        clearance_in: CLEARANCE_IN,
        coupler_bottom_below_anchor_in: None,
        crossed,
    })?;
    let most = tenths(longest.off_road_in, Strict::Down)?;
    if most.compare(&needed.quantity) != Some(Ordering::Greater) {
        return Err(Lacking::NoNumber(format!(
            "to reach in every turn the chain must be {} or longer, and {CLEARANCE_IN} in off the \
             road it may be {most} at most; no length does both, so the eyes must be higher or \
             nearer",
            needed.quantity
        )));
    }
    let from = format!(
        "keeps {CLEARANCE_IN} in off the road, even pulled down into a V; turns need {}",
        needed.quantity
    );
    found(most, from, &CHAIN_LONGEST, gather)
}

/// How high the lowest point of one slack chain is above the road.
pub(super) fn low_point(today: &Today<'_>, index: usize) -> Result<Found, Lacking> {
    let (name, chain) = on_the_road(today, index)?;
    let mut gather = Gather::new();
    let (truck, trailer) = eyes(&mut gather, name, chain);
    let length_in = length(&mut gather, name, chain);
    let hangs = chain_sag(&ChainSag {
        span_x_in: trailer.x_in - truck.x_in,
        span_y_in: trailer.y_in - truck.y_in,
        z1_in: truck.z_in,
        z2_in: trailer.z_in,
        length_in,
    })?;
    let (Some(lowest), Some(rests)) = (hangs.low_point_v_in, hangs.low_point_catenary_in) else {
        return Err(Lacking::NoNumber(
            "the chain does not reach from eye to eye; look at its length and the places of its \
             eyes"
                .to_owned(),
        ));
    };
    if lowest < 0.0 {
        let road = Quantity::whole(0, Unit::Inch);
        let from = "long enough to come down to the road".to_owned();
        return found(road, from, &CHAIN_SAG, gather);
    }
    let from = format!(
        "pulled down into a V; at rest it hangs {} above the road",
        tenths(rests, Strict::Down)?
    );
    found(tenths(lowest, Strict::Down)?, from, &CHAIN_SAG, gather)
}

/// A chain under the tongue. Those of a gooseneck lie in the bed.
fn on_the_road<'r>(today: &Today<'r>, index: usize) -> Result<(&'static str, &'r Chain), Lacking> {
    match today.rig.kind() {
        HitchKind::BumperPull => chain(today.rig, index),
        HitchKind::Gooseneck => Err(Lacking::Absent),
    }
}
