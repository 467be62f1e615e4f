//! Beginning a walk on the screens: what keeps it from beginning is told before anything is asked.

use crate::screens::bench::Bench;
use hames::tui::Context;

const FORK: &str = "No trip is begun on laptop-7f3a: it has two different trips 2, so a backup \
                    was put back or its folder was copied.";

#[test]
fn where_no_walk_can_begin_the_start_screen_says_so_and_asks_nothing() {
    let bench = Bench::arranged(|desk| desk.no_walk = Some(FORK.to_owned()));
    let start = bench.text(80, 24);
    assert!(start.contains("it has two different trips 2"), "{start}");
    for keys in ["1", "w"] {
        let bench = bench.clone().play(keys);
        assert_eq!(bench.model.context(), Context::RigPage);
        assert_eq!(bench.model.said(), Some(FORK));
    }
}

#[test]
fn a_list_that_may_not_be_begun_is_refused_before_anybody_is_named() {
    let why = "“Hitch up” is not begun: the rig stays off the road.";
    let bench = Bench::arranged(|desk| desk.refuses = Some(why.to_owned())).play("w");
    assert_eq!(bench.model.context(), Context::RigPage);
    assert_eq!(bench.model.said(), Some(why));
}

#[test]
fn what_is_to_be_known_of_a_person_stands_above_the_next_question() {
    let wren = "Wren Ashdown is not signed off for Juniper.";
    let bench = Bench::arranged(|desk| desk.foretold[1] = vec![wren.to_owned()]).play("w");
    assert!(!bench.text(80, 24).contains(wren));
    let shown = bench.play("1").text(80, 24);
    let (above, _) = shown.split_once("Who does the work?").unwrap();
    assert!(above.contains(wren), "{shown}");
}
