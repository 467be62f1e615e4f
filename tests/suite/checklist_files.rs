//! Checklist files: the shipped one lies whole on the demo rig, and a wrong file is told every
//! fault with its place.

use crate::corpus;
use crate::harness::put_together_text;
use hames::barn::Policies;
use hames::checklist::{
    Checklist, LIST_FILE, Plan, PlannedAsk, Rule, SHARED, SHIPPED, Shared, lint, lint_together,
    put_together,
};
use hames::document::{Document, Fault, Takes};
use hames::rig::Rig;
use hames::rig::demo::{JUNIPER, MESQUITE};

fn lines(faults: &[Fault]) -> String {
    let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
    lines.join("\n")
}

fn shipped(id: &str) -> Checklist {
    Checklist::read(&put_together_text(id)).unwrap_or_else(|faults| panic!("{}", lines(&faults)))
}

fn rig(text: &str) -> Rig {
    Rig::read(text).unwrap_or_else(|faults| panic!("{}", lines(&faults)))
}

#[test]
fn the_bumper_pull_hitch_up_lies_whole_on_the_bumper_pull_of_the_demo_barn() {
    let plan =
        Plan::lay(shipped("hitch-bumper"), rig(JUNIPER)).unwrap_or_else(|gaps| panic!("{gaps:?}"));
    assert!(plan.left().is_empty(), "{:?}", plan.left());
    let tires = plan
        .steps()
        .iter()
        .filter(|step| step.key.step() == "tire-cold");
    assert_eq!(tires.count(), 4, "one for each wheel of two axles");
    let last = plan.sections().last().unwrap();
    assert_eq!(last.first + last.count, plan.steps().len());
}

#[test]
fn the_limits_of_a_trailer_tire_follow_from_its_own_cold_pressure() {
    let plan = Plan::lay(shipped("hitch-bumper"), rig(JUNIPER)).unwrap();
    let tire = plan
        .steps()
        .iter()
        .find(|step| step.key.as_str() == "tire-cold/left-front")
        .unwrap();
    let PlannedAsk::Reading { limits, .. } = &tire.ask else {
        panic!("a tire is measured")
    };
    let bounds: Vec<String> = limits
        .iter()
        .map(|limit| {
            format!(
                "{} {} {}",
                limit.verdict.word(),
                limit.side.word(),
                limit.bound
            )
        })
        .collect();
    assert_eq!(
        bounds,
        [
            "stop at-or-below 52 psi",
            "fix below 35 psi",
            "fix below 61.75 psi",
            "fix above 68.25 psi",
            "note below 61.75 psi"
        ]
    );
}

#[test]
fn the_bumper_pull_hitch_up_is_refused_for_a_gooseneck() {
    let gaps = Plan::lay(shipped("hitch-bumper"), rig(MESQUITE)).unwrap_err();
    assert_eq!(
        gaps.iter().map(ToString::to_string).collect::<Vec<_>>(),
        ["“Hitch up a bumper pull” is not for a gooseneck rig; choose a checklist that is"]
    );
}

/// Its head says how it is written.
const CORPUS: &str = include_str!("../vectors/checklist-faults.txt");

/// Its head says how it is written.
const FINDINGS: &str = include_str!("../vectors/checklist-findings.txt");

const SMALL: &str = include_str!("../vectors/checklist-small.yaml");

#[test]
fn every_wrong_file_is_told_what_is_wrong_at_its_place_and_how_to_mend_it() {
    corpus::hold(&corpus::all(CORPUS, &[("small", SMALL)]), |text| {
        let faults = Checklist::read(text).err().unwrap_or_default();
        faults.iter().map(ToString::to_string).collect()
    });
}

/// A list that takes its steps by name, and the file it takes them from.
const TAKING: &str = include_str!("../vectors/checklist-taking.yaml");
const STEPS: &str = include_str!("../vectors/steps-small.yaml");

/// Their heads say how they are written.
const TAKEN_WRONG: &str = include_str!("../vectors/checklist-taking-faults.txt");
const STEPS_WRONG: &str = include_str!("../vectors/steps-faults.txt");

fn shared(text: &str) -> Shared {
    let mut shared = Shared::default();
    shared
        .add(text)
        .unwrap_or_else(|faults| panic!("{}", lines(&faults)));
    shared
}

fn told(faults: Option<Vec<Fault>>) -> Vec<String> {
    let faults = faults.unwrap_or_default();
    faults.iter().map(ToString::to_string).collect()
}

#[test]
fn every_step_taken_wrongly_is_told_where_it_is_taken() {
    let steps = shared(STEPS);
    let right = put_together(TAKING, &steps, &Policies::default());
    assert_eq!(told(right.err()), [""; 0]);
    corpus::hold(&corpus::all(TAKEN_WRONG, &[("taking", TAKING)]), |text| {
        told(put_together(text, &steps, &Policies::default()).err())
    });
}

#[test]
fn every_wrong_file_of_shared_steps_is_told_what_is_wrong_and_keeps_nothing_of_it() {
    corpus::hold(&corpus::all(STEPS_WRONG, &[("steps", STEPS)]), |text| {
        let mut steps = Shared::default();
        let faults = told(steps.add(text).err());
        assert_eq!(steps, Shared::default());
        faults
    });
}

