//! `hames drill`, played through a pipe.

use crate::harness::home::{Ended, Home};

/// Played by nobody whose drills are recorded: the last of those who could learn.
fn played(arguments: &str, typed: &str) -> Ended {
    let typed = format!("4\n{typed}");
    let arguments = format!("{arguments} --plain");
    Home::new().hames(&arguments).typed(&typed).run()
}

/// What was said, with the clock taken out.
fn said(ended: &Ended) -> String {
    let lines = ended
        .out
        .lines()
        .map(|line| match line.strip_prefix("Taken ") {
            Some(rest) => format!("Taken TIME{}", rest.get(5..).unwrap_or_default()),
            None => line.to_owned(),
        });
    lines.collect::<Vec<_>>().join("\n")
}

#[test]
fn a_drill_is_played_line_by_line_and_a_slip_is_met_at_once() {
    // A pin without its clip, looked at from the near side, called held, and looked at again.
    let typed = "look close\n1\nyes\n\
                 look left\n3\ncorrect\n2\nseen from one side only\nlook right\n1\nquit\n";
    let ended = played("drill receiver-pin --seed 6", typed);
    assert_eq!((ended.status, ended.err.as_str()), (0, ""));
    insta::assert_snapshot!(said(&ended));
}

#[test]
fn a_drill_leaves_nothing_on_the_disk_and_says_drill_at_every_prompt() {
    let home = Home::new();
    let ended = home
        .hames("drill nose-high --seed 1 --plain")
        .typed("4\nlook close\n1\n")
        .run();
    assert_eq!(ended.status, 0);
    assert_eq!(home.files(), [""; 0], "{}", ended.out);
    let mut lines = ended.out.lines().peekable();
    let mut prompts = 0;
    while let Some(line) = lines.next() {
        if lines.peek().is_some_and(|next| next.starts_with("> ")) {
            assert!(line.starts_with("DRILL. "), "{line}");
            prompts += 1;
        }
    }
    assert!(prompts > 2, "{}", ended.out);
}

/// The line that says how a drill is played again.
fn again(ended: &Ended) -> &str {
    let mut lines = ended.out.lines();
    let last = lines.find_map(|line| line.strip_prefix("The same again: hames "));
    last.unwrap_or_else(|| panic!("{}", ended.out))
}

#[test]
fn without_a_scenario_the_dice_choose_one_and_say_at_the_end_how_to_play_it_again() {
    let ended = played("drill", "");
    assert!(
        ended
            .out
            .contains("The drill is left. Nothing of it is recorded."),
        "{}",
        ended.out
    );
    let command = again(&ended).to_owned();
    assert!(
        command.starts_with("drill ") && command.contains(" --seed "),
        "{command}"
    );
    let same = played(&command, "");
    assert_eq!(again(&same), command);
    assert!(command.contains(" --demo"), "{command}");
}

#[test]
fn a_word_of_the_drill_that_does_nothing_here_says_what_does() {
    let typed = "use 1\nlook hand\nhelp\nlook left\nlook right\n1\nlook left\n";
    let told = played("drill receiver-pin --seed 6", typed).out;
    for said in [
        "This step asks what is seen; look at it.",
        "This step does not show to look hand; look ",
        "look and a place, such as look left: look at the open step from there",
        "It shows from one place: look ",
        "There is nothing to look at or measure now; answer what is asked, and the next step opens.",
    ] {
        assert!(told.contains(said), "{said}: {told}");
    }
}

#[test]
fn a_scenario_that_is_not_there_is_told_with_the_nearest_one() {
    let ended = played("drill reciever-pin", "");
    assert_eq!(ended.status, 2);
    assert_eq!(
        ended.err.trim(),
        "There is no scenario “reciever-pin”. Did you mean receiver-pin? Every one: hames drill --demo --list"
    );
}

