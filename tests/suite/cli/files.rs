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
fn every_fault_of_a_rig_file_is_told() {
    let home = Home::new();
    let wrong = hames::rig::demo::JUNIPER
        .replacen("7000 lb", "7000", 1)
        .replacen("800 lb", "80 feet", 1);
    home.put("rig.yaml", &wrong);
    let ended = home.hames("lint rig.yaml").run();
    assert_eq!(
        (ended.status, ended.out.lines().count()),
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
