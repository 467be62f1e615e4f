//! Forks and losses: found when a trip would begin, closed by a manager's word.

use super::countersign::{
    AGREED, copy, countersign, laptop, says, short_trip, short_trips, statements,
};
use crate::cli::crew::done;
use crate::harness::home::{Ended, Home, trip};
use std::fs;

/// A home whose laptop has two different trips 2, as after a backup was put back.
pub(crate) fn forked() -> (Home, [String; 2]) {
    let home = short_trips(1);
    copy(&home.demo(), &home.path("backup"));
    short_trip(&home);
    let first = trip(&home.demo(), 2);
    copy(&first, &home.path("first"));
    fs::remove_dir_all(&first).unwrap();
    short_trip(&home);
    let second = trip(&home.demo(), 2);
    copy(&home.path("first"), &first);
    let name = |path: std::path::PathBuf| path.file_name().unwrap().to_str().unwrap().to_owned();
    (home, [name(first), name(second)])
}

#[test]
fn on_a_laptop_whose_log_forks_no_trip_begins_until_a_manager_closes_it() {
    let (home, [first, second]) = forked();
    let device = laptop(&home);
    let refused = home.hames("walk --demo --plain").run();
    assert_eq!(refused.status, 1, "{}", refused.out);
    assert!(!refused.out.contains('>'), "{}", refused.out);
    says(
        &refused.out,
        &[
            "it has two different trips 2, so a backup was put back or its folder was copied",
            "hames logbook close-fork --logbook HOME/share/hames/demo LAPTOP 2",
            "walk on paper",
        ],
    );
    let close = |goes_on: &str, typed: &str| {
        let close = home.hames(&format!(
            "logbook close-fork --logbook share/hames/demo {device} 2 --goes-on"
        ));
        let close = close.argument(goes_on).argument("--why");
        close.argument("The disk was changed.").typed(typed).run()
    };
    let no_such = close("000001-nowhere", "demo\ndemo\ndemo\n");
    assert_eq!(no_such.status, 2, "{}", no_such.out);
    says(&no_such.err, &["is not one of the histories: 000002-TRIP"]);

    let closed = close(&first, "demo\n");
    assert_eq!(
        (closed.status, closed.err.as_str()),
        (0, ""),
        "{}",
        closed.out
    );
    says(
        &closed.out,
        &[
            "DEMO. Trip 2 of LAPTOP has 2 histories:",
            "Wren Ashdown reads, Tobias Fenn does the work",
            "They part at line 1 of the journal.",
            "The fork is closed.",
            "Walks begin on this laptop again.",
            "there say hames logbook merge --logbook share/hames/demo FOLDER",
        ],
    );
    assert_eq!(statements(&home, "fork-closed").len(), 1);
    let again = close(&second, "demo\n");
    assert_eq!(again.status, 1, "{}", again.out);
    says(
        &again.err,
        &["The fork at trip 2 of LAPTOP is closed already"],
    );

    short_trip(&home);
    let seal = fs::read(trip(&home.demo(), 3).join("trip.jsonl")).unwrap();
    let trips = home.demo().join("dev").join(&device).join("t");
    let goes_on = fs::read(trips.join(&first).join("seal.json")).unwrap();
    let hash = hames::record::Seal::hash(&goes_on).to_string();
    assert!(String::from_utf8(seal).unwrap().contains(&hash));
    let none = home
        .hames(&format!(
            "logbook close-fork --logbook share/hames/demo {device} 1 --goes-on {first} --why x"
        ))
        .run();
    assert_eq!(none.status, 1);
    says(&none.err, &["one trip has that number here, and no other"]);
}

fn verify(home: &Home) -> Ended {
    let verify = home.hames("verify");
    verify.argument(&home.demo().display().to_string()).run()
}

