//! Reports by the command: of a trip, a rig, a month; as text, as HTML, as JSON.

use super::countersign::{countersign, laptop, says};
use crate::harness::home::{Ended, Home, files_below};
use hames::cli::year::{SEED, made};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// The first so many trips of the year of the invented barn, in the folder `book`.
pub(crate) fn book(trips: usize) -> Home {
    Home::laid(format!("{trips} trips of the year"), Home::new, |home| {
        made(&home.path("book"), SEED, trips).unwrap();
    })
}

/// A report of the book.
fn report(home: &Home, asked: &str) -> Ended {
    home.hames(&format!("logbook report {asked} --logbook book"))
        .run()
}

/// Without the line that says when it was made.
fn without_clock(text: &str) -> String {
    let lines = text.lines().filter(|line| !line.starts_with("Made by "));
    lines.collect::<Vec<_>>().join("\n")
}

/// Headings, captions and heads of columns, as they follow each other.
fn outline(html: &str) -> String {
    let mut outline = Vec::new();
    for line in html.lines() {
        let tags = [
            "<title>",
            "<h1>",
            "<h2>",
            "<h3>",
            "<caption>",
            "<th scope=\"col\">",
            "<svg ",
        ];
        if tags.iter().any(|tag| line.starts_with(tag)) {
            let is_svg = line.starts_with("<svg ");
            outline.push(if is_svg { "<svg>" } else { line });
        }
    }
    outline.join("\n")
}

/// A trip of the book with exceptions, as commands name it.
const TRIP: &str = "laptop-2b1f/7";

#[test]
fn each_report_is_text_a_page_and_json_and_nothing_else_is_written() {
    let home = book(36);
    let before = home.files();
    let shared = &["schema", "of", "mode", "made_at"];
    for (of, asked, fields) in [
        (
            "trip",
            format!("trip {TRIP}"),
            &[
                "finding",
                "seal",
                "said",
                "exceptions",
                "readings",
                "instruments",
                "people",
            ][..],
        ),
        (
            "rig",
            "rig juniper --until 2025-12-31".to_owned(),
            &["trips", "defects", "open", "due", "trends", "asked"],
        ),
        (
            "month",
            "month 2025-12".to_owned(),
            &["trips", "days", "defects", "asked", "came_about"],
        ),
    ] {
        let told = report(&home, &format!("{asked} --html {of}.html --text"));
        assert_eq!((told.status, told.err.as_str()), (0, ""), "{}", told.out);
        let (written, text) = told.out.split_once('\n').unwrap();
        assert!(
            written.starts_with(&format!("Written to {of}.html.")),
            "{written}"
        );
        let long = |line: &&str| line.chars().count() > 80;
        assert_eq!(text.lines().find(long), None);
        insta::assert_snapshot!(format!("report_{of}"), without_clock(text));
        let html = fs::read_to_string(home.path(&format!("{of}.html"))).unwrap();
        let bare = html.replace("xmlns=\"http://www.w3.org/2000/svg\"", "");
        for other in ["http:", "https:", "<script", "<link", "javascript"] {
            assert!(!bare.contains(other), "{other}");
        }
        insta::assert_snapshot!(format!("report_{of}_page"), outline(&html));

        let told = report(&home, &format!("{asked} --json"));
        assert_eq!((told.status, told.err.as_str()), (0, ""), "{}", told.out);
        let json: Value = serde_json::from_str(&told.out).unwrap();
        assert_eq!(json["schema"], "hames-report/1");
        assert_eq!(
            (&json["of"], &json["mode"]),
            (&Value::from(of), &Value::from("demo"))
        );
        for field in fields.iter().chain(shared) {
            assert!(!json[field].is_null(), "{field}: {}", told.out);
        }
    }
    let again = report(&home, "month 2025-12 --html month.html");
    assert_eq!((again.status, again.out.as_str()), (3, ""));
    assert!(again.err.contains("is there already"), "{}", again.err);
    let mut files = home.files();
    files.retain(|file| Path::new(file).extension() != Some("html".as_ref()));
    assert_eq!(files, before, "looking writes nothing else");
}

#[test]
fn a_month_tells_what_was_found_with_its_limit_the_gravest_first() {
    let home = book(36);
    let told = report(&home, "month 2025-12 --json");
    let month: Value = serde_json::from_str(&told.out).unwrap();
    let flagged = month["flagged"].as_array().unwrap();
    let verdicts = flagged.iter().map(|one| one["verdict"].as_str().unwrap());
    let rank = |verdict| {
        ["stop", "fix", "note"]
            .iter()
            .position(|one| *one == verdict)
    };
    let ranks: Vec<_> = verdicts.map(|verdict| rank(verdict).unwrap()).collect();
    assert!(ranks.len() > 3 && ranks.is_sorted(), "{ranks:?}");
    // A trip on which something was found says no less.
    let trips = month["trips"].as_array().unwrap();
    for one in flagged {
        let trip = trips.iter().find(|trip| trip["trip"] == one["trip"]);
        assert_ne!(trip.unwrap()["weight"], "clear", "{one}");
    }
    let fixed = trips.iter().filter(|trip| trip["weight"] == "fixed");
    for trip in fixed {
        assert!(
            flagged.iter().any(|one| one["trip"] == trip["trip"]),
            "{trip}"
        );
    }
    let read = flagged.iter().find(|one| !one["limit"].is_null()).unwrap();
    let limit = &read["limit"];
    let text = report(&home, "month 2025-12").out;
    let text: Vec<&str> = text.split_whitespace().collect();
    let row = format!(
        "What: {}. Found: {}. Limit: {} ({}). Verdict: ",
        read["name"].as_str().unwrap(),
        read["found"].as_str().unwrap(),
        limit["bound"].as_str().unwrap(),
        limit["authority"].as_str().unwrap(),
    );
    assert!(text.join(" ").contains(&row), "{row}");
}

