//! How every command that a manager signs ends, and every other one of the crew: one table for all.

use super::{NEW_KEY, barn};
use crate::cli::logbook::countersign::laptop;
use crate::harness::home::Home;
use std::fs;

/// How each ends: all is well, a rule refuses it, it means nothing or was left unsigned, and the
/// logbook failed.
const FINE: i32 = 0;
const RULE: i32 = 1;
const USAGE: i32 = 2;
const STORE: i32 = 3;

/// A command, what is typed, and how it ends.
type Row = (&'static str, &'static str, i32);

/// Each by a rule, by what is not there, and by a passphrase that is wrong or never comes.
const ROWS: &[Row] = &[
    ("crew list", "", FINE),
    ("crew settle", "", FINE),
    ("crew add Odile_Marsh --id x --role groom", NEW_KEY, RULE),
    (
        "crew add Linnet --role groom",
        "hay and oats\nhay and oats\ndemi\n",
        USAGE,
    ),
    (
        "crew add Linnet --role groom",
        "hay and oats\nhay and oats\n",
        USAGE,
    ),
    ("crew add Linnet --role groom --by nobody", NEW_KEY, USAGE),
    (
        "crew add Linnet --role groom --import /nowhere",
        "demo\n",
        STORE,
    ),
    ("crew add --device", "demo\n", RULE),
    ("crew request", "", RULE),
    ("crew request wren.ashdown", "", RULE),
    ("crew request Wren_Ashdown --id no/id", "", USAGE),
    ("crew retire odile.marsh --why x", "demo\n", RULE),
    ("crew retire nobody --why x", "demo\n", USAGE),
    ("crew retire tobias.fenn --why x", "demi\n", USAGE),
    ("crew retire tobias.fenn --why x", "", USAGE),
    ("crew revoke odile.marsh --why x", "demo\n", RULE),
    ("crew revoke nobody --why x", "demo\n", USAGE),
    ("crew revoke nobody --why x --new-key", NEW_KEY, USAGE),
    ("crew revoke tobias.fenn --why x", "demi\n", USAGE),
    ("crew roles odile.marsh --role manager", "demo\n", RULE),
    ("crew roles nobody --role groom", "demo\n", USAGE),
    ("crew roles tobias.fenn --role driver", "demi\n", USAGE),
    ("crew sign-off wren.ashdown --withdraw", "demo\n", RULE),
    ("crew sign-off nobody", "demo\n", USAGE),
    ("crew sign-off wren.ashdown --rig pegasus", "demo\n", USAGE),
    ("crew sign-off wren.ashdown", "demi\n", USAGE),
    ("logbook countersign DEVICE/9", "", USAGE),
    ("logbook countersign DEVICE/1 --by nobody", "", USAGE),
    ("logbook countersign DEVICE/1", "leave\n", USAGE),
    ("logbook countersign DEVICE/1", "", USAGE),
    ("logbook close-fork DEVICE 1", "", RULE),
    ("logbook close-fork nobody 1", "", USAGE),
    ("logbook close-fork DEVICE x", "", USAGE),
    ("logbook accept-loss nobody 1 --why x", "demo\n", USAGE),
    (
        "logbook close-fork DEVICE 1 --goes-on x --why x",
        "demo\n",
        RULE,
    ),
    ("logbook accept-loss DEVICE 1 --why x", "demo\n", RULE),
    ("logbook accept-loss DEVICE x --why x", "demo\n", USAGE),
    ("logbook prune", "", FINE),
    ("logbook prune DEVICE/1 --why x", "", RULE),
    ("logbook prune DEVICE/9 --why x", "", USAGE),
    ("logbook prune --before yesterday --why x", "", USAGE),
    ("logbook prune --before 2999-01-01 --why x", "", USAGE),
    ("logbook prune --before 2001-01-01 --why x", "", FINE),
    ("checklist approve nothing", "", USAGE),
];

fn ends(home: &Home, command: &str, typed: &str) -> (i32, String) {
    let command = command.replace("DEVICE", &laptop(home));
    let mut program = home.hames("--logbook share/hames/demo");
    for word in command.split(' ') {
        program = program.argument(&word.replace('_', " "));
    }
    let ended = program.typed(typed).run();
    (ended.status, ended.out + &ended.err)
}

#[test]
fn what_refuses_a_change_decides_how_it_ends_whichever_command_it_was() {
    let home = barn();
    for (command, typed, status) in ROWS {
        let (ended, told) = ends(&home, command, typed);
        assert_eq!(ended, *status, "hames {command}, {typed:?}\n{told}");
    }
}

#[test]
fn a_logbook_that_fails_ends_every_one_of_them_the_same() {
    let home = barn();
    fs::write(home.demo().join("crew/allowed_signers"), "nobody\n").unwrap();
    for (command, typed, _) in ROWS {
        // Those are no logbook's matter.
        let misread = command.contains("DEVICE x");
        if misread || command.contains("no/id") || command.starts_with("checklist") {
            continue;
        }
        // Looking ends as verification does.
        if *command == "crew list" {
            continue;
        }
        let (ended, told) = ends(&home, command, typed);
        assert_eq!(ended, STORE, "hames {command}\n{told}");
    }
}

#[test]
fn the_crew_is_listed_by_the_file_in_force_and_ends_as_verification_does() {
    let home = barn();
    let crew = home.demo().join("crew/allowed_signers");
    let whole = fs::read_to_string(&crew).unwrap();
    let listed = home.hames("crew list --demo").run();
    assert_eq!(listed.status, FINE);
    let changed = whole.replace("Tobias Fenn", "Tobias Fenm");
    let ends = whole.replace('\n', "\r\n");
    for spoilt in ["nobody\n", "", &whole[..40], &changed, &ends] {
        fs::write(&crew, spoilt).unwrap();
        let told = home.hames("crew list --demo").run();
        let verified = home.hames("verify share/hames/demo").run();
        assert_eq!(told.status, verified.status, "{spoilt}: {}", verified.out);
        assert_eq!(told.out, listed.out, "{spoilt}: {}", told.err);
        assert!(
            told.err.contains("Put it in its place: cp "),
            "{}",
            told.err
        );
    }
    // Nobody ever stated one here, and then nothing can be listed.
    fs::remove_dir_all(home.demo().join("mgr")).unwrap();
    fs::write(&crew, "nobody\n").unwrap();
    let told = home.hames("crew list --demo").run();
    let verified = home.hames("verify share/hames/demo").run();
    assert_eq!((told.status, verified.status), (STORE, STORE));
}
