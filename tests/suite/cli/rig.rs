//! `hames rig`: every figure of a rig, as text and as JSON.

use crate::harness::home::Home;
use hames::figures::{Figure, sheet};
use hames::rig::Rig;
use hames::rig::demo::{JUNIPER, MESQUITE};
use serde_json::Value;

fn json(arguments: &str) -> Value {
    let ended = Home::new().hames(&format!("rig --json {arguments}")).run();
    assert_eq!((ended.status, ended.err.as_str()), (0, ""));
    serde_json::from_str(&ended.out).unwrap()
}

fn figure<'a>(sheet: &'a Value, name: &str) -> &'a Value {
    let figures = sheet["figures"].as_array().unwrap();
    figures
        .iter()
        .find(|figure| figure["name"] == name)
        .unwrap()
}

#[test]
fn the_json_names_every_figure_of_every_item_with_value_unit_and_source_or_why_not() {
    for (id, text) in [("juniper", JUNIPER), ("mesquite", MESQUITE)] {
        let told = json(id);
        assert_eq!(told["schema"], "hames-rig-figures/1");
        assert_eq!(told["rig"], id);
        let figures = told["figures"].as_array().unwrap();
        let rig = Rig::read(text).unwrap();
        assert_eq!(figures.len(), sheet(&rig).len());
        for name in Figure::ALL.map(Figure::word) {
            let figure = figure(&told, name);
            assert!(figure["label"].is_string(), "{figure}");
            if figure["value"].is_number() {
                assert!(figure["unit"].is_string(), "{figure}");
                assert_ne!(figure["from"], "", "{figure}");
            } else {
                assert!(figure["value"].is_null(), "{figure}");
                assert!(figure["unknown"].is_string(), "{figure}");
                assert!(figure["why"].is_string(), "{figure}");
            }
        }
    }
}

#[test]
fn a_number_is_written_as_it_was_stamped_and_with_its_evidence() {
    let told = json("juniper");
    let ball = figure(&told, "ball.diameter");
    assert_eq!(ball["value"].to_string(), "2.3125");
    assert_eq!(ball["unit"], "in");
    assert_eq!(ball["from"], "stamp, flat on top of the ball");
    assert_eq!(ball["by_maker"], true);
    let front = figure(&told, "tire.cold");
    assert_eq!(front["item"], "left-front");
}

#[test]
fn what_was_read_today_is_told_with_the_figures() {
    let told = json("juniper --air -4F --odometer 41250mi");
    assert_eq!(told["today"][0]["name"], "air-temperature");
    assert_eq!(told["today"][0]["value"], -4);
    assert_eq!(told["today"][0]["unit"], "F");
    assert_eq!(told["today"][1]["name"], "odometer");
    let ended = Home::new().hames("rig --air 40").run();
    assert_eq!((ended.status, ended.out.as_str()), (2, ""));
    assert!(ended.err.starts_with("--air: "), "{}", ended.err);
}

#[test]
fn the_text_tells_the_same_within_80_columns_and_marks_the_demo() {
    for flag in ["", "--plain"] {
        let ended = Home::new().hames(&format!("rig {flag}")).run();
        assert_eq!((ended.status, ended.err.as_str()), (0, ""));
        assert!(
            ended.out.starts_with(
                "Juniper, two-horse bumper pull\nDEMO. Every number of this rig is invented.\n"
            ),
            "{}",
            ended.out
        );
        let wide: Vec<&str> = ended
            .out
            .lines()
            .filter(|line| line.chars().count() > 80)
            .collect();
        assert_eq!(wide, [""; 0]);
        for figure in Figure::ALL {
            assert!(ended.out.contains(figure.label()), "{}", figure.label());
        }
    }
}

#[test]
fn without_a_name_it_is_the_only_rig_of_the_logbook_and_of_several_one_has_to_be_named() {
    let home = Home::new();
    home.put(
        "own.yaml",
        &JUNIPER.replacen("Juniper, two", "Sorrel, two", 1),
    );
    let named = home.hames("rig ./own.yaml").run();
    assert!(
        named
            .out
            .starts_with("Sorrel, two-horse bumper pull\n\nRatings")
    );
    std::fs::create_dir_all(home.path("barn/rigs")).unwrap();
    home.put(
        "barn/rigs/one.yaml",
        &MESQUITE.replacen("Mesquite, four", "Aspen, four", 1),
    );
    let only = home.hames("rig --logbook barn").run();
    assert!(
        only.out
            .starts_with("Aspen, four-horse gooseneck\n\nRatings"),
        "{only:?}"
    );
    home.put("barn/rigs/two.yaml", JUNIPER);
    home.hames("rig --logbook barn")
        .run()
        .is(2, "", "Which rig? Name one: mesquite, juniper.\n");
    let lost = home
        .hames("rig ./own.yaml")
        .without(&["HOME", "XDG_DATA_HOME"]);
    assert_eq!(lost.run().status, 0);
}