#[test]
fn what_a_manager_said_after_the_last_day_of_a_report_is_not_told_in_it() {
    let home = book(36);
    let hay = "laptop-2b1f/14 hay --owner tobias.fenn";
    let assigned = home
        .hames(&format!("logbook assign {hay} --logbook book"))
        .typed("demo\n")
        .run();
    assert_eq!(assigned.status, 0, "{}{}", assigned.out, assigned.err);
    let up_to_now = report(&home, "rig juniper").out;
    says(&up_to_now, &["Tobias Fenn sees to it"]);
    for asked in ["month 2025-12", "rig juniper --until 2025-12-31"] {
        for form in ["", "--json"] {
            let told = report(&home, &format!("{asked} {form}")).out;
            assert!(told.contains("Enough for the way only"), "{told}");
            let named = told.contains("sees to it") || told.contains("\"owner\":");
            assert!(!named, "{told}");
        }
    }
}

#[test]
fn a_report_up_to_a_day_that_is_past_says_nothing_of_a_clock_or_of_what_was_done_later() {
    let home = book(36);
    let told = report(&home, "rig juniper --until 2025-12-31").out;
    let told: Vec<&str> = told.split_whitespace().collect();
    let told = told.join(" ");
    for never in ["clock", "today", "of the service of"] {
        assert!(!told.contains(never), "{never}: {told}");
    }
    says(
        &told,
        &["What was due by then", "No time up to DATE is written down"],
    );
}

#[test]
fn trends_and_the_report_of_a_rig_count_the_days_of_a_tire_from_one_day_and_name_it() {
    let home = book(36);
    let spare = |text: &str| {
        let mut lines = text.lines();
        let line = lines.find(|line| line.contains("Tire age, spare")).unwrap();
        let (_, days) = line.split_once(", in ").unwrap();
        days.trim_end_matches('.').to_owned()
    };
    let trends = home.hames("logbook trends --rig juniper book").run().out;
    let rig = report(&home, "rig juniper").out;
    assert_eq!(spare(&trends), spare(&rig));
    says(&trends, &["Days to a tire's age are counted from "]);
    says(&rig, &["Days are counted from DATE."]);
}

#[test]
fn what_is_not_here_is_told_with_what_is() {
    let home = book(36);
    let none = report(&home, "trip laptop-2b1f/700");
    assert_eq!((none.status, none.out.as_str()), (2, ""));
    assert!(
        none.err.contains("There is no trip “LAPTOP/700” here."),
        "{}",
        none.err
    );
    let none = report(&home, "rig pegasus");
    assert_eq!((none.status, none.out.as_str()), (2, ""));
    says(&none.err, &["There is no rig “pegasus”", "juniper"]);
    let none = report(&home, "month 2025-13");
    assert_eq!(none.status, 2);
    assert!(none.err.contains("write it as 2026-11"), "{}", none.err);
    let empty = report(&home, "month 2019-01");
    assert_eq!((empty.status, empty.out.as_str()), (2, ""));
    says(
        &empty.err,
        &["No trip is known of January 2019. The trips here are from DATE to DATE."],
    );
    let turned = report(&home, "rig juniper --since 2025-12-31 --until 2025-12-01");
    assert_eq!((turned.status, turned.out.as_str()), (2, ""));
    says(&turned.err, &["--since DATE is after --until DATE"]);
    let nowhere = home
        .hames("logbook report month 2025-12 --logbook nowhere")
        .run();
    assert_eq!(nowhere.status, 3, "{}{}", nowhere.out, nowhere.err);
}

#[test]
fn a_trip_whose_bytes_were_changed_is_reported_with_nothing_to_rely_on() {
    let home = book(36);
    let book = home.path("book/dev");
    let file = files_below(&book)
        .into_iter()
        .find(|file| file.starts_with("laptop-2b1f/t/000007-") && file.ends_with("trip.jsonl"));
    let journal = book.join(file.unwrap());
    let text = fs::read_to_string(&journal).unwrap();
    fs::write(&journal, text.replacen("pin-in", "pin-on", 1)).unwrap();
    let told = report(&home, &format!("trip {TRIP}"));
    assert_eq!((told.status, told.err.as_str()), (16, ""), "{}", told.out);
    says(
        &told.out,
        &[
            "altered",
            "There is nothing in it that a report could rely on.",
        ],
    );
}

