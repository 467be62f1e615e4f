//! Figures of a rig: what a checklist may ask of it, by name.
//!
//! A figure is a plate value or the result of a formula; each formula is a file of its own.

mod battery;
mod brakes;
mod figure;
mod item;
mod level;
mod ratings;
mod weights;

pub use figure::{Figure, Found, NotKnown};
pub use item::{Each, Item};
pub use ratings::{Link, links, weakest_downward, weakest_total};
