//! Quantities with units, kept exactly: what a person typed, as a number that never drifts.
//!
//! Every comparison that decides a verdict is made here, on exact fractions.

mod dimension;
mod exact;
mod parse;
mod quantity;
mod typed;
mod unit;
mod weight;

pub use dimension::Dimension;
pub use exact::{Exact, NotANumber};
pub use parse::{NotAQuantity, parse_quantity};
pub use quantity::Quantity;
pub use typed::Typed;
pub use unit::Unit;
pub use weight::{mass_of, weight_of};
