//! A point in time as the laptop saw it: the wall clock, which can be set, and the time since it
//! was started, which cannot.

use chrono::{DateTime, FixedOffset};

/// When something happened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Moment {
    /// The wall clock with its offset.
    pub wall: DateTime<FixedOffset>,
    /// Which start of the machine `mono_ms` counts from.
    pub boot: String,
    /// Milliseconds since that start, sleep included.
    pub mono_ms: u64,
}

impl Moment {
    /// How the name of a start begins that is the start of the program and not of the machine: its
    /// count stands still while the machine sleeps.
    pub const OF_PROGRAM: &str = "program-";

    /// Whether the time since the start goes on while the machine sleeps.
    pub fn counts_sleep(&self) -> bool {
        !self.boot.starts_with(Self::OF_PROGRAM)
    }

    /// Milliseconds from `earlier` to here: by the clock that cannot be set where both moments are
    /// of one start of the machine, else by the wall clock. Never negative.
    pub fn since(&self, earlier: &Self) -> u64 {
        if self.boot == earlier.boot {
            return self.mono_ms.saturating_sub(earlier.mono_ms);
        }
        let wall = self
            .wall
            .signed_duration_since(earlier.wall)
            .num_milliseconds();
        u64::try_from(wall).unwrap_or(0)
    }

    /// Whether the machine was started anew since `earlier`.
    pub fn restarted_since(&self, earlier: &Self) -> bool {
        self.boot != earlier.boot
    }
}
