//! The demo barn through a pipe: from nothing to a sealed trip, left and taken up on the way.

use crate::harness::home::{Home, trip};
use crate::plain::bench::whole_walk;
use std::io::{BufRead, BufReader, Write};
use std::process::ChildStdin;

/// Begin, Juniper, the hitch-up, Wren reads, Tobias does the work, odometer.
pub(crate) const BEGIN: &str = "1\n1\n1\n1\n2\n48210 mi\n";

/// Wren signs; then the program is left.
pub(crate) const SIGN: &str = "1\ndemo\nquit\n";

/// A home with one sealed trip of the demo barn.
pub(crate) fn sealed() -> Home {
    Home::laid("one whole walk", Home::new, |home| {
        let input = format!("{BEGIN}{}{SIGN}", whole_walk());
        let ended = home.hames("--plain").typed(&input).run();
        assert_eq!(ended.status, 0, "{}{}", ended.out, ended.err);
    })
}

#[test]
fn a_walk_goes_through_a_pipe_to_a_sealed_trip_that_verifies() {
    let home = Home::new();
    let input = format!("{BEGIN}{}{SIGN}", whole_walk());
    home.hames("--plain").typed(&input).run().ends(
        0,
        "\
DEMO. Sealed. Receipt: RECEIPT
Read it out on the phone, or write it in the cab book.
Outcome: complete.
Signed by: Wren Ashdown, driver.
Record: HOME/share/hames/demo/dev/LAPTOP/t/000001-TRIP
Check it with: hames verify HOME/share/hames/demo/dev/LAPTOP/t/000001-TRIP

DEMO. What next?
1. Begin a walk
2. Read a record
DEMO. Type its number, or quit.
> ",
        "",
    );
    home.hames("verify share/hames/demo").run().is(
        9,
        "\
000001-TRIP  not-countersigned  DEMO  complete, signed by Wren Ashdown, driver, receipt RECEIPT
  later than statement 1 of Odile Marsh (clock DATE TIME), and witnessed by no statement yet
by the crew file HASH; compare this with your manager's
no trip of LAPTOP is witnessed yet; the newest here is trip 1, and later ones may be missing
the newest statement of Odile Marsh here is 1; later ones may be missing
the order is shown by what names what; the times beside it are what clocks claimed
1 trip: not-countersigned
",
        "",
    );
}

#[test]
fn nothing_is_written_before_a_walk_begins_and_nothing_outside_the_demo_folder() {
    let home = Home::new();
    home.hames("--plain")
        .typed("quit\n")
        .run()
        .ends(0, "> ", "");
    home.hames("--plain")
        .typed("1\nback\nquit\n")
        .run()
        .ends(0, "> ", "");
    assert_eq!(home.files(), [""; 0]);
    home.hames("--plain").typed(BEGIN).run().ends(
        0,
        "DEMO. The input has ended. The walk is left as it is. Everything recorded is in its \
         journal; start Hames again to take it up at the same step.",
        "",
    );
    let files = home.files();
    assert!(
        files
            .iter()
            .all(|file| file.starts_with("share/hames/demo/")),
        "{files:?}"
    );
}

#[test]
fn a_walk_cut_off_anywhere_is_taken_up_and_sealed() {
    let walk = whole_walk();
    let lines: Vec<&str> = walk.split_inclusive('\n').collect();
    for cut in [0, 1, 2, 3, 7, 40, lines.len() - 1, lines.len()] {
        let home = Home::new();
        let first = format!("{BEGIN}{}", lines[..cut].concat());
        assert_eq!(home.hames("--plain").typed(&first).run().status, 0);
        // A short way to the end: given up, and signed.
        let ended = cut == lines.len();
        let rest = if ended {
            "1\n"
        } else {
            "1\nend\nabandoned\nrain\n"
        };
        let second = home.hames("--plain").typed(&format!("{rest}{SIGN}")).run();
        assert!(
            second.out.contains("Sealed. Receipt: RECEIPT"),
            "{cut}: {}",
            second.out
        );
        let verified = home.hames("verify share/hames/demo").run();
        assert_eq!(verified.status, 9, "{cut}: {}", verified.out);
    }
}

