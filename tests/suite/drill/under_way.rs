//! A drill under way: what it asks before an answer, and what it says after one.

use super::bench::{Learner, drill, scenarios};
use hames::checklist::StepKey;
use hames::drill::{Doing, Drill, Line, NotInDrill, Run, Stage, Vantage};
use hames::rules::Verdict;
use hames::walk::{Act, Moment, Now, Round};

fn of(scenario: &str, fault: Option<usize>) -> Drill {
    let found = scenarios().iter().find(|one| one.id == scenario);
    drill(found.unwrap(), fault, 1)
}

/// Begun, and gone on until this step is open.
fn open_at(drill: Drill, stage: Stage, step: &str) -> Learner {
    let mut learner = Learner::new(drill, stage, None);
    loop {
        if let Now::Open(index) = learner.run.walk().now()
            && learner.run.walk().plan().steps()[index].key.as_str() == step
        {
            return learner;
        }
        assert_eq!(learner.run.walk().ended(), None, "{step} is not asked here");
        learner.goes_on();
    }
}

fn refused(run: &Run, doing: &Doing) -> NotInDrill {
    run.decide(doing, &super::bench::moment(9_000_000))
        .unwrap_err()
}

#[test]
fn a_pin_without_its_clip_is_seen_from_the_far_side_alone() {
    let learner = open_at(of("receiver-pin", Some(0)), Stage::Solo, "receiver-pin");
    let (walk, index) = (learner.run.walk(), learner.run.open().unwrap());
    let well = of("receiver-pin", None);
    let sees = |drill: &Drill, from| drill.sees(walk, index, from).unwrap();
    let drill = learner.run.drill();
    assert_eq!(sees(drill, Vantage::Left), sees(&well, Vantage::Left));
    assert_ne!(sees(drill, Vantage::Right), sees(&well, Vantage::Right));
    assert!(!drill.is_known(walk, index, &[Vantage::Left, Vantage::Above]));
    assert!(drill.is_known(walk, index, &[Vantage::Left, Vantage::Right]));
}

#[test]
fn an_answer_without_a_look_from_where_it_shows_is_scored_as_left_out() {
    let mut learner = open_at(of("receiver-pin", None), Stage::Solo, "receiver-pin");
    learner.does(&Doing::Look(Vantage::Left));
    let state = "held".to_owned();
    learner.does(&Doing::Walk(Act::See { state }));
    let left_out: Vec<&str> = learner
        .run
        .score()
        .omissions()
        .map(|step| step.step.as_str())
        .collect();
    assert_eq!(left_out, ["receiver-pin"]);
    assert_eq!(learner.run.score().missed().count(), 0);
}

#[test]
fn a_reading_is_called_before_it_is_typed() {
    let learner = open_at(of("receiver-pin", None), Stage::Solo, "ball-size");
    let read = Doing::Walk(Act::Read {
        typed: "2.31 in".to_owned(),
        instrument: "caliper".to_owned(),
    });
    assert_eq!(refused(&learner.run, &read), NotInDrill::CallFirst);
    let mut learner = learner;
    learner.does(&Doing::Call(Verdict::Ok));
    learner.does(&read);
}

#[test]
fn a_wrong_answer_is_met_at_once_where_hints_are_and_only_after_the_run_in_solo() {
    let pin = StepKey::named("receiver-pin");
    let slips = |stage| {
        let mut learner = open_at(of("receiver-pin", Some(0)), stage, "receiver-pin");
        learner.does(&Doing::Look(Vantage::Left));
        let state = "held".to_owned();
        learner.does(&Doing::Walk(Act::See { state }));
        learner.run
    };
    assert_eq!(slips(Stage::Solo).told_at_once(&pin), None);
    let told = slips(Stage::Guided).told_at_once(&pin).unwrap();
    insta::assert_snapshot!(told.join("\n"));
    // The chance to try again: the answer is taken back by the walk's own act.
    let mut run = slips(Stage::Guided);
    let at: Moment = super::bench::moment(9_000_000);
    let (step, words) = (
        StepKey::named("receiver-pin"),
        "looked from one side only".to_owned(),
    );
    let did = run
        .decide(&Doing::Walk(Act::Correct { step, words }), &at)
        .unwrap();
    run.apply(&Line { at, did });
    assert!(
        matches!(run.walk().now(), Now::Next(_)),
        "{:?}",
        run.walk().now()
    );
}

/// Puts the instrument to the open step, and what it showed as a reading still to be typed.
fn measures(learner: &mut Learner) -> Doing {
    let index = learner.run.open().unwrap();
    let Some(Doing::Use(instrument)) = learner.run.worked().map(|worked| worked.doing) else {
        panic!("{:?}", learner.run.worked());
    };
    learner.does(&Doing::Use(instrument.clone()));
    let typed = learner.run.showed(index).unwrap().to_string();
    Doing::Walk(Act::Read { typed, instrument })
}

