//! The only clock, and the only source of randomness.

mod clock;
mod dice;

pub use clock::Clock;
pub use dice::{NoRandomness, random};
