//! What is left of each rating of a rig by its tickets.

use crate::figures::weighing::{Band, Tickets, Weighed};
use crate::figures::{Figure, Found};
use crate::rig::Rig;
use crate::units::{Exact, Quantity};
use std::cmp::Ordering;

/// One rating and what the tickets put on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Left {
    /// What is rated.
    pub what: &'static str,
    /// What it carries.
    pub carries: Band,
    /// What it may carry, in the unit of the scale.
    pub rating: Quantity,
    /// Whose word that is.
    pub from: String,
    /// How the two stand.
    pub stands: Stands,
}

/// A load against its rating.
#[derive(Clone, Debug, PartialEq)]
pub enum Stands {
    /// So much is left, whatever the scale's step hides.
    Left(Quantity),
    /// More than the rating, whatever it hides.
    Over(Quantity),
    /// The rating lies within what the step hides.
    CannotTell,
}

impl Tickets {
    /// What is left of each rating of this rig.
    pub fn left_of(&self, weighed: &Weighed, rig: &Rig) -> Vec<Left> {
        let [front, rear] = &weighed.truck_axles;
        let truck = &front.is.value + &rear.is.value;
        let combined = &truck + &weighed.trailer_axles.is.value;
        let one = |figure: Figure| figure.of(rig, None).ok();
        let loads = [
            ("steer axle", front.clone(), one(Figure::TruckGawrFront)),
            ("drive axle", rear.clone(), one(Figure::TruckGawrRear)),
            ("truck", self.band(&truck, 2), one(Figure::TruckGvwr)),
            ("trailer axles", weighed.trailer_axles.clone(), axles(rig)),
            ("trailer", weighed.trailer.clone(), one(Figure::TrailerGvwr)),
            (
                "truck and trailer",
                self.band(&combined, 3),
                one(Figure::TruckGcwr),
            ),
            (
                "hitch downward",
                weighed.tongue.clone(),
                one(Figure::WeakestDownward),
            ),
            (
                "hitch in all",
                weighed.trailer.clone(),
                one(Figure::WeakestTotal),
            ),
        ];
        let rated = loads.into_iter().filter_map(|(what, carries, rating)| {
            let Found { quantity, from, .. } = rating?;
            let rating = quantity.in_unit(self.unit)?;
            Some(Left {
                what,
                stands: stands(&carries, &rating)?,
                carries,
                rating,
                from,
            })
        });
        rated.collect()
    }
}

fn stands(carries: &Band, rating: &Quantity) -> Option<Stands> {
    let within = |carried: &Quantity| carried.compare(rating).is_some_and(Ordering::is_le);
    Some(if within(&carries.most) {
        Stands::Left(rating.minus(&carries.most)?)
    } else if within(&carries.least) {
        Stands::CannotTell
    } else {
        Stands::Over(carries.least.minus(rating)?)
    })
}

/// What all trailer axles may carry together.
fn axles(rig: &Rig) -> Option<Found> {
    let ratings = rig.trailer.axles.iter().map(|axle| &axle.gawr);
    let first = ratings.clone().next()?;
    let nothing = Quantity::new(Exact::zero(), first.quantity.unit);
    let sum = ratings.fold(nothing, |sum, next| sum.plus(&next.quantity).unwrap_or(sum));
    Some(Found {
        quantity: sum,
        from: format!("sum of its axles' ratings; {}", first.source.told()),
        by_maker: false,
        working: None,
    })
}
