//! Settings files: the demo barn's reads without a fault, and a wrong file is told every fault with
//! its place.

use crate::corpus;
use hames::barn::{Choice, DEMO, FORMAT, Policies, Policy, RoadSide, Settings, Units};
use hames::document::Document;
use hames::rules::{Side, Verdict};
use hames::units::{Dimension, parse_quantity};

/// Its head says how it is written.
const CORPUS: &str = include_str!("../vectors/barn-faults.txt");

fn settings(text: &str) -> Settings {
    Settings::read(text).unwrap_or_else(|faults| {
        let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
        panic!("{}", lines.join("\n"))
    })
}

/// The shortest file, with more lines behind it.
fn short(more: &str) -> Settings {
    settings(&format!(
        "format: {FORMAT}\nname: Aspen Yard\nunits: metric\nroad-side: left\n{more}"
    ))
}

#[test]
fn the_demo_barns_settings_read_without_a_fault_and_choose_the_defaults() {
    let demo = settings(DEMO);
    assert_eq!(demo.name.as_deref(), Some("Quillwater Stables"));
    assert_eq!(demo.units, Units::Us);
    assert_eq!(
        demo.call.as_ref().unwrap().to_string(),
        "Odile Marsh, 555 0142"
    );
    for (_, policy) in Policy::WORDS {
        assert!(
            demo.policies.ruling(policy).is_some(),
            "{policy:?} is not shown"
        );
        assert!(demo.policies.choice(policy).is_default());
    }
    let [limit] = demo.limits.as_slice() else {
        panic!("{:?}", demo.limits)
    };
    assert_eq!((limit.verdict, limit.side), (Verdict::Fix, Side::Below));
    assert_eq!(
        limit.bound_in(Dimension::Length),
        Ok(parse_quantity("10.5 in", Dimension::Length).unwrap())
    );
}

#[test]
fn what_a_file_leaves_away_keeps_its_default() {
    let short = short("");
    assert_eq!(short.policies.road_side(), RoadSide::Left);
    let stated = Settings {
        name: Some("Aspen Yard".to_owned()),
        units: Units::Metric,
        policies: Policies::default().choosing(Choice::Left),
        ..Settings::default()
    };
    assert_eq!(short, stated);
}

#[test]
fn a_choice_stands_with_the_word_that_allows_it() {
    let barn = short(
        "policies:\n  tie: tie-first\n  anchor: { choose: towbar-point, grounds: \"Ireland, manual page 6\" }\n",
    );
    assert!(barn.policies.chose(Choice::TieFirst) && barn.policies.chose(Choice::TowbarPoint));
    let anchor = barn.policies.ruling(Policy::Anchor).unwrap();
    assert_eq!(anchor.grounds.as_deref(), Some("Ireland, manual page 6"));
}

#[test]
fn a_telephone_number_needs_no_quotes() {
    let barn = short("call: { who: Wren Ashdown, phone: 0800555 }\n");
    assert_eq!(barn.call.unwrap().phone(), "0800555");
}

#[test]
fn a_bound_that_is_not_what_the_step_measures_is_told_where_it_stands() {
    let limit = settings(DEMO).limits.remove(0);
    let line = 1 + DEMO
        .lines()
        .position(|line| line.contains("below:"))
        .unwrap();
    assert_eq!(
        limit.bound_in(Dimension::Pressure).unwrap_err().to_string(),
        format!(
            "{line}:12: limits[0].below: “in” is not a unit of pressure; type a pressure such as \
             65 psi or 4.5 bar"
        )
    );
    let fault = limit.step.fault("there is no such step", "name one");
    assert_eq!(fault.path, "limits[0].step");
}

#[test]
fn a_checklist_names_one_choice_in_the_same_words() {
    let read = |text: &str| {
        let document = Document::parse(text).unwrap();
        let read = document.read(Choice::read);
        read.map_err(|faults| faults[0].to_string())
    };
    assert_eq!(read("road-side: left"), Ok(Choice::Left));
    assert_eq!(read("{ tie: bar-first }"), Ok(Choice::BarFirst));
    assert_eq!(
        read("tie: bar-frist").unwrap_err(),
        "1:6: tie: “bar-frist” is not a word known here; did you mean bar-first? The words here \
         are bar-first, tie-first"
    );
    assert!(
        read("{ tie: bar-first, chains: each }")
            .unwrap_err()
            .contains("stand together")
    );
}

#[test]
fn every_wrong_file_is_told_what_is_wrong_at_its_place_and_how_to_mend_it() {
    corpus::hold(&corpus::all(CORPUS, &[("demo", DEMO)]), |text| {
        let faults = Settings::read(text).err().unwrap_or_default();
        faults.iter().map(ToString::to_string).collect()
    });
}

#[test]
fn the_page_for_whoever_sets_a_barn_up_lists_every_policy_with_its_choices() {
    let page = std::fs::read_to_string(crate::architecture::root().join("docs/barn.md")).unwrap();
    for (word, policy) in Policy::WORDS {
        let [(default, _), (other, _)] = policy.choices();
        let row = format!("| `{word}` | `{default}` | `{other}` |");
        let key = format!("| `{word}` | yes | `{default}` or `{other}`");
        assert!(page.contains(&row) || page.contains(&key), "{row}");
    }
}
