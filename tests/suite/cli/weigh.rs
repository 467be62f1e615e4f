//! `hames weigh`: scale tickets behind flags, and asked for line by line.

use crate::harness::home::{Ended, Home};
use serde_json::Value;

const OURS: &str = "weigh --bumper-pull --unit lb --alone 3440,2860 --hitched 3200,3820,4960";

fn run(arguments: &str) -> Ended {
    Home::new().hames(arguments).run()
}

fn shown(name: &str, ended: &Ended) {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path("../snapshots");
    settings.set_prepend_module_to_snapshot(false);
    settings.bind(|| insta::assert_snapshot!(name, ended.out));
}

/// What was told, without its line ends.
fn told(ended: &Ended) -> String {
    ended.out.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn refused(arguments: &str, reason: &str) {
    let ended = run(arguments);
    assert_eq!((ended.status, ended.err.as_str()), (1, ""), "{arguments}");
    assert!(
        ended.out.contains("These tickets are refused."),
        "{}",
        ended.out
    );
    let told = told(&ended);
    assert!(told.contains(reason), "{told}");
    assert!(!ended.out.contains('%'), "{}", ended.out);
}

#[test]
fn tickets_become_tongue_weight_share_and_a_verdict_on_the_whole_band() {
    let ended = run(OURS);
    shown("weigh_flags", &ended);
    assert_eq!((ended.status, ended.err.as_str()), (0, ""));
}

#[test]
fn with_a_rig_it_is_told_what_is_left_of_each_rating() {
    let ended = run("weigh --rig juniper --unit lb --alone 3440,2860=6300 \
         --hitched 3200,3820,4960 --bars 3340,3640,5000 --trailer 5680 --step 20");
    shown("weigh_rig", &ended);
    assert_eq!((ended.status, ended.err.as_str()), (0, ""));
}

#[test]
fn a_share_that_the_step_cannot_tell_from_its_limit_is_said_to_be_so() {
    let told = run("weigh --bumper-pull --unit lb --alone 3440,2860 --hitched 3260,3580,5160");
    assert!(
        told.out.contains("These tickets cannot tell."),
        "{}",
        told.out
    );
    let finer =
        run("weigh --bumper-pull --unit lb --step 2 --alone 3440,2860 --hitched 3260,3580,5160");
    assert!(
        finer.out.contains("STOP. All of the band lies below"),
        "{}",
        finer.out
    );
    let heavy = run("weigh --bumper-pull --unit lb --alone 3880,2920 --hitched 3420,4480,5200");
    assert!(
        heavy.out.contains("FIX. All of the band lies above"),
        "{}",
        heavy.out
    );
}

#[test]
fn a_gooseneck_is_held_to_its_own_share_and_may_load_the_steer_axle() {
    let told = run("weigh --gooseneck --unit lb --alone 4880,3760 --hitched 5000,6140,8900");
    assert_eq!(told.status, 0);
    assert!(
        told.out
            .contains("OK. All of the band lies within the 15 to 25 %"),
        "{}",
        told.out
    );
    assert!(
        told.out.contains("puts 120 lb on the steer axle"),
        "{}",
        told.out
    );
}

#[test]
fn tickets_that_contradict_each_other_are_refused_with_what_to_do() {
    let alone = "weigh --bumper-pull --unit lb --alone 3440,2860";
    for (rest, reason) in [
        (
            "--hitched 3460,3820,4960",
            "The steer axle weighs 20 lb more",
        ),
        ("--hitched 3200,3120,4960", "which is no tongue weight"),
        (
            "--hitched 3200,3820,4960 --trailer 5760",
            "the scale's steps explain 60 lb at most",
        ),
        (
            "--hitched 3200,3820,4960 --bars 3340,3640,5080",
            "bars move weight and add none",
        ),
        ("--hitched 3200,3820,4965", "lies between two steps"),
        ("--hitched 3200,3820,496000", "is no load of a pickup"),
        ("--hitched 3200,3820,0", "is no load of a pickup"),
    ] {
        refused(&format!("{alone} {rest}"), reason);
    }
    refused(
        "weigh --gooseneck --unit lb --alone 4880,3760 --hitched 5000,6140,8900 \
         --bars 5000,6140,8900",
        "A gooseneck has no spring bars.",
    );
}

#[test]
fn every_contradiction_is_told_at_once() {
    let ended = run(&format!("{OURS} --trailer 6380 --bars 3340,3640,5080"));
    let told = told(&ended);
    assert_eq!(told.matches("then weigh again").count(), 2, "{told}");
}

#[test]
fn what_is_typed_wrongly_is_told_by_its_flag() {
    for (rest, told) in [
        (
            "--alone 3440 --hitched 3200,3820,4960",
            "--alone takes 2 weights",
        ),
        (
            "--alone 3,440,2,860 --hitched 3200,3820,4960",
            "--alone takes 2 weights",
        ),
        (
            "--alone 3440,2860lb --hitched 3200,3820,4960",
            "is no plain number",
        ),
        (
            "--alone 3440,2860=6320 --hitched 3200,3820,4960",
            "one of them is mistyped",
        ),
        ("--alone 3400,2900 --hitched 3200,3800,5000", "--step"),
    ] {
        let ended = run(&format!("weigh --bumper-pull --unit lb {rest}"));
        assert_eq!((ended.status, ended.out.as_str()), (2, ""), "{rest}");
        assert!(ended.err.contains(told), "{}", ended.err);
    }
    let unjoined = run("weigh --unit lb --alone 3440,2860 --hitched 3200,3820,4960");
    assert_eq!(unjoined.status, 2);
    assert!(unjoined.err.contains("--gooseneck"), "{}", unjoined.err);
    let unitless = run("weigh --bumper-pull --alone 3440,2860 --hitched 3200,3820,4960");
    assert_eq!(unitless.status, 2);
    assert!(unitless.err.contains("--unit"), "{}", unitless.err);
}

#[test]
fn kilograms_are_held_to_ratings_in_pounds() {
    let ended = run("weigh --rig juniper --unit kg --alone 1560,1460 --hitched 1450,1900,2250");
    assert_eq!(ended.status, 0);
    let told = told(&ended);
    assert!(
        told.contains("STOP. More than the rating of the drive axle, "),
        "{told}"
    );
    assert!(ended.out.contains(" kg over"), "{}", ended.out);
}

#[test]
fn json_has_the_band_exactly_and_the_refusals_with_their_next_step() {
    let told: Value = serde_json::from_str(&run(&format!("{OURS} --json")).out).unwrap();
    assert_eq!(told["schema"], "hames-weigh/1");
    assert_eq!(told["tongue"]["is"]["value"], 720);
    assert_eq!(told["tongue"]["least"]["value"], 680);
    assert_eq!(told["trailer"]["most"]["value"], 5730);
    assert_eq!(told["share"]["is"]["exact"], "900/71");
    assert_eq!(told["held"], "within");
    assert_eq!(told["steer_change"]["value"], -240);
    let ended = run(&format!("{OURS} --trailer 6380 --json"));
    let told: Value = serde_json::from_str(&ended.out).unwrap();
    assert_eq!(ended.status, 1);
    assert!(told["tongue"].is_null());
    let refused = &told["refused"][0];
    assert!(
        refused["reason"].as_str().unwrap().contains("700 lb"),
        "{refused}"
    );
    assert!(
        refused["next"].as_str().unwrap().contains("weigh again"),
        "{refused}"
    );
}

#[test]
fn without_flags_every_ticket_is_asked_for_and_nothing_is_taken_for_granted() {
    let typed = "\nbumper-pull\nlb\n20 kg\n20\n3200\n3820 lb\n4960\n11980\n3440\n2860\n6320\n3440\n\
                 2860\nnone\nno\nyes\n5680\n";
    let ended = Home::new().hames("weigh").typed(typed).run();
    shown("weigh_asked", &ended);
    assert_eq!((ended.status, ended.err.as_str()), (0, ""));
}

#[test]
fn an_input_that_ends_early_reckons_nothing() {
    let ended = Home::new()
        .hames("weigh")
        .typed("bumper-pull\nlb\n20\n3200\n")
        .run();
    assert_eq!(ended.status, 2);
    assert!(
        ended
            .out
            .ends_with("The input has ended. Nothing was reckoned.\n"),
        "{}",
        ended.out
    );
}

#[test]
fn a_rig_that_is_not_there_is_told_before_any_ticket_is_asked_for() {
    let ended = run("weigh --rig none-such");
    assert_eq!((ended.status, ended.out.as_str()), (2, ""));
    assert!(ended.err.contains("none-such"), "{}", ended.err);
}
