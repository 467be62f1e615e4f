//! `hames barn`, and what a logbook's settings file does.

use crate::harness::home::{Ended, Home, steady};
use hames::barn::{DEMO, Policy};
use serde_json::Value;

/// A barn that keeps left, reads metric, and ties first.
const OWN: &str = "\
format: hames-barn/1
name: Aspen Yard
units: metric
road-side: left
call: { who: Tobias Fenn, phone: 555 0199 }
policies:
  tie: tie-first
  anchor: { choose: towbar-point, grounds: \"Ireland; the towbar's manual, page 6\" }
tires: { note-years: 3, stop-years: 5 }
";

fn shown(name: &str, ended: &Ended) {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path("../snapshots");
    settings.set_prepend_module_to_snapshot(false);
    settings.bind(|| insta::assert_snapshot!(name, ended.out));
}

/// A home whose logbook folder holds this settings file.
fn with_settings(text: &str) -> Home {
    let home = Home::new();
    std::fs::create_dir_all(home.path("book")).unwrap();
    home.put("book/barn.yaml", text);
    home
}

#[test]
fn the_example_prints_the_demo_barns_file_and_the_linter_has_nothing_to_say() {
    let home = Home::new();
    home.hames("barn --example").run().is(0, &steady(DEMO), "");
    home.put("barn.yaml", DEMO);
    home.hames("lint barn.yaml")
        .run()
        .is(0, "", "0 found in 1 file\n");
    home.put("barn.yaml", &OWN.replacen("tie-first", "tie-frist", 1));
    home.hames("lint barn.yaml").run().is(
        1,
        "barn.yaml:7:8: error file: policies.tie: “tie-frist” is not a word known here; did you \
         mean tie-first? The words here are bar-first, tie-first\n  7 |   tie: tie-frist\n    |        ^\n",
        "1 found in 1 file\n",
    );
}

#[test]
fn every_setting_is_told_with_its_grounds_within_80_columns() {
    let home = Home::new();
    let told = home.hames("barn").run();
    assert_eq!((told.status, told.err.as_str()), (0, ""));
    shown("barn_demo", &told);
    let home = with_settings(OWN);
    let own = home.hames("barn --logbook book").run();
    assert_eq!((own.status, own.err.as_str()), (0, ""));
    shown("barn_own", &own);
    for line in told.out.lines().chain(own.out.lines()) {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

#[test]
fn the_json_tells_both_sides_of_every_policy() {
    let home = with_settings(OWN);
    let ended = home.hames("barn --logbook book --json").run();
    assert_eq!((ended.status, ended.err.as_str()), (0, ""));
    let told: Value = serde_json::from_str(&ended.out).unwrap();
    assert_eq!(told["schema"], "hames-barn-settings/1");
    assert_eq!(told["name"], "Aspen Yard");
    assert_eq!(
        (&told["units"], &told["crown_side"]),
        (&"metric".into(), &"right".into())
    );
    assert_eq!(told["call"]["phone"], "555 0199");
    let policies = told["policies"].as_array().unwrap();
    assert_eq!(policies.len(), Policy::WORDS.len());
    let of = |name| policies.iter().find(|one| one["policy"] == name).unwrap();
    assert_eq!(of("tie")["is_default"], false);
    assert_eq!(
        of("anchor")["grounds"],
        "Ireland; the towbar's manual, page 6"
    );
    for policy in policies {
        for side in ["default", "other"] {
            assert_ne!(policy[side]["source"], "", "{policy}");
        }
    }
}

#[test]
fn without_a_settings_file_it_says_how_to_begin_one() {
    let home = Home::new();
    let none = home.hames("barn --logbook book").run();
    assert_eq!((none.status, none.err.as_str()), (0, ""));
    assert!(
        none.out
            .contains("Begin one with: hames barn --example > book/barn.yaml"),
        "{}",
        none.out
    );
    let lost = home.hames("barn").without(&["HOME", "XDG_DATA_HOME"]).run();
    assert!(
        lost.out.contains("No folder of a logbook is known"),
        "{lost:?}"
    );
}

#[test]
fn a_faulty_settings_file_is_told_and_the_defaults_hold() {
    let home = with_settings(&OWN.replacen("units: metric", "units: both", 1));
    let told = home.hames("barn --logbook book").run();
    assert_eq!(
        (told.status, told.err.as_str()),
        (
            1,
            "book/barn.yaml:3:8: units: “both” is not a word known here; the words here are us, \
             metric\n"
        )
    );
    assert!(
        told.out.contains("tie: bar-first, the default"),
        "{}",
        told.out
    );
}

/// Barn, name, role, passphrase twice.
const SET_UP: &str = "Quillwater Stables\nWren Ashdown\ndriver\nhay and oats\nhay and oats\n";

#[test]
fn the_settings_name_the_barn_and_whom_to_call_and_a_faulty_file_is_a_notice() {
    let home = Home::new();
    home.put("rig.yaml", hames::rig::demo::JUNIPER);
    let walk = home
        .hames("walk --plain --logbook book --rig rig.yaml")
        .typed(SET_UP)
        .run();
    assert_eq!(walk.status, 0, "{walk:?}");
    home.put("book/barn.yaml", OWN);
    let begun = home
        .hames("walk --plain --logbook book --rig rig.yaml")
        .typed("1\n1\n1\n\nunsure\nwhich ball is it\n")
        .run();
    assert!(begun.out.contains("Aspen Yard"), "{}", begun.out);
    assert!(
        begun.out.contains("Call Tobias Fenn, 555 0199."),
        "{}",
        begun.out
    );
    home.put("book/barn.yaml", "format: hames-barn/1\n");
    let faulty = home.hames("--plain --logbook book").typed("").run();
    assert!(faulty.out.contains("Quillwater Stables"), "{}", faulty.out);
    assert!(
        faulty.out.contains(
            "book/barn.yaml is not in force, and every setting is at its default. See why: \
             hames lint book/barn.yaml"
        ),
        "{}",
        faulty.out
    );
}

#[test]
fn a_limit_that_is_refused_is_told_wherever_the_settings_are_read() {
    let looser = "limits:\n  - { checklist: hitch-bumper, step: chain-clear, verdict: fix, below: 2 in, why: a dip }\n";
    let home = with_settings(&format!("{OWN}{looser}"));
    let fault = "book/barn.yaml:11:72: limits[0].below: this is no stricter than what the step \
                 has: fix below 3 in, by default";
    let barn = home.hames("barn --logbook book").run();
    assert_eq!(barn.status, 1);
    assert!(barn.err.starts_with(fault), "{}", barn.err);
    let lint = home.hames("lint book/barn.yaml").run();
    assert_eq!(lint.status, 1);
    assert!(
        lint.out.contains("limits[0].below: this is no stricter"),
        "{}",
        lint.out
    );
}

#[test]
fn what_a_barn_sets_stands_in_its_lists_which_then_want_a_managers_word() {
    let limit = "limits:\n  - { checklist: hitch-bumper, step: jack-clear, verdict: fix, below: 14 in, why: a kerb }\n";
    let home = with_settings(&format!("{OWN}{limit}"));
    let list = home.hames("checklist list --logbook book").run();
    let standing = |id: &str| {
        let mut lines = list.out.lines();
        lines.find(|line| line.starts_with(id)).unwrap().to_owned()
    };
    for id in ["hitch-bumper ", "load-horses "] {
        assert!(standing(id).ends_with("UNAPPROVED"), "{}", list.out);
    }
    assert!(
        standing("unhitch ").ends_with("as it comes with the program"),
        "{}",
        list.out
    );
    let changed = home
        .hames("checklist compare hitch-bumper --logbook book")
        .run();
    assert!(
        changed
            .out
            .contains("step jack-clear: fix below 14 in is new"),
        "{}",
        changed.out
    );
}
