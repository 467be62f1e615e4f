//! The logbook looked over: days and trips, newest first, and only those that are asked for.

use super::countersign::{AGREED, countersign, says, short_trips};
use super::report::book;
use crate::harness::home::Home;
use crate::terminal::hames;
use hames::cli::year::{SEED, made, put_in_place};

fn barn() -> Home {
    let home = short_trips(2);
    let agreed = countersign(&home, 1, AGREED);
    assert_eq!(agreed.status, 0, "{}{}", agreed.out, agreed.err);
    home
}

#[test]
fn a_manager_sees_each_day_with_its_gravest_trip_and_what_is_open() {
    let home = barn();
    let before = home.files();
    let looked = home.hames("logbook --logbook share/hames/demo").run();
    assert_eq!(
        (looked.status, looked.err.as_str()),
        (0, ""),
        "{}",
        looked.out
    );
    let lines: Vec<&str> = looked.out.split_whitespace().collect();
    says(
        &lines.join(" "),
        &[
            "2 trips. ",
            ": 2 trips, the gravest: something noted, put off or left unfinished; 1 open TIME n juniper, ",
            "Wren Ashdown with Tobias Fenn; abandoned; ",
            "a manager agreed. Trip LAPTOP/1",
            "no manager has looked. Trip LAPTOP/2",
        ],
    );
    assert!(looked.out.lines().all(|line| line.chars().count() <= 80));
    assert_eq!(home.files(), before, "looking writes nothing");
}

#[test]
fn only_the_trips_asked_for_are_told() {
    let home = barn();
    let numbers = |asked: &str| -> Vec<String> {
        let told = home
            .hames(&format!(
                "logbook --logbook share/hames/demo --json {asked}"
            ))
            .run();
        assert_eq!((told.status, told.err.as_str()), (0, ""));
        let trips = told.out.lines();
        let number = |line: &str| {
            let trip: serde_json::Value = serde_json::from_str(line).unwrap();
            assert_eq!(trip["schema"], "hames-glance/1");
            format!("{} {}", trip["number"], trip["open"])
        };
        trips.map(number).collect()
    };
    assert_eq!(numbers(""), ["1 false", "2 true"]);
    assert_eq!(numbers("--open"), ["2 true"]);
    assert_eq!(numbers("--person ashdown"), ["1 false", "2 true"]);
    for none in ["--least fixed", "--since 2999-01-01", "--until 2001-01-01"] {
        assert!(numbers(none).is_empty(), "{none}");
    }
    let none = home
        .hames("logbook --logbook share/hames/demo --least fixed")
        .run();
    none.is(0, "0 trips of 2: fixed or graver.\n", "");
    // A name that no trip has is a slip, and no empty logbook.
    for (asked, told) in [
        (
            "--rig junipr",
            "There is no rig “junipr” among the trips here; did you mean juniper? Rigs walked: \
             juniper.\n",
        ),
        (
            "--json --person Odile",
            "Nobody called “Odile” took part in a trip here. Those who did: Tobias Fenn, Wren \
             Ashdown.\n",
        ),
        (
            "--since 2026-11-02 --until 2026-11-01",
            "--since DATE is after --until DATE, so no day lies between them. Write the earlier \
             day behind --since.\n",
        ),
    ] {
        let refused = home.hames(&format!("logbook --logbook share/hames/demo {asked}"));
        refused.run().is(2, "", told);
    }
    let before = home.hames("logbook --rig juniper questions --demo").run();
    assert_eq!(before.status, 2);
    says(&before.err, &["stand behind hames logbook alone."]);
    let wrong = home
        .hames("logbook --logbook share/hames/demo --since yesterday")
        .run();
    assert_eq!(wrong.status, 2);
    says(&wrong.err, &["this is no day; write it as "]);
}

#[test]
fn a_trip_that_cannot_be_relied_on_is_told_with_what_verification_finds() {
    let home = barn();
    let trip = crate::harness::home::trip(&home.demo(), 1);
    let journal = trip.join("trip.jsonl");
    let mut bytes = std::fs::read(&journal).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    std::fs::write(&journal, bytes).unwrap();
    let looked = home.hames("logbook --logbook share/hames/demo").run();
    assert_eq!(looked.status, 0);
    says(
        &looked.out,
        &[
            "A trip is ",
            ". See why:\n  hames verify share/hames/demo/dev/LAPTOP/t/000001-",
            "Trip LAPTOP/2\n",
        ],
    );
}

