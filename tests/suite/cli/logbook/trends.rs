//! Trends by the command: what it tells of which rig, in lines and as JSON.

use super::report::book;
use serde_json::Value;
use std::collections::BTreeSet;

#[test]
fn each_series_is_an_object_a_line_and_each_rig_a_page() {
    let home = book(36);
    let before = home.files();
    let told = home.hames("logbook trends book").run();
    // Its battery falls.
    assert_eq!((told.status, told.err.as_str()), (1, ""), "{}", told.out);
    assert!(
        told.out.lines().all(|line| line.len() <= 80),
        "{}",
        told.out
    );
    for part in [
        "juniper, up to its trip of ",
        "\n  Trailer tire, left front ",
        ", no trend can be told from ",
        "\n  Tire age, spare ",
    ] {
        assert!(told.out.contains(part), "{part}: {}", told.out);
    }
    let json = home.hames("logbook trends --json book").run();
    assert_eq!((json.status, json.err.as_str()), (1, ""));
    let mut kinds = BTreeSet::new();
    for line in json.out.lines() {
        let series: Value = serde_json::from_str(line).unwrap();
        assert_eq!(series["schema"], "hames-trend/1");
        kinds.insert(series["kind"].as_str().unwrap().to_owned());
        for point in series["points"].as_array().into_iter().flatten() {
            assert!(point["value"]["unit"].is_string() && point["trip"].is_string());
        }
    }
    for kind in ["tire-pressure", "battery-rest", "brake-pull", "tire-age"] {
        assert!(kinds.contains(kind), "{kinds:?}");
    }
    // A trip that lies there twice counts once.
    let twice = home.hames("logbook trends --json book book").run();
    assert_eq!(twice.out, json.out);
    assert_eq!(home.files(), before, "looking writes nothing");
}

#[test]
fn only_the_rig_and_the_kind_asked_for_are_told() {
    let home = book(36);
    let told = |asked: &str| {
        let ended = home
            .hames(&format!("logbook trends book --json {asked}"))
            .run();
        let lines = ended.out.lines();
        let told = lines.map(|line| {
            let series: Value = serde_json::from_str(line).unwrap();
            format!("{} {}", series["rig"].as_str().unwrap(), series["kind"])
        });
        (ended.status, told.collect::<BTreeSet<_>>())
    };
    let of = |all: &[&str]| all.iter().map(|one| (*one).to_owned()).collect();
    assert_eq!(
        told("--rig juniper --what tire-age"),
        (0, of(&["juniper \"tire-age\""]))
    );
    assert_eq!(
        told("--rig juniper --what battery-load --since 2025-11-01"),
        (0, of(&["juniper \"battery-load\""]))
    );
    let none = home.hames("logbook trends book --rig clover").run();
    none.is(
        2,
        "",
        "There is no rig “clover” among the trips here. Rigs walked: juniper, mesquite, sumac.\n",
    );
    let wrong = home.hames("logbook trends book --what tyre").run();
    assert_eq!(wrong.status, 2);
    let nowhere = home.hames("logbook trends nowhere").run();
    assert_eq!((nowhere.status, nowhere.out.as_str()), (2, ""));
}
