//! The clock of this laptop: wall time, and the time since it was started.
//!
//! Linux keeps a count of seconds since the start, sleep included, and a name for the start, under
//! `/proc`. Where those are missing the count begins with this program and says so in its name.

use crate::walk::Moment;
use chrono::{Local, SubsecRound};
use std::time::Instant;

/// The clock.
#[derive(Clone, Debug)]
pub struct Clock {
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

impl Clock {
    /// The clock of this machine.
    #[expect(
        clippy::disallowed_methods,
        reason = "this is the one place that looks at the clock"
    )]
    pub fn of_this_machine() -> Self {
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

    /// Now.
    #[expect(
        clippy::disallowed_methods,
        reason = "this is the one place that looks at the clock"
    )]
    pub fn now(&self) -> Moment {
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
        let clock = Clock::of_this_machine();
        let (first, second) = (clock.now(), clock.now());
        assert_eq!(first.boot, second.boot);
        assert!(first.mono_ms <= second.mono_ms);
    }
}
