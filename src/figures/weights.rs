//! # Weight of the trailer as loaded
//!
//! The empty trailer and everything in it press on its wheels and on the ball.
//!
//! `W = W_empty + Σ W_i`, all in lb or kg. Valid when everything carried is listed; a weighbridge
//! beats it. Source: addition of weights; the parts are read into the rig file.

use crate::figures::Found;
use crate::rig::{HorseTape, Load, Rig};
use crate::units::{Exact, Quantity, Unit};

/// The weight of the trailer with its load.
pub(crate) fn gross(rig: &Rig) -> Found {
    let empty = rig.trailer.empty.quantity.clone();
    let quantity = rig.load.iter().fold(empty, |sum, load| {
        load_weight(load)
            .and_then(|weight| sum.plus(&weight))
            .unwrap_or(sum)
    });
    Found {
        quantity,
        from: "empty weight and load, summed from the rig file".to_owned(),
        by_maker: false,
        working: None,
    }
}

/// What a thing carried weighs: by a scale or, a horse that stood on none, by the tape. Nothing
/// where the tape gives no number.
pub(crate) fn load_weight(load: &Load) -> Option<Quantity> {
    match (&load.weight, &load.horse) {
        (Some(weight), _) => Some(weight.quantity.clone()),
        (None, Some(horse)) => by_tape(horse),
        (None, None) => None,
    }
}

/// `girth² · length / 330`, in and lb, shown to 10 lb.
fn by_tape(horse: &HorseTape) -> Option<Quantity> {
    let inches = |length: &Quantity| Some(length.in_unit(Unit::Inch)?.value);
    let girth = inches(&horse.girth.quantity)?;
    let volume = &(&girth * &girth) * &inches(&horse.length.quantity)?;
    let pounds = volume.over(&Exact::whole(330))?.to_f64()?;
    let known = Exact::nearest(pounds, &Exact::whole(10))?;
    Some(Quantity::new(known, Unit::Pound))
}
