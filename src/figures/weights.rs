//! # Weight of the trailer as loaded
//!
//! The empty trailer and everything in it press on its wheels and on the ball.
//!
//! `W = W_empty + Σ W_i`, all in lb or kg. Valid when everything carried is listed; a weighbridge
//! beats it. Source: addition of weights; the parts are read into the rig file.

use crate::figures::Found;
use crate::rig::Rig;

/// The weight of the trailer with its load.
pub(crate) fn gross(rig: &Rig) -> Found {
    let empty = rig.trailer.empty.quantity.clone();
    let quantity = rig.load.iter().fold(empty, |sum, load| {
        sum.plus(&load.weight.quantity).unwrap_or(sum)
    });
    Found {
        quantity,
        from: "empty weight and load, summed from the rig file".to_owned(),
        by_maker: false,
        working: None,
    }
}
