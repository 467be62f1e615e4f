//! One thing at a time, in order: places, branches, deferrals, corrections, the end.

use super::bench::Bench;

fn check(script: &str, stands: &str) {
    assert_eq!(Bench::new().play(script), stands, "after\n{script}");
}

/// The first section, all good.
const JOINED: &str =
    "open\n see down\n open\n see none\n open\n see in\n open\n see-as Odile Marsh: seated\n close";

#[test]
fn a_walk_with_every_answer_good_ends_complete() {
    let tires = "open\n read 65 psi by gauge-100\n".repeat(4);
    check(
        &format!("{JOINED}\n{tires}\n open\n see two\n close\n end complete"),
        "ended complete",
    );
}

#[test]
fn a_step_is_begun_before_it_is_answered() {
    check(
        "see down",
        "refused: No step is open. Begin the next step, then answer it.",
    );
    check(
        "open\n open",
        "refused: No step is waiting to be begun. Finish what is shown first.",
    );
    check("open", "open latch");
}

#[test]
fn a_bad_answer_is_put_right_and_the_step_asked_afresh() {
    check("open\n see cannot-see", "fix latch by close-it");
    check("open\n see cannot-see\n put-right", "next latch");
    check(
        "open\n see cannot-see\n put-right\n open\n see down",
        "next gap",
    );
}

#[test]
fn nothing_passes_a_stop_but_repair_in_words_and_a_fresh_answer() {
    let stop = "open\n see proud\n";
    check(
        &format!("{stop} open"),
        "refused: No step is waiting to be begun. Finish what is shown first.",
    );
    check(
        &format!("{stop} see down"),
        "refused: A bad answer is open. Put it right or end the trip first.",
    );
    check(
        &format!("{stop} defer later"),
        "refused: A bad answer is open. Put it right or end the trip first.",
    );
    check(
        &format!("{stop} close"),
        "refused: The section is not complete. Answer its steps first.",
    );
    check(
        &format!("{stop} put-right"),
        "refused: Type what was repaired or replaced: nothing was typed.",
    );
    check(
        &format!("{stop} end complete"),
        "refused: Not complete: 9 without an answer, 0 put off, 1 open. Finish them, or end the walk as incomplete.",
    );
    check(&format!("{stop} put-right lever bent back"), "next latch");
    check(
        &format!("{stop} end not-fit-to-go: lever bent"),
        "ended not-fit-to-go",
    );
}

#[test]
fn a_branch_that_ends_the_trip_cannot_be_put_right() {
    let deep =
        "open\n see down\n open\n see hair\n remark new coupler on order\n open\n see deep\n";
    check(deep, "stop mirror by shop");
    check(
        &format!("{deep} put-right filed flat"),
        "refused: This cannot be put right here. End the trip as not fit to go, or hold it and call.",
    );
    check(
        &format!("{deep} end not-fit-to-go: worn socket"),
        "ended not-fit-to-go",
    );
}

#[test]
fn a_note_wants_words_before_the_walk_goes_on() {
    let note = "open\n see down\n open\n see hair\n";
    check(note, "remark gap");
    check(
        &format!("{note} open"),
        "refused: No step is waiting to be begun. Finish what is shown first.",
    );
    check(&format!("{note} remark dealer on Friday"), "next mirror");
}

#[test]
fn a_step_applies_only_when_the_earlier_answer_says_so() {
    check("open\n see down\n open\n see none", "next cord");
    let mut bench = Bench::new();
    bench.play("open\n see down\n open\n see none");
    let mirror = 2;
    assert_eq!(
        bench.walk.left_out(mirror).unwrap(),
        "gap was answered “none”; the mirror shows how deep a hair goes"
    );
}

#[test]
fn a_deferred_step_comes_due_before_the_section_it_was_put_off_to() {
    let off = "open\n see down\n open\n see none\n defer cord is in the barn\n open\n see-as Odile Marsh: seated\n close\n";
    check(off, "next cord");
    check(
        &format!("{off} defer still not here"),
        "refused: cord cannot be put off. Do it now, or hold the walk.",
    );
    check(&format!("{off} open\n see in"), "next tire/left-front");
}