#[test]
fn a_fork_that_managers_closed_in_opposite_ways_is_open_until_one_who_knows_both_closes_it() {
    let (home, [first, second]) = forked();
    let device = laptop(&home);
    let roles = "crew --demo roles tobias.fenn --role groom --role manager --by odile.marsh";
    let made = home.hames(roles).typed("demo\n").run();
    assert_eq!(made.status, 0, "{}{}", made.out, made.err);
    let apart = Home::new();
    copy(&home.demo(), &apart.demo());
    let close = |home: &Home, goes_on: &str, by: &str| {
        let close = home.hames(&format!(
            "logbook close-fork --logbook share/hames/demo {device} 2 --by {by}"
        ));
        let close = close.argument("--goes-on").argument(goes_on);
        let close = close.argument("--why").argument("The disk was changed.");
        close.typed("demo\n").run()
    };
    assert_eq!(close(&home, &first, "odile.marsh").status, 0);
    assert_eq!(close(&apart, &second, "tobias.fenn").status, 0);
    let merge = home.hames("logbook merge --logbook share/hames/demo");
    let merged = merge.argument(&apart.demo().display().to_string()).run();
    says(
        &merged.out,
        &[
            "LAPTOP has 2 histories of trip 2",
            "hames logbook close-fork --logbook share/hames/demo LAPTOP 2",
        ],
    );
    let refused = home.hames("walk --demo --plain").run();
    assert_eq!(refused.status, 1, "{}", refused.out);
    says(
        &refused.out,
        &[
            "what managers said of them leaves more than one that goes on",
            "hames logbook close-fork --logbook HOME/share/hames/demo LAPTOP 2",
        ],
    );
    let found = verify(&home);
    assert_eq!(found.status, 15);
    let doctor = home.hames("doctor --demo --read-only").run();
    for (told, command) in [
        (&found.out, "hames logbook close-fork LAPTOP 2"),
        (
            &doctor.out,
            "hames logbook close-fork --logbook HOME/share/hames/demo LAPTOP 2",
        ),
    ] {
        let disagree = "managers closed this fork in opposite ways: ";
        let mut said = told.lines().filter(|line| line.contains(disagree));
        let (one, other) = (said.next().unwrap(), said.next());
        assert_eq!(other, None, "{told}");
        assert!(one.contains("Odile Marsh said on DATE TIME"), "{told}");
        assert!(one.contains("Tobias Fenn said on DATE TIME"), "{told}");
        assert!(one.contains(" goes on, and "), "{told}");
        let stays =
            "it stays open until one of them, with both statements at hand, closes it again: ";
        assert!(one.contains(&format!("{stays}{command}")), "{told}");
        assert!(!told.contains("was closed by"), "{told}");
    }
    let shown = home.hames(&format!(
        "logbook close-fork --logbook share/hames/demo {device} 2"
    ));
    says(
        &shown.run().out,
        &[
            "of Odile Marsh, who said it goes on",
            "of Tobias Fenn, who said it ends",
            "of Odile Marsh, who said it ends",
            "of Tobias Fenn, who said it goes on",
        ],
    );
    let closed = close(&home, &second, "odile.marsh");
    assert_eq!(closed.status, 0, "{}{}", closed.out, closed.err);
    let again = close(&home, &first, "odile.marsh");
    says(
        &again.err,
        &["The fork at trip 2 of LAPTOP is closed already"],
    );
    short_trip(&home);
    short_trip(&home);
    drop(trip(&home.demo(), 4));
    let found = verify(&home);
    assert_ne!(found.status, 15);
    // The last word alone is told.
    let closed = "the fork at trip 2 of LAPTOP was closed by ";
    assert_eq!(found.out.matches(closed).count(), 1, "{}", found.out);
    let doctor = home.hames("doctor --demo --read-only").run();
    assert_eq!(doctor.out.matches(closed).count(), 1, "{}", doctor.out);
}