#[test]
fn a_wrong_call_of_a_right_reading_is_told_as_that_and_nothing_is_to_be_taken_back() {
    let drill = of("lift", Some(0));
    let step = drill.fault().unwrap().call.step.clone();
    let mut learner = open_at(drill, Stage::Guided, step.as_str());
    let reads = measures(&mut learner);
    learner.does(&Doing::Call(Verdict::Ok));
    learner.does(&reads);
    assert!(matches!(learner.run.walk().now(), Now::Branch(_)));
    let told = learner.run.told_at_once(&step).unwrap().join(" ");
    assert!(told.contains("called ok. What the"), "{told}");
    assert!(!told.contains("back"), "{told}");
    assert!(!learner.run.may_take_back(&step));
}

#[test]
fn what_was_seen_before_something_was_put_right_does_not_hold_for_what_is_there_now() {
    let pin = StepKey::named("receiver-pin");
    let mut learner = open_at(of("receiver-pin", Some(0)), Stage::Solo, "receiver-pin");
    learner.does(&Doing::Look(Vantage::Right));
    let (state, words) = ("no-clip".to_owned(), "a clip put in".to_owned());
    learner.does(&Doing::Walk(Act::See { state }));
    assert_eq!(learner.run.looked(&pin), [Vantage::Right]);
    learner.does(&Doing::Walk(Act::PutRight { words }));
    assert_eq!(learner.run.looked(&pin), []);
    // Whoever knows the work looks again.
    learner.does(&Doing::Walk(Act::Open));
    let next = learner.run.worked().map(|worked| worked.doing);
    assert!(matches!(next, Some(Doing::Look(_))), "{next:?}");
}

#[test]
fn the_debrief_of_a_missed_fault_says_what_was_there_and_what_would_have_happened() {
    let slip = scenarios()
        .iter()
        .find(|one| one.id == "receiver-pin")
        .unwrap()
        .faults[0]
        .slip
        .clone();
    let run = Learner::new(of("receiver-pin", Some(0)), Stage::Solo, Some(slip)).plays();
    insta::assert_snapshot!(run.debrief().join("\n"));
}

#[test]
fn whoever_says_that_it_cannot_be_seen_hears_nothing_of_the_step_before() {
    // The second person is answered without a look, and so told; the pin then cannot be seen.
    let mut learner = Learner::new(of("receiver-pin", Some(0)), Stage::Guided, None);
    learner.goes_on();
    let state = "here".to_owned();
    learner.does(&Doing::Walk(Act::See { state }));
    let (company, pin) = (StepKey::named("company"), StepKey::named("receiver-pin"));
    assert!(learner.run.told_at_once(&company).is_some());
    while learner.run.open().is_none() {
        learner.goes_on();
    }
    let state = "cannot-see".to_owned();
    learner.does(&Doing::Walk(Act::See { state }));
    assert_eq!(learner.run.told_at_once(&pin), None);
}

#[test]
fn an_instrument_shows_nothing_beyond_its_scale() {
    // A gauge to 60 psi at a tire of 65 stands at its last mark, whatever its own error.
    let low = scenarios()
        .iter()
        .find(|one| one.sections == ["wheels"] && one.list == "hitch-bumper");
    let learner = open_at(
        drill(low.unwrap(), None, 1),
        Stage::Solo,
        "tire-cold/left-front",
    );
    let (walk, index) = (learner.run.walk(), learner.run.open().unwrap());
    let gauge = walk.plan().rig().instrument("gauge-60").unwrap();
    for time in 0..50 {
        let shown = learner.run.drill().shows(walk, index, gauge, time).unwrap();
        assert_eq!(shown.to_string(), "60 psi");
    }
}

#[test]
fn whoever_is_away_and_stops_for_something_is_asked_too_where_the_work_goes_on() {
    let drill = of("pin-and-barrow", None);
    let mut learner = open_at(drill, Stage::Solo, "receiver-pin");
    assert!(learner.run.calls().is_some());
    let words = || "the barrow rolled against the jack".to_owned();
    for act in [
        Act::Hold {
            why: String::new(),
            next: String::new(),
        },
        Act::Unsure { words: words() },
        Act::Settle { words: words() },
    ] {
        assert_eq!(learner.run.may_return_to(), []);
        learner.does(&Doing::Walk(act));
    }
    let look = Doing::Look(Vantage::Left);
    assert_eq!(refused(&learner.run, &look), NotInDrill::SayWhere);
    let back = StepKey::named("receiver-pin");
    assert!(learner.run.may_return_to().contains(&back));
    learner.does(&Doing::Return(back));
    assert_eq!(learner.run.score().resumed, Some(true));
}

