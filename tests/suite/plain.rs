//! The line-by-line mode, by scripts.

pub(crate) mod beginning;
pub(crate) mod bench;

use bench::{BEGIN, Bench, plan, whole_walk};
use hames::checklist::StepKey;
use hames::desk::DefectCard;
use hames::plain::{Left, Options};
use hames::walk::Ended;

#[test]
fn a_whole_walk_goes_through_a_pipe_to_the_seal() {
    let mut bench = Bench::new();
    let told = bench.type_in(&format!("{BEGIN}{}1\ndemo\nquit\n", whole_walk()));
    let walk = bench.walk.unwrap();
    assert_eq!(walk.ended(), Some(Ended::Complete), "{}", told.text);
    assert_eq!(bench.sealed_by.as_deref(), Some("wren.ashdown"));
    assert_eq!(told.left, Left::ByChoice);
    assert!(told.text.contains("Sealed. Receipt: "));
    for planned in plan().steps() {
        assert!(
            told.text.contains(&planned.name()),
            "{} was never said",
            planned.key
        );
    }
}

#[test]
fn nothing_but_plain_lines_is_written_and_every_prompt_says_demo() {
    let told = Bench::new().type_in(&format!("{BEGIN}{}later\nquit\n", whole_walk()));
    let control = |letter: char| letter.is_control() && letter != '\n';
    assert!(!told.text.contains(control));
    let lines: Vec<&str> = told.text.lines().collect();
    let prompts = lines.windows(2).filter(|pair| pair[1].starts_with('>'));
    let questions: Vec<&str> = prompts.map(|pair| pair[0]).collect();
    assert!(questions.len() > plan().steps().len());
    for question in questions {
        assert!(question.contains("DEMO. "), "{question}");
    }
}

#[test]
fn enter_alone_answers_nothing_and_passes_nothing() {
    let mut bench = Bench::new();
    let told = bench.type_in(&format!("{BEGIN}{}", "\n".repeat(200)));
    assert_eq!(bench.happened(), [""; 0], "{}", told.text);
    assert_eq!(told.left, Left::InputEnded);
    // Neither at the end of a section, at a branch, at a note, on hold, nor at the very end.
    for before in [
        first_section(),
        "1\n".to_owned(),
        "hold\n\n\n".to_owned(),
        whole_walk().replace("complete\n", ""),
    ] {
        let mut bench = Bench::new();
        bench.type_in(&format!("{BEGIN}{before}"));
        let happened = bench.journal.len();
        bench.walk = None;
        let mut again = Bench::new();
        again.type_in(&format!("{BEGIN}{before}{}", "\n".repeat(50)));
        assert_eq!(again.journal.len(), happened, "after {before}");
    }
}

#[test]
fn one_key_over_and_over_ends_no_section() {
    for key in ["1", "2", "3", "yes", "done", "complete"] {
        let mut bench = Bench::new();
        bench.type_in(&format!("{BEGIN}{}", format!("{key}\n").repeat(200)));
        assert!(!bench.happened().contains(&"section closed"), "{key}");
    }
}

#[test]
fn every_act_of_the_machine_can_be_typed() {
    let script = "
        1\nhold\nthe phone\nthe pin\nresume
        note\nfrost on the drawbar
        unsure\nis it the other ball\n asked Odile
        handover\n2\n1
        end\nnot fit to go\nthe mark is low\nlater\nquit\n";
    let mut bench = Bench::new();
    let told = bench.type_in(&format!("{BEGIN}{}", unindented(script)));
    assert_eq!(
        bench.happened(),
        [
            "answered",
            "held",
            "resumed",
            "noted",
            "unsure",
            "settled",
            "handed over",
            "ended"
        ],
        "{}",
        told.text
    );
    for call in [
        "Stopped since 07:30: is it the other ball. Look together. Do not move the rig. Call Odile \
         Marsh, 555 0142.",
        "The rig stays where it is. Call Odile Marsh, 555 0142.",
    ] {
        assert!(told.text.contains(call), "{}", told.text);
    }
    let script = "1\ndone\nnew drawbar\n2\ncorrect\n1\nthe other mark\n2\nend\nabandoned\nrain\n";
    let mut bench = Bench::new();
    let told = bench.type_in(&format!("{BEGIN}{script}"));
    assert_eq!(
        bench.happened(),
        [
            "answered",
            "put right",
            "answered",
            "corrected",
            "answered",
            "ended"
        ],
        "{}",
        told.text
    );
}

#[test]
fn a_stop_is_passed_by_no_word_but_repair_and_a_fresh_answer() {
    let mut bench = Bench::new();
    let told = bench.type_in(&format!(
        "{BEGIN}1\n2\nyes\nok\ncomplete\nlater\ndone\n\nquit\n"
    ));
    assert_eq!(bench.happened(), ["answered"], "{}", told.text);
    assert!(
        told.text
            .contains("STOP. Rating marks. The rig does not move")
    );
    assert!(
        told.text
            .contains("Not recorded. Type what was repaired or replaced")
    );
}

#[test]
fn a_blind_step_tells_what_it_expects_only_after_the_answer() {
    let plan = plan();
    let blind = plan
        .steps()
        .iter()
        .position(|step| step.step.blind)
        .unwrap();
    let name = plan.steps()[blind].name();
    let told = Bench::new()
        .type_in(&format!("{BEGIN}{}", whole_walk()))
        .text;
    let block = told.split(&format!("\n{name}.\n")).nth(1).unwrap();
    let (before, after) = block.split_once("Recorded").unwrap();
    assert!(
        !before.contains("Limit:") && !before.contains("Aim:"),
        "{before}"
    );
    assert!(after.contains(&name));
    let why = Bench::new().type_in(&format!("{BEGIN}{}why\n", upto(&name)));
    assert!(
        why.text
            .contains("What is expected is told after the answer"),
        "{}",
        why.text
    );
}

