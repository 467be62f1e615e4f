//! `hames due`: what is due for each rig, as text and as JSON. The day is the machine's own, so
//! what is tested here holds on any day, and days come out as DATE.

use crate::harness::home::Home;
use hames::rig::demo::JUNIPER;
use serde_json::Value;

/// Juniper without services, papers and dates of tires, and with this behind it.
fn juniper(rest: &str) -> String {
    let (head, _) = JUNIPER.split_once("\n# What is serviced").unwrap();
    let lines = head.lines().filter(|line| !line.contains(" made: "));
    let text: Vec<&str> = lines.collect();
    format!("{}\n{rest}", text.join("\n")).replacen("Juniper, two", "Sorrel, two", 1)
}

#[test]
fn nothing_that_is_only_unknown_or_to_come_stops_a_rig_and_a_paper_that_ran_out_does() {
    let home = Home::new();
    home.put("quiet.yaml", &juniper(""));
    home.put(
        "stopped.yaml",
        &juniper("papers:\n  - { what: registration, of: trailer, until: 2001-03-31 }\n"),
    );
    for (rig, status, told) in [
        ("quiet", 0, "Nothing says when:\n  Wheel bearings: "),
        (
            "stopped",
            1,
            "stop  Registration, trailer: was due by DATE, ",
        ),
    ] {
        let ended = home.hames(&format!("due ./{rig}.yaml")).run();
        assert_eq!((ended.status, ended.err.as_str()), (status, ""), "{rig}");
        assert!(
            ended
                .out
                .starts_with("Sorrel, two-horse bumper pull\nToday, DATE\n"),
            "{}",
            ended.out
        );
        assert!(ended.out.contains(told), "{}", ended.out);
        assert!(ended.out.lines().all(|line| line.chars().count() <= 80));
    }
}

#[test]
fn without_a_name_every_rig_on_offer_is_told_and_the_demo_says_so() {
    let ended = Home::new().hames("due").run();
    assert_eq!(ended.err, "");
    for rig in ["Juniper, two-horse", "Mesquite, four-horse"] {
        assert!(ended.out.contains(rig), "{}", ended.out);
    }
    assert_eq!(ended.out.matches("DEMO. ").count(), 2);
    let home = Home::new();
    std::fs::create_dir_all(home.path("barn/rigs")).unwrap();
    home.hames("due --logbook barn").run().is(
        3,
        "",
        "No rig is described yet. Describe yours: hames rig --logbook barn my-rig.yaml \
         --describe\nThen: hames walk --logbook barn --rig my-rig.yaml\nA rig file kept in barn/rigs is offered each time.\n",
    );
    home.put("barn/rigs/own.yaml", &juniper(""));
    let own = home.hames("due --logbook barn").run();
    assert_eq!((own.status, own.err.as_str()), (0, ""));
    assert!(own.out.starts_with("Sorrel, "), "{}", own.out);
    assert!(!own.out.contains("DEMO"), "{}", own.out);
    home.put("barn/rigs/torn.yaml", "format: hames-rig/1\n");
    let torn = home.hames("due --logbook barn").run();
    assert_eq!(torn.out, own.out);
    assert_eq!(
        torn.err,
        "barn/rigs/torn.yaml is not offered. See why: hames lint barn/rigs/torn.yaml\n"
    );
}

#[test]
fn tires_are_held_to_the_years_the_barn_has_set() {
    let home = Home::new();
    std::fs::create_dir_all(home.path("barn/rigs")).unwrap();
    let aged = JUNIPER.replace("made: 1424", "made: 0124");
    home.put("barn/rigs/own.yaml", &aged);
    home.put(
        "barn/barn.yaml",
        "format: hames-barn/1\nname: Quillwater Stables\nunits: us\nroad-side: right\n\
         tires: { note-years: 1, stop-years: 2 }\n",
    );
    let ended = home.hames("due --logbook barn").run();
    assert_eq!((ended.status, ended.err.as_str()), (1, ""));
    assert!(
        ended
            .out
            .contains("stop  Tire age, front axle: was due by DATE, "),
        "{}",
        ended.out
    );
    assert!(
        ended.out.contains("barn: the barn's settings;"),
        "{}",
        ended.out
    );
}

#[test]
fn the_json_is_one_object_for_each_rig_with_every_thing_that_is_due() {
    let ended = Home::new().hames("due --json").run();
    let rigs: Vec<Value> = ended
        .out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert_eq!(rigs.len(), 2);
    for rig in &rigs {
        assert_eq!(rig["schema"], "hames-due/1");
        assert_eq!(rig["demo"], true);
        let due = rig["due"].as_array().unwrap();
        assert!(due.len() > 20, "{}", due.len());
        for one in due {
            let verdict = one["verdict"].as_str().unwrap();
            assert!(["ok", "note", "fix", "stop"].contains(&verdict), "{one}");
            for words in ["what", "why", "authority", "source"] {
                assert_ne!(one[words].as_str().unwrap(), "", "{one}");
            }
            assert_eq!(one["date"].is_null(), one["days"].is_null(), "{one}");
        }
    }
}

#[test]
fn an_odometer_tells_what_distance_is_left_and_belongs_to_one_rig() {
    let ended = Home::new()
        .hames("due juniper --odometer 48210mi --json")
        .run();
    let told: Value = serde_json::from_str(&ended.out).unwrap();
    assert_eq!(told["odometer"]["value"], 48210);
    assert_eq!(told["reckoned_from"]["odometer"]["value"], 48210);
    let due = told["due"].as_array().unwrap();
    let brakes = due.iter().find(|one| one["what"] == "brake adjustment");
    let brakes = brakes.unwrap();
    assert_eq!(brakes["odometer"]["value"], 48600);
    assert_eq!(brakes["left"]["value"], 390);
    assert_eq!(brakes["left"]["unit"], "mi");
    let everywhere = Home::new().hames("due --odometer 48210mi").run();
    assert_eq!((everywhere.status, everywhere.out.as_str()), (2, ""));
    let wrong = Home::new().hames("due juniper --odometer far").run();
    assert_eq!((wrong.status, wrong.out.as_str()), (2, ""));
    assert!(wrong.err.starts_with("--odometer: "), "{}", wrong.err);
}

#[test]
fn what_a_signed_walk_served_counts_from_its_day_with_the_name_of_who_did_it() {
    let home = super::demo::sealed();
    let told = home.hames("due juniper --json").run();
    let told: Value = serde_json::from_str(told.out.lines().next().unwrap()).unwrap();
    let due = told["due"].as_array().unwrap();
    let pressure = due
        .iter()
        .find(|one| one["what"] == "tire pressure")
        .unwrap();
    let why = pressure["why"].as_str().unwrap();
    assert!(why.contains("Tobias Fenn"), "{why}");
}
