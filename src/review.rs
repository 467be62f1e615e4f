//! What a barn manager looks over: trips at a glance, by day, and those that are asked for.
//!
//! Everything here is computed from verified records. They show who signed what, and never what
//! was done.

pub mod trend;

mod attention;
mod filter;
mod glance;
mod month;
mod past;
mod people;
mod steps;
mod timeline;
mod trace;

pub use attention::{Asking, Brief, Signal, attention};
pub use filter::{Filter, is_named};
pub use glance::{Glance, Weight};
pub use month::{Day, days, months};
pub use past::{Earlier, Past};
pub use people::{DrilledSection, Lists, OnRig, People, Person, Practice, RodeList, Walked};
pub use steps::{StepCounts, Steps};
pub use timeline::{Stretch, Went, timeline};
pub use trace::{Act, Measured, Named, Trace, What};
