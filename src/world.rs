//! The only clock, the only source of randomness, and the only agent.
//!
//! Whoever needs them is given a [`World`]. The program gives [`Machine`] and has no way to give
//! another; a test that wants the same run twice calls the library with a world of its own.

mod agent;
mod machine;

pub use agent::{Agent, AgentTrouble};
pub use machine::Machine;

use crate::walk::Moment;
use std::fmt;

/// What tells the time and throws the dice.
pub trait World: fmt::Debug {
    /// Now, to the millisecond.
    fn now(&self) -> Moment;

    /// Milliseconds this machine has slept since the program was started, where it can tell.
    fn slept_ms(&self) -> u64 {
        0
    }

    /// Fills `bytes` with random ones.
    ///
    /// # Errors
    /// [`NoRandomness`] when there are none; nothing may be made without them.
    fn fill(&self, bytes: &mut [u8]) -> Result<(), NoRandomness>;
}

impl dyn World + '_ {
    /// `N` random bytes.
    ///
    /// # Errors
    /// As [`fill`](World::fill).
    pub fn random<const N: usize>(&self) -> Result<[u8; N], NoRandomness> {
        let mut bytes = [0; N];
        self.fill(&mut bytes)?;
        Ok(bytes)
    }
}

/// The operating system gave no random bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoRandomness;

impl fmt::Display for NoRandomness {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(
            "The operating system gives no random numbers, so no key and no trip can be made. \
             Restart the laptop and try again.",
        )
    }
}