#[test]
fn the_demo_opens_on_the_year_of_an_invented_barn_which_is_made_once() {
    let home = Home::new();
    let looked = home.hames("logbook --demo --open").run();
    assert_eq!(
        (looked.status, looked.err.as_str()),
        (0, ""),
        "{}",
        looked.out
    );
    says(
        &looked.out,
        &[
            "DEMO. The year of an invented barn",
            " trips of 600: only open.\n",
            "sumac, ",
        ],
    );
    let made = home.files();
    let again = home.hames("logbook --demo --open").run();
    assert_eq!(again.out, looked.out);
    assert_eq!(home.files(), made);
}

#[test]
fn what_the_demo_lists_is_opened_asked_about_and_signed_by_the_same_flag() {
    const TRIPS: usize = 60;
    let home = Home::new();
    // Its first weeks stand where the year would, and are taken as they are.
    let data = home.path("share/hames");
    std::fs::create_dir_all(&data).unwrap();
    put_in_place(&data, |draft| made(draft, SEED, TRIPS)).unwrap();
    let run = |command: &str, typed: &str| home.hames(command).typed(typed).run();
    // Names of laptops and trips as they are, and each with what a manager said of it.
    let listed = || -> Vec<(String, serde_json::Value)> {
        let listed = home.hames("logbook --demo --rig sumac --json").start();
        let listed = listed.wait_with_output().unwrap().stdout;
        let lines = String::from_utf8(listed).unwrap();
        let trip = |line| -> serde_json::Value { serde_json::from_str(line).unwrap() };
        let trips = lines.lines().map(trip);
        let name = |trip: &serde_json::Value| trip["named"].as_str().unwrap().to_owned();
        trips.map(|trip| (name(&trip), trip)).collect()
    };
    let clear = |(_, trip): &(String, serde_json::Value)| {
        trip["said"].is_null() && trip["signed"] == true && trip["weight"] == "clear"
    };
    let (name, _) = listed().into_iter().find(clear).unwrap();

    let shown = run(&format!("logbook show {name} --demo"), "");
    assert_eq!(shown.err, "");
    says(&shown.out, &["Sumac, two-horse bumper pull"]);
    let about = run("logbook --demo --asked --json", "");
    let asked = about.out.lines().count();
    assert!((1..TRIPS).contains(&asked), "{asked}");
    assert!(!about.out.contains(r#""questions":0"#));
    let told = run("logbook --demo --asked --plain", "");
    says(
        &told.out,
        &[
            &format!("{asked} trips of {TRIPS}: only asked about."),
            " question",
        ],
    );
    let asked = run("logbook questions --demo", "");
    assert_eq!((asked.status, asked.err.as_str()), (1, ""));
    assert!(!asked.out.contains("--logbook"), "{}", asked.out);
    // Each says whose barn it is, and fits a narrow window.
    let defects = run("logbook defects --demo", "").out;
    for told in [&asked.out, &defects] {
        says(
            told,
            &["DEMO. The year of an invented barn: nobody in it lives.\n\n"],
        );
        let long = |line: &&str| line.chars().count() > 80;
        assert_eq!(told.lines().find(long), None);
    }
    let signing = format!("logbook countersign {name} --demo");
    let agreed = run(&signing, AGREED);
    says(
        &agreed.out,
        &["DEMO. Countersigned: agreed.\nKept in HOME/share/hames/demo-year/mgr/odile.marsh/"],
    );
    let now = listed().into_iter().find(|(one, _)| *one == name).unwrap();
    assert_eq!(now.1["said"], "agreed");

    // The demo barn's own walks are another logbook; nothing is made of it by this.
    assert!(!home.demo().exists());
    let nobody = run("logbook assign laptop-2b1f/1 no-step --owner x --demo", "");
    assert_eq!(nobody.status, 2, "{}", nobody.err);
}

#[test]
fn a_trip_is_found_by_who_looked_second_at_a_step_of_it_too() {
    let home = book(36);
    let told = home.hames("logbook --logbook book --person hazel.brack --rig juniper --json");
    let told = told.run();
    let trip = told
        .out
        .lines()
        .find(|line| line.contains(r#"/2","rig":"juniper","checklist":"hitch-bumper""#));
    let trip: serde_json::Value = serde_json::from_str(trip.unwrap()).unwrap();
    assert_eq!(trip["who"], "Wren Ashdown");
    assert!(
        trip["others"]
            .as_array()
            .unwrap()
            .contains(&"Hazel Brack".into())
    );
}

#[test]
fn on_the_screen_the_newest_trips_are_there_before_all_of_them_were_read() {
    let home = book(210);
    let mut terminal = hames(&home, &["logbook", "--logbook", "book"]);
    terminal.wait_for("The newest ");
    terminal.press("⏎");
    terminal.wait_for("210 trips in all");
    terminal.press("⏎");
    terminal.wait_for(" opened");
    terminal.press("qqq");
    assert!(terminal.end().success());
}
