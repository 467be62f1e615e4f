//! The shipped hitch-up on the demo bumper pull, walked to its end with everything as it should be.

use crate::good::{next, step};
use chrono::{DateTime, TimeDelta};
use hames::checklist::{Checklist, Plan, shipped_by_default};
use hames::rig::Rig;
use hames::rig::demo::JUNIPER;
use hames::walk::{Act, Ended, Entry, Moment, Walk, Words};
use std::sync::Arc;

/// The shipped checklist's text.
pub(crate) fn checklist() -> &'static str {
    &shipped_by_default().next().unwrap().text
}

/// The checklist laid on the rig, both read from their text.
pub(crate) fn laid() -> Plan {
    let checklist = Checklist::read(checklist()).unwrap();
    Plan::lay(checklist, Rig::read(JUNIPER).unwrap()).unwrap()
}

/// A walk before its first act.
pub(crate) fn fresh(plan: impl Into<Arc<Plan>>) -> Walk {
    let began = Moment {
        wall: DateTime::parse_from_rfc3339("2026-11-25T07:30:00-05:00").unwrap(),
        boot: "5f0c11b2".to_owned(),
        mono_ms: 81_250,
    };
    Walk::begin(plan, words("Wren Ashdown"), words("Tobias Fenn"), began)
}

/// Everything that happens on a walk, an act every 20 seconds.
pub(crate) fn entries(mut walk: Walk) -> Vec<Entry> {
    let mut entries = Vec::new();
    while let Some((act, _)) = next(&walk, "Odile Marsh") {
        let mut at = walk.last().clone();
        at.wall += TimeDelta::seconds(20);
        at.mono_ms += 20_000;
        entries.push(step(&mut walk, &act, &at).unwrap());
    }
    entries
}

/// The same, given up after so many lines, line 0 and the last one counted.
pub(crate) fn cut_short(mut walk: Walk, lines: usize) -> Vec<Entry> {
    let mut entries: Vec<Entry> = Vec::new();
    while entries.len() + 1 < lines {
        let mut at = walk.last().clone();
        at.wall += TimeDelta::seconds(20);
        at.mono_ms += 20_000;
        let act = if entries.len() + 2 < lines {
            next(&walk, "Odile Marsh").unwrap().0
        } else {
            Act::End {
                outcome: Ended::Incomplete,
                words: "Rain.".to_owned(),
            }
        };
        entries.push(step(&mut walk, &act, &at).unwrap());
    }
    entries
}

pub(crate) fn words(text: &str) -> Words {
    Words::read(text).unwrap()
}
