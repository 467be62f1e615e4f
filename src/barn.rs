//! The barn's settings: units, side of the road, whom to call, and where honest sources disagree,
//! which side this barn takes and why the default is what it is.
//!
//! What a barn may set is a closed list. A limit of its own is read here as it was typed; whether
//! it is stricter than the checklist's, and never looser than plate or law, is judged where the
//! list is put together.

mod call;
mod choice;
mod demo;
mod own_limit;
mod policies;
mod settings;
mod system;
mod tires;
mod why;
mod yaml;

pub use call::Call;
pub use choice::{Choice, NoChoice, Policy, RoadSide};
pub use demo::DEMO;
pub use own_limit::{OwnLimit, Written};
pub use policies::{Policies, Ruling};
pub use settings::{ForWalk, Settings};
pub use system::Units;
pub use tires::TireYears;
pub use why::{Said, Why};
pub use yaml::FORMAT;
