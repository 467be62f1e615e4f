//! How long each thing a walk leaves stays open, and what closes it. One table; `docs/hauls.md`
//! tells the same to people, and a test holds the two together.

use crate::rules::Carry;
use crate::units::{Quantity, Unit};

/// How long one kind of thing stays open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lasting {
    /// What was left.
    pub what: Carry,
    /// After how many miles it is read again, once for each; none where the first closing answer
    /// closes it.
    pub marks_mi: &'static [i64],
    /// Whether it is about the joint alone, so that uncoupling ends it.
    pub ends_uncoupled: bool,
    /// What later walks owe it.
    pub owed: &'static str,
    /// By whose word, or that there is none.
    pub source: &'static str,
}

/// Every kind.
///
/// Uncoupling ends only that the rig was left: what might have been done to a joint that is
/// undone no longer matters. It does not end that the hitch was touched, since uncoupling is
/// itself that; nor a knock, which sits in wheels, welds and springs, coupled or not; nor
/// anything about wheels, load and battery, which the trailer keeps.
pub const TABLE: [Lasting; 8] = [
    Lasting {
        what: Carry::WheelOff,
        marks_mi: &[10, 25, 50],
        ends_uncoupled: false,
        owed: "its nuts are read again at 10, 25 and 50 miles",
        source: "axle makers' manuals: 10, 25 and 50 miles after every wheel removal",
    },
    Lasting {
        what: Carry::TorqueLoose,
        marks_mi: &[25],
        ends_uncoupled: false,
        owed: "its nuts are read again by 25 miles; loose a second time is a stop",
        source: "common practice, no source",
    },
    Lasting {
        what: Carry::HubWarm,
        marks_mi: &[],
        ends_uncoupled: false,
        owed: "the hub is felt again at the next stop, and looked at for grease",
        source: "common practice, no source",
    },
    Lasting {
        what: Carry::RigLeft,
        marks_mi: &[],
        ends_uncoupled: true,
        owed: "coupler, pins and plug are looked at again before it moves",
        source: "common practice, no source",
    },
    Lasting {
        what: Carry::LoadChanged,
        marks_mi: &[],
        ends_uncoupled: false,
        owed: "the rig is weighed again, and the gain set for the load",
        source: "common practice, no source",
    },
    Lasting {
        what: Carry::BatteryLow,
        marks_mi: &[],
        ends_uncoupled: false,
        owed: "the breakaway battery is read again, at rest",
        source: "common practice, no source",
    },
    Lasting {
        what: Carry::HitchTouched,
        marks_mi: &[],
        ends_uncoupled: false,
        owed: "the coupler is proven again, from both sides",
        source: "common practice, no source",
    },
    Lasting {
        what: Carry::HardKnock,
        marks_mi: &[],
        ends_uncoupled: false,
        owed: "every wheel is looked at, inside too",
        source: "common practice, no source",
    },
];

/// How long this stays open.
pub fn lasting(what: Carry) -> Lasting {
    let [first, ..] = TABLE;
    let known = TABLE.into_iter().find(|lasting| lasting.what == what);
    // A test holds that every word has its row.
    known.unwrap_or(first)
}

impl Lasting {
    /// The marks as distances.
    pub fn marks(&self) -> Vec<Quantity> {
        let mark = |miles: &i64| Quantity::whole(*miles, Unit::Mile);
        self.marks_mi.iter().map(mark).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_has_its_row() {
        let words = Carry::WORDS.map(|(_, what)| what);
        assert_eq!(TABLE.map(|lasting| lasting.what), words);
        assert!(words.iter().all(|what| lasting(*what).what == *what));
    }
}