#[test]
fn a_file_of_shared_steps_is_held_to_its_shape_where_it_stands() {
    for text in SHARED.into_iter().chain([STEPS]) {
        assert_eq!(told(Some(Shared::faults(text))), [""; 0]);
    }
    let wrong = STEPS
        .replacen("    skipped: A loose", "    skiped: A loose", 1)
        .replacen("instrument: tape", "instrument: ruler", 1)
        .replacen("cannot-see: true", "cannot-see: yes", 1)
        .replacen("now: [", "now: [ '', ", 1);
    let faults = told(Some(Shared::faults(&wrong)));
    let starts = [
        "15:89: steps[0].sighting.states[2].cannot-see: true or false is wanted here",
        "18:5: steps[1]: `skipped` is missing; add a line `skipped: …`",
        "22:5: steps[1].skiped: `skiped` is not a key here; did you mean `skipped`?",
        "27:19: steps[1].reading.instrument: “ruler” is not a word known here",
        "32:12: branches[0].now[0]: this text is empty",
    ];
    assert_eq!(faults.len(), starts.len(), "{faults:#?}");
    for (fault, start) in faults.iter().zip(starts) {
        assert!(fault.starts_with(start), "{fault}");
    }
}

/// A shape tells what the reader tells, at the reader's places, and never more.
#[test]
fn what_the_shape_alone_finds_wrong_the_reader_finds_too() {
    let mut seen = 0;
    for wrong in corpus::all(CORPUS, &[("small", SMALL)]) {
        let Ok(document) = Document::parse(&wrong.text) else {
            continue;
        };
        let fits = document.read(|root| root.fit(Takes::Map(&LIST_FILE)));
        for fault in told(fits.err()) {
            seen += 1;
            let place = fault.split(": ").next().unwrap();
            let mut known = wrong.faults.iter();
            assert!(
                known.any(|known| known.starts_with(place)),
                "{}: {fault}",
                wrong.about
            );
        }
    }
    assert!(seen > 40, "{seen}");
}

#[test]
fn what_is_wrong_inside_a_shared_step_is_told_where_the_step_is_taken() {
    let told_of = |was: &str, is: &str| {
        let steps = STEPS.replacen(was, is, 1);
        assert_ne!(steps, STEPS);
        told(put_together(TAKING, &shared(&steps), &Policies::default()).err())
    };
    let place = "place: coupler\n    critical";
    let misplaced = told_of(place, "place: couplers\n    critical");
    let words = "“couplers” is not a word known here; did you mean coupler? The words here are \
                 cab, truck, receiver, drawbar, ball, coupler, chains, lanyard, battery, jack, \
                 cord, frame, lamps, tires, wheels, brakes, box, chocks";
    assert_eq!(
        misplaced,
        [
            format!("16:9: sections[0].steps[0]: in the shared step `seat`, place: {words}"),
            format!("20:9: sections[0].steps[3]: in the shared step `seat`, place: {words}"),
        ]
    );
    assert_eq!(
        told_of("    now: [Lower the coupler once more.]\n", ""),
        ["1:1: in the shared branch `seat-again`: `now` is missing; add a line `now: …`"]
    );
    let lost = told_of("- id: seat-again\n    found", "- id: seat-anew\n    found");
    let first = "16:9: sections[0].steps[0]: in the shared step `seat`, \
                 sighting.states[0].branch: there is no branch `seat-again`; add it to `branches`";
    assert_eq!((lost.len(), lost[0].as_str()), (4, first));
}

#[test]
fn a_step_says_the_least_time_of_its_act_in_any_unit_of_time_or_says_none() {
    let text = include_str!("../vectors/checklist-small.yaml");
    let least = |typed: &str| {
        let with = text.replacen("place: chocks", &format!("place: chocks{typed}"), 1);
        let list = Checklist::read(&with).unwrap();
        let said: Vec<_> = list.steps().filter_map(|step| step.least).collect();
        said
    };
    let of = |seconds| vec![std::time::Duration::from_secs(seconds)];
    assert!(least("").is_empty());
    assert_eq!(least("\n        least: 40 s"), of(40));
    assert_eq!(least("\n        least: 1.5 min"), of(90));
    assert_eq!(least("\n        least: 1 h"), of(3600));
}

#[test]
fn the_file_the_wrong_ones_are_made_from_reads_without_a_fault() {
    let small = Checklist::read(SMALL).unwrap_or_else(|faults| panic!("{}", lines(&faults)));
    assert_eq!((small.id.as_str(), small.revision), ("small", 3));
    assert_eq!(small.steps().count(), 6);
}

#[test]
fn the_shipped_checklists_and_the_small_one_leave_the_linter_nothing_to_say() {
    let shipped = SHIPPED.iter().map(|shipped| shipped.text);
    for text in shipped.chain([SMALL]) {
        let found = lint_together(text, Shared::shipped(), &Policies::default());
        let findings: Vec<String> = found.iter().map(ToString::to_string).collect();
        assert!(findings.is_empty(), "\n{}\n", findings.join("\n"));
    }
}

