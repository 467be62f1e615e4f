//! A manager looks at a trip and signs what they think of it; never their own, never unseen.

use crate::cli::demo::{BEGIN, SIGN, sealed};
use crate::harness::good;
use crate::harness::home::{Ended, Home, files_below, trip};
use crate::plain::bench::{Bench, plan, words};
use hames::walk::Walk;
use std::fs;
use std::path::Path;

/// A walk of “Match the rig” that Wren Ashdown begins, gives up, and signs. It is of no haul and
/// leaves nothing open.
pub(crate) const SHORT: &str = "1\n1\n10\n1\n2\n\nend\nabandoned\nrain\n1\ndemo\nquit\n";

/// What a manager types at a short trip.
pub(crate) const AGREED: &str = "seen\nagreed\n\ndemo\n";

/// Walks such a short walk.
pub(crate) fn short_trip(home: &Home) {
    let ended = home.hames("--plain").typed(SHORT).run();
    assert!(ended.out.contains("Sealed."), "{}{}", ended.out, ended.err);
}

/// A home with one of them, or with two.
pub(crate) fn short_trips(count: usize) -> Home {
    let one = || Home::laid("one short trip", Home::new, short_trip);
    match count {
        1 => one(),
        2 => Home::laid("two short trips", one, short_trip),
        _ => panic!("{count} short trips are not laid by anything"),
    }
}

/// The name of the demo barn's laptop.
pub(crate) fn laptop(home: &Home) -> String {
    let devices = fs::read_dir(home.demo().join("dev")).unwrap();
    let name = devices.map(|entry| entry.unwrap().file_name()).next();
    name.unwrap().into_string().unwrap()
}

/// Countersigns the trip with this number, with what is typed.
pub(crate) fn countersign(home: &Home, number: u64, typed: &str) -> Ended {
    let trip = format!("{}/{number}", laptop(home));
    let program = home.hames(&format!(
        "logbook countersign --logbook share/hames/demo {trip}"
    ));
    program.typed(typed).run()
}

/// Copies a folder with everything in it.
pub(crate) fn copy(from: &Path, to: &Path) {
    for file in files_below(from) {
        fs::create_dir_all(to.join(&file).parent().unwrap()).unwrap();
        fs::copy(from.join(&file), to.join(&file)).unwrap();
    }
}

