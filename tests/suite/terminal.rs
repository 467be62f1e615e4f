//! The real program in a real terminal: a whole walk, every way out, and what is left behind.

mod drills;
mod helpers;

use crate::cli::demo::{BEGIN, sealed};
use crate::cli::logbook::countersign::{laptop, short_trips};
use crate::harness::home::{Home, trip};
use crate::harness::terminal::{Terminal, program, signal};
use crate::plain::bench::plan;
use crate::screens::bench::good_keys;
use std::time::{Duration, Instant};

const HAMES: &str = env!("CARGO_BIN_EXE_hames");

pub(crate) fn hames(home: &Home, arguments: &[&str]) -> Terminal {
    Terminal::start(program(HAMES, arguments, &home.path("")))
}

/// A walk begun on the screens, and its first step answered.
fn walking(home: &Home) -> Terminal {
    let mut terminal = hames(home, &[]);
    terminal.wait_for("Quillwater");
    terminal.press("11");
    terminal.wait_for("Rating marks");
    let first = &good_keys(&plan())[0];
    terminal.press(first);
    terminal
}

/// The lines of the journal of the one trip.
fn journal(home: &Home) -> Vec<String> {
    let text = std::fs::read_to_string(trip(&home.demo(), 1).join("trip.jsonl")).unwrap();
    text.lines().map(str::to_owned).collect()
}

/// The journal is whole, and the walk goes on where it was: the first step is answered.
#[track_caller]
fn goes_on(home: &Home) {
    let verified = home.hames("verify share/hames/demo").run();
    assert_eq!(
        (verified.status, verified.err.as_str()),
        (10, ""),
        "{}",
        verified.out
    );
    assert_eq!(
        verified.out.lines().nth(1).unwrap().trim(),
        "the record is not sealed; nobody has signed for it"
    );
    let again = home.hames("--plain").typed("1\nquit\n").run();
    assert!(
        again.out.contains("To look at again: Rating marks."),
        "{}",
        again.out
    );
}

#[test]
fn a_whole_walk_is_pressed_to_a_sealed_trip_that_verifies() {
    let home = Home::new();
    let mut terminal = hames(&home, &[]);
    terminal.wait_for("DEMO");
    terminal.press("11");
    for keys in good_keys(&plan()) {
        terminal.press(&keys);
    }
    terminal.press("1demo⏎");
    terminal.wait_until("a receipt", |screen| {
        screen.to_lowercase().contains("receipt")
    });
    terminal.press("⏎q");
    assert!(terminal.end().success());
    terminal.is_given_back();
    let verified = home.hames("verify share/hames/demo").run();
    assert!(
        verified
            .out
            .contains("not-countersigned  DEMO  complete, signed by Wren Ashdown, driver"),
        "{}",
        verified.out
    );
    assert_eq!(verified.status, 9);
}

#[test]
fn both_ways_of_walking_leave_the_same_record() {
    let kinds = |home: &Home| -> Vec<String> {
        let part = |line: &String| line.split("\"kind\":").nth(1).unwrap().to_owned();
        journal(home).iter().skip(1).map(part).collect()
    };
    let (screens, lines) = (Home::new(), sealed());
    let mut terminal = walking(&screens);
    for keys in &good_keys(&plan())[1..3] {
        terminal.press(keys);
    }
    let on_screens = kinds(&screens);
    assert!(on_screens.len() > 4);
    assert_eq!(on_screens, kinds(&lines)[..on_screens.len()]);
}

#[test]
fn a_storm_of_window_sizes_changes_nothing() {
    let home = Home::new();
    let mut terminal = walking(&home);
    let before = journal(&home);
    for (rows, columns) in [
        (30, 100),
        (1, 1),
        (2, 3),
        (60, 200),
        (12, 40),
        (24, 80),
        (1, 200),
        (60, 1),
        (20, 60),
        (24, 80),
    ] {
        terminal.resize(rows, columns);
    }
    terminal.wait_for("Rating marks");
    terminal.press(&good_keys(&plan())[1]);
    assert!(journal(&home).len() > before.len());
    assert_eq!(journal(&home)[..before.len()], before);
}

#[test]
fn ctrl_c_sigterm_and_sighup_give_the_terminal_back_and_lose_nothing() {
    for how in ["ctrl-c", "-TERM", "-HUP", "-INT"] {
        let home = Home::new();
        let mut terminal = walking(&home);
        match how {
            "ctrl-c" => terminal.send("\u{3}"),
            name => signal(name, terminal.pid()),
        }
        assert_eq!(terminal.end().exit_code(), 0, "{how}");
        terminal.is_given_back();
        assert!(
            terminal.text().contains("What was recorded is kept"),
            "{how}: {}",
            terminal.text()
        );
        goes_on(&home);
    }
}

