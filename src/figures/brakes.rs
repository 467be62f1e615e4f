//! # Brake magnets of the trailer
//!
//! Every braked wheel has one electric magnet; at full lever they draw their currents side by
//! side from the brake wire.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | n | braked axles | count |
//! | i | current of one magnet | A |
//! | I | current of all | A |
//!
//! `magnets = 2 n`, `I = Σ 2 i`. Valid for electric drum brakes with one magnet a wheel.
//! Source: parallel circuit, any textbook of electricity; magnet currents are the maker's, read
//! into the rig file.

use crate::figures::Found;
use crate::figures::figure::counted;
use crate::rig::{Brake, Rig};
use crate::units::{Exact, Unit};

/// How many magnets the trailer has.
pub(crate) fn magnets(rig: &Rig) -> Found {
    counted(2 * braked(rig).count(), "two a braked axle in the rig file")
}

/// The same as a plain number.
pub(super) fn count(rig: &Rig) -> u32 {
    braked(rig).map(|_| 2).sum()
}

/// What all magnets draw together at full lever; nothing without brakes.
pub(crate) fn current(rig: &Rig) -> Option<Found> {
    let total = braked(rig)
        .map(|brake| brake.magnet_current.quantity.times(&Exact::whole(2)))
        .reduce(|sum, next| sum.plus(&next).unwrap_or(sum))?;
    Some(Found {
        quantity: total.in_unit(Unit::Ampere)?,
        from: "sum of the magnets in the rig file".to_owned(),
        by_maker: false,
        working: None,
    })
}

pub(super) fn braked(rig: &Rig) -> impl Iterator<Item = &Brake> {
    rig.trailer
        .axles
        .iter()
        .filter_map(|axle| axle.brake.as_ref())
}
