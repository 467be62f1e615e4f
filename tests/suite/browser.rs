//! Reports in a real browser: printed, their pages counted, their text found, and nothing run.
//!
//! They are of the feature `browser`, and fail where `chromium` or `poppler-utils` is missing.
//! `.ci/run` installs both and has the feature on.

use crate::cli::logbook::report::{HOSTILE, hostile};
use crate::harness::home::Home;
use hames::cli::year::{SEED, made};
use std::fs;
use std::path::Path;
use std::process::Command;

/// How many trips of the year are walked: enough for a month, and for charts with a line.
const TRIPS: usize = 36;

/// Runs a tool; what it prints.
fn tool(name: &str, arguments: &[&str]) -> String {
    let ended = Command::new(name).args(arguments).output();
    let ended = ended.unwrap_or_else(|error| {
        panic!("{name}: {error}. apt-get install chromium poppler-utils, as .ci/run does")
    });
    let err = String::from_utf8_lossy(&ended.stderr).into_owned();
    assert!(ended.status.success(), "{name}: {err}");
    String::from_utf8_lossy(&ended.stdout).into_owned()
}

/// The browser, with a home of its own and no network of its own accord.
fn browser(home: &Home, arguments: &[&str]) -> String {
    let own = format!("--user-data-dir={}", home.path("browser").display());
    let mut all = vec![
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        &own,
    ];
    all.extend(arguments);
    tool("chromium", &all)
}

/// The page in the home folder, as chromium prints it: how many pages, and their text on one line.
fn printed(home: &Home, name: &str) -> (usize, String) {
    let pdf = home.path(&format!("{name}.pdf"));
    let to = format!("--print-to-pdf={}", pdf.display());
    let page = address(&home.path(&format!("{name}.html")));
    browser(home, &["--no-pdf-header-footer", &to, &page]);
    let info = tool("pdfinfo", &[pdf.to_str().unwrap()]);
    let pages = info.lines().find_map(|line| line.strip_prefix("Pages:"));
    let text = tool("pdftotext", &["-layout", pdf.to_str().unwrap(), "-"]);
    let words: Vec<&str> = text.split_whitespace().collect();
    (pages.unwrap().trim().parse().unwrap(), words.join(" "))
}

fn address(file: &Path) -> String {
    format!("file://{}", file.display())
}

fn write(home: &Home, name: &str, logbook: &str, asked: &str) {
    let ask = format!("logbook report {asked} --logbook {logbook} --html {name}.html");
    let told = home.hames(&ask).run();
    assert_eq!((told.status, told.err.as_str()), (0, ""), "{}", told.out);
}

/// How many steps the list of a trip has is the number of its answers, at the least.
fn answers(home: &Home, trip: &str) -> usize {
    let ask = format!("logbook report trip {trip} --logbook book --json");
    let told: serde_json::Value = serde_json::from_str(&home.hames(&ask).run().out).unwrap();
    let seen = told["seen"].as_array().unwrap().iter();
    let seen: usize = seen.map(|one| one["ok"].as_array().unwrap().len()).sum();
    seen + told["readings"].as_array().unwrap().len()
}

#[test]
fn a_trip_a_rig_and_a_month_print_on_two_pages_at_the_most() {
    let home = Home::new();
    made(&home.path("book"), SEED, TRIPS).unwrap();
    let long = "laptop-2b1f/8";
    assert!(answers(&home, long) > 30, "a trip of at least thirty steps");
    let trip = format!("trip {long}");
    for (name, asked, parts) in [
        (
            "trip",
            trip.as_str(),
            &[
                "DEMO: an invented barn.",
                "What verification found",
                "Who signed",
                "What was read",
                "Receipt ",
            ][..],
        ),
        (
            "rig",
            "rig juniper --until 2025-12-31",
            &[
                "History of Juniper",
                "What stands open",
                "How its readings move",
                "limit",
            ],
        ),
        (
            "month",
            "month 2025-12",
            &["December 2025", "Day by day", "Wed", "open"],
        ),
    ] {
        write(&home, name, "book", asked);
        let (pages, text) = printed(&home, name);
        assert!((1..=2).contains(&pages), "{name}: {pages} pages");
        for part in parts {
            assert!(text.contains(part), "{name}: {part}: {text}");
        }
    }
    // Other paper, which is narrower and longer.
    let html = fs::read_to_string(home.path("trip.html")).unwrap();
    let a4 = html.replace("@page{margin:10mm}", "@page{margin:10mm;size:A4}");
    assert_ne!(a4, html);
    fs::write(home.path("a4.html"), a4).unwrap();
    assert!(printed(&home, "a4").0 <= 2);
}

#[test]
fn a_hostile_record_runs_nothing_and_is_read_as_it_was_written() {
    let (home, trip) = hostile();
    let logbook = home.demo().display().to_string();
    write(&home, "hostile", &logbook, &format!("trip {trip}"));
    let (_, text) = printed(&home, "hostile");
    assert!(
        text.contains("<script>document.title='RAN'</script>"),
        "{text}"
    );
    assert!(text.contains("]]> -- \"'"), "{text}");
    // A page that lets scripts run would have another title now.
    let page = address(&home.path("hostile.html"));
    let shown = browser(&home, &["--dump-dom", &page]);
    assert!(
        shown.contains("<title>Juniper, ") && !shown.contains("<title>RAN"),
        "{shown}"
    );
    // The same words do run where they are markup and nothing forbids them, so this is a test.
    fs::write(home.path("bare.html"), format!("<title>x</title>{HOSTILE}")).unwrap();
    let bare = browser(&home, &["--dump-dom", &address(&home.path("bare.html"))]);
    assert!(bare.contains("<title>RAN</title>"), "{bare}");
}
