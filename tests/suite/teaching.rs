//! The page that teaches the writing of a checklist: what it shows is what the program does.

use crate::harness::home::Home;
use hames::barn::Policies;
use hames::checklist::{Plan, Shared, lint_together, put_together};
use hames::rig::Rig;
use hames::rig::demo::{JUNIPER, MESQUITE};

const PAGE: &str = include_str!("../../docs/checklists.md");

/// The passages of this kind, one after another.
fn passages(kind: &str) -> Vec<&'static str> {
    let opened = PAGE.split(kind).skip(1);
    let passages = opened.map(|rest| rest.split("```").next().unwrap());
    passages.collect()
}

fn list() -> String {
    passages("```yaml\n").concat()
}

#[test]
fn its_passages_are_a_whole_list_that_lints_clean_and_lies_on_both_demo_rigs() {
    let found = lint_together(&list(), Shared::shipped(), &Policies::default());
    let findings: Vec<String> = found.iter().map(ToString::to_string).collect();
    assert!(findings.is_empty(), "\n{}\n", findings.join("\n"));
    let put = put_together(&list(), Shared::shipped(), &Policies::default()).unwrap();
    for rig in [JUNIPER, MESQUITE] {
        Plan::lay(put.checklist.clone(), Rig::read(rig).unwrap()).unwrap();
    }
}

#[test]
fn what_the_linter_is_said_to_say_it_says() {
    let home = Home::new();
    let wrong = list().replacen("The blade stops on dry wood", "OK", 1);
    home.put("washed.yaml", &wrong);
    let said = passages("```text\n");
    assert_eq!(said.len(), 1);
    home.hames("lint washed.yaml")
        .run()
        .is(1, said[0], "1 found in 1 file\n");
}

#[test]
fn the_commands_it_names_are_there() {
    let home = Home::new();
    home.hames("checklist new washed.yaml").run().is(
        0,
        "washed.yaml is written. Change its lines into yours, and see what is left to mend: \
         hames lint washed.yaml\n",
        "",
    );
    let text = std::fs::read_to_string(home.path("washed.yaml")).unwrap();
    assert!(text.contains("\nid: washed\n"), "{text}");
    home.hames("lint washed.yaml")
        .run()
        .is(0, "", "0 found in 1 file\n");
    home.hames("checklist new washed.yaml").run().is(
        2,
        "",
        "washed.yaml is there already and stays as it is. Name a file that is not there.\n",
    );
    assert_eq!(
        std::fs::read_to_string(home.path("washed.yaml")).unwrap(),
        text
    );
    home.put("washed.yaml", &list());
    let whole = home.hames("checklist whole ./washed.yaml").run();
    assert_eq!((whole.status, whole.err.as_str()), (0, ""));
    assert!(!whole.out.contains("include:"), "{}", whole.out);
    home.hames("checklist compare ./washed.yaml").run().is(
        2,
        "",
        "No checklist “washed” is approved here, and none of that id comes with the program. Name \
         what to compare it with: hames checklist compare FILE OTHER\n",
    );
    let listed = home.hames("checklist list").run();
    assert_eq!((listed.status, listed.err.as_str()), (0, ""));
    let first = "hitch-bumper  Hitch up a bumper pull, revision ";
    assert!(listed.out.contains(first), "{}", listed.out);
    for line in listed.out.lines() {
        assert!(line.ends_with(": as it comes with the program"), "{line}");
    }
    let json = home.hames("checklist list --json").run();
    let told: serde_json::Value = serde_json::from_str(json.out.lines().next().unwrap()).unwrap();
    assert_eq!(told["schema"], "hames-checklists/1");
    assert_eq!(told["standing"], "shipped");
}
