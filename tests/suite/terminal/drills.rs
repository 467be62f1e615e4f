//! Drills named behind the command, in a real terminal.

use super::hames;
use crate::harness::home::Home;

#[test]
fn a_drill_that_is_named_opens_the_screens_and_begins_once_it_is_said_who_learns() {
    let home = Home::new();
    let named = ["drill", "--demo", "receiver-pin", "--stage", "solo"];
    let mut terminal = hames(&home, &named);
    terminal.wait_for("Then it begins: The pin that held last week.");
    terminal.press("1");
    terminal.wait_for("Wren Ashdown reads and does");
    terminal.wait_for("Stage: solo");
    terminal.press("⇥");
    terminal.wait_for("On hold");
    terminal.press("qq");
    assert_eq!(terminal.end().exit_code(), 0);
}

#[test]
fn a_learner_who_is_nobody_here_is_told_who_is_and_no_screen_opens() {
    let home = Home::new();
    let mut terminal = hames(&home, &["drill", "--demo", "--learner", "nobody"]);
    terminal.wait_for("“nobody” is nobody whose drills are recorded here.");
    assert_eq!(terminal.end().exit_code(), 1);
    assert_eq!(home.files(), [""; 0]);
}