#[test]
fn a_closed_fork_tells_to_enrol_one_machine_anew_until_a_laptop_is_let_in() {
    let (home, [first, _]) = forked();
    let device = laptop(&home);
    let close = home.hames(&format!(
        "logbook close-fork --logbook share/hames/demo {device} 2 --goes-on {first}"
    ));
    let close = close.argument("--why").argument("The disk was copied.");
    let closed = close.typed("demo\n").run();
    assert_eq!(closed.status, 0, "{}{}", closed.out, closed.err);
    let anew = "Where two machines wrote as LAPTOP, a copied disk or folder, they part again at the \
                next number: on one of them take keys/LAPTOP away, and enrol it by itself before it \
                is walked on: hames crew request --";
    says(&closed.out, &[anew]);
    let doctor = || home.hames("doctor --demo --read-only").run().out;
    let told = format!("the fork at trip 2 of LAPTOP was closed by Odile Marsh. {anew}");
    says(&doctor(), &[&told]);
    // A person let in changes nothing of it; a laptop does.
    let groom = ["Linnet Ashdown"];
    let typed = "hay and oats\nhay and oats\ndemo\n";
    done(&home, "add --role groom", &groom, typed);
    says(&doctor(), &[&told]);
    let second = Home::new();
    copy(&home.demo(), &second.demo());
    fs::remove_dir_all(second.demo().join("keys")).unwrap();
    done(&second, "request --to laptop.pub", &[], "");
    let line = second.path("laptop.pub").display().to_string();
    done(&home, "add --device", &["--public", &line], "demo\n");
    assert!(!doctor().contains("was closed by"), "{}", doctor());
}

#[test]
fn lost_trips_found_again_after_the_laptop_walked_on_are_told_and_are_no_fork() {
    let home = short_trips(2);
    copy(&home.demo(), &home.path("stick"));
    assert_eq!(countersign(&home, 1, AGREED).status, 0);
    fs::remove_dir_all(trip(&home.demo(), 2)).unwrap();
    let device = laptop(&home);
    let accept = home.hames(&format!(
        "logbook accept-loss --logbook share/hames/demo {device} 2 --why"
    ));
    let accepted = accept.argument("The disk died.").typed("demo\n").run();
    assert_eq!(accepted.status, 0, "{}{}", accepted.out, accepted.err);
    short_trip(&home);
    let merged = home
        .hames("logbook merge --logbook share/hames/demo stick")
        .run();
    says(&merged.out, &["came: trip 2 of LAPTOP"]);
    let found = verify(&home);
    assert_ne!(found.status, 15, "{}", found.out);
    says(
        &found.out,
        &["trip 2 of LAPTOP is found again, which statement 3 of Odile Marsh gave up for lost"],
    );
    short_trip(&home);
    drop(trip(&home.demo(), 4));
}

#[test]
fn a_backup_put_back_is_found_when_a_trip_would_begin_and_a_loss_can_be_accepted() {
    let home = short_trips(2);
    assert_eq!(countersign(&home, 1, AGREED).status, 0);
    fs::remove_dir_all(trip(&home.demo(), 2)).unwrap();
    let refused = home.hames("walk --demo --plain").run();
    assert_eq!(refused.status, 1, "{}", refused.out);
    assert!(!refused.out.contains('>'), "{}", refused.out);
    says(
        &refused.out,
        &["trip 2 of LAPTOP, as Odile Marsh saw it on DATE, is not here: a backup was put back"],
    );
    let device = laptop(&home);
    let accept = |numbers: &str| {
        let accept = home.hames(&format!(
            "logbook accept-loss --logbook share/hames/demo {device} {numbers} --why"
        ));
        accept.argument("The disk died.").typed("demo\n").run()
    };
    for (numbers, why) in [
        ("1", "Trip 1 of LAPTOP is not missing"),
        ("2..3", "Nothing shows that trip 3 of LAPTOP ever was"),
    ] {
        let refused = accept(numbers);
        assert_eq!(refused.status, 1, "{}", refused.out);
        says(&refused.err, &[why]);
    }
    assert_eq!(accept("none").status, 2);
    let accepted = accept("2");
    assert_eq!(accepted.status, 0, "{}{}", accepted.out, accepted.err);
    says(
        &accepted.out,
        &["trip 2 was seen by Odile Marsh", "The loss is accepted."],
    );
    assert_eq!(accept("2").status, 1);
    short_trip(&home);
    assert!(trip(&home.demo(), 3).exists());
}

#[test]
fn a_walk_left_without_an_end_is_told_when_the_next_one_begins() {
    let home = Home::new();
    let begun = home.hames("--plain").typed("1\n1\n1\n1\n2\n\n").run();
    assert_eq!(begun.status, 0, "{}", begun.err);
    let next = home.hames("--plain").typed("2\n1\n1\n1\n2\n\nquit\n").run();
    says(
        &next.out,
        &[
            "Trip 000001-TRIP was not ended, and this walk records it as abandoned. Take it up \
           afterwards and end it with a reason.",
        ],
    );
}

