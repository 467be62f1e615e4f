//! `hames lint`, and the example files.

use crate::harness::home::{Home, steady};

#[test]
fn the_example_files_have_no_finding() {
    let home = Home::new();
    home.put("list.yaml", &crate::harness::hitch_up_text());
    home.put("rig.yaml", hames::rig::demo::MESQUITE);
    home.hames("lint list.yaml rig.yaml")
        .run()
        .is(0, "", "0 found in 2 files\n");
    for (command, text) in [
        ("rig", hames::rig::demo::JUNIPER),
        ("checklist", &crate::harness::hitch_up_text()),
    ] {
        let ended = home.hames(&format!("{command} --example")).run();
        ended.is(0, &steady(text), "");
    }
}

#[test]
fn a_finding_is_told_with_file_line_and_column() {
    let home = Home::new();
    let wrong = crate::harness::hitch_up_text().replacen("verdict: ok", "verdict: fine", 1);
    let line = 1 + wrong
        .lines()
        .position(|line| line.contains("verdict: fine"))
        .unwrap();
    home.put("list.yaml", &wrong);
    let ended = home.hames("lint list.yaml").run();
    assert_eq!(
        (ended.status, ended.err.as_str()),
        (1, "1 found in 1 file\n")
    );
    assert!(
        ended.out.starts_with(&format!("list.yaml:{line}:")),
        "{}",
        ended.out
    );
    assert!(ended.out.contains(": error file: "), "{}", ended.out);
    let json = home.hames("lint list.yaml --json").run();
    assert_eq!((json.status, json.err.as_str()), (1, ""));
    let told: serde_json::Value = serde_json::from_str(json.out.trim()).unwrap();
    assert_eq!(told["schema"], "hames-lint/1");
    assert_eq!(told["line"], line);
    assert_eq!(told["severity"], "error");
}

#[test]
fn the_line_of_a_finding_is_shown_with_a_mark_below_its_column() {
    let home = Home::new();
    home.put(
        "list.yaml",
        "format: hames-checklist/1\ntitel: Mine\nrevison: 1\n",
    );
    let ended = home.hames("lint list.yaml").run();
    let last = "\
list.yaml:3:1: error file: revison: `revison` is not a key here; did you mean `revision`?
  3 | revison: 1
    | ^";
    ended.ends(1, last, "8 found in 1 file\n");
    // Findings at one place share its line.
    assert_eq!(
        ended
            .out
            .matches("  1 | format: hames-checklist/1\n")
            .count(),
        1
    );
}

#[test]
fn a_rule_is_explained_with_its_reason_and_an_example() {
    let home = Home::new();
    home.hames("lint --explain bare-complete").run().is(
        0,
        "\
bare-complete
  error: the checklist is not fit for use
  The line that ends a section says what is now true, so that one who comes back knows where things stand. Degani and Wiener, NASA CR-177549, from memory.
  before:
      complete: Done.
  after:
      complete: The coupler grips the ball.
",
        "",
    );
    let all = home.hames("lint --explain all").run();
    assert_eq!((all.status, all.err.as_str()), (0, ""));
    for rule in hames::checklist::Rule::ALL {
        assert!(
            all.out.contains(&format!("{}\n  ", rule.word())),
            "{}",
            rule.word()
        );
    }
    let slip = home.hames("lint --explain two-act").run();
    assert_eq!((slip.status, slip.out.as_str()), (2, ""));
    assert!(slip.err.contains("Did you mean two-acts?"), "{}", slip.err);
    assert_eq!(home.hames("lint").run().status, 2);
}

#[test]
fn every_fault_of_a_rig_file_is_told() {
    let home = Home::new();
    let wrong = hames::rig::demo::JUNIPER
        .replacen("7000 lb", "7000", 1)
        .replacen("800 lb", "80 feet", 1);
    home.put("rig.yaml", &wrong);
    let ended = home.hames("lint rig.yaml").run();
    assert_eq!(
        (ended.status, ended.out.matches(": error file: ").count()),
        (1, 2),
        "{}",
        ended.out
    );
    let walk = home.hames("walk --demo --plain --rig ./rig.yaml").run();
    assert_eq!(
        (walk.status, walk.out.as_str(), walk.err.lines().count()),
        (1, "", 2),
        "{}",
        walk.err
    );
}

#[test]
fn a_file_that_is_not_there_is_a_matter_of_the_disk() {
    Home::new().hames("lint none.yaml").run().is(
        3,
        "",
        "The disk refused to read none.yaml: there is no such file or folder. See that the name \
         is right and the disk is connected.\n0 found in 1 file\n",
    );
}