/// Words that would run if they were taken for markup.
pub(crate) const HOSTILE: &str =
    "<script>document.title='RAN'</script> ]]> -- \"' <img src=x onerror=document.title='RAN'>";

/// A short trip whose words and whose manager's question, and a barn whose name, are hostile.
pub(crate) fn hostile() -> (Home, String) {
    let home = Home::new();
    let walk = format!("1\n1\n10\n1\n2\n\nend\nabandoned\n{HOSTILE}\n1\ndemo\nquit\n");
    let ended = home.hames("--plain").typed(&walk).run();
    assert!(ended.out.contains("Sealed."), "{}{}", ended.out, ended.err);
    let asked = countersign(&home, 1, &format!("seen\nasked\n\n{HOSTILE}\ndemo\n"));
    assert_eq!(asked.status, 0, "{}{}", asked.out, asked.err);
    fs::write(
        home.demo().join("barn.txt"),
        "<b onload=x> \u{1b}[31mBarn\u{202e}\n",
    )
    .unwrap();
    let trip = format!("{}/1", laptop(&home));
    (home, trip)
}

#[test]
fn hostile_words_of_a_record_stay_words() {
    let (home, trip) = hostile();
    let logbook = home.demo();
    let logbook = logbook.display();
    let ask = format!("logbook report trip {trip} --logbook {logbook} --html r.html --text");
    let told = home.hames(&ask).run();
    assert_eq!((told.status, told.err.as_str()), (0, ""), "{}", told.out);
    assert!(!told.out.contains(['\u{1b}', '\u{202e}']), "{}", told.out);
    says(
        &told.out,
        &[
            "<script>document.title='RAN'</script>",
            "\\u{1b}[31mBarn\\u{202e}",
        ],
    );
    let html = fs::read_to_string(home.path("r.html")).unwrap();
    assert!(
        !html.contains("<script") && !html.contains("<img"),
        "{html}"
    );
    assert!(html.replace("<wbr>", "").matches("&lt;script&gt;").count() >= 2);
}

/// Every key below this value, but those below these.
fn keys(value: &Value, but: &[&str], all: &mut BTreeSet<String>) {
    match value {
        Value::Array(items) => items.iter().for_each(|one| keys(one, but, all)),
        Value::Object(fields) => {
            for (key, value) in fields {
                all.insert(key.clone());
                if !but.contains(&key.as_str()) {
                    keys(value, but, all);
                }
            }
        }
        _ => {}
    }
}

/// The part of a page below this heading.
fn part<'p>(page: &'p str, heading: &str) -> &'p str {
    let (_, part) = page.split_once(&format!("\n{heading}\n")).unwrap();
    part.split("\n## ").next().unwrap()
}

#[test]
fn each_field_of_the_json_is_told_in_its_page_and_no_report_names_a_folder_of_this_machine() {
    let page = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/logbook.md");
    let page = fs::read_to_string(page).unwrap();
    let home = book(36);
    let mut defects = Value::Array(Vec::new());
    let mut all = BTreeSet::new();
    let objects = [
        "defects",
        "defects_before",
        "defects_after",
        "trends",
        "tires",
    ];
    let mut trends = BTreeSet::new();
    let folder = home.path("");
    for asked in [&format!("trip {TRIP}"), "rig juniper", "month 2025-12"] {
        let told = report(&home, &format!("{asked} --json"));
        let text = report(&home, asked).out;
        for form in [&told.out, &text] {
            let named = form.contains(folder.to_str().unwrap()) || form.contains("--logbook");
            assert!(!named, "{form}");
        }
        let json: Value = serde_json::from_str(&told.out).unwrap();
        keys(&json, &objects, &mut all);
        for name in objects.iter().filter(|name| name.starts_with("defects")) {
            let more = json[name].as_array().into_iter().flatten();
            defects.as_array_mut().unwrap().extend(more.cloned());
        }
        for name in ["trends", "tires"] {
            keys(&json[name], &[], &mut trends);
        }
    }
    let mut found = BTreeSet::new();
    keys(&defects, &[], &mut found);
    assert!(found.contains("by_the_finder") && trends.contains("slope"));
    assert!(!found.contains("keeps_back"), "no list of this laptop");
    assert!(all.contains("well_at_end") && all.contains("reckoned_from"));
    let looked = home.hames("logbook --json --logbook book").run();
    let mut glances = BTreeSet::new();
    for line in looked.out.lines() {
        keys(&serde_json::from_str(line).unwrap(), &[], &mut glances);
    }
    for (heading, named) in [
        ("### Reports as JSON", all),
        ("### Trends as JSON", trends),
        ("### Defects as JSON", found),
        ("### A trip at a glance as JSON", glances),
    ] {
        let part = part(&page, heading);
        let is_told = |key: &&String| {
            part.contains(&format!("`{key}`")) || part.contains(&format!("`\"{key}\": "))
        };
        let missing: Vec<&String> = named.iter().filter(|key| !is_told(key)).collect();
        assert!(missing.is_empty(), "{heading}: {missing:?}");
    }
}
