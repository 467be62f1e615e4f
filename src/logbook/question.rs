//! A question to the manager: what does not fit together, and never whose fault it is.

use crate::logbook::Leg;
use crate::record::Id;
use crate::units::Quantity;
use chrono::{DateTime, FixedOffset};
use std::fmt;

/// Something two records do not agree on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Question {
    /// The odometer went backwards.
    Backwards {
        /// The truck.
        truck: String,
        /// The higher reading.
        earlier: Spot,
        /// The lower one, which comes after it.
        later: Spot,
        /// Why it comes after it.
        comes: Comes,
    },
    /// A way that no walk tells of.
    Unaccounted {
        /// The truck.
        truck: String,
        /// The last reading before it.
        earlier: Spot,
        /// The first one after it.
        later: Spot,
        /// How far, in the unit of the later reading.
        way: Quantity,
        /// Whether the trailer was unhitched before it.
        unhitched: bool,
    },
    /// Further than anyone drives in the time between.
    TooFast {
        /// The truck.
        truck: String,
        /// The reading before.
        earlier: Spot,
        /// The reading after.
        later: Spot,
        /// How far, in the unit of the later reading.
        way: Quantity,
        /// The minutes between, by the clocks.
        minutes: i64,
    },
}

/// A reading, with where it stands and who answers for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spot {
    /// The trip.
    pub trip: Id,
    /// The laptop.
    pub device: Id,
    /// The trip's number there.
    pub seq: u64,
    /// When.
    pub at: DateTime<FixedOffset>,
    /// Who signed it.
    pub who: String,
    /// The reading as typed.
    pub read: String,
    /// What it means.
    pub means: Quantity,
}

/// Why a reading comes after another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Comes {
    /// Their laptop numbered them so.
    Numbered,
    /// One record names the other, or their haul does.
    Named,
    /// Only the clocks say so.
    Clocks,
}

impl Question {
    /// The kind in one word, for tables.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Backwards { .. } => "odometer-backwards",
            Self::Unaccounted { .. } => "way-unaccounted",
            Self::TooFast { .. } => "too-fast",
        }
    }

    /// The truck, as the rig file calls it.
    pub fn truck(&self) -> &str {
        match self {
            Self::Backwards { truck, .. }
            | Self::Unaccounted { truck, .. }
            | Self::TooFast { truck, .. } => truck,
        }
    }

    /// The two readings, the earlier first.
    pub const fn spots(&self) -> (&Spot, &Spot) {
        match self {
            Self::Backwards { earlier, later, .. }
            | Self::Unaccounted { earlier, later, .. }
            | Self::TooFast { earlier, later, .. } => (earlier, later),
        }
    }
}

impl Spot {
    pub(super) fn of(leg: &Leg, mileage: &crate::logbook::Mileage) -> Self {
        Self {
            trip: leg.trip.clone(),
            device: leg.device.clone(),
            seq: leg.seq,
            at: mileage.at.wall,
            who: leg.who.clone(),
            read: mileage.read.text().to_owned(),
            means: mileage.read.quantity().clone(),
        }
    }
}

impl Comes {
    /// As an answer to how one knows.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Numbered => "by the numbers of its laptop",
            Self::Named => "by what the records name",
            Self::Clocks => "by the clocks alone",
        }
    }
}

impl fmt::Display for Question {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let truck = self.truck().escape_debug();
        match self {
            Self::Backwards {
                earlier,
                later,
                comes,
                ..
            } => write!(
                f,
                "The odometer of {truck} reads {later}, and {earlier}, which comes before it {}. Was one of the two \
                 misread or mistyped, or was the odometer changed?",
                comes.word()
            ),
            Self::Unaccounted {
                earlier,
                later,
                way,
                unhitched: true,
                ..
            } => write!(
                f,
                "{truck} went {} between {earlier}, at an unhitching, and {later}, at the next \
                 hitch-up, and no walk tells of it. Did it go without the trailer?",
                way.shown(0)
            ),
            Self::Unaccounted {
                earlier,
                later,
                way,
                unhitched: false,
                ..
            } => write!(
                f,
                "{truck} went {} between {earlier}, and {later}, at the next hitch-up, and no walk \
                 tells of an unhitching between. Was the trailer behind it, and was it unhitched \
                 without a walk?",
                way.shown(0)
            ),
            Self::TooFast {
                earlier,
                later,
                way,
                minutes,
                ..
            } => write!(
                f,
                "{truck} went {} in {} by the clocks, from {earlier}, to {later}. Is a reading \
                 mistyped, or was a clock wrong?",
                way.shown(0),
                duration(*minutes)
            ),
        }
    }
}

impl fmt::Display for Spot {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{} on trip {} of {} ({}, {})",
            self.read.escape_debug(),
            self.seq,
            self.device,
            self.who.escape_debug(),
            self.at.format("%Y-%m-%d %H:%M")
        )
    }
}

fn duration(minutes: i64) -> String {
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}