#[test]
fn every_rule_finds_what_it_is_for_at_its_place_and_leaves_the_neighbour_alone() {
    let findings = corpus::all(FINDINGS, &[("small", SMALL)]);
    corpus::hold(&findings, |text| {
        lint(text).iter().map(ToString::to_string).collect()
    });
}

#[test]
fn every_rule_has_a_finding_in_the_corpus_but_for_those_about_length() {
    let by_length = [Rule::LongSection, Rule::EndlessSection];
    for rule in Rule::ALL {
        let found = FINDINGS.contains(&format!(" {}: ", rule.word()));
        assert!(found != by_length.contains(&rule), "{}", rule.word());
    }
}

/// The small checklist with `count` steps in its last section.
fn long(count: usize) -> String {
    let (head, step) = SMALL.split_once("      - id: chocks\n").unwrap();
    let (step, tail) = step.split_once("branches:\n").unwrap();
    let letters = ('a'..).take(count);
    let steps: Vec<String> = letters
        .map(|letter| format!("      - id: chocks-{letter}\n{step}"))
        .collect();
    let steps = steps.concat();
    format!("{head}{steps}branches:\n{tail}")
}

#[test]
fn a_section_is_long_above_nine_steps_and_endless_above_twelve() {
    let told = |count| {
        let findings = lint(&long(count));
        findings.iter().map(ToString::to_string).collect::<Vec<_>>()
    };
    let line = SMALL
        .lines()
        .position(|line| line == "  - id: leave")
        .unwrap()
        + 1;
    let cut = "cut it where the work pauses, into sections of at most 9";
    assert_eq!(told(9), [""; 0]);
    for (count, rule) in [
        (10, "warn long-section"),
        (12, "warn long-section"),
        (13, "error endless-section"),
    ] {
        let expected =
            format!("{line}:9: {rule}: sections[2].id: this section has {count} steps; {cut}");
        assert_eq!(told(count), [expected]);
    }
}

proptest::proptest! {
    #[test]
    fn no_passage_taken_out_makes_the_linter_panic(from in 0..4000_usize, length in 1..400_usize) {
        let letters: Vec<char> = SMALL.chars().collect();
        let left: String = letters.iter().take(from).chain(letters.iter().skip(from + length)).collect();
        for finding in lint(&left) {
            proptest::prop_assert!(finding.place.line <= left.lines().count().max(1) + 1, "{finding}");
        }
    }
}

#[test]
fn the_page_on_the_format_lists_every_rule_with_its_severity() {
    let page = include_str!("../../docs/checklist-format.md");
    let (_, table) = page.split_once("| rule | severity |").unwrap();
    let listed: Vec<(&str, &str)> = table
        .lines()
        .filter_map(|row| row.strip_prefix("| `")?.split_once("` | "))
        .map(|(rule, rest)| (rule, rest.split(" |").next().unwrap()))
        .collect();
    let rules = Rule::ALL.map(|rule| (rule.word(), rule.severity().word()));
    assert_eq!(listed, rules);
}

#[test]
fn a_step_that_no_instrument_is_fine_enough_to_pass_is_told_before_the_walk() {
    // 90 to 120 ft-lb leaves 30 open; a wrench wrong by 20 % is wrong by 21 either way at 105.
    let coarse = JUNIPER.replace("error: { of-reading: 4 % }", "error: { of-reading: 20 % }");
    assert_ne!(coarse, JUNIPER);
    let gaps = Plan::lay(shipped("hitch-bumper"), rig(&coarse)).unwrap_err();
    let told: Vec<String> = gaps.iter().map(ToString::to_string).collect();
    assert_eq!(told.len(), 4, "one a wheel: {told:?}");
    assert_eq!(
        told[0],
        "step lug-torque: no reading of a torque-wrench of this rig can pass, since its limits \
         leave less open than the instrument may be wrong by; add a finer one to the rig file, or \
         mend the limits"
    );
}

/// Juniper as it was described before anyone measured springs, wire or stalls.
const PLAIN: &str = include_str!("../vectors/record/hitch-bumper-2/rig.yaml");

#[test]
fn without_a_rule_of_thumb_every_field_a_figure_lacks_is_named_with_what_it_is_for() {
    let asks = SMALL.replace("below: 1 in", "above: { figure: level.most-nose-low }");
    let checklist = Checklist::read(&asks).unwrap();
    let gaps = Plan::lay(checklist.clone(), rig(PLAIN)).unwrap_err();
    let told: Vec<String> = gaps.iter().map(ToString::to_string).collect();
    assert_eq!(told.len(), 1, "{told:?}");
    let (before, fields) = told[0]
        .split_once(" needs what the rig file does not say: ")
        .unwrap();
    assert_eq!(
        before,
        "step rise: most the front frame mark may stand lower"
    );
    assert!(
        fields.ends_with("; describe it in the rig file"),
        "{fields}"
    );
    assert!(fields.matches(" (trailer.").count() > 1, "{fields}");
    assert!(Plan::lay(checklist, rig(JUNIPER)).is_ok());
}