#[test]
fn a_step_that_is_due_cannot_be_put_off_once_it_is_open_either() {
    let off = "open\n see down\n open\n see none\n defer cord is in the barn\n open\n see-as Odile Marsh: seated\n close\n";
    check(
        &format!("{off} open\n defer still not here"),
        "refused: cord cannot be put off. Do it now, or hold the walk.",
    );
}

#[test]
fn a_correction_cannot_leave_out_a_step_that_was_answered_badly() {
    let bad = "open\n see down\n open\n see hair\n remark dealer\n open\n see cannot-see\n put-right lamp fetched\n";
    check(
        &format!("{bad} correct gap: it was none\n open\n see none"),
        "next mirror",
    );
}

#[test]
fn a_critical_step_cannot_be_put_off() {
    check(
        "defer cold hands",
        "refused: latch is critical and cannot be put off. Do it now, or hold the walk.",
    );
}

#[test]
fn a_deferred_step_laid_down_by_a_hold_is_not_lost() {
    let off = "open\n see down\n open\n see none\n defer cord is in the barn\n open\n see-as Odile Marsh: seated\n close\n";
    check(
        &format!("{off} open\n hold phone | cord\n wait 300\n resume"),
        "next latch",
    );
    check(
        &format!("{off} open\n hold phone | cord\n wait 300\n resume\n open\n see down"),
        "next cord",
    );
}

#[test]
fn the_second_person_is_never_the_one_who_did_the_work() {
    let second = "open\n see down\n open\n see none\n open\n see in\n open\n";
    check(
        &format!("{second} see-as tobias FENN: seated"),
        "refused: tobias FENN did the work and cannot be the second pair of eyes. Ask another person.",
    );
    check(
        &format!("{second} see seated"),
        "refused: This step is answered with what another person saw, with the name.",
    );
    check(
        &format!("{second} see-as : seated"),
        "refused: Type the name of the second person: nothing was typed.",
    );
}

#[test]
fn handing_over_makes_no_second_person_of_who_did_the_work() {
    let second = "open\n see down\n open\n see none\n open\n see in\n";
    let handed = format!("{second} hand-over Odile Marsh | Wren Ashdown\n");
    let again = "open\n see down\n open\n see in\n open\n";
    check(
        &format!("{handed}{again} see-as Fenn, Tobias: seated"),
        "refused: Fenn, Tobias did the work and cannot be the second pair of eyes. Ask another person.",
    );
    check(
        &format!("{handed}{again} see-as Odile Marsh: seated"),
        "end of join",
    );
}

#[test]
fn an_independent_check_is_made_again_when_its_maker_takes_over_the_work() {
    let mut bench = Bench::new();
    bench.play(&format!(
        "{JOINED}\n open\n read 65 psi by gauge-100\n hand-over Wren Ashdown | odile marsh"
    ));
    let steps = bench.walk.plan().steps();
    let again: Vec<&str> = bench
        .walk
        .to_look_at_again()
        .map(|index| steps[index].key.as_str())
        .collect();
    assert_eq!(again, ["latch", "second-look", "tire/left-front"]);
}

#[test]
fn an_answer_taken_back_stays_and_another_is_given_beside_it() {
    let mut bench = Bench::new();
    assert_eq!(
        bench.play("open\n see down\n correct latch: looked at the wrong lever"),
        "next latch"
    );
    assert_eq!(bench.play("open\n see proud"), "stop latch by close-it");
    assert_eq!(bench.walk.steps()[0].answers.len(), 2);
    check(
        "correct latch: nothing yet",
        "refused: “latch” has no finished answer to take back. Choose a step that is done.",
    );
    check(
        "open\n see down\n correct latch:",
        "refused: Type why the answer is taken back: nothing was typed.",
    );
}

#[test]
fn taking_back_an_answer_can_bring_a_step_of_a_closed_section_back() {
    check(
        &format!("{JOINED}\n correct gap: it was a hair\n open\n see hair\n remark dealer"),
        "next mirror",
    );
}

#[test]
fn a_walk_that_has_ended_takes_nothing_more() {
    check(
        "end abandoned: rain\n open",
        "refused: This walk has ended as abandoned. Begin a new one.",
    );
    check(
        "end incomplete:",
        "refused: Type why the trip ends here: nothing was typed.",
    );
}
