//! The drill room: what is offered to whom, and how a drill or a check ride begins from it.

use crate::screens::bench::{Bench, LOOK};
use crate::screens::drill::desk::DrillDesk;
use crate::screens::drill::{changed, room, unrecorded};
use hames::desk::{AskedDrill, DrillWanted, WhichDrill};
use hames::drill::Stage;
use hames::tui::Context;

#[test]
fn what_changed_since_a_check_ride_stands_before_the_weakest_steps_and_is_told_once() {
    let bench = changed().play("1");
    let shown = bench.text(80, 24);
    let lines = [
        "Changed since your check ride",
        "1 Receiver pin, Hitch up a bumper pull, revision 6",
        "2 Coupler seat, Hitch up a bumper pull, revision 6",
        "The weakest steps",
    ];
    let places = lines.map(|line| {
        shown
            .find(line)
            .unwrap_or_else(|| panic!("{line}: {shown}"))
    });
    assert!(places.is_sorted(), "{shown}");
    assert_eq!(shown.matches("Coupler seat").count(), 1, "{shown}");
    let asked = asked(&bench.play("1"));
    let step = WhichDrill::OfStep {
        list: "hitch-bumper".to_owned(),
        step: "receiver-pin".to_owned(),
    };
    assert_eq!((asked.which, asked.stage), (step, None));
    let bench = changed().play("2");
    let shown = bench.text(80, 24);
    assert!(!shown.contains("Changed since"), "{shown}");
}

/// The drill that was asked for last.
fn asked(bench: &Bench) -> AskedDrill {
    bench.drills.as_ref().unwrap().begun.last().unwrap().clone()
}

#[test]
fn a_check_ride_begins_by_its_own_key_once_the_list_the_examiner_and_the_rule_are_said() {
    let bench = room().play("1");
    let bench = bench.chooses("A check ride");
    // Neither the lists nor the examiners are marked, and Enter chooses none.
    let bench = bench.play("⏎⏎1⏎⏎2");
    let shown = bench.text(80, 24).replace('\n', " ");
    for said in [
        "Ines Calder rides the whole of Hitch up a bumper pull.",
        "Tobias Fenn is beside the rider, helps with nothing, and signs too.",
        "Passed when every hidden fault is called",
        "Stage: check ride",
    ] {
        assert!(shown.contains(said), "{said}: {shown}");
    }
    let bench = bench.play("⏎⏎1a");
    assert_eq!(bench.model.context(), Context::BeforeRide);
    assert!(bench.drills.as_ref().unwrap().begun.is_empty());
    let back = bench.clone_with(LOOK).play("qqq");
    assert_eq!(back.model.context(), Context::DrillRoom);
    let bench = bench.play("r");
    let ride = WhichDrill::CheckRide {
        list: "hitch-bumper".to_owned(),
        examiner: "Tobias Fenn".to_owned(),
    };
    assert_eq!(asked(&bench).which, ride);
    assert_eq!(asked(&bench).learner, "Ines Calder");
    let shown = bench.text(80, 24);
    assert!(shown.contains("Examined by Tobias Fenn."), "{shown}");
}

#[test]
fn whoever_nobody_may_examine_reads_so_on_the_line_and_why_by_its_key() {
    let bench = room().play("2");
    let bench = bench.chooses("nobody may examine you yet");
    assert_eq!(bench.model.context(), Context::DrillRoom);
    let said = bench.model.said().unwrap();
    assert!(said.starts_with("Nobody of the crew may examine"), "{said}");
    // Where nothing is recorded there is no check ride at all.
    let shown = unrecorded().text(80, 40);
    assert!(!shown.contains("check ride"), "{shown}");
}

#[test]
fn where_nobody_is_chosen_a_drill_is_played_and_not_recorded_and_somebody_can_be_after_it() {
    let bench = room();
    let bench = bench.chooses("Nobody: nothing of it is recorded");
    let shown = bench.text(80, 24);
    assert!(shown.contains("nobody learns"), "{shown}");
    assert!(!shown.contains("weakest"), "{shown}");
    assert!(!shown.contains("A check ride"), "{shown}");
    let bench = bench.chooses("Any, by the dice");
    assert_eq!(asked(&bench).learner, "");
    let bench = bench.play("⏎⇥q");
    assert_eq!(
        bench.model.said(),
        Some("The drill is left. Nothing of it was recorded.")
    );
    let bench = bench.chooses("Somebody learns");
    let shown = bench.text(80, 24);
    assert!(shown.contains("Who learns?"), "{shown}");
}

/// The drill room begun with this.
fn wanting(desk: DrillDesk, which: Option<WhichDrill>, learner: Option<&str>) -> Bench {
    let wanted = DrillWanted {
        which,
        again: None,
        learner: learner.map(str::to_owned),
        stage: Some(Stage::Solo),
        seed: Some(7),
    };
    Bench::asked_for(desk, wanted)
}

#[test]
fn a_drill_named_at_the_start_begins_as_soon_as_it_is_known_who_learns() {
    let pin = || Some(WhichDrill::Named("receiver-pin".to_owned()));
    let waiting = wanting(DrillDesk::of_a_barn(), pin(), None);
    assert!(waiting.drills.as_ref().unwrap().begun.is_empty());
    let shown = waiting.text(80, 24);
    assert!(
        shown.contains("Then it begins: The pin that held last week."),
        "{shown}"
    );
    let named = |who| wanting(DrillDesk::of_a_barn(), pin(), Some(who));
    let alone = wanting(DrillDesk::unrecorded(), pin(), None);
    let begun = vec![
        (waiting.clone_with(LOOK).play("1"), "Ines Calder"),
        (waiting.chooses("Nobody: nothing of it is recorded"), ""),
        (named("tobias.fenn"), "Tobias Fenn"),
        (alone, ""),
    ];
    for (bench, learner) in begun {
        let asked = asked(&bench);
        assert_eq!(asked.learner, learner);
        assert_eq!(Some(asked.which), pin());
        assert_eq!((asked.stage, asked.seed), (Some(Stage::Solo), Some(7)));
        assert_eq!(bench.drills.as_ref().unwrap().begun.len(), 1);
    }
}

#[test]
fn a_seed_and_a_stage_named_with_nothing_else_hold_for_what_is_begun_first() {
    let bench = wanting(DrillDesk::of_a_barn(), None, Some("Ines Calder"));
    let shown = bench.text(80, 24);
    assert!(shown.contains("Ines Calder learns"), "{shown}");
    assert!(shown.contains("Stage: solo  Seed: 7"), "{shown}");
    let bench = bench.chooses("Any, by the dice");
    let asked_first = asked(&bench);
    assert_eq!(asked_first.which, WhichDrill::Any);
    assert_eq!(
        (asked_first.stage, asked_first.seed),
        (Some(Stage::Solo), Some(7))
    );
    let shown = bench.play("⏎⇥q").text(80, 24);
    assert!(shown.contains("Stage: the one reached\n"), "{shown}");
}

#[test]
fn a_check_ride_named_at_the_start_is_ridden_by_somebody() {
    let ride = WhichDrill::CheckRide {
        list: "hitch-bumper".to_owned(),
        examiner: "tobias.fenn".to_owned(),
    };
    let bench = wanting(DrillDesk::of_a_barn(), Some(ride.clone()), None);
    let shown = bench.text(80, 24).replace('\n', " ");
    assert!(!shown.contains("Nobody: nothing"), "{shown}");
    assert!(
        shown.contains("the check ride of Hitch up a bumper pull, examined by Tobias Fenn."),
        "{shown}"
    );
    assert_eq!(asked(&bench.play("1")).which, ride);
}
