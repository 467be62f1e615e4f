//! What a barn manager looks over: trips at a glance, what to ask about them, what creeps, and
//! which steps serve badly.
//!
//! Everything here is computed from verified records, one trip after the other, and is put as a
//! question where it is about people: the records show who signed what, and never what was done.

mod answered;
mod filter;
mod glance;
mod month;

pub use answered::{Answered, What, answered};
pub use filter::Filter;
pub use glance::{Glance, Weight};
pub use month::{Day, days, months};
