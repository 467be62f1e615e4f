//! Papers by their last day.

use crate::due::soon::SOON;
use crate::due::{Day, Due, When};
use crate::rig::{Paper, Rig};
use crate::rules::{Authority, Basis, Verdict};

/// Which papers a road or a state line asks for, and how old a test may be, is not known here.
const SOURCE: &str = "the paper's own date; what is asked for differs by state, so ask the state \
                      veterinarian's or the motor vehicle office";

const WAY_OUT: &str = "Renew it, and write its new last day into the rig file; a horse that stays \
                       home is taken off it.";

pub(super) fn all(rig: &Rig, day: Day) -> Vec<Due> {
    rig.papers.iter().map(|paper| one(paper, day)).collect()
}

fn one(paper: &Paper, day: Day) -> Due {
    let when = When::by(paper.until, day);
    let left = when.days.unwrap_or_default();
    let verdict = if left < 0 {
        Verdict::Stop
    } else if left <= SOON.days {
        Verdict::Note
    } else {
        Verdict::Ok
    };
    Due {
        what: paper.what.clone(),
        of: Some(paper.of.clone()),
        verdict,
        when,
        why: format!("Its last day is {}.", paper.until),
        basis: Basis {
            authority: Authority::Law,
            source: SOURCE.to_owned(),
        },
        way_out: Some(WAY_OUT),
    }
}
