//! Pruning: what was read and by whom goes for good; what order needs stays, signed.

use super::countersign::{AGREED, countersign, laptop, says, short_trip, short_trips, statements};
use crate::harness::home::{Ended, Home, files_below, trip};
use crate::second::bench::run;
use std::fs;

fn prune(home: &Home, flags: &str, typed: &str) -> Ended {
    let prune = home.hames(&format!("logbook prune --logbook share/hames/demo {flags}"));
    let prune = prune.argument("--why").argument("Older than we keep.");
    prune.typed(typed).run()
}

/// Trips of the demo barn's laptop by their numbers.
pub(super) fn named(home: &Home, numbers: &[u64]) -> String {
    let laptop = laptop(home);
    let named: Vec<String> = numbers
        .iter()
        .map(|one| format!("{laptop}/{one}"))
        .collect();
    named.join(" ")
}

/// The first of them, though nobody countersigned it.
fn even_so(home: &Home) -> String {
    format!("{} --even-so", named(home, &[1]))
}

/// Whether any file of the logbook's trips or statements holds the text.
fn holds(home: &Home, text: &str) -> bool {
    let root = home.demo();
    let files = files_below(&root).into_iter();
    let mut files = files.filter(|file| file.starts_with("dev/") || file.starts_with("mgr/"));
    files.any(|file| {
        let bytes = fs::read(root.join(file)).unwrap();
        String::from_utf8_lossy(&bytes).contains(text)
    })
}

/// What is said where no trip that was pruned lies here any more.
const NOTHING_LEFT: &str = "Nothing is left here of trips that managers have pruned. To prune more, \
    name trips, or a day: hames logbook prune --logbook share/hames/demo --before DAY --why …\n";

#[test]
fn a_pruned_trip_leaves_a_signed_stub_and_nothing_of_what_was_read_or_by_whom() {
    let home = Home::new();
    let told = "1\n1\n10\n1\n2\n48777 mi\nend\nabandoned\nhail on the yard\n1\ndemo\nquit\n";
    let ended = home.hames("--plain").typed(told).run();
    assert!(ended.out.contains("Sealed."), "{}", ended.out);
    short_trip(&home);

    let refused = prune(&home, &named(&home, &[1, 2]), "prune 2\ndemo\n");
    assert_eq!(refused.status, 1, "{}{}", refused.out, refused.err);
    says(
        &refused.out,
        &[": no manager has countersigned it; countersign it first, or add --even-so"],
    );
    assert_eq!(countersign(&home, 1, AGREED).status, 0);
    assert_eq!(countersign(&home, 2, AGREED).status, 0);

    let first = trip(&home.demo(), 1);
    let name = named(&home, &[1]);
    let left = prune(&home, &name, "\nleave\n");
    assert_eq!((left.status, first.exists()), (2, true), "{}", left.out);
    says(
        &left.out,
        &[
            "DEMO. Goes for good:\n  000001-TRIP of LAPTOP, begun DATE TIME, abandoned, countersigned",
        ],
    );
    assert!(holds(&home, "48777") && holds(&home, "hail on the yard"));

    let pruned = prune(&home, &name, "prune 1\ndemo\n");
    assert_eq!(
        (pruned.status, pruned.err.as_str()),
        (0, ""),
        "{}",
        pruned.out
    );
    says(&pruned.out, &["Stated: 1 trip pruned.", "1 trip removed."]);
    assert!(!first.exists());
    for gone in ["48777", "hail on the yard"] {
        assert!(!holds(&home, gone), "{gone}");
    }
    assert_eq!(statements(&home, "pruned").len(), 1);
    let statement = &statements(&home, "pruned")[0];
    for gone in ["Tobias", "Wren"] {
        assert!(!statement.contains(gone), "{statement}");
    }
    // A second run has nothing to do, and the device's sequence goes on.
    let again = home.hames("logbook prune --logbook share/hames/demo").run();
    again.is(0, NOTHING_LEFT, "");
    short_trip(&home);
    assert!(trip(&home.demo(), 3).exists());
}

#[test]
fn a_trip_named_twice_is_one_trip() {
    let home = short_trips(1);
    let first = trip(&home.demo(), 1);
    let folder = first.file_name().unwrap().to_str().unwrap();
    let names = format!("{} {folder} {}", named(&home, &[1, 1]), named(&home, &[1]));
    let ended = prune(&home, &format!("{names} --even-so"), "prune 1\ndemo\n");
    assert_eq!((ended.status, ended.err.as_str()), (0, ""), "{}", ended.out);
    assert_eq!(ended.out.matches("000001-").count(), 1, "{}", ended.out);
    says(&ended.out, &["Stated: 1 trip pruned."]);
    assert!(!first.exists());
}