#[test]
fn a_torn_last_line_is_set_aside_kept_and_told() {
    let home = Home::new();
    home.hames("--plain").typed(&format!("{BEGIN}2\n")).run().ends(0, "DEMO. The input has ended. The walk is left as it is. Everything recorded is in its journal; start Hames again to take it up at the same step.", "");
    let folder = trip(&home.demo(), 1);
    let journal = folder.join("trip.jsonl");
    let mut bytes = std::fs::read(&journal).unwrap();
    bytes.extend_from_slice(b"{\"v\":1,\"i\":");
    std::fs::write(&journal, bytes).unwrap();
    let ended = home
        .hames("--plain")
        .typed("1\nend\nabandoned\nrain\n1\ndemo\n")
        .run();
    assert!(ended.out.contains("Sealed."), "{}", ended.out);
    assert!(
        ended
            .out
            .contains("A line that was not finished was set aside in HOME/"),
        "{}",
        ended.out
    );
    assert_eq!(
        std::fs::read(folder.join("trip.torn-1")).unwrap(),
        b"{\"v\":1,\"i\":"
    );
    assert_eq!(home.hames("verify share/hames/demo").run().status, 9);
}

#[test]
fn a_walk_left_open_stays_on_the_start_screen_however_many_came_after_it() {
    let home = Home::new();
    let begun = home.hames("--plain").typed(&format!("{BEGIN}2\n")).run();
    assert_eq!(begun.status, 0, "{}", begun.err);
    // Sealed trips of a laptop whose name comes later, so that they are met first.
    for seq in 1..=40 {
        let later = home
            .demo()
            .join(format!("dev/zz-laptop/t/{seq:06}-0000000a"));
        std::fs::create_dir_all(&later).unwrap();
        std::fs::write(later.join("trip.jsonl"), "{}\n").unwrap();
        std::fs::write(later.join("seal.json"), "{}\n").unwrap();
    }
    let ended = home
        .hames("--plain")
        .typed("1\nend\nabandoned\nrain\n1\ndemo\n")
        .run();
    assert!(ended.out.contains("Sealed."), "{}", ended.out);
}

#[test]
fn a_second_program_may_not_touch_a_trip_under_way() {
    let home = Home::new();
    let mut first = home.hames("--plain").start();
    let mut input: ChildStdin = first.stdin.take().unwrap();
    input.write_all(BEGIN.as_bytes()).unwrap();
    let mut output = BufReader::new(first.stdout.take().unwrap()).lines();
    assert!(output.any(|line| line.unwrap().contains("What do you see?")));
    for errand in ["1\n", "2\n1\n1\n1\n2\n\n"] {
        let second = home
            .hames("--plain")
            .typed(&format!("{errand}quit\n"))
            .run();
        assert!(
            second
                .out
                .contains("Another window of this program is using"),
            "{}",
            second.out
        );
    }
    drop(input);
    assert!(first.wait().unwrap().success());
    let third = home.hames("--plain").typed("1\nquit\n").run();
    assert!(
        third.out.contains("Looked at again") || third.out.contains("Step 1 of"),
        "{}",
        third.out
    );
}

#[test]
fn a_wrong_passphrase_signs_nothing_and_the_trip_waits() {
    let home = Home::new();
    let walk = "end\nabandoned\nrain\n1\nDemo\nlater\nquit\n";
    let ended = home.hames("--plain").typed(&format!("{BEGIN}{walk}")).run();
    assert!(
        ended
            .out
            .contains("Not signed: this passphrase does not open the key"),
        "{}",
        ended.out
    );
    assert!(!home.files().iter().any(|file| file.contains("seal")));
    let later = home.hames("--plain").typed(&format!("1\n{SIGN}")).run();
    assert!(
        later.out.contains("1. Take up, to end or sign it: Juniper"),
        "{}",
        later.out
    );
    assert!(
        later.out.contains(": abandoned, not signed\n"),
        "{}",
        later.out
    );
    assert!(
        later.out.contains("Sealed. Receipt: RECEIPT"),
        "{}",
        later.out
    );
}