#[test]
fn why_tells_formula_inputs_and_source_of_a_computed_limit_and_last_those_of_the_answer_before() {
    let plan = plan();
    let at = StepKey::named("lanyard-length");
    let step = &plan.steps()[plan.index(&at).unwrap()];
    let told = Bench::new().type_in(&format!("{BEGIN}{}why\nquit\n", upto(&step.name())));
    let why = told.text.rsplit("Do: Measure the lanyard").next().unwrap();
    for line in [
        "Limit: fix below 26.6 in",
        "Comes from: least length of the lanyard 26.6 in",
        "Formula: ",
        "With: switch",
        "Source: ",
        "Never use it: ",
        "If skipped: The pin comes out in a turn, or not at all.",
    ] {
        assert!(why.contains(line), "{line}\n{why}");
    }
    let next = plan.steps()[plan.index(&at).unwrap() + 1].name();
    let told = Bench::new().type_in(&format!("{BEGIN}{}last\nquit\n", upto(&next)));
    let last = told.text.rsplit("Do: ").next().unwrap();
    assert!(
        last.contains("Lanyard length.\nLimit: fix below 26.6 in"),
        "{last}"
    );
}

#[test]
fn the_end_of_the_input_leaves_the_walk_as_it_is_and_says_so() {
    let mut bench = Bench::new();
    let told = bench.type_in(&format!("{BEGIN}2\n"));
    assert_eq!(told.left, Left::InputEnded);
    assert!(told.text.ends_with(
        "The input has ended. The walk is left as it is. Everything recorded is in its journal; \
         start Hames again to take it up at the same step.\n"
    ));
    let told = bench.type_in("1\nquit\n");
    assert!(told.text.contains("1. Go on with"));
    assert!(
        told.text.contains("To look at again: Rating marks."),
        "{}",
        told.text
    );
    assert_eq!(bench.happened(), ["answered", "resumed"]);
}

#[test]
fn a_disk_that_fails_ends_the_recording_and_lists_what_is_left() {
    let mut bench = Bench::new();
    bench.disk_takes = 2;
    let told = bench.type_in(&format!("{BEGIN}2\n1800 lb\nquit\n"));
    assert_eq!(told.left, Left::DiskFailed);
    let (before, after) = told.text.split_once("The disk refused a line").unwrap();
    assert!(before.contains("Recorded 07:30. Rating marks:"));
    assert!(!after.contains("Recorded ") && !after.contains("1. Rating marks"));
    assert!(after.contains("2. Trailer weight"));
}

#[test]
fn ascii_alone_is_written_where_asked() {
    let options = Options {
        ascii: true,
        ..Options::default()
    };
    let told = Bench::new().type_with(&format!("{BEGIN}{}later\nquit\n", whole_walk()), options);
    assert!(told.text.is_ascii());
}

/// The good answers up to the end of the first section.
fn first_section() -> String {
    let walk = whole_walk();
    walk.split_once("yes\n").unwrap().0.to_owned()
}

/// The good answers up to the step with this name.
fn upto(name: &str) -> String {
    let lines: Vec<String> = whole_walk()
        .lines()
        .map(|line| format!("{line}\n"))
        .collect();
    let reaches = |count: &usize| {
        let told = Bench::new().type_in(&format!("{BEGIN}{}", lines[..*count].concat()));
        told.text.contains(&format!("\n{name}.\n"))
    };
    let count = (0..lines.len()).find(reaches).unwrap();
    lines[..count].concat()
}

fn unindented(script: &str) -> String {
    let lines = script
        .lines()
        .map(str::trim)
        .filter(|line| !line.is_empty());
    lines.flat_map(|line| [line, "\n"]).collect()
}

#[test]
fn what_earlier_walks_left_is_said_where_the_rig_is_chosen() {
    let mut bench = Bench::new();
    let card = |told: &str, blocks| DefectCard {
        told: told.to_owned(),
        blocks,
    };
    bench.earlier = (
        vec!["Rig was left out of sight (2026-11-20 11:40, Tobias Fenn): look again.".to_owned()],
        vec![
            card("STOP: Latch: Lever stands up.", true),
            card("note: Floor: Rust.", false),
        ],
    );
    let told = bench.type_in("1\nquit\n").text;
    let from = told.find("Rig: Juniper").unwrap();
    let lines: Vec<&str> = told[from..].lines().take(4).collect();
    assert_eq!(
        lines[1..],
        [
            "OFF THE ROAD. STOP: Latch: Lever stands up.",
            "Rig was left out of sight (2026-11-20 11:40, Tobias Fenn): look again.",
            "note: Floor: Rust.",
        ],
        "{told}"
    );
}

#[test]
fn a_walk_from_paper_is_marked_at_every_prompt() {
    let mut bench = Bench::new();
    bench.paper = Some(bench.now.wall - chrono::TimeDelta::hours(26));
    let told = bench.type_in(&format!("{BEGIN}hold\nrain\n\nquit\n")).text;
    let (_, walk) = told.split_once("Trip ").unwrap();
    assert!(walk.contains("DEMO FROM PAPER. "), "{told}");
}
