//! Where the clock of a laptop does not agree with itself or with everything else known.
//!
//! A mark says nothing of the work, which goes on; it says which times in the records nobody
//! should lean on. Times are compared as moments, so that neither a change to summer time nor a
//! journey across zones is one.

mod begin;

pub use begin::LookAtClock;

use crate::logbook::Thresholds;
use crate::record::{Begun, Id, Verified};
use crate::walk::{Event, Moment};
use chrono::{DateTime, FixedOffset, TimeDelta};
use std::collections::BTreeMap;
use std::fmt;

/// Something odd about a clock, at one line of one trip.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClockMark {
    /// The laptop.
    pub device: Id,
    /// The trip's number there.
    pub seq: u64,
    /// The trip.
    pub trip: Id,
    /// The line, from 1.
    pub line: usize,
    /// What it shows.
    pub at: DateTime<FixedOffset>,
    /// What is odd.
    pub odd: Odd,
}

/// What is odd about a clock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Odd {
    /// It shows less than it has shown before.
    SetBack {
        /// The highest it has shown.
        highest: DateTime<FixedOffset>,
    },
    /// It shows far more than anything else known.
    FarAhead {
        /// The highest of everything else.
        known: DateTime<FixedOffset>,
    },
    /// It was set, by so many milliseconds, while the laptop was running.
    Set(i64),
    /// The laptop was started anew in the midst of a walk.
    Restarted,
    /// So many milliseconds passed with no act, and the walk had not been left by name.
    Still(i64),
}

/// Watches the clocks of all laptops, trip by trip.
#[derive(Clone, Debug, Default)]
pub struct ClockWatch {
    thresholds: Thresholds,
    devices: BTreeMap<Id, Watch>,
    marks: Vec<ClockMark>,
}

#[derive(Clone, Debug, Default)]
struct Watch {
    highest: Option<DateTime<FixedOffset>>,
    /// Whether it shows less than it has, so that it is not told again at each line.
    behind: bool,
    last: Option<Moment>,
    /// The newest trip taken in.
    seq: u64,
    /// The highest line of each trip that rose above those before it.
    tops: Vec<ClockMark>,
}

impl ClockWatch {
    /// Takes in the next trip of its laptop, in the order of numbers. Of copies, and of two
    /// histories with one number, the first speaks: times of one beside the other mean nothing.
    pub fn take(&mut self, trip: &Verified) {
        let begun = trip.begun();
        let mut first = true;
        let watch = self.devices.entry(begun.device.clone()).or_default();
        if begun.seq <= watch.seq {
            return;
        }
        watch.seq = begun.seq;
        let mut top: Option<(usize, DateTime<FixedOffset>)> = None;
        let lines = trip.entries().iter().map(|entry| {
            let known = matches!(entry.event, Event::Resumed { .. } | Event::Settled { .. });
            (&entry.at, known)
        });
        for ((at, known), line) in [(trip.at(), true)].into_iter().chain(lines).zip(1..) {
            let within = !std::mem::take(&mut first);
            let odd = watch.step(at, within, known, &self.thresholds);
            let mark = |odd| ClockMark::of(begun, line, at.wall, odd);
            self.marks.extend(odd.into_iter().map(mark));
            if watch.highest.is_none_or(|highest| at.wall > highest) {
                watch.highest = Some(at.wall);
                top = Some((line, at.wall));
            }
        }
        let ahead = |(line, at)| ClockMark::of(begun, line, at, Odd::FarAhead { known: at });
        watch.tops.extend(top.map(ahead));
    }

    /// The latest moment in the records taken in.
    pub fn latest(&self) -> Option<DateTime<FixedOffset>> {
        self.devices
            .values()
            .filter_map(|watch| watch.highest)
            .max()
    }

    /// Every mark, by laptop, trip and line, the clock of whoever asks being one thing known.
    pub fn marks(self, now: Option<DateTime<FixedOffset>>) -> Vec<ClockMark> {
        let mut marks = self.marks;
        for (device, watch) in &self.devices {
            let others = self.devices.iter().filter(|(other, _)| *other != device);
            let known = others
                .filter_map(|(_, watch)| watch.highest)
                .chain(now)
                .max();
            let ahead = watch.tops.iter().find_map(|top| {
                let known = known.filter(|known| top.at - *known > self.thresholds.far_ahead)?;
                let odd = Odd::FarAhead { known };
                Some(ClockMark { odd, ..top.clone() })
            });
            marks.extend(ahead);
        }
        marks.sort_by(|one, other| {
            let place = |mark: &ClockMark| (mark.seq, mark.line);
            (&one.device, place(one)).cmp(&(&other.device, place(other)))
        });
        marks
    }
}

