//! This laptop: its wall time, the time since it was started, its random bytes.
//!
//! Linux keeps a count of seconds since the start, sleep included, and a name for the start, under
//! `/proc`. Where those are missing the count begins with this program and says so in its name.

use crate::walk::Moment;
use crate::world::{NoRandomness, World};
use chrono::{Local, SubsecRound};
use getrandom::SysRng;
use getrandom::rand_core::TryRng;
use std::time::Instant;

/// This machine. The program knows no other.
#[derive(Clone, Debug)]
pub struct Machine {
    boot: Boot,
}

/// What the steady count is counted from.
#[derive(Clone, Debug)]
enum Boot {
    /// The start of the machine, by the kernel's name for it.
    Machine(String),
    /// The start of this program: sleep is not counted, and a restart counts anew.
    Program { name: String, began: Instant },
}

impl Machine {
    /// This machine, since it or this program was started.
    #[expect(
        clippy::disallowed_methods,
        reason = "this is the one place that looks at the clock"
    )]
    pub fn this() -> Self {
        let boot = proc_file("/proc/sys/kernel/random/boot_id")
            .filter(|_| uptime_ms().is_some())
            .map_or_else(
                || Boot::Program {
                    name: format!("program-{}", Local::now().timestamp_millis()),
                    began: Instant::now(),
                },
                Boot::Machine,
            );
        Self { boot }
    }
}

impl World for Machine {
    #[expect(
        clippy::disallowed_methods,
        reason = "this is the one place that looks at the clock"
    )]
    fn now(&self) -> Moment {
        // To the millisecond, as records keep it: a walk read back is then the walk that was.
        let wall = Local::now().fixed_offset().trunc_subsecs(3);
        match &self.boot {
            Boot::Machine(name) => Moment {
                wall,
                boot: name.clone(),
                mono_ms: uptime_ms().unwrap_or_default(),
            },
            Boot::Program { name, began } => {
                let mono_ms = u64::try_from(began.elapsed().as_millis()).unwrap_or(u64::MAX);
                Moment {
                    wall,
                    boot: name.clone(),
                    mono_ms,
                }
            }
        }
    }

    fn fill(&self, bytes: &mut [u8]) -> Result<(), NoRandomness> {
        SysRng.try_fill_bytes(bytes).map_err(|_| NoRandomness)
    }
}

/// Milliseconds since the machine was started, sleep included: `/proc/uptime` gives hundredths.
fn uptime_ms() -> Option<u64> {
    let text = proc_file("/proc/uptime")?;
    let (seconds, hundredths) = text.split_whitespace().next()?.split_once('.')?;
    let seconds: u64 = seconds.parse().ok()?;
    let hundredths: u64 = hundredths.parse().ok()?;
    Some(seconds * 1000 + hundredths * 10)
}

#[expect(
    clippy::disallowed_methods,
    reason = "the kernel's clock is read as a file, not from disk"
)]
fn proc_file(path: &str) -> Option<String> {
    let text = std::fs::read_to_string(path).ok()?;
    Some(text.trim().to_owned()).filter(|text| !text.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn time_since_the_start_does_not_run_backwards() {
        let machine = Machine::this();
        let (first, second) = (machine.now(), machine.now());
        assert_eq!(first.boot, second.boot);
        assert!(first.mono_ms <= second.mono_ms);
    }

    #[test]
    fn no_two_throws_are_alike() {
        let world: &dyn World = &Machine::this();
        assert_ne!(world.random::<16>(), world.random::<16>());
    }
}
