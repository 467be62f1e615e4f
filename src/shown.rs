//! What can be read of a rig whose truth is known: what an instrument shows of a true value, and a
//! reading on which all is well where nothing is known to be otherwise.
//!
//! The invented year and the drill are made with it. Dice fall the same way for the same seed.

mod dice;
mod instrument;
mod sound;

pub use dice::Dice;
pub use instrument::{is_ok, shows, tool_for, tools_for};
pub use sound::sound;
