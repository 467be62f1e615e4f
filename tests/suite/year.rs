//! Every list of the year, walked: the way on which all is well, and every bad answer of every
//! critical step to where it ends.

mod bad;
pub(crate) mod bench;
mod graph;
mod sources;
mod units;

use crate::harness::good;
use bench::{Laid, begin, everything_carried, laid, moment};
use hames::checklist::{Ending, Plan};
use hames::walk::{Act, Ended, Now, Refusal, Status, Walk};

#[test]
fn every_list_is_walked_to_its_end_where_all_is_well() {
    let mut walked = 0;
    for laid in laid() {
        for carried in [vec![], everything_carried(&laid.rig)] {
            let mut walk = begin(&laid, carried);
            while let Some((act, _)) = good::next(&walk, "Odile Marsh") {
                good::step(&mut walk, &act, &moment())
                    .unwrap_or_else(|refusal| panic!("{laid}: {act:?}: {refusal}"));
            }
            assert_eq!(walk.ended(), Some(Ended::Complete), "{laid}");
            walked += 1;
        }
    }
    // Twelve lists for both kinds of rig, two for one, each with nothing and with all carried in.
    assert_eq!(walked, 2 * (12 * 2 + 2));
}

#[test]
fn every_bad_answer_of_every_critical_step_leads_to_an_end() {
    let mut answers = 0;
    for laid in laid() {
        for carried in [vec![], everything_carried(&laid.rig)] {
            let mut walk = begin(&laid, carried);
            while let Some((act, _)) = good::next(&walk, "Odile Marsh") {
                if let Now::Open(index) = walk.now()
                    && walk.plan().steps()[index].step.critical
                {
                    for bad in bad::answers(&walk, index) {
                        answers += 1;
                        to_its_end(walk.clone(), index, &bad, &laid);
                    }
                }
                good::step(&mut walk, &act, &moment()).unwrap();
            }
        }
    }
    assert!(answers > 4000, "only {answers} bad answers");
}

/// Gives the bad answer, works its branch, and answers afresh or ends the walk as not fit to go.
fn to_its_end(mut walk: Walk, index: usize, bad: &[Act], laid: &Laid) {
    let name = walk.plan().steps()[index].key.to_string();
    let told = || format!("{laid}: {name}: {bad:?}");
    for act in bad {
        good::step(&mut walk, act, &moment()).unwrap_or_else(|no| panic!("{}: {no}", told()));
    }
    assert_eq!(walk.now(), Now::Branch(index), "{}", told());
    let Status::Bad { branch, .. } = &walk.steps()[index].status else {
        panic!("{}", told())
    };
    let ends = branch_ends(walk.plan(), branch);
    let words = "put right, and looked at once more".to_owned();
    let put_right = Act::PutRight { words };
    if ends == Ending::NotFitToGo {
        let refused = good::step(&mut walk, &put_right, &moment());
        assert_eq!(refused.unwrap_err(), Refusal::BranchEndsTrip, "{}", told());
        let (outcome, words) = (Ended::NotFitToGo, "it stays here".to_owned());
        good::step(&mut walk, &Act::End { outcome, words }, &moment()).unwrap();
        assert_eq!(walk.ended(), Some(Ended::NotFitToGo), "{}", told());
        return;
    }
    // Nothing but the branch leads on.
    let refused = good::step(&mut walk, &Act::Open, &moment());
    assert!(refused.is_err(), "{}", told());
    good::step(&mut walk, &put_right, &moment()).unwrap_or_else(|no| panic!("{}: {no}", told()));
    assert_eq!(walk.now(), Now::Next(index), "{}", told());
    good::step(&mut walk, &Act::Open, &moment()).unwrap();
    let afresh = good::good(walk.plan(), &walk.asked(index).unwrap(), "Odile Marsh");
    good::step(&mut walk, afresh.act(), &moment()).unwrap();
    assert!(
        matches!(walk.steps()[index].status, Status::Done(_)),
        "{}",
        told()
    );
}

fn branch_ends(plan: &Plan, id: &str) -> Ending {
    plan.branch(id)
        .unwrap_or_else(|| panic!("no branch {id}"))
        .ends
}
