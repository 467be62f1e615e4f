//! A question, with what gave rise to it and the honest reasons it may have.

use crate::review::Named;
use crate::units::Quantity;
use std::fmt;

/// A question about a trip.
#[derive(Clone, Debug, PartialEq)]
pub struct Asking {
    /// The trip.
    pub of: Named,
    /// What is asked.
    pub what: Signal,
}

/// What gave rise to a question.
#[derive(Clone, Debug, PartialEq)]
pub enum Signal {
    /// Less time than the acts need.
    Hurried {
        /// How many acts.
        acts: usize,
        /// The first of them and the last, by name.
        ends: (String, String),
        /// What they took, milliseconds.
        took_ms: u64,
        /// What they need at the least, milliseconds.
        least_ms: u64,
    },
    /// Answers one upon the other.
    AtOnce {
        /// How many.
        acts: usize,
        /// The first of them and the last, by name.
        ends: (String, String),
    },
    /// Readings that are those of an earlier trip.
    SameReadings {
        /// How many.
        readings: usize,
        /// That trip.
        earlier: Named,
        /// The air then and now, where it moved.
        air: Option<(Quantity, Quantity)>,
    },
    /// Readings that end in 0 or 5 more often than those of others.
    RoundDigits {
        /// How many do.
        round: u32,
        /// Of how many.
        of: u32,
        /// Percent that others have on the same rigs.
        others_pct: u32,
    },
    /// Readings that lie just inside a limit more often than those of others.
    JustInside {
        /// How many do.
        inside: u32,
        /// Of how many.
        of: u32,
        /// Percent that others have on the same rigs.
        others_pct: u32,
    },
    /// Trips on which nothing was found, one after the other.
    NothingFound {
        /// How many.
        trips: u32,
        /// Percent of the trips of others, on the same rigs, on which nothing was found.
        others_pct: u32,
    },
    /// One person at the keys of two laptops at the same time.
    TwoLaptops {
        /// Who.
        who: String,
        /// How many answers lie less than a minute from one on the other laptop.
        answers: usize,
        /// The trip there.
        other: Named,
    },
    /// Hitched up after the rig was on its way.
    AfterTheStart {
        /// The walk that was made on the way before it.
        on_the_way: Named,
    },
}

impl Signal {
    /// The kind in one word, for tables.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Hurried { .. } => "hurried",
            Self::AtOnce { .. } => "at-once",
            Self::SameReadings { .. } => "same-readings",
            Self::RoundDigits { .. } => "round-digits",
            Self::JustInside { .. } => "just-inside",
            Self::NothingFound { .. } => "nothing-found",
            Self::TwoLaptops { .. } => "two-laptops",
            Self::AfterTheStart { .. } => "after-the-start",
        }
    }

    /// Whether it is asked about many trips of one person, and not about one trip.
    pub const fn is_of_many(&self) -> bool {
        matches!(
            self,
            Self::RoundDigits { .. } | Self::JustInside { .. } | Self::NothingFound { .. }
        )
    }
}

impl fmt::Display for Asking {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let who = self.of.who.escape_debug();
        if self.what.is_of_many() {
            write!(f, "Trips of {who} up to {}: {}", self.of, self.what)
        } else {
            let of = self.of.to_string();
            let rest = of.strip_prefix('t').unwrap_or_default();
            write!(f, "T{rest}: {}", self.what)
        }
    }
}

impl fmt::Display for Signal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Hurried {
                acts,
                ends: (first, last),
                took_ms,
                least_ms,
            } => write!(
                f,
                "{acts} answers from “{first}” to “{last}” took {}, and what they ask for takes \
                 about {} at the least. Was it done before and typed afterwards, did several \
                 people do it together, or was it not all done?",
                span(*took_ms),
                span(*least_ms)
            ),
            Self::AtOnce {
                acts,
                ends: (first, last),
            } => write!(
                f,
                "{acts} answers between “{first}” and “{last}” came three and more within four \
                 seconds. Were they looked at first and typed together?"
            ),
            Self::SameReadings {
                readings,
                earlier,
                air: Some((then, now)),
            } => write!(
                f,
                "{readings} readings are those of {earlier}, though the air went from {} to {}, \
                 which moves them. Was it set right before it was read, or not read this time?",
                then.shown(0),
                now.shown(0)
            ),
            Self::SameReadings {
                readings,
                earlier,
                air: None,
            } => write!(
                f,
                "{readings} readings, every one there is to compare but the air, are those of \
                 {earlier}, to the digit. Were they read this time?"
            ),
            Self::RoundDigits {
                round,
                of,
                others_pct,
            } => write!(
                f,
                "{round} of {of} readings of pressure end in 0 or 5; of those that others type on \
                 the same rigs {others_pct} % do. Is the gauge hard to read between its marks?"
            ),
            Self::JustInside {
                inside,
                of,
                others_pct,
            } => write!(
                f,
                "{inside} of {of} readings lie within one mark of a limit, on the good side; of \
                 those that others type on the same rigs {others_pct} % do. What happens here to \
                 whoever reads one on the other side?"
            ),
            Self::NothingFound { trips, others_pct } => write!(
                f,
                "nothing was noted and nothing found on any of {trips}; of the trips of others on \
                 the same rigs {others_pct} % are so. What does this person do when something is \
                 not right?"
            ),
            Self::TwoLaptops {
                who,
                answers,
                other,
            } => write!(
                f,
                "{} was at the keys here and on {other}: {answers} answers lie less than a minute \
                 from one on the other laptop, by their clocks. Is a clock wrong, or did somebody \
                 else type in this name?",
                who.escape_debug()
            ),
            Self::AfterTheStart { on_the_way } => write!(
                f,
                "the rig was hitched up by this walk after {on_the_way} was made on its way. Was \
                 the hitch-up typed up afterwards?"
            ),
        }
    }
}

fn span(ms: u64) -> String {
    let seconds = ms.div_ceil(1000);
    match (seconds / 60, seconds % 60) {
        (0, seconds) => format!("{seconds} s"),
        (minutes, 0) => format!("{minutes} min"),
        (minutes, seconds) => format!("{minutes} min {seconds} s"),
    }
}
