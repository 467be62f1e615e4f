//! Figures of a rig: what a checklist may ask of it, by name.
//!
//! A figure is a plate value or the result of a formula; each formula is a file of its own.

mod battery;
mod brakes;
mod chain_rule;
mod chain_strength;
mod figure;
mod item;
mod level;
mod ratings;
mod weights;

pub use chain_rule::ChainRule;
pub use chain_strength::{breaking_by_table, breaking_factor, lowest, working_load_limit};
pub use figure::{Figure, Found, NotKnown};
pub use item::{Each, Item};
pub use ratings::{Link, links, weakest_downward, weakest_total};