#[test]
fn the_scenarios_are_listed_in_words_and_as_json() {
    let words = played("drill --list", "").out;
    assert!(
        words.contains(
            "receiver-pin: The pin that held last week. About receiver, drawbar and bed hitch."
        ),
        "{words}"
    );
    let rows = played("drill --list --json", "").out;
    assert_eq!(rows.lines().count(), words.lines().count());
    for row in rows.lines() {
        let row: serde_json::Value = serde_json::from_str(row).unwrap();
        assert_eq!(row["schema"], "hames-scenario/1");
        assert!(row["source"].is_string(), "{row}");
    }
}

#[test]
fn the_dice_choose_among_the_scenarios_of_one_family_where_one_is_named() {
    let listed = played("drill --list --about tires", "").out;
    let ids: Vec<&str> = listed
        .lines()
        .map(|line| line.split(':').next().unwrap())
        .collect();
    assert!((3..20).contains(&ids.len()), "{listed}");
    let ended = played("drill --about tires", "");
    let id = again(&ended).split(' ').nth(2).unwrap();
    assert!(ids.contains(&id), "{id}: {listed}");
    // A word that only one label has means that one: latches are about the seat.
    let of = |word: &str| played(&format!("drill --list --about {word}"), "").out;
    assert!(!of("latch").is_empty());
    assert_eq!(of("latch"), of("seat"));
    let refused = played("drill --about tyres", "");
    assert_eq!(refused.status, 2);
    assert!(
        refused.err.starts_with(
            "No scenario is about “tyres”. Did you mean tires? They are about seat, match, "
        ),
        "{}",
        refused.err
    );
}

/// Everything a watched run wants, and then the signature.
fn watched() -> String {
    "next\n".repeat(40) + "sign\ndemo\n"
}

#[test]
fn a_drill_that_somebody_plays_is_recorded_signed_and_counted() {
    let home = Home::new();
    let watch = "drill receiver-pin --seed 6 --learner wren.ashdown --plain";
    let ended = home.hames(watch).typed(&watched()).run();
    assert_eq!((ended.status, ended.err.as_str()), (0, ""), "{}", ended.out);
    for said in [
        "Stage: watch, a worked run with its reasons.",
        "Hitch up a bumper pull",
        "Signed by Wren Ashdown, driver. It counts. See where you stand: hames drill --demo",
    ] {
        assert!(ended.out.contains(said), "{said}: {}", ended.out);
    }
    assert!(home.files().iter().all(|file| !file.contains("demo/dev/")));
    // The next drill of the same sections is played with hints, and the room says so.
    let ended = home.hames("drill --plain").typed("1\n1\nquit\n").run();
    assert!(
        ended
            .out
            .contains("Hitch up a bumper pull, Parts matched: next is guided, with every hint."),
        "{}",
        ended.out
    );
}

#[test]
fn a_drill_that_was_left_stands_first_and_is_gone_on_with() {
    let home = Home::new();
    // What was answered is looked at again, as on any walk that was left.
    let solo = "drill receiver-pin --seed 6 --learner wren.ashdown --stage solo --plain";
    let ended = home.hames(solo).typed("look left\n1\n").run();
    assert!(
        ended.out.contains("The drill is left as it is."),
        "{}",
        ended.out
    );
    let ended = home.hames("drill --plain").typed("1\n1\n").run();
    assert!(ended.out.contains("1. Go on with "), "{}", ended.out);
    assert!(
        ended
            .out
            .contains("Looked at again, because time or people came between."),
        "{}",
        ended.out
    );
}

#[test]
fn whoever_is_not_in_the_crew_is_told_who_is() {
    let ended = Home::new()
        .hames("drill --learner nobody --plain")
        .typed("")
        .run();
    assert!(
        ended.out.contains(
            "“nobody” is nobody whose drills are recorded here. There is: Wren Ashdown, Tobias \
             Fenn, Odile Marsh."
        ),
        "{}",
        ended.out
    );
}