impl Watch {
    /// What is odd about the next line.
    fn step(
        &mut self,
        at: &Moment,
        within: bool,
        known: bool,
        thresholds: &Thresholds,
    ) -> Vec<Odd> {
        let mut odd = Vec::new();
        let back = self
            .highest
            .filter(|highest| *highest - at.wall > thresholds.clock_slack);
        if let Some(highest) = back.filter(|_| !self.behind) {
            odd.push(Odd::SetBack { highest });
        }
        self.behind = back.is_some();
        if let Some(last) = &self.last {
            odd.extend(set_by(last, at, thresholds.clock_slack).map(Odd::Set));
            if within && at.restarted_since(last) {
                odd.push(Odd::Restarted);
            }
            let stood = i64::try_from(at.since(last)).unwrap_or(i64::MAX);
            if within && !known && stood >= thresholds.still.num_milliseconds() {
                odd.push(Odd::Still(stood));
            }
        }
        self.last = Some(at.clone());
        odd
    }
}

/// By how many milliseconds the clock on the wall ran otherwise than the one that cannot be set.
fn set_by(last: &Moment, at: &Moment, slack: TimeDelta) -> Option<i64> {
    if at.restarted_since(last) {
        return None;
    }
    let wall = at.wall.signed_duration_since(last.wall).num_milliseconds();
    let steady = i128::from(at.mono_ms) - i128::from(last.mono_ms);
    let by = i64::try_from(i128::from(wall) - steady).unwrap_or(i64::MAX);
    // A count that stands still while the laptop sleeps falls behind with nobody setting a clock.
    let asleep = by > 0 && !at.counts_sleep();
    (by.unsigned_abs() > slack.num_milliseconds().unsigned_abs() && !asleep).then_some(by)
}

impl ClockMark {
    fn of(begun: &Begun, line: usize, at: DateTime<FixedOffset>, odd: Odd) -> Self {
        Self {
            device: begun.device.clone(),
            seq: begun.seq,
            trip: begun.trip.clone(),
            line,
            at,
            odd,
        }
    }

    /// What is odd and where, for whoever knows of which trip it is told.
    pub fn told(&self) -> String {
        format!("line {}, {}: {}", self.line, date(&self.at), self.odd)
    }

    /// Whether a time in the records is in doubt; what is left only tells how a walk went.
    pub const fn is_doubtful(&self) -> bool {
        match self.odd {
            Odd::SetBack { .. } | Odd::FarAhead { .. } | Odd::Set(_) => true,
            Odd::Restarted | Odd::Still(_) => false,
        }
    }

    /// The kind in one word, for tables.
    pub const fn word(&self) -> &'static str {
        match self.odd {
            Odd::SetBack { .. } => "clock-set-back",
            Odd::FarAhead { .. } => "clock-far-ahead",
            Odd::Set(_) => "clock-set",
            Odd::Restarted => "restarted",
            Odd::Still(_) => "stood-still",
        }
    }
}

impl fmt::Display for ClockMark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}, trip {}, {}", self.device, self.seq, self.told())
    }
}

impl fmt::Display for Odd {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::SetBack { highest } => write!(
                f,
                "the clock shows less than it had shown before, {}; one of the two was wrong",
                date(highest)
            ),
            Self::FarAhead { known } => write!(
                f,
                "the clock is more than a day ahead of everything else known, {}",
                date(known)
            ),
            Self::Set(by) => write!(
                f,
                "the clock was set {} by {} since the line before, while the laptop was on",
                if *by < 0 { "back" } else { "forward" },
                span(by.saturating_abs())
            ),
            Self::Restarted => write!(f, "the laptop was started anew since the line before"),
            Self::Still(ms) => write!(
                f,
                "nothing was done for {}; the laptop slept or was left",
                span(*ms)
            ),
        }
    }
}

fn date(at: &DateTime<FixedOffset>) -> String {
    at.format("%Y-%m-%d %H:%M %:z").to_string()
}

fn span(ms: i64) -> String {
    let minutes = ms / 60_000;
    match (minutes / (24 * 60), minutes / 60 % 24, minutes % 60) {
        (0, 0, minutes) => format!("{minutes} min"),
        (0, hours, minutes) => format!("{hours} h {minutes} min"),
        (days, hours, _) => format!("{days} d {hours} h"),
    }
}

#[cfg(test)]
mod tests;
