//! What is carried, what it weighs and where it lies.

mod horse_weight;
mod horse_weight_foal;
mod horse_weight_four;
mod horse_weight_metric;
mod horse_weight_straight;
mod mass_properties;
mod scale_tickets;
#[cfg(test)]
mod scale_tickets_many;

pub use horse_weight::{Grown, HorseWeight, PAGE as HORSE_WEIGHT, TapedInches, horse_weight};
pub use horse_weight_foal::{Foal, PAGE as HORSE_WEIGHT_FOAL, horse_weight_foal};
pub use horse_weight_four::{
    FourMeasures, LightBreed, PAGE as HORSE_WEIGHT_FOUR, horse_weight_four,
};
pub use horse_weight_metric::{
    PAGE as HORSE_WEIGHT_METRIC, Study, TapedCentimetres, horse_weight_metric,
};
pub use horse_weight_straight::{
    HeavyBreed, PAGE as HORSE_WEIGHT_STRAIGHT, StraightMeasures, horse_weight_straight,
};
pub(crate) use mass_properties::weighed;
pub use mass_properties::{MassItems, PAGE as MASS_PROPERTIES, mass_properties};
pub use scale_tickets::{PAGE as SCALE_TICKETS, ScaleTickets, Weighed, scale_tickets};
