//! A year of an invented barn: 600 walks of three rigs by six people, as they would have gone.
//!
//! First there is the barn as it truly is, which nobody in it ever sees: air that leaks out of
//! each tire at a rate of its own, nuts that settle, a battery that ages, a hub that creeps, miles,
//! weather. Then people with habits go round it with instruments that are wrong by a little, and
//! the walk machine takes in what they type. So readings hang together, and what a trend is later
//! found to be can be held against what it truly was.
//!
//! Every person, rig, horse and number in it is invented. The same seed comes to the same year on
//! every machine: the dice stand in here, and no clock is asked.

mod answer;
mod asked;
mod begin;
mod calendar;
mod days;
mod mended;
mod mishap;
mod next;
mod outing;
mod pace;
mod people;
mod reading;
mod trip;
mod truth;
mod weather;
mod wheel;

pub use mishap::ORDERS_THE_PART;
pub use people::{Habit, PEOPLE, Person, Work};
pub use trip::{Left, Look, Trip};
pub use truth::{SLOW_LEAK, SlowLeak};

use crate::checklist::Checklist;
use crate::rig::Rig;

/// How many walks a year has.
pub const TRIPS: usize = 600;

/// The third rig of the year, which stands beside the demo barn's two. Every number is invented.
pub const SUMAC: &str = include_str!("year/rigs/sumac.yaml");

/// How many laptops the barn has.
pub const LAPTOPS: usize = 3;

/// What the barn walks with.
#[derive(Clone, Debug)]
pub struct Barn {
    /// Its rigs: the half-ton's bumper pull, the gooseneck, and the one of the year.
    pub rigs: Vec<Rig>,
    /// Its checklists.
    pub lists: Vec<Checklist>,
}

/// The walks of a year, in order of time.
pub fn walked(barn: &Barn, seed: u64) -> Vec<Trip> {
    first_walked(barn, seed, TRIPS)
}

/// The first so many of them.
pub fn first_walked(barn: &Barn, seed: u64, trips: usize) -> Vec<Trip> {
    calendar::Year::new(barn, seed).walked(trips)
}
