//! Scenarios and sights under the linter: each rule finds what it is for, and nothing is found in
//! what ships.

use super::bench::{scenario_files, sight_files};
use crate::architecture::root;
use crate::corpus;
use hames::checklist::Shipped;
use hames::drill::{Finding, Known, Rule, check, check_sights};
use hames::rig::demo::JUNIPER;

const SMALL: &str = include_str!("../../vectors/drill-small.yaml");
const SIGHTS: &str = include_str!("../../vectors/sights-small.yaml");

/// Their heads say how they are written.
const FINDINGS: &str = include_str!("../../vectors/drill-findings.txt");
const SIGHTS_FINDINGS: &str = include_str!("../../vectors/sights-findings.txt");

fn lines(found: &[Finding]) -> Vec<String> {
    found.iter().map(ToString::to_string).collect()
}

fn told(text: &str, known: &Known) -> Vec<String> {
    lines(&check(text, known).err().unwrap_or_default())
}

fn told_of_sights(text: &str) -> Vec<String> {
    let found = check_sights(text, &Known::default()).err();
    lines(&found.unwrap_or_default())
}

#[test]
fn every_rule_of_scenarios_finds_what_it_is_for_and_leaves_the_neighbour_alone() {
    let known = Known::default();
    corpus::hold(&corpus::all(FINDINGS, &[("small", SMALL)]), |text| {
        told(text, &known)
    });
}

#[test]
fn every_rule_of_sights_finds_what_it_is_for_and_leaves_the_neighbour_alone() {
    let wrong = corpus::all(SIGHTS_FINDINGS, &[("small", SIGHTS)]);
    corpus::hold(&wrong, told_of_sights);
}

#[test]
fn every_rule_has_a_finding_and_a_passage_before_and_after() {
    for rule in Rule::ALL {
        let word = rule.word();
        let says = format!("\n! error {word}: ");
        let found = FINDINGS.contains(&says) || SIGHTS_FINDINGS.contains(&says);
        assert!(found, "{word}");
        let example = rule.example();
        assert_ne!(example.before, example.after, "{word}");
    }
}

#[test]
fn the_scenarios_and_sights_that_ship_leave_the_linter_nothing_to_say() {
    // Each file lies beside the sights on the disk, as whoever writes one has them.
    let mut known = Known::default();
    for text in sight_files() {
        known.add_sights(&text);
        assert_eq!(told_of_sights(&text), [""; 0]);
    }
    for text in scenario_files() {
        let checked = check(&text, &known).unwrap_or_else(|findings| {
            let findings: Vec<String> = findings.iter().map(ToString::to_string).collect();
            panic!("{}", findings.join("\n"))
        });
        for scenario in checked {
            known.add_taken(&scenario.id);
        }
    }
}

#[test]
fn a_state_that_looks_like_another_from_everywhere_is_told_where_a_fault_rests_on_it() {
    let alike = SIGHTS.replacen(
        "in: [held], is: A clip goes",
        "in: [held, no-clip], is: It goes",
        1,
    );
    let alike = alike.replacen("[no-clip, wrong-pin]", "[wrong-pin]", 1);
    let mut known = Known::default();
    known.add_sights(&alike);
    assert_eq!(
        told(SMALL, &known),
        [
            "14:45: error looks-alike: scenarios[0].faults[0].seen[0].state: `no-clip` looks like \
          held from every place; tell it apart from some place in a file of sights"
        ]
    );
}

#[test]
fn a_barn_names_lists_and_rigs_of_its_own() {
    let own = SMALL.replacen("rig: juniper", "rig: own-rig", 1);
    let own = own.replacen("list: hitch-bumper", "list: own-list", 1);
    assert_eq!(told(&own, &Known::default()).len(), 2);
    let mut known = Known::default();
    known.add_rig(&JUNIPER.replacen("id: juniper", "id: own-rig", 1));
    let mut list = Shipped::named("hitch-bumper")
        .unwrap()
        .by_default()
        .unwrap()
        .clone();
    list.checklist.id = "own-list".to_owned();
    known.add_list(list);
    assert_eq!(told(&own, &known), [""; 0]);
    assert_eq!(check(&own, &known).unwrap().len(), 3);
}

#[test]
fn an_id_of_another_file_is_not_given_twice() {
    let mut known = Known::default();
    known.add_taken("turned-drawbar");
    let told = told(SMALL, &known);
    assert_eq!(
        told,
        [
            "32:9: error same-name: scenarios[1].id: another scenario is called `turned-drawbar`; \
          give it a name of its own"
        ]
    );
}

/// A linter that fails on a text is of no use where it is wanted most.
#[test]
fn whatever_line_is_lost_the_rest_is_told_and_nothing_fails() {
    let known = Known::default();
    for at in 0..SMALL.lines().count() {
        let kept = SMALL.lines().enumerate().filter(|(line, _)| *line != at);
        let text: Vec<&str> = kept.map(|(_, line)| line).collect();
        drop(check(&text.join("\n"), &known));
    }
}

#[test]
fn the_scenario_on_the_page_about_drills_leaves_the_linter_nothing_to_say() {
    let page = std::fs::read_to_string(root().join("docs/drills.md")).unwrap();
    let (_, from) = page.split_once("```yaml\n").unwrap();
    let (scenario, _) = from.split_once("```").unwrap();
    assert_eq!(told(scenario, &Known::default()), [""; 0]);
    for rule in Rule::ALL {
        let row = format!("\n| `{}` | ", rule.word());
        assert!(page.contains(&row), "{}", rule.word());
    }
}
