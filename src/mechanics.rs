//! The mechanics of a rig: one formula, one file, each with its own [`Page`].
//!
//! Formulas take plain numbers whose names carry their units, look at every one of them before
//! they reckon, and refuse outside their range: [`NoNumber`]. They know no rig file, no limit and
//! no screen. Physics is done in `f64`; powers, roots of other kinds and angles come from `libm`,
//! so that every machine reckons the same last digit and a record judged on one can be judged
//! again on another.

pub mod attitude;

mod bodies;

pub mod braking;

pub mod chains;

pub mod chance;

pub mod constants;

pub mod electrics;

pub mod horse;

pub mod load;

mod page;

mod range;

mod root;

pub mod strength;

pub mod sway;

pub mod tires;

pub mod trends;

pub mod wheels;

#[cfg(test)]
mod wild;

pub(crate) use bodies::look_at_items;
pub use bodies::{Axle, Item, MassProperties, Springing, Trailer, Truck};
pub use page::Page;
pub use range::{NoNumber, Outside, Ranges, finite};