#[test]
fn a_walk_that_cannot_begin_ends_the_screens_with_the_status_of_a_refusal() {
    let home = sealed();
    for key in std::fs::read_dir(home.demo().join("keys")).unwrap() {
        let key = key.unwrap().path();
        if key
            .file_name()
            .unwrap()
            .to_str()
            .unwrap()
            .starts_with("laptop")
        {
            std::fs::remove_file(key).unwrap();
        }
    }
    for (arguments, status) in [(&["walk", "--demo"][..], 1), (&["--demo"], 0)] {
        let mut terminal = hames(&home, arguments);
        terminal.wait_for("This laptop has no key");
        terminal.press("q");
        assert_eq!(terminal.end().exit_code(), status, "{arguments:?}");
    }
    std::fs::remove_file(home.demo().join("crew/allowed_signers")).unwrap();
    let mut terminal = hames(&home, &["--demo"]);
    terminal.wait_for("The logbook could not be opened");
    terminal.press("q");
    assert_eq!(terminal.end().exit_code(), 3);
}

#[test]
fn a_walk_killed_outright_goes_on_at_the_same_step_with_every_line() {
    let home = Home::new();
    let mut terminal = walking(&home);
    let before = journal(&home);
    signal("-KILL", terminal.pid());
    terminal.end();
    assert_eq!(journal(&home), before);
    goes_on(&home);
}

#[test]
fn ctrl_z_stops_and_fg_draws_it_again() {
    let home = Home::new();
    let mut shell = program(
        "/bin/bash",
        &["--norc", "--noprofile", "-i"],
        &home.path(""),
    );
    shell.env("PS1", "ready> ");
    let mut terminal = Terminal::start(shell);
    terminal.wait_for("ready>");
    terminal.send(&format!("{HAMES}\n"));
    terminal.wait_for("Quillwater");
    terminal.press("11");
    terminal.wait_for("Rating marks");
    terminal.send("\u{1a}");
    terminal.wait_for("Stopped");
    terminal.wait_until("the shell", |screen| screen.trim_end().ends_with("ready>"));
    terminal.send("fg\n");
    terminal.wait_for("Rating marks");
    terminal.press(&good_keys(&plan())[0]);
    terminal.wait_until("the answer", |screen| {
        screen.contains("OK") || screen.contains("ok")
    });
    terminal.send("\u{3}");
    terminal.wait_until("the shell", |screen| screen.trim_end().ends_with("ready>"));
    goes_on(&home);
    terminal.send("exit\n");
    terminal.end();
}

#[test]
fn a_window_that_is_closed_ends_the_program_within_two_seconds() {
    let home = Home::new();
    let (window, pid) = helpers::window(&home);
    let before = journal(&home);
    helpers::close(window);
    let closed = Instant::now();
    while !helpers::is_over(pid) {
        assert!(
            closed.elapsed() < Duration::from_secs(2),
            "it goes on without a window"
        );
        std::thread::sleep(Duration::from_millis(10));
    }
    assert_eq!(journal(&home), before);
    goes_on(&home);
}

#[test]
fn a_panic_gives_the_terminal_back_before_it_speaks() {
    let home = Home::new();
    let mut terminal = Terminal::start(helpers::panicking(&home));
    terminal.wait_for("an errand nobody expected");
    assert!(!terminal.end().success());
    terminal.is_given_back();
}

#[test]
fn waiting_writes_next_to_nothing() {
    let home = Home::new();
    let terminal = walking(&home);
    let before = terminal.bytes();
    std::thread::sleep(Duration::from_secs(3));
    // A minute may turn meanwhile, and redraws the clock.
    assert!(
        terminal.bytes() - before < 200,
        "{} bytes in three seconds",
        terminal.bytes() - before
    );
}

#[test]
fn no_colour_is_written_where_none_is_wanted() {
    for (arguments, name) in [(&["--color", "never"][..], "PLAIN"), (&[], "NO_COLOR")] {
        let home = Home::new();
        let mut command = program(HAMES, arguments, &home.path(""));
        command.env(name, "1");
        let terminal = Terminal::start(command);
        terminal.wait_for("Quillwater");
        assert_eq!(terminal.colours(), 0, "{name}");
    }
}

#[test]
fn line_by_line_a_terminal_hides_the_passphrase() {
    let home = Home::new();
    let mut terminal = hames(&home, &["--plain"]);
    terminal.wait_for("What next?");
    terminal.send(&format!("{BEGIN}end\nabandoned\nrain\n1\n"));
    terminal.wait_for("Passphrase of Wren Ashdown");
    terminal.send("demo\n");
    terminal.wait_for("Sealed. Receipt:");
    assert!(!terminal.text().contains("\n> demo"), "{}", terminal.text());
    terminal.send("quit\n");
    assert!(terminal.end().success());
    terminal.is_given_back();
}

