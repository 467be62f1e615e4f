//! How long this rig's cord must be.

use crate::figures::chain_places::{chain, eyes, found, length, place_if_there, turn};
use crate::figures::fineness::Fineness;
use crate::figures::gather::Gather;
use crate::figures::{Found, Lacking, Today};
use crate::mechanics::chains::usual::{CORD_MARGIN_IN, DROP_LIMIT_IN};
use crate::mechanics::chains::{CORD_NEEDS, CordNeeds, NeededCord, cord_needs};

/// The least length of the cord: in every turn, and still with the trailer back on its chains.
pub(super) fn least(today: &Today<'_>) -> Result<Found, Lacking> {
    let plug = &today.rig.hitch.plug;
    let mut gather = Gather::new();
    let cord_truck_in = place_if_there(
        &mut gather,
        "socket on the truck",
        "hitch.plug.truck-end",
        plug.truck_end.as_ref(),
    );
    let cord_trailer_in = place_if_there(
        &mut gather,
        "clip of the cord on the trailer",
        "hitch.plug.trailer-end",
        plug.trailer_end.as_ref(),
    );
    // A place that is missing is told before anything is reckoned without it.
    gather.clone().done()?;
    let max_yaw_deg = turn(&mut gather, today.rig);
    let mut longest: Option<NeededCord> = None;
    for index in 0..today.rig.hitch.chains.len() {
        let (name, chain) = chain(today.rig, index)?;
        let (truck, trailer) = eyes(&mut gather, name, chain);
        let needs = cord_needs(&CordNeeds {
            cord_truck_in,
            cord_trailer_in,
            chain_truck_in: Some(truck),
            chain_trailer_in: Some(trailer),
            chain_length_in: Some(length(&mut gather, name, chain)),
            max_yaw_deg,
            margin_in: CORD_MARGIN_IN,
            drop_limit_in: DROP_LIMIT_IN,
        })?;
        let longer = longest.is_none_or(|other| needs.min_length_in > other.min_length_in);
        if longer {
            longest = Some(needs);
        }
    }
    let needs = longest.ok_or(Lacking::Absent)?;
    let turn = Fineness::TENTH_INCH.up(needs.turn_max_in)?;
    let from = match needs.chains_taut_max_in {
        Some(taut) => format!(
            "{turn} in the sharpest turn, {} with the chains tight, and {CORD_MARGIN_IN} in to spare",
            Fineness::TENTH_INCH.up(taut)?
        ),
        None => format!("{turn} in the sharpest turn, and {CORD_MARGIN_IN} in to spare"),
    };
    found(
        Fineness::TENTH_INCH.up(needs.min_length_in)?,
        from,
        &CORD_NEEDS,
        gather,
    )
}

#[cfg(test)]
mod tests {
    use crate::figures::Figure;
    use crate::rig::Rig;
    use crate::rig::demo::{JUNIPER, MESQUITE};
    use std::cmp::Ordering;

    #[test]
    fn the_cords_of_the_demo_rigs_reach() {
        for text in [JUNIPER, MESQUITE] {
            let rig = Rig::read(text).unwrap();
            let least = Figure::CordLeast.of(&rig, None).unwrap();
            let own = &rig.hitch.plug.cord.quantity;
            assert_eq!(own.compare(&least.quantity), Some(Ordering::Greater));
            assert!(
                least.from.contains("with the chains tight"),
                "{}",
                least.from
            );
        }
    }

    #[test]
    fn ends_that_nobody_measured_are_told_by_name() {
        let silent = JUNIPER
            .replace("    truck-end:", "    # truck-end:")
            .replace("    trailer-end:", "    # trailer-end:");
        let rig = Rig::read(&silent).unwrap();
        let no = Figure::CordLeast.of(&rig, None).unwrap_err().to_string();
        assert!(no.contains("hitch.plug.truck-end"), "{no}");
        assert!(no.contains("hitch.plug.trailer-end"), "{no}");
    }
}
