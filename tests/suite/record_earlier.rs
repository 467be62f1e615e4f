//! A trip of an earlier day: its own checklist and rig still lead, act by act, to what it says.
//!
//! `tests/vectors/record/hitch-bumper-2/` is the whole hitch-up by revision 2 of the shipped list,
//! as the program wrote it then. Its files are never edited: a figure that comes to another number
//! under the same name would call an honest record against the rules.

use hames::checklist::{Checklist, Plan};
use hames::record::{Finding, Mode, TripFiles, verify};
use hames::rig::Rig;
use std::sync::Arc;

const JOURNAL: &[u8] = include_bytes!("../vectors/record/hitch-bumper-2/journal.jsonl");
const CHECKLIST: &str = include_str!("../vectors/record/hitch-bumper-2/checklist.yaml");
const RIG: &str = include_str!("../vectors/record/hitch-bumper-2/rig.yaml");

fn found(journal: &[u8]) -> (Finding, Vec<String>) {
    let files = TripFiles {
        journal,
        checklist: CHECKLIST.as_bytes(),
        rig: RIG.as_bytes(),
        seal: None,
    };
    let (checklist, rig) = (Checklist::read(CHECKLIST).unwrap(), Rig::read(RIG).unwrap());
    let plan = Arc::new(Plan::lay(checklist, rig).unwrap());
    let examined = verify(&files, Mode::Real, &[]).repeated(Some(&plan));
    let told = examined.faults.iter().map(ToString::to_string).collect();
    (examined.finding(), told)
}

#[test]
fn a_whole_walk_by_an_earlier_revision_is_still_what_its_checklist_and_rig_come_to() {
    let (finding, told) = found(JOURNAL);
    assert_eq!(finding, Finding::Unsealed, "{told:?}");
    assert_eq!(told.len(), 1, "{told:?}");
    assert_eq!(std::str::from_utf8(JOURNAL).unwrap().lines().count(), 189);
}

#[test]
fn a_limit_set_lower_by_hand_is_told() {
    let (was, is) = ("\"bound\":\"61.75 psi\"", "\"bound\":\"41.75 psi\"");
    let text = String::from_utf8(JOURNAL.to_vec()).unwrap();
    assert!(text.contains(was));
    let (finding, _) = found(text.replacen(was, is, 1).as_bytes());
    assert_ne!(finding, Finding::Unsealed);
}
