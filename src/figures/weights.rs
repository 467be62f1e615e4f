//! What the trailer and its load weigh by the rig file.

use crate::figures::figure::read;
use crate::figures::fineness::Fineness;
use crate::figures::gather::{Gather, amount};
use crate::figures::{Fact, Found, Lacking, Today};
use crate::mechanics::NoNumber;
use crate::mechanics::load::{Grown, TapedInches, horse_weight};
use crate::rig::{Evidence, Given, HorseKind, HorseTape, Load, Rig, Source};
use crate::units::{Exact, Quantity, Unit};

/// The weight of the trailer with its load: everything carried, added up. A weighbridge beats it.
pub(crate) fn gross(rig: &Rig) -> Result<Found, Lacking> {
    let mut gather = Gather::new();
    let mut sum = rig.trailer.empty.quantity.clone();
    for load in &rig.load {
        if let Some(weight) = gather.reckoned(load_weight(load)) {
            sum = sum.plus(&weight.quantity).unwrap_or(sum);
        }
    }
    gather.done()?;
    Ok(Found {
        quantity: sum,
        from: "empty weight and load, summed from the rig file".to_owned(),
        by_maker: false,
        working: None,
    })
}

/// Weight on the ball by a scale today, as a share of the trailer's: by a scale today too, or else
/// as loaded.
pub(crate) fn tongue_share_read(today: &Today<'_>) -> Result<Found, Lacking> {
    let facts = today.facts;
    let tongue = facts.get(Fact::TongueWeight);
    let tongue = tongue.ok_or(Lacking::Unread(Fact::TongueWeight))?;
    let (trailer, by) = match facts.get(Fact::TrailerWeight) {
        Some(read) => (read.clone(), "the trailer weight read today"),
        None => (
            gross(today.rig)?.quantity,
            "the trailer weight by the rig file",
        ),
    };
    let share = 100.0 * amount(tongue, Unit::Pound) / amount(&trailer, Unit::Pound);
    Ok(Found {
        quantity: Fineness::TENTH_PERCENT.nearest(share)?,
        from: format!("tongue weight read today, {tongue}, of {by}, {trailer}"),
        by_maker: false,
        working: None,
    })
}

/// What a horse in its stall weighs.
pub(crate) fn horse(rig: &Rig, index: usize) -> Result<Found, Lacking> {
    let load = rig.load.get(index).ok_or(Lacking::Absent)?;
    Ok(read(&load_weight(load)?))
}

/// What a thing carried weighs: by a scale or, a horse that stood on none, by the tape.
///
/// # Errors
/// [`NoNumber`] where the tape shows no horse.
pub(crate) fn load_weight(load: &Load) -> Result<Given, NoNumber> {
    match (&load.weight, &load.horse) {
        (Some(weight), _) => Ok(weight.clone()),
        (None, Some(horse)) => by_tape(horse),
        (None, None) => Err(NoNumber::because(format!(
            "nobody says what {} weighs",
            load.name
        ))),
    }
}

/// Rounded up to 10 lb: the formula is off by far more, and a lighter horse would be the worse
/// mistake.
fn by_tape(horse: &HorseTape) -> Result<Given, NoNumber> {
    let kind = match horse.kind {
        HorseKind::Adult => Grown::Adult,
        HorseKind::Pony => Grown::Pony,
        HorseKind::Yearling => Grown::Yearling,
        HorseKind::Weanling => Grown::Weanling,
    };
    let taped = horse_weight(&TapedInches {
        girth_in: amount(&horse.girth.quantity, Unit::Inch),
        length_in: amount(&horse.length.quantity, Unit::Inch),
        kind,
    })?;
    let known = Exact::ceiling(taped.weight_lb, &Exact::whole(10));
    let known = known.ok_or_else(|| NoNumber::because("the tape shows no horse"))?;
    Ok(Given {
        quantity: Quantity::new(known, Unit::Pound),
        source: Source {
            by: Evidence::Estimate,
            at: format!(
                "girth {} and length {} by tape",
                horse.girth.quantity, horse.length.quantity
            ),
        },
    })
}