/// The statements of this kind.
pub(crate) fn statements(home: &Home, kind: &str) -> Vec<String> {
    let files = home.files().into_iter();
    let kind = format!(r#""kind":"{kind}""#);
    files
        .filter(|file| file.ends_with("statement.json"))
        .map(|file| fs::read_to_string(home.path(&file)).unwrap())
        .filter(|statement| statement.contains(&kind))
        .collect()
}

#[track_caller]
pub(crate) fn says(text: &str, told: &[&str]) {
    for told in told {
        assert!(text.contains(told), "{told}\n{text}");
    }
}

#[test]
fn a_manager_looks_at_what_is_not_as_expected_and_signs_that_they_agree() {
    let home = Home::new();
    let at = Bench::new().now;
    let walk = Walk::begin(plan(), words("Wren Ashdown"), words("Tobias Fenn"), at);
    let walk = good::lines(&good::whole_walk(walk, "June Ashdown"));
    let input = format!("{BEGIN}{walk}{SIGN}");
    assert_eq!(home.hames("--plain").typed(&input).run().status, 0);

    let ended = countersign(&home, 1, "\nseen\nseen\n\nagreed\nA clean walk.\ndemo\n");
    assert_eq!((ended.status, ended.err.as_str()), (0, ""), "{}", ended.out);
    says(
        &ended.out,
        &[
            "DEMO. Trip 000001-TRIP, number 1 of LAPTOP.",
            "  Chains complete: Two rated chains would carry the tongue",
            "Wren Ashdown, driver, DATE TIME +00:00: Every step was done",
            // The word that the screen, the report and `logbook show` have for it.
            "DEMO. Verified: not-countersigned: every byte is as signed, and no manager has \
             countersigned it yet.",
            "DEMO. To look at, 1 of 2: line 62, second-look\n  TIME  Second look: ",
            "seen by June Ashdown: ok\n",
            "DEMO. To look at, 2 of 2: question: hurried\n  94 answers from",
            "Enter alone says nothing. Type seen, later, or leave.",
            "Enter alone says nothing. Type agreed, asked, or leave.",
            "DEMO. Whoever signs states this: I have looked at this trip as it was sealed, and at what is \
             listed here.\n",
            "DEMO. Countersigned: agreed.\nKept in share/hames/demo/mgr/odile.marsh/000002-",
        ],
    );
    let said = statements(&home, "countersigned");
    says(
        &said[0],
        &[
            r#""opinion":"agreed","opened":["line 62, second-look","question: hurried"],"remarks":"A clean walk.""#,
            r#""heads":[{"device":"laptop-"#,
        ],
    );
    assert_eq!((said.len(), statements(&home, "crew").len()), (1, 1));

    let again = countersign(&home, 1, "seen\nseen\nagreed\nleave\n");
    assert_eq!(again.status, 2, "{}", again.out);
    // It is told before anything is opened, and with what is left to say.
    let (first, _) = again.out.split_once("\nDEMO. Signed:").unwrap();
    says(
        &first.replace('\n', " "),
        &[
            "DEMO. You agreed to this trip on ",
            ", in statement 2. Agreeing once more would add nothing and is refused; what is left to \
             say is a question, if there is one.",
        ],
    );
    // The refused word is named at the prompt, and what was looked at is not lost by typing it.
    says(
        &again.out,
        &[
            "You agreed already, so agreed is refused. Type asked to put a question.",
            "“agreed” is none of the words. Type asked, or leave.",
        ],
    );
    for asked in ["Remarks", "Passphrase"] {
        assert!(!again.out.contains(asked), "{}", again.out);
    }
    assert_eq!(statements(&home, "countersigned").len(), 1);
}

#[test]
fn who_asked_and_has_no_answer_yet_can_only_agree_and_only_once_everything_was_seen() {
    let home = short_trips(1);
    let asked = countersign(&home, 1, "seen\nasked\nWhose rain?\ndemo\n");
    assert_eq!(asked.status, 0, "{}{}", asked.out, asked.err);

    let left_out = countersign(&home, 1, "later\nlater\nlater\n");
    assert_eq!(left_out.status, 1, "{}", left_out.out);
    says(
        &left_out.err,
        &[
            "not looked at, so it cannot be agreed to, and asking once more is refused until an \
             answer comes. Wait for the answer, or begin again and look at everything.",
        ],
    );
    let again = countersign(&home, 1, "seen\nseen\nasked\nagreed\n\ndemo\n");
    assert_eq!(again.status, 0, "{}{}", again.out, again.err);
    says(
        &again.out.replace('\n', " "),
        &[
            "You asked already, so asked is refused until an answer comes. Type agreed to agree to it.",
            "“asked” is none of the words. Type agreed, or leave.",
            "Countersigned: agreed.",
        ],
    );
}

#[test]
fn nobody_countersigns_a_walk_they_looked_at_a_second_time_in() {
    let home = sealed();
    let ended = countersign(&home, 1, "seen\nagreed\n\ndemo\n");
    ended.is(
        1,
        "",
        "Trip 000001-TRIP is not countersigned: who countersigns it did or checked some of it, \
         and nobody countersigns their own work. Another manager does.\n",
    );
    assert_eq!(statements(&home, "countersigned"), [""; 0]);
}

#[test]
fn who_has_not_looked_at_everything_can_only_put_a_question() {
    let home = short_trips(1);
    let ended = countersign(&home, 1, "later\nagreed\nasked\n\nWhose rain?\ndemo\n");
    assert_eq!((ended.status, ended.err.as_str()), (0, ""), "{}", ended.out);
    says(
        &ended.out,
        &[
            "1 not looked at, so it cannot be agreed to; a question can be put.",
            "“agreed” is none of the words. Type asked, or leave.",
            "A question has words.",
            "Countersigned: asked, with a question.",
        ],
    );
    let said = statements(&home, "countersigned");
    says(
        &said[0],
        &[r#""opinion":"asked","opened":[],"remarks":"Whose rain?""#],
    );
    // The question was answered on the phone.
    let agreed = countersign(&home, 1, AGREED);
    assert_eq!(agreed.status, 0, "{}{}", agreed.out, agreed.err);
}

#[test]
fn what_does_not_verify_or_was_left_on_the_way_is_not_signed() {
    let home = short_trips(1);
    let left = countersign(&home, 1, "seen\nleave\n");
    assert_eq!(
        (left.status, left.err.as_str()),
        (2, "Left. Nothing was signed.\n")
    );
    let wrong = countersign(&home, 1, "seen\nagreed\n\ndemi\n\n");
    assert_eq!(wrong.status, 2, "{}", wrong.out);

    let nowhere = home
        .hames("logbook countersign --logbook share/hames/demo 000009-nowhere")
        .run();
    assert_eq!(nowhere.status, 2);
    says(
        &nowhere.err,
        &["There is no trip “000009-nowhere” here. Name it by its folder"],
    );

    // A receipt with a slip in it is told as mistyped before it is asked who signs.
    for code in ["7Q2M4-K8ZNL", "7Q2M4-K8ZN", "7q2m4 k8zn"] {
        let slip = home
            .hames("logbook countersign --logbook share/hames/demo --by nobody")
            .argument(code)
            .run();
        assert_eq!(slip.status, 2, "{}", slip.out);
        says(
            &slip.err,
            &["was mistyped or misheard, so nothing was looked for"],
        );
    }

    let folder = trip(&home.demo(), 1);
    let seal = fs::read(folder.join("seal.json")).unwrap();
    fs::remove_file(folder.join("seal.json")).unwrap();
    let unsealed = countersign(&home, 1, AGREED);
    assert_eq!(unsealed.status, 10, "{}", unsealed.err);
    says(&unsealed.err, &["nobody has signed for it yet"]);
    fs::write(folder.join("seal.json"), seal).unwrap();

    let journal = fs::read_to_string(folder.join("trip.jsonl")).unwrap();
    let changed = journal.replacen("Tobias", "Tobios", 1);
    fs::write(folder.join("trip.jsonl"), changed).unwrap();
    let altered = countersign(&home, 1, AGREED);
    assert_eq!(altered.status, 16, "{}", altered.err);
    says(&altered.err, &["verification finds it altered", "line 1"]);
    assert_eq!(statements(&home, "countersigned"), [""; 0]);
}

#[test]
fn a_history_that_a_manager_saw_and_that_was_rewritten_since_is_not_signed_again() {
    let home = short_trips(2);
    let first = trip(&home.demo(), 2);
    copy(&first, &home.path("first"));
    fs::remove_dir_all(&first).unwrap();
    short_trip(&home);
    assert_eq!(countersign(&home, 1, AGREED).status, 0);
    // The trip 2 that the statement saw goes.
    fs::remove_dir_all(trip(&home.demo(), 2)).unwrap();
    let gone = countersign(&home, 1, "seen\nasked\nWhat else?\ndemo\n");
    assert_eq!(gone.status, 1, "{}", gone.out);
    says(
        &gone.err,
        &["as Odile Marsh saw it on DATE, is not here: a backup was put back"],
    );
    // Another has its number.
    copy(&home.path("first"), &first);
    let rewritten = countersign(&home, 2, AGREED);
    assert_eq!(rewritten.status, 1, "{}", rewritten.out);
    says(
        &rewritten.err,
        &["as Odile Marsh saw it on DATE, is here with another end"],
    );
    assert_eq!(statements(&home, "countersigned").len(), 1);
}

#[test]
fn nobody_agrees_to_what_a_stolen_laptop_signed_and_verify_says_it_in_the_trips_own_line() {
    let home = short_trips(2);
    // The second trip turns up when the laptop's key has been revoked.
    let late = trip(&home.demo(), 2);
    fs::rename(&late, home.path("late")).unwrap();
    let revoke = home
        .hames("crew revoke --demo --why stolen")
        .argument(&laptop(&home));
    let revoked = revoke.typed("demo\n").run();
    assert_eq!(revoked.status, 0, "{}{}", revoked.out, revoked.err);
    fs::rename(home.path("late"), &late).unwrap();

    let refused = countersign(&home, 2, AGREED);
    assert_eq!(refused.status, 20, "{}", refused.out);
    says(
        &refused.err,
        &[
            "is not countersigned: ",
            "Nobody agrees to what such a key signed",
        ],
    );
    assert_eq!(statements(&home, "countersigned"), [""; 0]);
    let told = home.hames("verify share/hames/demo").run();
    assert_eq!(told.status, 20, "{}", told.out);
    says(
        &told.out,
        &[
            "000001-TRIP  not-countersigned",
            "000002-TRIP  revoked-signer",
        ],
    );
}

#[test]
fn whoever_leaves_at_the_second_trip_is_told_that_the_first_is_signed() {
    let home = short_trips(2);
    let (one, two) = (
        format!("{}/1", laptop(&home)),
        format!("{}/2", laptop(&home)),
    );
    let program = home.hames(&format!(
        "logbook countersign --logbook share/hames/demo {one} {two}"
    ));
    let ended = program.typed("seen\nagreed\n\ndemo\nleave\n").run();
    assert_eq!(ended.status, 2, "{}{}", ended.out, ended.err);
    says(
        &ended.err,
        &["Left. 1 trip countersigned and kept; not countersigned: LAPTOP/2.\n"],
    );
}
