//! Facts read on the walk: limits are drawn with those that stand, rules of thumb stand for what
//! is not known, and no later reading rewrites an earlier verdict.

use super::bench::Bench;
use hames::checklist::{Checklist, Plan, PlannedAsk, StepKey};
use hames::figures::Fact;
use hames::rig::Rig;
use hames::rig::demo::JUNIPER;
use hames::walk::Given;

const FACTS: &str = include_str!("../../vectors/checklist-facts.yaml");

fn bench() -> Bench {
    bench_of(FACTS)
}

fn bench_of(checklist: &str) -> Bench {
    let checklist = Checklist::read(checklist).unwrap();
    Bench::on(Plan::lay(checklist, Rig::read(JUNIPER).unwrap()).unwrap())
}

/// The limits of a step as they are drawn now: bound, whose word, how it came about.
fn limits(bench: &Bench, step: &str) -> Vec<String> {
    let index = bench.walk.plan().index(&StepKey::named(step)).unwrap();
    let asked = bench.walk.asked(index).unwrap();
    let PlannedAsk::Reading { limits, open, .. } = &asked.ask else {
        panic!("{step} is no reading")
    };
    let drawn = limits.iter().map(|limit| {
        let how = limit.derivation.clone().unwrap_or_default();
        format!("{} ({}) {how}", limit.bound, limit.basis)
    });
    drawn.chain(open.iter().map(ToString::to_string)).collect()
}

/// The bounds the last answer of a step was held to.
fn held(bench: &Bench, step: &str) -> Vec<String> {
    let index = bench.walk.plan().index(&StepKey::named(step)).unwrap();
    match &bench.walk.steps()[index].answers.last().unwrap().given {
        Given::Read { judgement, .. } => {
            let bounds = judgement
                .held
                .iter()
                .map(|held| held.limit.bound.to_string());
            bounds.collect()
        }
        Given::Seen { .. } => panic!("{step} was seen"),
    }
}

const THUMB: &str = "566.7 lb (default: by the sum of the parts, common practice, no source) rule \
                     of thumb, since the trailer weight was not read: 10 % of trailer weight as \
                     loaded 5667 lb (empty weight and load, summed from the rig file)";

#[test]
fn a_limit_falls_back_to_a_named_rule_of_thumb_until_the_fact_is_read() {
    let mut bench = bench();
    assert_eq!(limits(&bench, "tongue"), [THUMB]);
    // The ticket is wrong by up to 40 lb, so the tongue is held to 10 % of 6,340 lb.
    assert_eq!(bench.play("open\n read 6300 lb by ticket"), "next tongue");
    assert_eq!(
        limits(&bench, "tongue"),
        [
            "634 lb (plate: the truck's manual) least tongue weight by the ticket 634 lb (10 % of \
          6340 lb, the most the trailer weighs by its ticket of today)"
        ]
    );
}

#[test]
fn a_fact_put_off_leaves_the_rule_of_thumb_in_force_and_the_record_says_so() {
    let mut bench = bench();
    assert_eq!(
        bench.play(
            "open\n defer the weighbridge opens at nine\n open\n read 600 lb by tongue-scale"
        ),
        "end of weigh"
    );
    assert_eq!(held(&bench, "tongue"), ["566.7 lb"]);
    // Read later, it draws later limits and rewrites no earlier verdict.
    assert_eq!(
        bench.play("close\n open\n read 6300 lb by ticket"),
        "next front"
    );
    assert_eq!(held(&bench, "tongue"), ["566.7 lb"]);
}

#[test]
fn a_fact_taken_back_tells_nothing_until_it_is_given_afresh() {
    let mut bench = bench();
    bench.play("open\n read 6300 lb by ticket\n open\n read 700 lb by tongue-scale");
    assert!(bench.walk.facts().get(Fact::TrailerWeight).is_some());
    bench.play("correct ticket: the ticket of another trailer");
    assert_eq!(bench.walk.facts().get(Fact::TrailerWeight), None);
    assert_eq!(limits(&bench, "tongue"), [THUMB]);
    assert_eq!(bench.play("open\n read 5600 lb by ticket"), "end of weigh");
    assert_eq!(
        held(&bench, "tongue"),
        ["634 lb"],
        "judged as it was judged"
    );
    bench.play("correct tongue: read from the wrong end of the scale");
    assert_eq!(
        bench.play("open\n read 590 lb by tongue-scale"),
        "end of weigh"
    );
    assert_eq!(held(&bench, "tongue"), ["564 lb"]);
}