#[test]
fn only_who_read_or_did_the_walk_may_sign_it() {
    let home = Home::new();
    let walk = "end\nabandoned\nrain\n3\nlater\nquit\n";
    let ended = home.hames("--plain").typed(&format!("{BEGIN}{walk}")).run();
    assert!(
        ended.out.contains(
            "Odile Marsh neither read nor did this walk. Wren Ashdown or Tobias Fenn signs it."
        ),
        "{}",
        ended.out
    );
    assert!(!ended.out.contains("Passphrase of Odile"), "{}", ended.out);
}

#[test]
fn a_crash_between_seal_and_signatures_is_mended_by_signing_again() {
    let home = sealed();
    let folder = trip(&home.demo(), 1);
    let seal = std::fs::read(folder.join("seal.json")).unwrap();
    for lost in [
        &["seal.person.sig", "seal.device.sig"][..],
        &["seal.device.sig"],
    ] {
        for name in lost {
            std::fs::remove_file(folder.join(name)).unwrap();
        }
        assert_eq!(home.hames("verify share/hames/demo").run().status, 10);
        let again = home.hames("--plain").typed(&format!("1\n{SIGN}")).run();
        assert!(
            again.out.contains("Sealed. Receipt: RECEIPT"),
            "{}",
            again.out
        );
        assert_eq!(std::fs::read(folder.join("seal.json")).unwrap(), seal);
        assert_eq!(home.hames("verify share/hames/demo").run().status, 9);
    }
}

#[test]
fn a_record_is_read_back_with_its_findings_and_signatures() {
    let home = sealed();
    let ended = home.hames("--plain").typed("2\nquit\n").run();
    for line in [
        "DEMO: an invented barn, nothing here counts.",
        "What verification found:\nintact: every byte is as signed, by people and laptops of the crew\n",
        "TIME Rating marks: All four marks are as the rig description says: ok\n",
        "Wren Ashdown, driver, DATE TIME",
        "Every step was done by the people named here",
        "Receipt RECEIPT\n",
    ] {
        assert!(ended.out.contains(line), "{line}: {}", ended.out);
    }
}

#[test]
fn a_walk_is_entered_from_paper_with_both_dates_in_its_record() {
    let home = Home::new();
    let short = "1\n1\n2\n\nend\nabandoned\nrain\n";
    let mut walk = home.hames("walk --demo --plain --checklist departure --from-paper");
    walk = walk.argument("2026-11-20 06:10");
    let ended = walk.typed(&format!("{short}{SIGN}")).run();
    assert!(ended.out.contains("Sealed."), "{}{}", ended.out, ended.err);
    assert!(ended.out.contains("FROM PAPER"), "{}", ended.out);
    let journal = std::fs::read_to_string(trip(&home.demo(), 1).join("trip.jsonl")).unwrap();
    let first = journal.lines().next().unwrap();
    assert!(first.starts_with("{\"v\":2,"), "{first}");
    assert!(
        first.contains("\"paper\":{\"walked\":\"2026-11-20T06:10:00.000"),
        "{first}"
    );
    let verified = home.hames("verify share/hames/demo").run();
    assert_eq!(verified.status, 9, "{}", verified.out);
    let told = home.hames("--plain").typed("2\n1\nquit\n").run();
    assert!(told.out.contains("FROM PAPER: walked "), "{}", told.out);

    let mut wrong = home.hames("walk --demo --plain --checklist departure --from-paper");
    wrong = wrong.argument("last Friday");
    let refused = wrong.run();
    assert_eq!((refused.status, refused.out.as_str()), (2, ""));
    assert!(
        refused
            .err
            .contains("“last Friday” is no day and time. Type the day and time written"),
        "{}",
        refused.err
    );
}
