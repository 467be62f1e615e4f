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
    began: Instant,
}

/// What the steady count is counted from.
#[derive(Clone, Debug)]
enum Boot {
    /// The start of the machine, by the kernel's name for it.
    Machine { name: String, began_ms: u64 },
    /// The start of this program: sleep is not counted, and a restart counts anew.
    Program(String),
}

impl Machine {
    /// This machine, since it or this program was started.
    #[expect(
        clippy::disallowed_methods,
        reason = "this is the one place that looks at the clock"
    )]
    pub fn this() -> Self {
        let name = proc_file("/proc/sys/kernel/random/boot_id");
        let boot = if let Some((name, began_ms)) = name.zip(uptime_ms()) {
            Boot::Machine { name, began_ms }
        } else {
            let started = Local::now().timestamp_millis();
            Boot::Program(format!("{}{started}", Moment::OF_PROGRAM))
        };
        let began = Instant::now();
        Self { boot, began }
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
        let (name, mono_ms) = match &self.boot {
            Boot::Machine { name, .. } => (name, uptime_ms().unwrap_or_default()),
            Boot::Program(name) => (name, self.awake_ms()),
        };
        Moment {
            wall,
            boot: name.clone(),
            mono_ms,
        }
    }

    /// What the kernel's count, which goes on in sleep, has gained on the other, which does not.
    fn slept_ms(&self) -> u64 {
        match &self.boot {
            Boot::Machine { began_ms, .. } => {
                let passed = uptime_ms().map(|now| now.saturating_sub(*began_ms));
                passed.unwrap_or_default().saturating_sub(self.awake_ms())
            }
            Boot::Program(_) => 0,
        }
    }

    fn fill(&self, bytes: &mut [u8]) -> Result<(), NoRandomness> {
        SysRng.try_fill_bytes(bytes).map_err(|_| NoRandomness)
    }
}

impl Machine {
    /// Milliseconds since this program was started, sleep left out on most systems.
    fn awake_ms(&self) -> u64 {
        u64::try_from(self.began.elapsed().as_millis()).unwrap_or(u64::MAX)
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
    fn a_machine_that_runs_has_not_slept() {
        assert!(Machine::this().slept_ms() < 1000);
    }

    #[test]
    fn no_two_throws_are_alike() {
        let world: &dyn World = &Machine::this();
        assert_ne!(world.random::<16>(), world.random::<16>());
    }
}