/// Verification finds nothing in what a manager pruned, and says how that is finished.
fn is_told_as_not_finished(home: &Home, files: &[&str]) {
    let verified = home.hames("verify share/hames/demo").run();
    says(
        &verified.out,
        &[
            "000001-TRIP is pruned, not finished: Odile Marsh pruned it by statement 2, DATE TIME, \
             and files of it lie here still; run hames logbook prune --logbook share/hames/demo again",
        ],
    );
    let has_journal = files.contains(&"trip.jsonl");
    assert_eq!(verified.status == 0, !has_journal, "{}", verified.out);
    let second = run("tests/second/logbook.py", &[home.demo().into()]);
    assert_eq!(
        second.status, verified.status,
        "{}{}",
        second.all, verified.out
    );
    if has_journal || files.contains(&"seal.json") {
        let refused = countersign(home, 1, AGREED);
        assert_eq!(refused.status, 1, "{}{}", refused.out, refused.err);
        says(
            &refused.err,
            &[
                "000001-TRIP is pruned: Odile Marsh pruned it by statement 2, DATE TIME. Files of it lie \
               here still; they are removed by hames logbook prune --logbook share/hames/demo",
            ],
        );
    }
}

#[test]
fn a_trip_that_was_pruned_is_told_as_that_with_whose_word_it_was_and_when() {
    let home = short_trips(1);
    let seal = fs::read(trip(&home.demo(), 1).join("seal.json")).unwrap();
    let receipt = hames::record::Receipt::of(&hames::record::Seal::hash(&seal)).to_string();
    let folder = trip(&home.demo(), 1);
    let folder = folder.file_name().unwrap().to_str().unwrap();
    let pruned = prune(&home, &even_so(&home), "prune 1\ndemo\n");
    assert_eq!(pruned.status, 0, "{}{}", pruned.out, pruned.err);
    for name in [named(&home, &[1]).as_str(), folder, &receipt] {
        let looked = home
            .hames(&format!(
                "logbook countersign --logbook share/hames/demo {name}"
            ))
            .run();
        for refused in [looked, prune(&home, name, "")] {
            assert_eq!((refused.status, refused.out.as_str()), (2, ""), "{name}");
            says(
                &refused.err,
                &["is here no more: Odile Marsh pruned it by statement 2, DATE TIME."],
            );
        }
    }
}

#[test]
fn a_prune_that_was_cut_off_is_finished_by_the_next_run() {
    let home = short_trips(1);
    let first = trip(&home.demo(), 1);
    super::countersign::copy(&first, &home.path("kept"));
    let pruned = prune(&home, &even_so(&home), "prune 1\ndemo\n");
    assert_eq!(pruned.status, 0, "{}{}", pruned.out, pruned.err);
    // As a crash would leave it, and as a copy from a stick would bring it back.
    for files in [
        &["rig.yaml", "seal.json"][..],
        &["seal.json"],
        &[],
        &["trip.jsonl", "rig.yaml"],
    ] {
        fs::create_dir_all(&first).unwrap();
        for file in files {
            fs::copy(home.path("kept").join(file), first.join(file)).unwrap();
        }
        is_told_as_not_finished(&home, files);
        let finished = home.hames("logbook prune --logbook share/hames/demo").run();
        finished.is(
            0,
            "1 trip that managers have pruned already lay here still; removed.\n",
            "",
        );
        assert!(!first.exists(), "{files:?}");
    }
    // Another trip under that name is not what was pruned.
    fs::create_dir_all(&first).unwrap();
    fs::write(first.join("seal.json"), "another\n").unwrap();
    home.hames("logbook prune --logbook share/hames/demo")
        .run()
        .is(0, NOTHING_LEFT, "");
    assert!(first.join("seal.json").exists());
    // The number is taken for good, though no trip is left.
    fs::remove_dir_all(&first).unwrap();
    short_trip(&home);
    let second = trip(&home.demo(), 2);
    let begun = fs::read_to_string(second.join("trip.jsonl")).unwrap();
    let seal = fs::read(home.path("kept").join("seal.json")).unwrap();
    let hash = hames::record::Seal::hash(&seal).to_string();
    says(&begun, &[&hash]);
}

#[test]
fn a_history_that_was_kept_beside_another_is_removed_when_it_is_pruned() {
    let home = short_trips(1);
    assert_eq!(countersign(&home, 1, AGREED).status, 0);
    let folder = trip(&home.demo(), 1);
    let beside = format!("{}-0badc0de", folder.display());
    fs::rename(&folder, &beside).unwrap();
    let pruned = prune(&home, &named(&home, &[1]), "prune 1\ndemo\n");
    says(&pruned.out, &["Stated: 1 trip pruned.", "1 trip removed."]);
    assert!(!fs::exists(&beside).unwrap());
    let again = prune(&home, "", "");
    says(&again.out, &[NOTHING_LEFT]);
}

