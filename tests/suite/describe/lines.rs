//! The conversation as a person has it, line by line.

use hames::plain::{Described, Options, describe};
use hames::rig::describe::Interview;

/// What was said to these lines, how it ended, and every text that was saved.
struct Held {
    said: String,
    ended: Described,
    saved: Vec<String>,
}

fn held(from: Interview, typed: &str, disk_holds: usize) -> Held {
    let (mut input, mut output, mut saved) = (typed.as_bytes(), Vec::new(), Vec::new());
    let mut save = |text: &str| {
        if saved.len() == disk_holds {
            return Err("The disk refused.".to_owned());
        }
        saved.push(text.to_owned());
        Ok(())
    };
    let options = Options::default();
    let ended = describe(
        &mut input,
        &mut output,
        options,
        from,
        "rig.yaml",
        &mut save,
    )
    .unwrap();
    let said = String::from_utf8(output).unwrap();
    assert!(
        !said
            .chars()
            .any(|letter| letter.is_control() && letter != '\n')
    );
    Held { said, ended, saved }
}

fn new(typed: &str) -> Held {
    held(Interview::default(), typed, usize::MAX)
}

const NAMES: &str = "my-rig\nMy rig\n";

#[test]
fn the_first_questions_read_like_this() {
    let typed = format!(
        "{NAMES}Blue truck\n\nhelp\n3050\n7150 lb\n7\n1\nlabel on the door\n3900 lb\nsame\nback\nkeep\n\
         3000 lb\nthere\n6500 lb\nsame\n3000 lb\nsame\nskip\nstop\n"
    );
    let held = new(&typed);
    assert_eq!(held.ended, Described::Saved);
    insta::assert_snapshot!(held.said);
}

#[test]
fn the_file_is_saved_after_every_answer_and_after_everything_left_out() {
    let held = new(&format!(
        "{NAMES}Blue truck\n7150 lb\nplate\nlabel on the door\nskip\n"
    ));
    let lines: Vec<usize> = held.saved.iter().map(|text| text.lines().count()).collect();
    assert_eq!(lines, [2, 3, 6, 7, 7]);
    assert_eq!(
        held.saved.last().unwrap(),
        "format: hames-rig/1\nid: my-rig\nname: My rig\n\ntruck:\n  name: Blue truck\n  \
         gvwr: { is: 7150 lb, by: plate, at: label on the door }\n"
    );
    assert!(
        held.said
            .contains("\nThe input has ended. The rig in rig.yaml cannot be walked yet.")
    );
}

#[test]
fn nothing_is_called_saved_that_the_disk_has_refused() {
    let held = held(Interview::default(), "my-rig\nMy rig\nBlue truck\n", 1);
    assert_eq!((held.ended, held.saved.len()), (Described::NotSaved, 1));
    assert_eq!(held.said.matches("Saved: ").count(), 1);
    assert!(held.said.ends_with(
        "The disk refused.\nThe last answer is not saved. What was saved before is there.\n"
    ));
}

#[test]
fn enter_alone_answers_nothing_anywhere() {
    let typed = format!("{NAMES}Blue truck\n7150 lb\n1\n\n\n\n");
    let held = new(&typed);
    assert_eq!(held.said.matches("Enter alone answers nothing.").count(), 3);
    assert_eq!(held.saved.len(), 3);
}

#[test]
fn what_is_typed_at_one_question_may_be_any_text_and_breaks_nothing() {
    let typed = format!("{NAMES}a: b # c \"d\" 'e' {{}} [f] & * !\n");
    let held = new(&typed);
    let text = held.saved.last().unwrap();
    assert!(
        text.ends_with("name: \"a: b # c \\\"d\\\" 'e' {} [f] & * !\"\n"),
        "{text}"
    );
    assert!(Interview::take_up(text).is_ok());
    let hidden = new(&format!("{NAMES}wr\u{202e}en\n\u{1b}[2J\n"));
    assert_eq!(
        hidden
            .said
            .matches("That is not taken: an invisible character")
            .count(),
        2
    );
}

#[test]
fn a_whole_file_has_nothing_to_ask_but_what_was_left_out() {
    let whole = Interview::take_up(hames::rig::demo::JUNIPER).unwrap();
    let held = held(whole, "stop\n", usize::MAX);
    assert!(
        held.said
            .contains("Stopped. The rig in rig.yaml can be walked."),
        "{}",
        held.said
    );
    assert!(held.saved.is_empty());
}
