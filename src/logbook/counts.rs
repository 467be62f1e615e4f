//! How much a trip holds, in numbers: what is told of it on the phone.

use crate::record::{Verified, counted};
use crate::rules::{Outcome, Verdict};
use crate::walk::{Event, Given};
use std::collections::HashSet;
use std::fmt;

/// How much a trip holds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct TripCounts {
    /// Steps that were answered.
    pub steps: usize,
    /// Readings taken, those that were replaced among them.
    pub readings: usize,
    /// Readings beyond a limit.
    pub out_of_limits: usize,
    /// Steps put off.
    pub deferred: usize,
    /// Answers taken back.
    pub corrected: usize,
    /// What was seen and was not as it should be, noted, or not clear.
    pub flagged: usize,
}

impl TripCounts {
    /// Counts a trip, as far as it came.
    pub fn of(trip: &Verified) -> Self {
        let (mut counts, mut steps) = (Self::default(), HashSet::new());
        for entry in trip.entries() {
            match &entry.event {
                Event::Answered { step, given, .. } => {
                    steps.insert(step);
                    let beyond = match given.outcome() {
                        Outcome::Judged(verdict) => verdict != Verdict::Ok,
                        Outcome::Again => false,
                    };
                    match given {
                        Given::Read { .. } => {
                            counts.readings += 1;
                            counts.out_of_limits += usize::from(beyond);
                        }
                        Given::Seen { .. } => counts.flagged += usize::from(beyond),
                    }
                }
                Event::Deferred { .. } => counts.deferred += 1,
                Event::Corrected { .. } => counts.corrected += 1,
                Event::Noted { .. } | Event::Unsure { .. } => counts.flagged += 1,
                _ => {}
            }
        }
        counts.steps = steps.len();
        counts
    }
}

impl fmt::Display for TripCounts {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (steps, readings) = (
            counted(self.steps, "step"),
            counted(self.readings, "reading"),
        );
        write!(f, "{steps} answered, {readings}")?;
        let told = [
            (self.out_of_limits, "out of limits"),
            (self.deferred, "put off"),
            (self.corrected, "corrected"),
            (self.flagged, "flagged"),
        ];
        if told.iter().all(|(count, _)| *count == 0) {
            return write!(f, "; none out of limits, put off, corrected or flagged");
        }
        for (at, (count, what)) in told.iter().filter(|(count, _)| *count > 0).enumerate() {
            let sign = if at == 0 { ";" } else { "," };
            write!(f, "{sign} {count} {what}")?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_trip_holds_is_told_in_words_that_fit_the_number() {
        let told = |steps, readings, out_of_limits, flagged| {
            let counts = TripCounts {
                steps,
                readings,
                out_of_limits,
                flagged,
                ..TripCounts::default()
            };
            counts.to_string()
        };
        assert_eq!(
            told(1, 1, 0, 0),
            "1 step answered, 1 reading; none out of limits, put off, corrected or flagged"
        );
        assert_eq!(
            told(12, 0, 2, 1),
            "12 steps answered, 0 readings; 2 out of limits, 1 flagged"
        );
    }
}
