//! What does not fit together is asked, with both trips and both people named.

use super::countersign::{countersign, laptop, says, short_trips};
use crate::cli::demo::{SIGN, sealed};
use crate::harness::home::Home;

/// A text on one line, wherever its lines were broken.
fn unwrapped(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn an_odometer_that_goes_backwards_is_asked_about_and_nobody_is_charged() {
    let home = sealed();
    let none = home
        .hames("logbook questions --logbook share/hames/demo")
        .run();
    // Typed by a test, and far too fast.
    assert_eq!((none.status, none.err.as_str()), (1, ""));
    says(
        &unwrapped(&none.out),
        &["Nothing to ask about the ways of the trucks, from 1 trip. \
             1 question about how a record came about. None of them says that anybody did wrong; \
             ask with the trip in hand, and thank whoever tells how it was: \
             Trip 1 of LAPTOP (Wren Ashdown, DATE TIME): 94 answers from “Rating marks” to “Gear \
             put away” took "],
    );
    let short = "1\n1\n1\n1\n2\n48190 mi\nend\nabandoned\nrain\n";
    let ended = home.hames("--plain").typed(&format!("{short}{SIGN}")).run();
    assert!(ended.out.contains("Sealed."), "{}", ended.out);
    let asked = home
        .hames("logbook questions --logbook share/hames/demo")
        .run();
    assert_eq!((asked.status, asked.err.as_str()), (1, ""));
    says(
        &unwrapped(&asked.out),
        &[
            "1 question for the manager, from 2 trips. A question is no charge: it says what does not \
         fit together, and both sides of it may be right. \
         1. The odometer of Larkspur half-ton reads 48190 mi on trip 2 of LAPTOP (Wren Ashdown, \
         DATE TIME), and 48210 mi on trip 1 of LAPTOP (Wren Ashdown, DATE TIME), which comes \
         before it by the numbers of its laptop. Was one of the two misread or mistyped, or was \
         the odometer changed?",
        ],
    );
    let json = home
        .hames("logbook questions --logbook share/hames/demo --json")
        .run();
    assert_eq!(json.status, 1);
    for told in [
        r#""kind":"question""#,
        r#""about":"odometer-backwards""#,
        r#""read":"48190 mi","metres":"77554287.36""#,
        r#""kind":"how-it-came-about""#,
        r#""about":"hurried""#,
    ] {
        assert!(json.out.contains(told), "{}", json.out);
    }
}

#[test]
fn what_a_manager_asked_is_listed_until_the_manager_agrees() {
    let home = short_trips(2);
    let asked = countersign(&home, 1, "seen\nasked\n\nWhose rain?\ndemo\n");
    assert_eq!(asked.status, 0, "{}{}", asked.out, asked.err);
    let table = home
        .hames("logbook table questions --logbook share/hames/demo --json")
        .run();
    for told in [
        r#""about":"asked""#,
        r#""question":"Whose rain?""#,
        r#""asked_by":"Odile Marsh","statement":2"#,
    ] {
        assert!(table.out.contains(told), "{told}: {}", table.out);
    }
    let listed = home
        .hames("logbook questions --logbook share/hames/demo")
        .run();
    assert_eq!((listed.status, listed.err.as_str()), (1, ""));
    says(
        &listed.out,
        &["  hames logbook countersign --logbook share/hames/demo TRIP\n"],
    );
    says(
        &unwrapped(&listed.out),
        &[
            "1 question asked when a manager looked at a trip. Each is put to whoever had a hand in \
             the trip when they next begin a walk, and stands until the manager who asked agrees to \
             the trip: hames",
            "“Whose rain?”, about trip LAPTOP/1, asked by Odile Marsh on DATE",
            ", in statement 2",
        ],
    );
    let json = home
        .hames("logbook questions --logbook share/hames/demo --json")
        .run();
    assert_eq!(json.status, 1);
    says(
        &json.out,
        &[
            r#""kind":"asked""#,
            r#""number":1"#,
            r#""name":"Odile Marsh","statement":2"#,
            r#""question":"Whose rain?","answers":[]"#,
        ],
    );
    answered(&home);
    let agreed = countersign(&home, 1, "seen\nseen\nagreed\n\ndemo\n");
    assert_eq!(agreed.status, 0, "{}{}", agreed.out, agreed.err);
    says(
        &agreed.out,
        &[
            "To look at, 1 of 2: answer in trip 3 of LAPTOP to statement 2 of \
             odile.marsh\n  “Mine.”, answered by Wren Ashdown on DATE TIME in trip 3 of LAPTOP\n  Odile Marsh asked: \
             “Whose rain?”\n",
        ],
    );
    home.hames("logbook questions --logbook share/hames/demo")
        .run()
        .is(
            0,
            "Nothing to ask about the ways of the trucks, from 3 trips.\n",
            "",
        );
}

/// Wren Ashdown answers what was asked about trip 1 as she begins trip 3, and it is told wherever the
/// question is.
fn answered(home: &Home) {
    let answers = "1\n1\n10\n1\n2\nMine.\n\nend\nabandoned\nrain\n1\ndemo\nquit\n";
    let walk = home.hames("--plain").typed(answers).run();
    says(
        &walk.out,
        &[
            "Odile Marsh asked on DATE TIME, about trip 1 of LAPTOP (“Match the rig” with Juniper, \
             two-horse bumper pull, DATE TIME): “Whose rain?”\n",
            "Wren Ashdown, an answer for Odile Marsh? It is recorded in this walk. Enter alone \
             leaves it for later.\n",
            "Sealed.",
        ],
    );
    let told = "“Mine.”, answered by Wren Ashdown on DATE TIME in trip 3 of LAPTOP\n";
    let listed = home
        .hames("logbook questions --logbook share/hames/demo")
        .run();
    let one = format!("in statement 2 {}", told.trim_end());
    says(&unwrapped(&listed.out), &[&one]);
    let json = home
        .hames("logbook questions --logbook share/hames/demo --json")
        .run();
    says(
        &json.out,
        &[
            r#""by":"Wren Ashdown","had_a_hand":true"#,
            r#""in_number":3,"counts":true,"finding":"intact","answer":"Mine.""#,
        ],
    );
    let laptop = laptop(home);
    let show = |number: u64| {
        home.hames(&format!(
            "logbook show --logbook share/hames/demo {laptop}/{number}"
        ))
        .run()
    };
    says(&show(1).out, &[told]);
    says(
        &show(3).out,
        &["Wren Ashdown answers what Odile Marsh asked about trip 1 of"],
    );
}
