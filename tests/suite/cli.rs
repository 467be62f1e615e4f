//! The program from outside: arguments and pipes in; output, side talk and exit status out.

mod barn;
mod barn_settings;
mod crew;
mod crew_roster;
pub(crate) mod demo;
mod describe;
mod doctor;
mod drill;
mod drill_difference;
mod drill_file;
mod drill_ride;
mod due;
mod files;
pub(crate) mod logbook;
mod printed;
mod rig;
mod rules;
pub(crate) mod verify;
mod weigh;

use crate::architecture::root;
use crate::harness::home::Home;
use std::fs;
use std::path::Path;

#[test]
fn help_begins_with_examples_and_ends_with_the_exit_statuses() {
    for command in [
        "",
        "walk",
        "verify",
        "lint",
        "rig",
        "due",
        "weigh",
        "figure",
        "checklist",
        "barn",
        "logbook",
        "crew",
        "crew list",
        "crew add",
        "crew request",
        "crew retire",
        "crew revoke",
        "crew roles",
        "crew settle",
        "crew sign-off",
        "logbook countersign",
        "logbook close-fork",
        "logbook accept-loss",
        "logbook prune",
        "doctor",
    ] {
        let ended = Home::new().hames(&format!("{command} --help")).run();
        assert_eq!((ended.status, ended.err.as_str()), (0, ""), "{command}");
        assert!(ended.out.starts_with("Examples:\n  hames"), "{}", ended.out);
        let own = format!("  hames {command}");
        assert!(ended.out.contains(own.trim_end()), "{}", ended.out);
    }
    let whole = Home::new().hames("--help").run();
    assert!(
        whole.out.contains("Exit status:\n   0  all is well\n"),
        "{}",
        whole.out
    );
    assert!(
        whole.out.contains("  16  verify: altered\n"),
        "{}",
        whole.out
    );
}

#[test]
fn the_page_of_commands_is_what_help_says() {
    let commands = [
        "",
        "walk",
        "verify",
        "lint",
        "rig",
        "due",
        "weigh",
        "figure",
        "barn",
        "checklist",
        "checklist list",
        "checklist example",
        "checklist new",
        "checklist whole",
        "checklist compare",
        "checklist approve",
        "checklist schema",
        "logbook",
        "logbook receipt",
        "logbook questions",
        "logbook trends",
        "logbook trace",
        "logbook table",
        "logbook export",
        "logbook countersign",
        "logbook close-fork",
        "logbook accept-loss",
        "logbook prune",
        "doctor",
        "crew",
        "crew list",
    ];
    let part = |command: &str| {
        let help = Home::new().hames(&format!("{command} --help")).run().out;
        let lines: Vec<&str> = help.lines().map(str::trim_end).collect();
        let title = format!("hames {command}");
        let (title, text) = (title.trim_end(), lines.join("\n"));
        format!("\n## {title}\n\n```text\n{}\n```\n", text.trim_end())
    };
    let parts: Vec<String> = commands.into_iter().map(part).collect();
    let head = "# Commands\n\n\
        For everybody: what `hames --help` says, command by command.\n\
        This page is what the program prints; a test holds it to that.\n";
    let page = head.to_owned() + &parts.concat();
    let made = Path::new(env!("CARGO_TARGET_TMPDIR")).join("commands.md");
    fs::write(&made, &page).unwrap();
    let written = fs::read_to_string(root().join("docs/commands.md")).unwrap();
    assert!(
        written == page,
        "the help has changed; take the new page with: cp {} docs/commands.md",
        made.display()
    );
}

#[test]
fn the_page_of_mechanics_is_made_of_the_formulas_own_pages() {
    let page = Home::new().hames("figure --page").run().out;
    let made = Path::new(env!("CARGO_TARGET_TMPDIR")).join("mechanics.md");
    fs::write(&made, &page).unwrap();
    let written = fs::read_to_string(root().join("docs/mechanics.md")).unwrap_or_default();
    assert!(
        written == page,
        "a formula's page has changed; take the new one with: cp {} docs/mechanics.md",
        made.display()
    );
    let one = Home::new().hames("figure star_order --page").run().out;
    assert!(page.contains(&one), "{one}");
}

#[test]
fn a_mistyped_command_is_told_the_nearest_one() {
    let ended = Home::new().hames("verifi").run();
    assert_eq!((ended.status, ended.out.as_str()), (2, ""));
    assert!(ended.err.contains("'verify'"), "{}", ended.err);
}

#[test]
fn without_a_terminal_the_screens_say_so_and_name_the_way_on() {
    let home = Home::new();
    home.hames("").run().is(
        2,
        "",
        "The screens need a terminal for input and output, and here is none. \
         Use --plain to work line by line; it goes through a pipe.\n",
    );
    assert_eq!(home.files(), [""; 0]);
}

#[test]
fn without_a_home_it_says_what_to_name() {
    let home = Home::new();
    let lost = home
        .hames("--plain")
        .without(&["HOME", "XDG_DATA_HOME"])
        .run();
    lost.is(
        2,
        "",
        "Neither XDG_DATA_HOME nor HOME is set, so there is no folder to look in. \
         Name one with --logbook DIR.\n",
    );
}

#[test]
fn no_variable_sets_clock_chance_or_identity() {
    // The names read anywhere in the program, as the sources have them.
    let text = fs::read_to_string(root().join("src/cli/surroundings.rs")).unwrap();
    let read: Vec<&str> = text
        .split("text(\"")
        .skip(1)
        .map(|rest| rest.split('"').next().unwrap())
        .collect();
    assert_eq!(
        read,
        [
            "XDG_DATA_HOME",
            "LC_ALL",
            "LC_CTYPE",
            "LANG",
            "NO_COLOR",
            "TERM",
            "SSH_AUTH_SOCK",
            "LOCALAPPDATA",
            "HOME"
        ]
    );
}
