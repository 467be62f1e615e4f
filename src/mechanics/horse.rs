//! The horses on the road: heat, rest, and the gap ahead.

mod following_gap;
mod heat_sum;
#[cfg(test)]
mod laws;
mod rest;
mod transport_loss;

pub use following_gap::{Following, Gap, PAGE as FOLLOWING_GAP, following_gap};
pub use heat_sum::{
    Band, HARDLY_COOLS_ABOVE, HeatSum, HeatVariant, IMPAIRED_ABOVE, PAGE as HEAT_SUM, VariantTold,
    Weather, heat_sum,
};
pub use rest::{Aboard, PAGE as REST, Rest, RestStatus, rest};
pub use transport_loss::{Hauled, Loss, PAGE as TRANSPORT_LOSS, transport_loss};
