//! Trips of an earlier day: their own checklist and rig still lead, act by act, to what they say.
//!
//! Each folder named here is a whole walk as the program wrote it then. Its files are never edited:
//! a figure that comes to another number under the same name would call an honest record against
//! the rules. `hitch-bumper-2` is of revision 2 of that list, `hitch-bumper-4` has a second reading
//! and limits by what was read before, `first-stop-1` has something carried in and readings held to
//! one another.

use hames::checklist::{Checklist, Plan};
use hames::record::{Finding, Mode, Said, TripFiles, read_chain, verify};
use hames::rig::Rig;
use std::sync::Arc;

/// A trip as its folder holds it.
struct Earlier {
    journal: &'static [u8],
    checklist: &'static str,
    rig: &'static str,
    lines: usize,
}

macro_rules! earlier {
    ($folder:literal, $lines:literal) => {
        Earlier {
            journal: include_bytes!(concat!("../vectors/record/", $folder, "/journal.jsonl")),
            checklist: include_str!(concat!("../vectors/record/", $folder, "/checklist.yaml")),
            rig: include_str!(concat!("../vectors/record/", $folder, "/rig.yaml")),
            lines: $lines,
        }
    };
}

const EARLIER: [Earlier; 3] = [
    earlier!("hitch-bumper-2", 189),
    earlier!("hitch-bumper-4", 206),
    earlier!("first-stop-1", 83),
];

impl Earlier {
    /// What verification says of this journal, given its checklist and rig.
    fn found(&self, journal: &[u8]) -> (Finding, Vec<String>) {
        let files = TripFiles {
            drill: hames::record::DrillFiles::default(),
            journal,
            checklist: self.checklist.as_bytes(),
            rig: self.rig.as_bytes(),
            seal: None,
        };
        let checklist = Checklist::read(self.checklist).unwrap();
        let rig = Rig::read(self.rig).unwrap();
        let first = &read_chain(journal).links[0];
        let Ok(Said::Begun(begun)) = &first.said else {
            panic!("line 0 is no beginning")
        };
        let plan = Arc::new(Plan::lay_for(checklist, rig, begun.carried()).unwrap());
        let examined = verify(&files, Mode::Real, &[]).repeated(Some(&plan));
        let told = examined.faults.iter().map(ToString::to_string).collect();
        (examined.finding(), told)
    }
}

#[test]
fn a_whole_walk_of_an_earlier_day_is_still_what_its_checklist_and_rig_come_to() {
    for earlier in EARLIER {
        let (finding, told) = earlier.found(earlier.journal);
        assert_eq!(finding, Finding::Unsealed, "{told:?}");
        assert_eq!(told.len(), 1, "{told:?}");
        let text = std::str::from_utf8(earlier.journal).unwrap();
        assert_eq!(text.lines().count(), earlier.lines);
    }
}

#[test]
fn a_limit_set_lower_by_hand_is_told() {
    let [earlier, ..] = EARLIER;
    let (was, is) = ("\"bound\":\"61.75 psi\"", "\"bound\":\"41.75 psi\"");
    let text = String::from_utf8(earlier.journal.to_vec()).unwrap();
    assert!(text.contains(was));
    let (finding, _) = earlier.found(text.replacen(was, is, 1).as_bytes());
    assert_ne!(finding, Finding::Unsealed);
}
