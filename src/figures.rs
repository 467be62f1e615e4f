//! Figures of a rig: what a checklist may ask of it, by name.
//!
//! A figure is a field of the rig file, or the result of a formula of [`mechanics`](crate::mechanics)
//! fed from it. What a formula needs and the file does not say is told by name, so that a limit can
//! fall back to the trade's rule of thumb and say so.

mod area;
mod attitude;
mod attitude_level;
mod axle_loads;
mod battery;
mod battery_rest;
mod bodies;
mod brakes;
mod braking;
mod braking_loose;
mod chain_cradle;
mod chain_length;
mod chain_places;
mod chain_strength;
mod cord;
mod figure;
mod fineness;
mod gather;
mod heat;
mod item;
mod kept;
mod known;
mod lanyard;
mod level;
mod lift;
mod magnets;
mod rated_link;
mod ratings;
mod ratings_hitch;
mod ratings_vehicles;
mod settling;
mod sheet;
mod tickets;
mod tire_capacity;
mod tire_pressure;
mod today;
pub mod weighing;

mod weights;
mod whatif;
mod wheels;
mod working;

pub use area::Area;
pub use axle_loads::{AxleLoad, axle_loads};
pub(crate) use figure::Lacking;
pub use figure::{Figure, Found, Lack, NotKnown};
pub use item::{Each, Item};
pub use rated_link::{Margin, RatedLink, RatingKind};
pub use ratings::ratings_chain;
pub use settling::{Settles, settles};
pub use sheet::{Entry, entries, sheet};
pub use today::{Fact, Facts, Today};
pub(crate) use weights::load_weight;
pub use whatif::{Dial, Line, Move, NotTurned, Picture, Scenario, Toward, WhatIf};
pub use working::{Input, Working};