#[test]
fn a_fork_is_shown_with_the_trips_of_each_history_and_who_knows_them() {
    let home = short_trips(1);
    copy(&home.demo(), &home.path("backup"));
    short_trip(&home);
    let aside = trip(&home.demo(), 2);
    fs::rename(&aside, home.path("aside")).unwrap();
    short_trip(&home);
    short_trip(&home);
    // A manager sees the longer history, and then the other one comes back.
    assert_eq!(countersign(&home, 1, AGREED).status, 0);
    assert_eq!(countersign(&home, 2, AGREED).status, 0);
    fs::rename(home.path("aside"), &aside).unwrap();

    let device = laptop(&home);
    let before = home.files();
    let shown = home
        .hames(&format!(
            "logbook close-fork --logbook share/hames/demo {device} 2"
        ))
        .run();
    assert_eq!((shown.status, shown.err.as_str()), (1, ""), "{}", shown.out);
    assert_eq!(home.files(), before);
    says(
        &shown.out,
        &[
            "Trip 2 of LAPTOP has 2 histories:",
            "it has 2 trips, this one and those that go on from it:",
            "it has 1 trip, this one:",
            "trip 2, DATE TIME, Juniper, two-horse bumper pull, “Match the rig”: abandoned, signed \
             by Wren Ashdown, receipt RECEIPT, seal ",
            "trip 3, DATE TIME, Juniper",
            "named by statement 2 of Odile Marsh, who saw trip 3",
            "by statement 3 of Odile Marsh, who agreed to trip 2",
            "nobody else has named a trip of it: no statement, and no trip of another laptop",
            "hames logbook close-fork --logbook share/hames/demo LAPTOP 2 --goes-on 000002-TRIP --why \"…\"",
        ],
    );
}

#[test]
fn a_laptop_put_back_that_a_damaged_copy_shows_to_have_been_further_on_begins_no_trip() {
    let home = short_trips(2);
    copy(&home.demo(), &home.path("stick"));
    copy(&home.demo(), &home.path("damaged"));
    fs::remove_dir_all(trip(&home.demo(), 2)).unwrap();
    let journal = trip(&home.path("damaged"), 2).join("trip.jsonl");
    let text = fs::read_to_string(&journal).unwrap();
    let lines: Vec<&str> = text.lines().collect();
    let (first, rest) = lines.split_first().unwrap();
    fs::write(
        &journal,
        format!("{first}\nnothing\n{}\n", rest[1..].join("\n")),
    )
    .unwrap();
    let merged = home
        .hames("logbook merge --logbook share/hames/demo damaged")
        .run();
    says(
        &merged.out,
        &["it says it is of trip 2 of LAPTOP, and it lies behind trip 1"],
    );
    let begin = "1\n1\n1\n1\n2\n\nquit\n";
    let refused = home.hames("--plain").typed(begin).run();
    says(
        &refused.out,
        &[
            "trip 2 of LAPTOP is not here, and a merge kept a part of it aside in quarantine/",
            "hames logbook merge",
            "accept-loss",
        ],
    );
    // Where it is lost, a manager says so, and the number is not used again.
    let device = laptop(&home);
    let lost = home.path("lost");
    copy(&home.demo(), &lost);
    let merged = home
        .hames("logbook merge --logbook share/hames/demo stick")
        .run();
    says(&merged.out, &["came: trip 2 of LAPTOP"]);
    short_trip(&home);
    drop(trip(&home.demo(), 3));
    fs::remove_dir_all(home.demo()).unwrap();
    copy(&lost, &home.demo());
    let accept = home.hames(&format!(
        "logbook accept-loss --logbook share/hames/demo {device} 2 --why"
    ));
    let accepted = accept.argument("The disk died.").typed("demo\n").run();
    assert_eq!(accepted.status, 0, "{}{}", accepted.out, accepted.err);
    short_trip(&home);
    drop(trip(&home.demo(), 3));
}
