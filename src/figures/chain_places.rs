//! Chain eyes, anchors and turns of a rig, as the formulas of chains take them.

use crate::figures::gather::{Gather, amount};
use crate::figures::{Found, Lacking, Working};
use crate::mechanics::Page;
use crate::mechanics::chains::usual::FULL_TURN_DEG;
use crate::mechanics::chains::{Anchor, EyePair};
use crate::rig::{Chain, Position, Rig};
use crate::units::{Quantity, Unit};

/// One of the rig's two chains with its name, from the left.
pub(super) fn chain(rig: &Rig, index: usize) -> Result<(&'static str, &Chain), Lacking> {
    let chains = ["left chain", "right chain"]
        .into_iter()
        .zip(&rig.hitch.chains);
    chains.into_iter().nth(index).ok_or(Lacking::Absent)
}

/// A place, told in one line.
pub(super) fn place(gather: &mut Gather, what: &str, position: &Position) -> Anchor {
    let Position {
        behind,
        right,
        above,
    } = position;
    let told = format!(
        "{} behind the ball, {} to the right, {} above the ground",
        behind.quantity, right.quantity, above.quantity
    );
    gather.note(what, told, &behind.source.told());
    let inches = |given: &Quantity| amount(given, Unit::Inch);
    Anchor {
        x_in: inches(&behind.quantity),
        y_in: inches(&right.quantity),
        z_in: inches(&above.quantity),
    }
}

/// A place that a rig file may leave out.
pub(super) fn place_if_there(
    gather: &mut Gather,
    what: &str,
    field: &'static str,
    position: Option<&Position>,
) -> Anchor {
    if let Some(position) = position {
        return place(gather, what, position);
    }
    gather.lacks(what, field);
    [1.0, 1.0, 1.0].into()
}

/// Both eyes of a chain.
pub(super) fn eyes(gather: &mut Gather, name: &str, chain: &Chain) -> (Anchor, Anchor) {
    (
        place(
            gather,
            &format!("{name}, eye on the truck"),
            &chain.truck_eye,
        ),
        place(
            gather,
            &format!("{name}, eye on the trailer"),
            &chain.trailer_eye,
        ),
    )
}

/// Two eyes and their mirror images; and whether the chain crosses the middle.
pub(super) fn mirrored((truck, trailer): (Anchor, Anchor)) -> (EyePair, bool) {
    let pair = EyePair {
        truck_x_in: truck.x_in,
        truck_half_width_in: truck.y_in.abs(),
        truck_z_in: truck.z_in,
        trailer_x_in: trailer.x_in,
        trailer_half_width_in: trailer.y_in.abs(),
        trailer_z_in: trailer.z_in,
    };
    (pair, truck.y_in * trailer.y_in < 0.0)
}

/// The length of a chain.
pub(super) fn length(gather: &mut Gather, name: &str, chain: &Chain) -> f64 {
    let what = format!("{name}, length");
    gather.number(
        &what,
        "hitch.chains.length",
        Some(&chain.length),
        Unit::Inch,
    )
}

/// The sharpest turn to either side; a full jackknife where the rig file does not say.
pub(super) fn turn(gather: &mut Gather, rig: &Rig) -> f64 {
    let what = "sharpest turn";
    if let Some(turn) = &rig.hitch.turn {
        return gather.number(what, "hitch.turn", Some(turn), Unit::Degree);
    }
    let from = "a full jackknife, as hitch.turn is not described";
    gather.note(what, format!("{FULL_TURN_DEG} deg"), from);
    FULL_TURN_DEG
}

/// A length with its working.
pub(super) fn found(
    quantity: Quantity,
    from: String,
    page: &'static Page,
    gather: Gather,
) -> Result<Found, Lacking> {
    Ok(Found {
        quantity,
        from,
        by_maker: false,
        working: Some(Working {
            page,
            inputs: gather.done()?,
        }),
    })
}
