//! What one manager signed on two laptops apart: found, shown and joined by name of the command.

use super::countersign::{AGREED, copy, countersign, says, short_trip, short_trips, statements};
use crate::cli::crew::crew;
use crate::harness::home::{Ended, Home};

/// Odile Marsh has signed on both, and neither knows of the other's.
fn apart() -> (Home, Home) {
    let home = short_trips(2);
    let other = Home::new();
    copy(&home.demo(), &other.demo());
    assert_eq!(countersign(&home, 1, AGREED).status, 0);
    assert_eq!(countersign(&other, 2, AGREED).status, 0);
    (home, other)
}

fn merge(home: &Home, other: &Home) -> Ended {
    let merge = home.hames("logbook merge --logbook share/hames/demo");
    merge.argument(&other.demo().display().to_string()).run()
}

fn verify(home: &Home) -> Ended {
    let verify = home.hames("verify");
    verify.argument(&home.demo().display().to_string()).run()
}

/// However the folder is written before it.
const COMMAND: &str = "share/hames/demo odile.marsh 2";

#[test]
fn a_manager_who_signed_on_two_laptops_joins_it_with_one_command_that_is_named_wherever_it_is_found()
 {
    let (home, other) = apart();
    says(
        &merge(&home, &other).out,
        &["signed different statements 2", COMMAND],
    );
    let found = verify(&home);
    assert_eq!(found.status, 15, "{}", found.out);
    says(&found.out, &["hames logbook close-fork odile.marsh 2"]);
    let doctor = home.hames("doctor --demo --read-only").run();
    says(
        &doctor.out,
        &["odile.marsh signed different statements 2", COMMAND],
    );
    let retire = crew(&home, "retire odile.marsh --why gone", &[])
        .typed("demo\n")
        .run();
    assert_eq!(retire.status, 1, "{}", retire.out);
    says(
        &retire.err,
        &["Nobody is retired before that is joined", COMMAND],
    );

    let close = |more: &str, words: &[&str], typed: &str| {
        let program = home.hames(&format!(
            "logbook close-fork --logbook share/hames/demo {more}"
        ));
        let program = words
            .iter()
            .fold(program, |program, word| program.argument(word));
        program.typed(typed).run()
    };
    let shown = close("odile.marsh 2", &[], "");
    assert_eq!(shown.status, 1, "{}", shown.err);
    says(
        &shown.out,
        &[
            "odile.marsh signed on 2 laptops that did not know of each other, from statement 2 on:",
            "agreed to trip 1 of LAPTOP",
            "agreed to trip 2 of LAPTOP",
            "Ask odile.marsh whether they signed all of it.",
            "hames logbook close-fork --logbook share/hames/demo odile.marsh 2 --join --why \"…\"",
        ],
    );
    for (more, status, why) in [
        ("odile.marsh 1 --join --why x", 2, "part at number 2"),
        (
            "odile.marsh 2 --goes-on 000002 --why x",
            2,
            "say --join and no --goes-on",
        ),
        (
            "wren.ashdown 2 --join --why x",
            2,
            "is no manager who has stated anything here",
        ),
        ("odile.marsh 2 --join", 2, "--why"),
    ] {
        let ended = close(more, &[], "demo\n");
        assert_eq!(ended.status, status, "{more}: {}{}", ended.out, ended.err);
        says(&ended.err, &[why]);
    }
    assert_eq!(statements(&home, "joined").len(), 0);

    let why = ["I signed at home as well."];
    let joined = close("odile.marsh 2 --join --why", &why, "demo\n");
    assert_eq!(
        (joined.status, joined.err.as_str()),
        (0, ""),
        "{}",
        joined.out
    );
    says(
        &joined.out,
        &[
            "Nothing is chosen by it",
            "It was this manager, and all of it counts.",
            "It is joined.",
            "there say hames logbook merge --logbook share/hames/demo FOLDER",
        ],
    );
    assert_eq!(statements(&home, "joined").len(), 1);
    let after = verify(&home);
    assert_eq!(after.status, 0, "{}", after.out);
    says(
        &after.out,
        &["statement 3 of Odile Marsh joins it, and all of it counts"],
    );
    let again = close("odile.marsh 2", &[], "");
    assert_eq!(again.status, 1, "{}", again.out);
    says(&again.err, &["There is nothing to join of odile.marsh"]);

    assert_eq!(merge(&other, &home).status, 0);
    assert_eq!(verify(&other).status, 0);
    short_trip(&other);
    assert_eq!(countersign(&other, 3, AGREED).status, 0);
    assert_eq!(verify(&other).status, 0);
}

#[test]
fn a_crew_that_one_manager_changed_apart_is_settled_once_that_is_joined() {
    let home = short_trips(1);
    let other = Home::new();
    copy(&home.demo(), &other.demo());
    let roles = "roles wren.ashdown --role groom";
    for (home, change) in [
        (&home, roles),
        (&other, "sign-off wren.ashdown --rig juniper"),
    ] {
        let done = crew(home, change, &[]).typed("demo\n").run();
        assert_eq!(done.status, 0, "{}{}", done.out, done.err);
    }
    assert_eq!(merge(&home, &other).status, 1);
    let branches = crew(&home, "settle", &[]).run();
    let told = &branches.out;
    assert!(told.contains("by statement 2 of Odile Marsh"), "{told}");
    let file = std::fs::read(home.demo().join("crew/allowed_signers")).unwrap();
    let hash = hames::record::Digest::of(&file).to_string();
    let settle = || crew(&home, "settle", &[&hash[..8]]).typed("demo\n").run();
    let refused = settle();
    says(&refused.err, &["That is joined first", COMMAND]);
    let join =
        home.hames("logbook close-fork --logbook share/hames/demo odile.marsh 2 --join --why both");
    let joined = join.typed("demo\n").run();
    assert_eq!(
        (joined.status, joined.err.as_str()),
        (0, ""),
        "{}",
        joined.out
    );
    let settled = settle();
    assert_eq!(
        (settled.status, settled.err.as_str()),
        (0, ""),
        "{}",
        settled.out
    );
    assert_ne!(verify(&home).status, 15);
}