#[test]
fn what_another_laptop_pruned_is_removed_where_no_manager_has_a_key() {
    let home = short_trips(1);
    let first = trip(&home.demo(), 1);
    super::countersign::copy(&first, &home.path("kept"));
    let pruned = prune(&home, &even_so(&home), "prune 1\ndemo\n");
    assert_eq!(pruned.status, 0, "{}{}", pruned.out, pruned.err);
    // The files lie here still, and the manager's key lies elsewhere.
    super::countersign::copy(&home.path("kept"), &first);
    fs::remove_file(home.demo().join("keys/odile.marsh")).unwrap();
    let refused = prune(&home, &even_so(&home), "");
    says(
        &refused.err,
        &["No manager of this logbook has a key on this laptop"],
    );
    assert_eq!((refused.status, first.exists()), (1, true));
    home.hames("logbook prune --logbook share/hames/demo")
        .run()
        .is(
            0,
            "1 trip that managers have pruned already lay here still; removed.\n",
            "",
        );
    assert!(!first.exists());
    assert_eq!(statements(&home, "pruned").len(), 1);
    home.hames("logbook prune --logbook share/hames/demo")
        .run()
        .is(0, NOTHING_LEFT, "");
}

#[test]
fn nothing_is_removed_by_the_word_of_a_manager_whose_key_had_been_taken_out() {
    let (home, stolen) = (Home::new(), Home::new());
    short_trip(&home);
    let change = |command: &str| {
        let ended = home.hames(command).typed("demo\n").run();
        assert_eq!((ended.status, ended.err.as_str()), (0, ""), "{}", ended.out);
    };
    change("crew --demo roles tobias.fenn --role groom --role manager");
    super::countersign::copy(&home.demo(), &stolen.demo());
    change("crew --demo revoke tobias.fenn --why stolen --by odile.marsh");
    let flags = format!("{} --by tobias.fenn", even_so(&stolen));
    let pruned = prune(&stolen, &flags, "prune 1\ndemo\n");
    assert_eq!(pruned.status, 0, "{}{}", pruned.out, pruned.err);
    let said = "mgr/tobias.fenn";
    super::countersign::copy(&stolen.demo().join(said), &home.demo().join(said));
    assert_eq!(statements(&home, "pruned").len(), 1);
    home.hames("logbook prune --logbook share/hames/demo")
        .run()
        .is(0, NOTHING_LEFT, "");
    assert!(trip(&home.demo(), 1).join("seal.json").exists());
}

#[test]
fn a_slip_in_the_year_does_not_take_every_trip_there_is() {
    let home = short_trips(1);
    let before = home.files();
    let refused = prune(&home, "--before 2999-01-01 --even-so", "prune 1\ndemo\n");
    assert_eq!(refused.status, 2, "{}{}", refused.out, refused.err);
    says(
        &refused.err,
        &[
            "DATE has not come yet, and before it lies every trip there is. Type a day that has passed",
        ],
    );
    assert_eq!(home.files(), before);
}

/// What prune says of these trips, though nobody countersigned them. None of them goes.
#[track_caller]
fn stays(home: &Home, trips: &str) -> String {
    let before = files_below(&home.demo());
    let refused = prune(home, &format!("{trips} --even-so"), "prune 1\ndemo\n");
    assert_eq!(refused.status, 1, "{}{}", refused.out, refused.err);
    assert_eq!(files_below(&home.demo()), before);
    refused.out
}

#[test]
fn neither_history_of_an_open_fork_goes_even_so() {
    let (home, [first, second]) = super::forks::forked();
    let out = stays(&home, &format!("{first} {second}"));
    let why = "verification finds it fork; only what is whole is pruned";
    assert_eq!(out.matches(why).count(), 2, "{out}");
}

#[test]
fn a_trip_by_a_revoked_key_stays_as_evidence_even_so() {
    let home = short_trips(1);
    let apart = Home::new();
    super::countersign::copy(&home.demo(), &apart.demo());
    short_trip(&home);
    // Revoked on the other laptop, which had not seen the second trip.
    let revoke = apart.hames("crew revoke --demo wren.ashdown --why lost");
    let revoke = revoke.typed("demo\n").run();
    assert_eq!(revoke.status, 0, "{}{}", revoke.out, revoke.err);
    for folder in ["mgr", "crew"] {
        super::countersign::copy(&apart.demo().join(folder), &home.demo().join(folder));
    }
    let out = stays(&home, &named(&home, &[2]));
    says(
        &out,
        &["verification finds it revoked-signer; only what is whole is pruned"],
    );
}