#[test]
fn the_first_walk_of_a_barn_is_set_up_line_by_line_and_then_walked_on_the_screens() {
    let home = Home::new();
    home.put("rig.yaml", hames::rig::demo::JUNIPER);
    let mut terminal = hames(&home, &["walk", "--rig", "rig.yaml", "--logbook", "book"]);
    terminal.wait_for("Name of the barn?");
    terminal.send("Quillwater Stables\nWren Ashdown\ndriver\n");
    terminal.wait_for("A passphrase for your key");
    terminal.send("hay and oats\n");
    terminal.wait_for("The same once more?");
    assert!(!terminal.text().contains("hay"), "{}", terminal.text());
    terminal.send("hay and oats\n");
    terminal.wait_for("Juniper");
    assert!(!terminal.text().contains("DEMO"));
    terminal.press("q");
    assert!(terminal.end().success());
    terminal.is_given_back();
    assert_eq!(
        home.hames("crew list --logbook book")
            .run()
            .out
            .lines()
            .count(),
        2
    );
}

#[test]
fn a_logbook_is_looked_over_to_a_trip_and_nothing_is_written() {
    let home = sealed();
    let before = home.files();
    let place = "share/hames/demo";
    let mut terminal = hames(&home, &["logbook", "--logbook", place, "--rig", "juniper"]);
    terminal.wait_for("Su Mo Tu We");
    assert!(terminal.text().contains("DEMO Logbook"));
    assert!(terminal.text().contains("1 of 1 trip: rig juniper"));
    terminal.press("⏎⏎");
    terminal.wait_for("0 of 2 opened");
    terminal.press("⏎");
    terminal.wait_for("1 opened");
    terminal.press("q⇥");
    terminal.wait_for("nobody countersigns their own work");
    terminal.press("qqqq");
    assert!(terminal.end().success());
    terminal.is_given_back();
    assert_eq!(home.files(), before);
}

#[test]
fn a_trip_is_countersigned_on_the_screen_and_verifies() {
    let home = short_trips(1);
    let mut terminal = hames(&home, &["logbook", "--logbook", "share/hames/demo"]);
    terminal.wait_for("Su Mo Tu We");
    terminal.press("⏎⏎");
    terminal.wait_for("0 of 1 opened");
    terminal.press("⏎q");
    terminal.wait_for("s agrees to the trip");
    assert!(terminal.text().contains("1 of 1 opened"));
    terminal.press("s");
    terminal.wait_for("Remarks?");
    terminal.press("Seen at home.⏎");
    terminal.wait_for("Which manager signs?");
    terminal.press("1");
    terminal.wait_for("Odile Marsh signs and states:");
    terminal.press("hay⏎");
    terminal.wait_for("does not open");
    terminal.press("demo⏎");
    terminal.wait_for("Countersigned: agreed");
    terminal.wait_for("mgr/odile.marsh/000002");
    terminal.press("⏎");
    terminal.wait_for("agreed; abandoned");
    terminal.press("qq");
    assert!(terminal.end().success());
    terminal.is_given_back();
    let verified = home.hames("verify share/hames/demo").run();
    assert_eq!(verified.status, 0, "{}{}", verified.out, verified.err);
    let trip = format!(
        "logbook show --logbook share/hames/demo {}/1",
        laptop(&home)
    );
    let shown = home.hames(&trip).run();
    assert!(shown.out.contains("Odile Marsh agreed on"), "{}", shown.out);
    assert!(shown.out.contains("Seen at home."), "{}", shown.out);
}

#[test]
fn what_was_read_is_kept_between_two_trips_and_what_changed_meanwhile_is_not_signed_unseen() {
    let home = short_trips(2);
    let mut terminal = hames(&home, &["logbook", "--logbook", "share/hames/demo"]);
    terminal.wait_for("Su Mo Tu We");
    terminal.press("⏎⏎");
    terminal.wait_for("0 of 1 opened");
    // Nothing else is read for the next one, so that it is not missed.
    let trips = home.demo().join("dev").join(laptop(&home)).join("t");
    let mut folders: Vec<_> = std::fs::read_dir(&trips).unwrap().collect();
    folders.sort_by_key(|entry| entry.as_ref().unwrap().file_name());
    let first = folders[0].as_ref().unwrap().path();
    std::fs::rename(&first, home.path("aside")).unwrap();
    terminal.press("q↓⏎");
    terminal.wait_for("0 of 1 opened");
    terminal.press("⏎q");
    terminal.wait_for("1 of 1 opened");
    terminal.press("s⏎1");
    terminal.wait_for("Odile Marsh signs and states:");
    terminal.press("demo⏎");
    terminal.wait_for("what stands beside it has changed");
    terminal.press("⎋");
    terminal.wait_for("Which manager signs?");
    terminal.press("q");
    terminal.wait_for("Remarks?");
    terminal.press("⎋");
    terminal.wait_for("1 of 1 opened");
    terminal.press("q⏎");
    terminal.wait_for("1 of 2 opened");
    terminal.press("qqq");
    assert!(terminal.end().success());
    terminal.is_given_back();
}

#[test]
fn that_there_is_no_logbook_to_look_over_is_said_in_a_line() {
    let home = Home::new();
    let mut terminal = hames(&home, &["logbook", "--logbook", "nowhere"]);
    terminal.wait_for("nowhere");
    assert!(!terminal.end().success());
    terminal.is_given_back();
}
