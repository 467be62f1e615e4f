//! What this rig's chains do for a coupler that drops.

use crate::figures::chain_places::{chain, eyes, found, length, mirrored};
use crate::figures::fineness::Fineness;
use crate::figures::gather::Gather;
use crate::figures::{Found, Lacking, Today};
use crate::mechanics::chains::{CRADLE, Cradle, HeldCoupler, cradle};
use crate::rig::HitchKind;
use crate::units::{Quantity, Unit};

/// How high the chains hold the coupler's underside above the road where it drops, and what
/// dragging back does for it. The chain that holds less decides.
pub(super) fn clearance(today: &Today<'_>) -> Result<Found, Lacking> {
    if today.rig.kind() == HitchKind::Gooseneck {
        return Err(Lacking::Absent);
    }
    let mut gather = Gather::new();
    let below = gather.number(
        "underside of the coupler below the chains' eyes",
        "hitch.coupler.below-chain-eye",
        today.rig.hitch.coupler.below_chain_eye.as_ref(),
        Unit::Inch,
    );
    // A height that is missing is told before anything is reckoned without it.
    gather.clone().done()?;
    let mut lower: Option<HeldCoupler> = None;
    for index in 0..today.rig.hitch.chains.len() {
        let (name, chain) = chain(today.rig, index)?;
        let (eyes, crossed) = mirrored(eyes(&mut gather, name, chain));
        let held = cradle(&Cradle {
            eyes,
            chain_length_in: length(&mut gather, name, chain),
            coupler_bottom_below_anchor_in: below,
            crossed,
        })?;
        let lowest = lower.is_none_or(|other| bottom(&held) < bottom(&other));
        if lowest {
            lower = Some(held);
        }
    }
    let held = lower.ok_or(Lacking::Absent)?;
    let bottom = bottom(&held);
    let (height, where_it_drops) = if bottom < 0.0 {
        (
            Quantity::whole(0, Unit::Inch),
            "comes to the road where it drops",
        )
    } else {
        (
            Fineness::TENTH_INCH.down(bottom)?,
            "is held up where it drops",
        )
    };
    let from = format!("the coupler {where_it_drops}; {}", dragging(&held)?);
    found(height, from, &CRADLE, gather)
}

fn bottom(held: &HeldCoupler) -> f64 {
    held.coupler_bottom_where_it_drops_in
}

fn dragging(held: &HeldCoupler) -> Result<String, Lacking> {
    if held.never_touches {
        return Ok("wherever the trailer goes it stays off the road".to_owned());
    }
    let tight = Fineness::TENTH_INCH.down(held.travel_to_taut_level_in)?;
    if !held.clear_when_dragging {
        return Ok(format!(
            "dragging back does not lift it off the road before the chains end at {tight}"
        ));
    }
    let clear = Fineness::TENTH_INCH.up(held.travel_needed_to_clear_in)?;
    Ok(format!(
        "dragging back {clear} of the {tight} that the chains allow, it is off the road"
    ))
}

#[cfg(test)]
mod tests {
    use crate::figures::{Figure, NotKnown};
    use crate::rig::Rig;
    use crate::rig::demo::{JUNIPER, MESQUITE};

    fn of(text: &str) -> Result<String, NotKnown> {
        let found = Figure::CradleClearance.of(&Rig::read(text).unwrap(), None)?;
        Ok(format!("{}: {}", found.quantity, found.from))
    }

    #[test]
    fn long_chains_let_the_coupler_down_and_lift_it_only_while_the_trailer_drags() {
        assert_eq!(
            of(JUNIPER).unwrap(),
            "0 in: the coupler comes to the road where it drops; dragging back 4.3 in of the 6.9 \
             in that the chains allow, it is off the road"
        );
    }

    #[test]
    fn short_chains_hold_it_up_where_it_drops() {
        let short = JUNIPER.replace("length: { is: 30 in", "length: { is: 25 in");
        let held = of(&short).unwrap();
        assert!(
            held.contains("held up where it drops; dragging back 0 in"),
            "{held}"
        );
    }

    #[test]
    fn the_chain_that_holds_less_decides() {
        let uneven = JUNIPER.replacen("length: { is: 30 in", "length: { is: 25 in", 1);
        assert_eq!(of(&uneven), of(JUNIPER));
    }

    #[test]
    fn what_the_rig_file_lacks_is_told_and_a_gooseneck_has_no_cradle() {
        let silent = JUNIPER.replace("    below-chain-eye:", "    # below-chain-eye:");
        let no = of(&silent).unwrap_err().to_string();
        assert!(no.contains("hitch.coupler.below-chain-eye"), "{no}");
        let no = of(MESQUITE).unwrap_err();
        assert_eq!(no, NotKnown::NotOnThisRig(Figure::CradleClearance));
    }
}
