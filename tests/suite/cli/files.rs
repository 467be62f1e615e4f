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
    for rule in hames::drill::Rule::ALL {
        assert!(
            all.out.contains(&format!("\n{}\n  ", rule.word())),
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

#[test]
fn scenarios_and_sights_are_known_by_their_format_and_linted() {
    let home = Home::new();
    home.put("near.yaml", include_str!("../../vectors/drill-small.yaml"));
    home.put("seen.yaml", include_str!("../../vectors/sights-small.yaml"));
    home.hames("lint near.yaml seen.yaml")
        .run()
        .is(0, "", "0 found in 2 files\n");
    let wrong = include_str!("../../vectors/drill-small.yaml")
        .replacen("state: no-clip", "state: noclip", 1)
        .replacen("state: held", "state: helt", 1);
    home.put("near.yaml", &wrong);
    home.hames("lint near.yaml").run().is(
        1,
        "\
near.yaml:14:45: error no-such-name: scenarios[0].faults[0].seen[0].state: `receiver-pin` has no state `noclip`; did you mean `no-clip`? There are no-clip, wrong-pin, held, cannot-see
  14 |         seen: [{ step: receiver-pin, state: noclip }]
     |                                             ^
near.yaml:16:44: error no-such-name: scenarios[0].faults[0].slip.state: `receiver-pin` has no state `helt`; did you mean `held`? There are no-clip, wrong-pin, held, cannot-see
  16 |         slip: { step: receiver-pin, state: helt }
     |                                            ^
",
        "2 found in 1 file\n",
    );
    let json = home.hames("lint near.yaml --json").run();
    let told: Vec<serde_json::Value> = json
        .out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert_eq!(told.len(), 2);
    assert_eq!(
        (&told[0]["rule"], &told[0]["line"], &told[1]["path"]),
        (
            &"no-such-name".into(),
            &14.into(),
            &"scenarios[0].faults[0].slip.state".into()
        )
    );
}

#[test]
fn rigs_lists_and_sights_beside_a_file_of_scenarios_are_its_own() {
    let home = Home::new();
    let small = include_str!("../../vectors/drill-small.yaml");
    let own = small.replacen("rig: juniper", "rig: own-rig", 1);
    let rig = hames::rig::demo::JUNIPER.replacen("id: juniper", "id: own-rig", 1);
    home.put("near.yaml", &own);
    home.put("far.yaml", small);
    let alone = home.hames("lint near.yaml").run();
    assert_eq!(alone.status, 1);
    assert!(
        alone.out.contains("there is no rig `own-rig`"),
        "{}",
        alone.out
    );
    for folder in ["rigs", "elsewhere/again"] {
        std::fs::create_dir_all(home.path(folder)).unwrap();
    }
    home.put("rigs/own.yaml", &rig);
    home.hames("lint near.yaml")
        .run()
        .is(0, "", "0 found in 1 file\n");
    home.put("elsewhere/rig.yaml", &rig);
    home.put("elsewhere/again/near.yaml", &own);
    home.hames("lint elsewhere/again/near.yaml elsewhere/rig.yaml")
        .run()
        .is(0, "", "0 found in 2 files\n");
    // One id in two files of a call.
    let twice = home.hames("lint near.yaml far.yaml").run();
    assert_eq!(twice.out.matches("far.yaml:").count(), 3, "{}", twice.out);
    assert_eq!(twice.out.matches(": error same-name: ").count(), 3);
}