#[test]
fn a_reading_whose_band_holds_the_computed_limit_cannot_tell_and_is_asked_again() {
    let mut bench = bench();
    bench.play("open\n read 6300 lb by ticket");
    // 640 lb, 20 lb either way, against 634 lb.
    assert_eq!(
        bench.play("open\n read 640 lb by tongue-scale"),
        "next tongue"
    );
    assert_eq!(
        bench.play("open\n read 600 lb by tongue-scale"),
        "stop tongue by mend"
    );
}

#[test]
fn two_heights_taken_one_after_the_other_cannot_be_got_backwards() {
    let to_rear = "open\n read 5600 lb by ticket\n open\n read 620 lb by tongue-scale\n close\n open\n read 18 in by tape\n open";
    for (rear, stands) in [
        ("read 18 1/2 in by tape", "end of level"),
        ("read 17 1/2 in by tape", "end of level"),
        ("read 19 1/2 in by tape", "fix rear by mend"),
        ("read 16 1/2 in by tape", "fix rear by mend"),
    ] {
        assert_eq!(
            bench().play(&format!("{to_rear}\n {rear}")),
            stands,
            "{rear}"
        );
    }
}

#[test]
fn a_limit_that_is_surely_told_before_it_is_needed_is_open_until_then_and_no_gap() {
    let mut bench = bench();
    let open = "rear mark at half a degree nose low needs the front mark, which was not read yet";
    assert_eq!(limits(&bench, "rear")[0], open);
    bench.play("open\n read 5600 lb by ticket\n open\n read 620 lb by tongue-scale\n close\n open\n read 18 in by tape");
    assert_eq!(
        limits(&bench, "rear"),
        [
            "19.2 in (default: half a degree, no source) rear mark at half a degree nose low \
             19.2 in (front mark read as 18 in, plus 1.305 in: half a degree over the frame \
             base of 150 in)",
            "16.8 in (default: half a degree, no source) rear mark at half a degree nose high \
             16.8 in (front mark read as 18 in, less 1.305 in: half a degree over the frame \
             base of 150 in)",
        ]
    );
}

#[test]
fn a_fact_that_may_be_put_off_is_a_gap_of_a_limit_without_a_rule_of_thumb() {
    let put_off = FACTS
        .replace("        critical: true\n        reading:\n          dimension: length\n          unit: in\n          instrument: tape\n          plausible: { from: 5 in, to: 40 in }\n          tells", "        deferrable: { before: end }\n        reading:\n          dimension: length\n          unit: in\n          instrument: tape\n          plausible: { from: 5 in, to: 40 in }\n          tells")
        .replace("branches:", "  - id: end\n    title: End\n    style: read-do\n    complete: All is read twice.\n    steps:\n      - { id: bare, name: Bare, act: Look at it., why: It shows., skipped: It hides., place: frame, sighting: { states: [ { id: well, seen: It stands, verdict: ok }, { id: ill, seen: It leans, verdict: note }, { id: dark, seen: It is dark, verdict: note, cannot-see: true } ], authority: default, source: none } }\nbranches:");
    let checklist = Checklist::read(&put_off).unwrap();
    let gaps = Plan::lay(checklist, Rig::read(JUNIPER).unwrap()).unwrap_err();
    assert_eq!(
        gaps[0].to_string(),
        "step rear: rear mark at half a degree nose low needs the front mark, which was not read \
         yet; have an earlier step tell front-mark, or give the limit a rule of thumb with `or`"
    );
    assert_eq!(gaps.len(), 2);
}