/// Answers the pin as it stands: without its clip; then says that it was put in, and opens the step
/// again.
fn puts_the_clip_in(learner: &mut Learner) {
    learner.does(&Doing::Look(Vantage::Right));
    let (state, words) = ("no-clip".to_owned(), "a clip put in".to_owned());
    learner.does(&Doing::Walk(Act::See { state }));
    learner.does(&Doing::Walk(Act::PutRight { words }));
    learner.does(&Doing::Walk(Act::Open));
}

fn sees(learner: &mut Learner, state: &str) {
    let state = state.to_owned();
    learner.does(&Doing::Walk(Act::See { state }));
}

#[test]
fn who_answers_after_a_repair_without_another_look_hears_so_and_it_counts_as_left_out() {
    let pin = StepKey::named("receiver-pin");
    for (stage, looks) in [
        (Stage::Guided, false),
        (Stage::Guided, true),
        (Stage::Solo, false),
    ] {
        let mut learner = open_at(of("receiver-pin", Some(0)), stage, "receiver-pin");
        puts_the_clip_in(&mut learner);
        if looks {
            learner.does(&Doing::Look(Vantage::Right));
        }
        sees(&mut learner, "held");
        let told = learner.run.told_at_once(&pin).unwrap_or_default().join(" ");
        assert_eq!(
            told.contains("Receiver pin: answered after the repair without another look"),
            stage == Stage::Guided && !looks,
            "{told}"
        );
        let run = &learner.run;
        assert_eq!(run.score().again.len(), usize::from(!looks));
        assert_eq!(run.score().is_clean(), looks);
        let debrief = run.debrief().join(" ");
        assert_eq!(
            debrief.contains("without another look"),
            !looks,
            "{debrief}"
        );
    }
}

#[test]
fn whoever_cannot_see_a_fault_has_repaired_nothing_and_their_next_answer_is_the_one_that_counts() {
    let pin = StepKey::named("receiver-pin");
    let mut learner = open_at(of("receiver-pin", Some(0)), Stage::Guided, "receiver-pin");
    sees(&mut learner, "cannot-see");
    learner.does(&Doing::Walk(Act::PutRight {
        words: "fetched a light".to_owned(),
    }));
    learner.does(&Doing::Walk(Act::Open));
    let index = learner.run.open().unwrap();
    let state = &learner.run.walk().steps()[index].answers;
    assert_eq!(state.last().unwrap().round, Round::First);
    learner.does(&Doing::Look(Vantage::Right));
    let seen = learner
        .run
        .drill()
        .sees(learner.run.walk(), index, Vantage::Right);
    assert!(
        seen.unwrap().contains("its hole is empty"),
        "the fault is still there"
    );
    sees(&mut learner, "held");
    assert_eq!(learner.run.score().missed().count(), 1);
    let told = learner.run.told_at_once(&pin).unwrap().join(" ");
    assert!(told.contains("that is not what is there"), "{told}");
}

#[test]
fn a_call_can_be_changed_until_the_reading_is_typed_and_the_wrong_one_is_named_at_the_end() {
    for (calls, caught) in [
        ([Verdict::Ok, Verdict::Stop], true),
        ([Verdict::Stop, Verdict::Ok], false),
    ] {
        let drill = of("lift", Some(0));
        let step = drill.fault().unwrap().call.step.clone();
        let mut learner = open_at(drill, Stage::Solo, step.as_str());
        let reads = measures(&mut learner);
        for call in calls {
            learner.does(&Doing::Call(call));
        }
        learner.does(&reads);
        assert_eq!(learner.run.score().caught().count(), usize::from(caught));
        let debrief = learner.run.debrief().join(" ");
        assert_eq!(debrief.contains("; you called it ok"), !caught, "{debrief}");
    }
}

#[test]
fn whoever_comes_back_to_the_wrong_step_hears_so_at_once_where_hints_are() {
    for (stage, told_now) in [(Stage::Guided, true), (Stage::Solo, false)] {
        for (at, told) in [(1, "went on at the right step"), (2, "one step too far")] {
            let mut learner = open_at(of("pin-and-barrow", None), stage, "receiver-pin");
            let hold = Act::Hold {
                why: String::new(),
                next: String::new(),
            };
            learner.does(&Doing::Walk(hold));
            learner.does(&Doing::Walk(Act::Resume));
            let to = learner.run.may_return_to()[at].clone();
            let at = super::bench::moment(9_000_000);
            let did = learner.run.decide(&Doing::Return(to), &at).unwrap();
            let said = learner.run.told(&Line { at, did });
            assert_eq!(said.is_some_and(|said| said.contains(told)), told_now);
        }
    }
}
