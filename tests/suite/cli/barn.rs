//! The first logbook of a barn, and a walk of its own rig.

use crate::harness::home::Home;
use crate::plain::bench::whole_walk;

/// Barn, name, role, passphrase twice.
const SET_UP: &str = "Quillwater Stables\nWren Ashdown\ndriver\nhay and oats\nhay and oats\n";

#[test]
fn the_first_walk_makes_the_logbook_and_the_trip_verifies_as_real() {
    let home = Home::new();
    let example = home.hames("rig --example").run();
    assert_eq!((example.status, example.err.as_str()), (0, ""));
    let juniper = hames::rig::demo::JUNIPER;
    assert_eq!(example.out.lines().count(), juniper.lines().count());
    home.put("my-rig.yaml", juniper);
    // One person alone: reader and doer are said, not asked; the odometer is left out.
    let input = format!("{SET_UP}1\n\n{}1\nhay and oats\n", whole_walk());
    home.hames("walk --plain --logbook book --rig my-rig.yaml")
        .typed(&input)
        .run()
        .ends(
            0,
            "\
Sealed. Receipt: RECEIPT
Read it out on the phone, or write it in the cab book.
Outcome: complete.
Signed by: Wren Ashdown, driver.
Record: book/dev/LAPTOP/t/000001-TRIP
Check it with: hames verify book/dev/LAPTOP/t/000001-TRIP",
            "",
        );
    home.hames("verify book").run().is(
        9,
        "\
000001-TRIP  not-countersigned  complete, signed by Wren Ashdown, driver, receipt RECEIPT
by the crew file HASH; compare this with your manager's
no trip of LAPTOP is witnessed yet; the newest here is trip 1, and later ones may be missing
1 trip: not-countersigned
",
        "",
    );
    let crew = home.hames("crew list --logbook book").run();
    assert_eq!((crew.status, crew.err.as_str()), (0, ""));
    assert!(
        crew.out
            .starts_with("wren.ashdown  Wren Ashdown  driver  SHA256:"),
        "{}",
        crew.out
    );
    assert!(crew.out.contains("LAPTOP  Laptop "), "{}", crew.out);
}

#[test]
fn keys_are_for_their_owner_alone() {
    use std::os::unix::fs::PermissionsExt;
    let home = Home::new();
    home.put("rig.yaml", hames::rig::demo::JUNIPER);
    home.hames("walk --plain --logbook book --rig rig.yaml")
        .typed(SET_UP)
        .run()
        .ends(0, "> \nThe input has ended. No walk was under way.", "");
    let keys: Vec<_> = home
        .files()
        .into_iter()
        .filter(|file| file.contains("/keys/"))
        .collect();
    assert_eq!(keys.len(), 2, "{keys:?}");
    for key in keys {
        let mode = std::fs::metadata(home.path(&key))
            .unwrap()
            .permissions()
            .mode();
        assert_eq!(mode & 0o777, 0o600, "{key}");
    }
}

#[test]
fn a_set_up_that_is_not_finished_makes_nothing() {
    for typed in [
        "",
        "Quillwater\n",
        "Quillwater\nWren\ndriver\nhay\n",
        "Q\nW\ndriver\nhay and oats\nhay and straw\n",
    ] {
        let home = Home::new();
        home.put("rig.yaml", hames::rig::demo::JUNIPER);
        let ended = home.hames("walk --plain --rig rig.yaml").typed(typed).run();
        ended.ends(2, "The input has ended. No logbook was made.", "");
        assert_eq!(home.files(), ["rig.yaml"]);
    }
}

#[test]
fn without_a_rig_it_says_where_an_example_is_and_a_kept_one_is_offered() {
    let home = Home::new();
    let ended = home
        .hames("walk --plain --logbook book")
        .typed(SET_UP)
        .run();
    assert_eq!(ended.status, 2, "{}", ended.out);
    assert_eq!(
        ended.err,
        "No rig is described yet. Describe yours: hames rig --logbook book \
         my-rig.yaml --describe\nThen: hames walk --logbook book --rig my-rig.yaml\n\
         A rig file kept in book/rigs is offered each time.\n"
    );
    std::fs::create_dir(home.path("book/rigs")).unwrap();
    home.put("book/rigs/juniper.yaml", hames::rig::demo::JUNIPER);
    home.put("book/rigs/broken.yaml", "format: hames-rig/1\n");
    let ended = home
        .hames("--plain --logbook book")
        .typed("1\n1\n\nquit\n")
        .run();
    assert!(
        ended
            .out
            .contains("broken.yaml is not offered. See why: hames lint book/rigs/broken.yaml"),
        "{}",
        ended.out
    );
    assert!(ended.out.contains("Step 1 of "), "{}", ended.out);
    assert!(!ended.out.contains("DEMO"), "{}", ended.out);
}

#[test]
fn a_changed_checklist_is_marked_at_every_prompt() {
    let home = Home::new();
    let own = crate::harness::hitch_up_text().replacen(
        "Hitch up a bumper pull",
        "Hitch up our bumper pull",
        1,
    );
    home.put("own.yaml", &own);
    let ended = home
        .hames("walk --demo --plain --rig juniper --checklist own.yaml")
        .typed("1\n2\n\nquit\n")
        .run();
    assert_eq!(ended.status, 0, "{}", ended.err);
    assert!(
        ended
            .out
            .contains("DEMO UNAPPROVED. Type the number of what you see."),
        "{}",
        ended.out
    );
}

#[test]
fn a_pair_of_whom_nobody_could_sign_here_is_told_before_the_last_question_and_walks_all_the_same() {
    let home = crate::cli::demo::sealed();
    for name in ["wren.ashdown", "tobias.fenn"] {
        std::fs::remove_file(home.demo().join("keys").join(name)).unwrap();
    }
    let walk = |pair: &str| {
        home.hames("walk --demo --plain --rig juniper --checklist hitch-bumper")
            .typed(&format!("{pair}\nend\nabandoned\nrain\nlater\n"))
            .run()
    };
    let told = walk("1\n2\n");
    assert_eq!(told.status, 0, "{}", told.err);
    let neither = "Neither Wren Ashdown nor Tobias Fenn could sign this walk on this laptop: ";
    let (before, after) = told.out.split_once(neither).unwrap();
    assert!(before.contains("Who does the work"), "{}", told.out);
    assert!(after.contains("Odometer of the truck"), "{}", told.out);
    assert!(after.contains("Ended as abandoned"), "{}", told.out);
    let one_can = walk("1\n3\n");
    assert!(
        one_can.out.contains("Ended as abandoned"),
        "{}",
        one_can.out
    );
    assert!(!one_can.out.contains("could sign"), "{}", one_can.out);
}
