//! The age at which a tire is noted, and the age at which it stops the rig.

/// Two ages in whole years, the first below the second.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TireYears {
    note: i64,
    stop: i64,
}

impl TireYears {
    /// The most years any tire is driven: what tire makers give as the latest, from memory.
    pub const MOST: i64 = 10;

    /// Where the default ages come from, and what others say.
    pub const BECAUSE: &'static str = "Four: a survey of US horse-trailer wrecks, Clemson, 2006, \
        read in a copy, asks for new tires every three to five years. Six: tire and vehicle \
        makers, from memory. Others say five to seven, or ten at the latest. By the tire, not by \
        the set.";

    /// These ages; nothing unless the note comes first and the stop no later than ever.
    pub fn new(note: i64, stop: i64) -> Option<Self> {
        (1 <= note && note < stop && stop <= Self::MOST).then_some(Self { note, stop })
    }

    /// From this age on a tire is noted.
    pub fn note(self) -> i64 {
        self.note
    }

    /// From this age on a tire stops the rig.
    pub fn stop(self) -> i64 {
        self.stop
    }
}

impl Default for TireYears {
    fn default() -> Self {
        Self { note: 4, stop: 6 }
    }
}
