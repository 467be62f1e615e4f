//! What stands on a drill's screens: keys that mean one thing, hints in the words of the choices, and
//! the stage before anything else.

use crate::screens::drill::{drill, kept};
use hames::drill::Stage;

#[test]
fn no_two_lines_of_a_drill_are_chosen_by_one_key() {
    let second = drill("on-top", None, Stage::Guided).drilled_to("second-look");
    let watched = drill("receiver-pin", Some("no-clip"), Stage::Watch).play("ddddd");
    for shown in [second.text(80, 60), watched.text(80, 60)] {
        // The last line names the keys once more.
        let rows = shown.trim_end().rsplit_once('\n').unwrap().0;
        let heads = rows.lines().filter_map(|line| {
            let (head, _) = line.trim_start().split_once(' ')?;
            let one = head.len() == 1 && head.chars().all(|key| key.is_ascii_lowercase());
            one.then(|| head.to_owned())
        });
        let heads: Vec<String> = heads.collect();
        let mut once = heads.clone();
        once.sort();
        once.dedup();
        assert_eq!(once.len(), heads.len(), "{shown}");
    }
}

#[test]
fn a_hint_names_the_places_as_the_choices_above_it_do() {
    let bench = drill("receiver-pin", None, Stage::Guided).drilled_to("receiver-pin");
    let shown = bench.text(80, 60);
    assert!(
        shown.contains("It shows from one place: from the right side (b)."),
        "{shown}"
    );
    assert!(!shown.contains("look right"), "{shown}");
}

#[test]
fn a_drill_says_its_stage_before_the_first_step_and_when_it_is_taken_up() {
    for (stage, told) in [
        (Stage::Guided, "Stage: guided, with every hint."),
        (Stage::CheckRide, "Stage: check ride."),
    ] {
        let shown = kept("receiver-pin", None, stage).text(60, 20);
        assert!(shown.contains(told), "{shown}");
        let left = kept("receiver-pin", None, stage).play("⏎⇥q");
        let key = left.line("Juniper, two-horse");
        let shown = left.play(&key).text(60, 40);
        assert!(shown.contains(told), "{shown}");
    }
}
