//! What each axle of truck and trailer carries, beside what it may.

use crate::figures::{Entry, Figure, Found, NotKnown, Today, entries};
use crate::rig::Given;
use crate::units::{Exact, Quantity};
use num_traits::ToPrimitive;
use std::cmp::Ordering;

/// The load of one axle beside its rating.
#[derive(Clone, Debug, PartialEq)]
pub struct AxleLoad {
    /// Which axle: `truck front`, `trailer rear`.
    pub name: String,
    /// What it carries, or why that is not known.
    pub load: Result<Found, NotKnown>,
    /// Most it may carry.
    pub rating: Given,
}

/// The axles from front to rear, truck first.
pub fn axle_loads<'r>(today: impl Into<Today<'r>>) -> Vec<AxleLoad> {
    let today = today.into();
    let rig = today.rig;
    let truck = [
        ("truck front", Figure::TruckFrontLoad, &rig.truck.gawr_front),
        ("truck rear", Figure::TruckRearLoad, &rig.truck.gawr_rear),
    ];
    let truck = truck.into_iter().map(|(name, figure, rating)| AxleLoad {
        name: name.to_owned(),
        load: figure.of(today, None),
        rating: rating.clone(),
    });
    let trailer = entries(Figure::AxleLoad, today).into_iter();
    let trailer = trailer
        .zip(&rig.trailer.axles)
        .map(|(entry, axle)| AxleLoad {
            name: name(&entry, rig.trailer.axles.len()),
            load: entry.answer,
            rating: axle.gawr.clone(),
        });
    truck.chain(trailer).collect()
}

fn name(entry: &Entry, axles: usize) -> String {
    match entry.item.as_ref().filter(|_| axles > 1) {
        None => "trailer axle".to_owned(),
        Some(item) => format!("trailer {}", item.name()),
    }
}

impl AxleLoad {
    /// What it carries, where that is known.
    pub fn known(&self) -> Option<&Quantity> {
        self.load.as_ref().ok().map(|found| &found.quantity)
    }

    /// Whether it carries more than it may.
    pub fn is_over(&self) -> bool {
        let order = self
            .known()
            .and_then(|load| load.compare(&self.rating.quantity));
        order == Some(Ordering::Greater)
    }

    /// How much of the rating it carries, in percent. A part of one counts as a whole one, so that
    /// 100 never stands beside an axle that carries too much.
    pub fn percent(&self) -> Option<u16> {
        let rating = &self.rating.quantity;
        let load = self.known()?.in_unit(rating.unit)?;
        let share = (&load.value * &Exact::whole(100)).over(&rating.value)?;
        let share = Exact::ceiling(share.to_f64()?, &Exact::whole(1))?.to_f64()?;
        share.to_u16()
    }
}
