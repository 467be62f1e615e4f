//! How long each of this rig's chains must be, may be, and how low it hangs.

use crate::figures::chain_places::{chain, eyes, found, length, mirrored, turn};
use crate::figures::fineness::Fineness;
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
        "most distance of its eyes in any turn, {} at {:.0} deg, with {CHAIN_MARGIN_IN} in to spare",
        Fineness::TENTH_INCH.up(needs.max_in)?,
        needs.yaw_at_max_deg.abs(),
    );
    found(
        Fineness::TENTH_INCH.up(needs.needed_in)?,
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
    let most = Fineness::TENTH_INCH.down(longest.off_road_in)?;
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
        Fineness::TENTH_INCH.down(rests)?
    );
    found(Fineness::TENTH_INCH.down(lowest)?, from, &CHAIN_SAG, gather)
}

/// A chain under the tongue. Those of a gooseneck lie in the bed.
fn on_the_road<'r>(today: &Today<'r>, index: usize) -> Result<(&'static str, &'r Chain), Lacking> {
    match today.rig.kind() {
        HitchKind::BumperPull => chain(today.rig, index),
        HitchKind::Gooseneck => Err(Lacking::Absent),
    }
}

#[cfg(test)]
mod tests {
    use crate::figures::{Each, Figure, NotKnown};
    use crate::rig::Rig;
    use crate::rig::demo::{JUNIPER, MESQUITE};

    fn of(figure: Figure, text: &str, index: usize) -> Result<String, NotKnown> {
        let rig = Rig::read(text).unwrap();
        let item = &Each::Chain.items(&rig)[index];
        let found = figure.of(&rig, Some(item))?;
        assert!(
            found
                .working
                .is_some_and(|working| working.inputs.len() > 1)
        );
        Ok(format!("{}: {}", found.quantity, found.from))
    }

    #[test]
    fn a_chain_is_long_enough_for_its_turns_and_short_enough_for_the_road() {
        for index in [0, 1] {
            assert_eq!(
                of(Figure::ChainNeededLength, JUNIPER, index).unwrap(),
                "27 in: most distance of its eyes in any turn, 25 in at 33 deg, with 2 in to spare"
            );
            assert_eq!(
                of(Figure::ChainLongest, JUNIPER, index).unwrap(),
                "33.8 in: keeps 3 in off the road, even pulled down into a V; turns need 27 in"
            );
            assert_eq!(
                of(Figure::ChainLowPoint, JUNIPER, index).unwrap(),
                "5.9 in: pulled down into a V; at rest it hangs 6.9 in above the road"
            );
        }
    }

    #[test]
    fn without_a_measured_turn_a_full_jackknife_is_taken_and_said() {
        let silent = JUNIPER.replace("  turn: { is: 75 deg", "  # turn: { is: 75 deg");
        let rig = Rig::read(&silent).unwrap();
        let item = &Each::Chain.items(&rig)[0];
        let found = Figure::ChainNeededLength.of(&rig, Some(item)).unwrap();
        let inputs = found.working.unwrap().inputs;
        let turn = inputs.iter().find(|input| input.what == "sharpest turn");
        assert!(turn.unwrap().from.contains("full jackknife"));
    }

    #[test]
    fn a_chain_that_cannot_reach_or_lies_on_the_road_is_told_as_such() {
        let short = JUNIPER.replace("length: { is: 30 in", "length: { is: 20 in");
        let no = of(Figure::ChainLowPoint, &short, 0)
            .unwrap_err()
            .to_string();
        assert!(no.contains("does not reach"), "{no}");
        let long = JUNIPER.replace("length: { is: 30 in", "length: { is: 45 in");
        let lies = of(Figure::ChainLowPoint, &long, 0).unwrap();
        assert!(lies.starts_with("0 in: long enough"), "{lies}");
        let low = JUNIPER
            .replace("above: 14 in", "above: 6 in")
            .replace("above: 16 in", "above: 6 in");
        let no = of(Figure::ChainLongest, &low, 0).unwrap_err().to_string();
        assert!(no.contains("no length does both"), "{no}");
    }

    #[test]
    fn the_chains_of_a_gooseneck_lie_in_its_bed() {
        assert!(of(Figure::ChainNeededLength, MESQUITE, 0).is_ok());
        for figure in [Figure::ChainLongest, Figure::ChainLowPoint] {
            let no = of(figure, MESQUITE, 0).unwrap_err();
            assert_eq!(no, NotKnown::NotOnThisRig(figure));
        }
    }
}
