//! What three weighings on a truck scale say of a rig: tongue weight and its share, as bands, and
//! what is left of each rating.
//!
//! Readings are exact, and so is everything drawn from them: a limit is held against the whole
//! band that the scale's step leaves open, never against its middle.

mod left;
mod refused;
mod tickets;
mod weighed;

pub use left::{Left, Stands};
pub use refused::Refused;
pub use tickets::{Pad, Ticket, Tickets};
pub use weighed::{Band, Held, ShareAsked, Spread, Weighed};
