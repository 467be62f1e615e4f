//! What no order of acts can break.

use super::bench::Bench;
use hames::walk::{Answer, Ended, Now, Status};
use proptest::prelude::*;

/// Acts a person could try, sensible and not.
const ACTS: &[&str] = &[
    "open",
    "open",
    "open",
    "see down",
    "see none",
    "see hair",
    "see in",
    "see two",
    "see proud",
    "see finger",
    "see cannot-see",
    "see loose",
    "see flat",
    "see deep",
    "see-as Odile Marsh: seated",
    "see-as Odile Marsh: high",
    "see-as Tobias Fenn: seated",
    "read 65 psi by gauge-100",
    "read 65 psi by gauge-100",
    "read 58 psi by gauge-100",
    "read 45 psi by gauge-100",
    "read 62 psi by gauge-100",
    "read 6.5 psi by gauge-100",
    "read 75 psi by gauge-100",
    "remark by Friday",
    "put-right done",
    "put-right",
    "close",
    "close",
    "defer not here",
    "correct latch: wrong",
    "correct gap: wrong",
    "correct cord: wrong",
    "note cold",
    "hold | cord",
    "resume",
    "take-up",
    "hand-over Odile Marsh | Wren Ashdown",
    "hand-over Wren Ashdown | Tobias Fenn",
    "unsure",
    "settle asked",
    "wait 30",
    "wait 300",
    "restart",
    "end complete",
];

/// A good act for where the walk stands, so that random walks get far.
fn sensible(bench: &Bench) -> &'static str {
    match bench.stands().split(['/', ' ']).take(2).collect::<Vec<_>>()[..] {
        ["open", "latch"] => "see down",
        ["open", "gap"] => "see none",
        ["open", "mirror"] => "see flat",
        ["open", "cord"] => "see in",
        ["open", "second-look"] => "see-as Odile Marsh: seated",
        ["open", "tire"] => "read 65 psi by gauge-100",
        ["open", "chocks"] => "see two",
        ["fix" | "stop", _] => "put-right done",
        ["remark", _] => "remark by Friday",
        ["end", "of"] => "close",
        ["held"] => "resume",
        ["unsure"] => "settle asked",
        ["finished"] => "end complete",
        _ => "open",
    }
}

fn complete_means_complete(bench: &Bench) {
    if bench.walk.now() != Now::Ended(Ended::Complete) {
        return;
    }
    for (index, step) in bench.walk.steps().iter().enumerate() {
        let applies = bench.walk.left_out(index).is_none();
        let open = |answer: &Answer| answer.given.outcome().is_open();
        assert!(
            !step.answers.last().is_some_and(open),
            "step {index} was left badly answered: {step:?}"
        );
        assert!(
            !applies || matches!(step.status, Status::Done(_)),
            "step {index}: {step:?}"
        );
    }
    for (at, section) in bench.walk.plan().sections().iter().enumerate() {
        assert!(
            bench.walk.is_closed(at),
            "section {} was never closed",
            section.id
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// The bench also holds the fold to the live walk after every act.
    #[test]
    fn no_order_of_acts_reaches_a_complete_end_with_anything_open(
        picks in prop::collection::vec(prop::option::weighted(0.4, 0..ACTS.len()), 0..90)
    ) {
        let mut bench = Bench::new();
        for pick in picks {
            let act = pick.map_or_else(|| sensible(&bench), |at| ACTS[at]);
            bench.play(act);
            complete_means_complete(&bench);
        }
    }

    /// From wherever random acts lead, the sensible ones reach the end, or a trip that is not fit.
    #[test]
    fn a_walk_can_always_be_ended(picks in prop::collection::vec(0..ACTS.len(), 0..40)) {
        let mut bench = Bench::new();
        for at in picks {
            bench.play(ACTS[at]);
        }
        for _ in 0..80 {
            let act = sensible(&bench);
            bench.play(act);
        }
        let ended = matches!(bench.walk.now(), Now::Ended(_));
        let shop = bench.stands() == "stop mirror by shop";
        prop_assert!(ended || shop, "stuck at {}", bench.stands());
        complete_means_complete(&bench);
    }
}

#[test]
fn one_act_over_and_over_completes_no_section() {
    for act in ACTS {
        let mut bench = Bench::new();
        for _ in 0..50 {
            bench.play(act);
        }
        assert!(!bench.walk.is_closed(0), "{act} alone closed a section");
    }
}
