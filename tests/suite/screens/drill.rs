//! Drills on the screens: from the room by keys to how it went.

pub(crate) mod desk;
mod drawn;
mod room;
pub(crate) mod stations;
mod told;

use crate::screens::bench::{Bench, LOOK};
use desk::{DrillDesk, seed_of};
use hames::checklist::{PlannedAsk, StepKey};
use hames::desk::WhichDrill;
use hames::drill::{Stage, There};
use hames::rules::{Outcome, Verdict, judge};
use hames::tui::Context;
use hames::units::Typed;
use hames::walk::{Ended, Now};

/// The room of a barn in which two learn.
pub(crate) fn room() -> Bench {
    Bench::drilling(DrillDesk::of_a_barn())
}

/// The same, where two critical steps changed since the check ride of the first.
pub(crate) fn changed() -> Bench {
    Bench::drilling(DrillDesk::of_changed_lists())
}

/// The room where nothing is recorded.
pub(crate) fn unrecorded() -> Bench {
    Bench::drilling(DrillDesk::unrecorded())
}

/// A drill of this scenario with this fault, or none, found by its title and begun.
pub(crate) fn drill(scenario: &str, fault: Option<&str>, stage: Stage) -> Bench {
    played(DrillDesk::unrecorded(), "", scenario, fault, stage)
}

/// The same, recorded.
pub(crate) fn kept(scenario: &str, fault: Option<&str>, stage: Stage) -> Bench {
    played(DrillDesk::of_a_barn(), "1", scenario, fault, stage)
}

fn played(
    mut desk: DrillDesk,
    who: &str,
    scenario: &str,
    fault: Option<&str>,
    stage: Stage,
) -> Bench {
    (desk.seed, desk.stage) = (seed_of(scenario, fault), stage);
    desk.room.scenarios.retain(|card| card.id == scenario);
    let bench = Bench::drilling(desk).play(who);
    let titles = bench.line("By its title");
    bench.play(&titles).play("↓⏎")
}

impl Bench {
    /// Plays on until this step is open, answering what comes before it as it truly is.
    pub(crate) fn drilled_to(self, step: &str) -> Self {
        let mut bench = self;
        for _ in 0..200 {
            let walk = bench.walk();
            let open = match walk.now() {
                Now::Open(index) => Some(index),
                _ => None,
            };
            if open == walk.plan().index(&StepKey::named(step)) && open.is_some() {
                return bench;
            }
            bench = bench.drills_on();
        }
        panic!("never came to {step}:\n{}", bench.text(80, 24));
    }

    /// Plays on to where every section is complete.
    pub(crate) fn drilled_through(self) -> Self {
        let mut bench = self;
        for _ in 0..300 {
            if bench.model.context() == Context::Debrief {
                return bench;
            }
            bench = bench.drills_on();
        }
        panic!("never came to the end:\n{}", bench.text(80, 24));
    }

    /// One thing more, as who looks everywhere and answers what is there.
    fn drills_on(self) -> Self {
        let keys = match self.model.context() {
            Context::Next | Context::Outcome => "⏎".to_owned(),
            Context::SectionEnd => "c".to_owned(),
            Context::Looking => self.looks_and_answers(),
            Context::Instrument => "a".to_owned(),
            Context::Measuring if !self.text(80, 40).contains("put it there again") => {
                "m".to_owned()
            }
            Context::Measuring => self.called().to_string(),
            Context::Reading => format!("{}⏎", self.showed()),
            Context::Second => "oOdile Marsh⏎".to_owned(),
            Context::Branch => "rdone⏎".to_owned(),
            Context::Remark => "closed by friday⏎".to_owned(),
            Context::CalledAway => "⇥⏎".to_owned(),
            Context::Returning => "b".to_owned(),
            other => panic!("{other:?}:\n{}", self.text(80, 24)),
        };
        self.play(&keys)
    }

    fn looks_and_answers(&self) -> String {
        let desk = self.drills.as_ref().unwrap();
        let run = desk.run.as_ref().unwrap();
        let index = run.open().unwrap();
        let planned = &run.walk().plan().steps()[index];
        let looks = ('a'..).take(run.drill().vantages(planned).len());
        let There::State(there) = run.drill().there(run.walk(), index).unwrap() else {
            panic!("{} is read", planned.key);
        };
        let (PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask)) = &planned.ask else {
            panic!("{} is read", planned.key);
        };
        let state = ask.states.iter().position(|one| one.id == there).unwrap();
        looks.collect::<String>() + &(state + 1).to_string()
    }

    /// What the instrument showed last.
    fn showed(&self) -> String {
        let run = self.drills.as_ref().unwrap().run.as_ref().unwrap();
        run.showed(run.open().unwrap()).unwrap().to_string()
    }

    /// The key of the right call of what the instrument showed last.
    fn called(&self) -> usize {
        let run = self.drills.as_ref().unwrap().run.as_ref().unwrap();
        let walk = run.walk();
        let index = run.open().unwrap();
        let asked = walk.asked(index).unwrap();
        let PlannedAsk::Reading { ask, limits, .. } = &asked.ask else {
            panic!("{} is seen", asked.key);
        };
        let read = Typed::read(&self.showed(), ask.dimension).unwrap();
        let tools = asked.tools(walk.plan().rig());
        let tool = tools.first().map(|tool| tool.instrument);
        match judge(read.quantity(), tool, limits).outcome {
            Outcome::Judged(verdict) => {
                let mut known = Verdict::WORDS.iter();
                known.position(|(_, own)| *own == verdict).unwrap() + 1
            }
            Outcome::Again => 1,
        }
    }

    /// Chooses the line of the drill room with these words.
    pub(crate) fn chooses(self, words: &str) -> Self {
        let key = self.line(words);
        self.play(&key)
    }

    /// The key of the line of the drill room with these words.
    pub(crate) fn line(&self, words: &str) -> String {
        let shown = self.text(120, 60);
        let line = shown.lines().find(|line| line.contains(words));
        let line = line.unwrap_or_else(|| panic!("no line {words}:\n{shown}"));
        let key = line.trim_start_matches('>').split_whitespace().next();
        key.unwrap().to_string()
    }
}

#[test]
fn a_fault_is_caught_by_looking_from_where_it_shows() {
    let bench = drill("receiver-pin", Some("no-clip"), Stage::Guided).drilled_to("receiver-pin");
    let shown = bench.text(80, 24);
    assert!(!shown.contains("its hole is empty"), "{shown}");
    let bench = bench.play("b");
    let shown = bench.text(80, 24);
    assert!(shown.contains("its hole is empty"), "{shown}");
    let bench = bench.play("1rclip put in⏎").drilled_through();
    let shown = bench.text(80, 24);
    assert!(
        shown.contains("There was a fault, and it was caught."),
        "{shown}"
    );
    let bench = bench.play("f");
    assert_eq!(bench.walk().ended(), Some(Ended::Complete));
    let shown = bench.text(80, 24);
    assert!(
        shown.contains("Nothing of this drill was recorded."),
        "{shown}"
    );
}

#[test]
fn with_hints_a_missed_fault_is_met_at_once_and_what_is_there_is_for_the_second_look() {
    let bench = drill("receiver-pin", Some("no-clip"), Stage::Guided).drilled_to("receiver-pin");
    let shown = bench.text(80, 24);
    assert!(
        shown.contains("It shows from one place: from the right side (b)."),
        "{shown}"
    );
    let bench = bench.play("a3");
    let shown = bench.text(80, 24);
    assert!(shown.contains("that is not what is there"), "{shown}");
    assert!(!shown.contains("hole is empty"), "{shown}");
    // Taken back, the step is looked at afresh.
    let bench = bench.play("t⏎seen from one side only⏎⏎");
    assert_eq!(bench.model.context(), Context::Looking);
    let shown = bench.text(80, 24);
    assert!(!shown.contains("The bent end of a pin"), "{shown}");
    let bench = bench.play("b1");
    assert_eq!(bench.model.context(), Context::Branch);
}

#[test]
fn after_the_run_with_hints_it_is_told_what_was_there() {
    let bench = drill("receiver-pin", Some("no-clip"), Stage::Guided).drilled_to("receiver-pin");
    let shown = bench.play("a3").drilled_through().text(80, 40);
    assert!(shown.contains("no clip on the far side."), "{shown}");
    assert!(!shown.contains("look again"), "{shown}");
}

#[test]
fn alone_nothing_is_told_until_the_run_is_through() {
    let bench = drill("receiver-pin", Some("no-clip"), Stage::Solo).drilled_to("receiver-pin");
    let shown = bench.text(80, 24);
    assert!(!shown.contains("It shows from"), "{shown}");
    let bench = bench.play("a3");
    let shown = bench.text(80, 24);
    assert!(!shown.contains("not what is there"), "{shown}");
    let bench = bench.drilled_through();
    let shown = bench.text(80, 40);
    assert!(shown.contains("What would have happened"), "{shown}");
}

#[test]
fn an_examination_is_told_only_once_it_has_ended() {
    let bench = drill("receiver-pin", Some("no-clip"), Stage::CheckRide).drilled_to("receiver-pin");
    let bench = bench.play("a3").drilled_through();
    let shown = bench.text(80, 40);
    assert!(!shown.contains("What would have happened"), "{shown}");
    let shown = bench.play("f").text(80, 40);
    assert!(shown.contains("What would have happened"), "{shown}");
}

#[test]
fn a_reading_is_called_before_it_is_typed_and_no_field_is_there_until_then() {
    let bench = drill("nose-high", Some("ball-high"), Stage::Guided).drilled_to("rear-mark");
    assert_eq!(bench.model.context(), Context::Measuring);
    let shown = bench.text(80, 24);
    assert!(!shown.contains("Reading:"), "{shown}");
    let bench = bench.play("⏎");
    assert_eq!(bench.model.context(), Context::Measuring);
    let bench = bench.play("m2");
    assert_eq!(
        (bench.model.context(), bench.model.typed()),
        (Context::Reading, "")
    );
    let shown = bench.text(80, 24);
    assert!(shown.contains("You call it note."), "{shown}");
    // Nothing typed is lost on the way back to the instrument.
    let bench = bench.play("18⎋");
    assert_eq!(bench.model.context(), Context::Measuring);
    assert_eq!(bench.play("2").model.typed(), "18");
}

#[test]
fn called_away_the_walk_is_held_first_and_the_screen_does_not_say_where_it_stood() {
    let bench = drill("pin-and-barrow", None, Stage::Solo).drilled_to("receiver-pin");
    assert_eq!(bench.model.context(), Context::CalledAway);
    let bench = bench.play("1");
    assert_eq!(bench.model.context(), Context::CalledAway);
    let bench = bench.play("⇥");
    for (columns, rows) in [(40, 12), (80, 24), (120, 40)] {
        let shown = bench.text(columns, rows);
        assert!(!shown.contains("Receiver pin"), "{shown}");
    }
    let bench = bench.play("⏎");
    assert_eq!(bench.model.context(), Context::Returning);
    let shown = bench.text(120, 40);
    assert_eq!(shown.matches("Receiver pin").count(), 1, "{shown}");
    let right = bench.clone_with(LOOK).play("b");
    let right = right.drilled_through().text(80, 40);
    assert!(right.contains("went on at the right step"), "{right}");
    let wrong = bench.play("c").drilled_through().text(80, 40);
    assert!(wrong.contains("one step too far"), "{wrong}");
}

#[test]
fn whoever_is_away_and_stops_for_something_is_asked_where_the_work_goes_on_once_it_is_settled() {
    let bench = drill("pin-and-barrow", None, Stage::Solo).drilled_to("receiver-pin");
    let bench = bench.play("⇥]");
    assert_eq!(bench.model.context(), Context::Unsure);
    let bench = bench.play("sthe barrow rolled against the jack⏎");
    assert_eq!(bench.model.context(), Context::Returning);
    let right = bench.play("b").drilled_through().text(80, 40);
    assert!(right.contains("went on at the right step"), "{right}");
}

#[test]
fn what_the_program_says_wrongly_is_told_to_be_planted_after_the_step() {
    let bench = drill("knock", None, Stage::Solo).drilled_to("receiver-pin");
    let shown = bench.text(80, 24);
    assert!(shown.contains("whose pin is missing"), "{shown}");
    let shown = bench.play("ab3").text(80, 24);
    assert!(shown.contains("That was planted."), "{shown}");
}

#[test]
fn the_three_weakest_steps_are_one_key_away_once_it_is_said_who_learns() {
    let bench = room();
    let shown = bench.text(80, 24);
    assert!(!shown.contains("weakest"), "{shown}");
    let bench = bench.play("1");
    let shown = bench.text(80, 24);
    assert!(
        shown.contains("1 Coupler seat: 2 of the last 2 wrong"),
        "{shown}"
    );
    let bench = bench.play("1");
    assert_eq!(bench.model.context(), Context::Next);
    let asked = bench.drills.as_ref().unwrap().begun.last().unwrap().clone();
    assert_eq!(asked.learner, "Ines Calder");
    let step = WhichDrill::OfStep {
        list: "hitch-bumper".to_owned(),
        step: "seat".to_owned(),
    };
    assert_eq!((asked.which, asked.stage, asked.seed), (step, None, None));
}

#[test]
fn the_same_again_is_the_same_scenario_and_seed() {
    let bench = drill("receiver-pin", Some("no-clip"), Stage::Solo).drilled_to("receiver-pin");
    let bench = bench.play("a3").drilled_through().play("fa");
    assert_eq!(bench.model.context(), Context::Next);
    let asked = bench.drills.as_ref().unwrap().begun.last().unwrap().clone();
    assert_eq!(asked.which, WhichDrill::Named("receiver-pin".to_owned()));
    assert_eq!(asked.seed, Some(seed_of("receiver-pin", Some("no-clip"))));
    assert_eq!(asked.stage, Some(Stage::Solo));
}

#[test]
fn a_hint_that_has_faded_is_not_shown_and_the_others_are() {
    let bench = kept("lever", None, Stage::Faded);
    let shown = bench.clone_with(LOOK).drilled_to("seat").text(80, 40);
    assert!(is_hinted(&shown), "{shown}");
    let shown = bench.drilled_to("latch-pin").text(80, 40);
    assert!(!is_hinted(&shown), "{shown}");
}

fn is_hinted(shown: &str) -> bool {
    shown.contains("It shows from one place") || shown.contains("It takes more than one look")
}

#[test]
fn a_note_written_while_away_does_not_name_the_open_step_either() {
    let bench = drill("pin-and-barrow", None, Stage::Solo).drilled_to("receiver-pin");
    let bench = bench.play("⇥n");
    assert_eq!(bench.model.context(), Context::Words);
    let shown = bench.text(120, 40);
    assert!(!shown.contains("Receiver pin"), "{shown}");
    let shown = bench.play("⎋]").text(120, 40);
    assert!(!shown.contains("Receiver pin"), "{shown}");
}

#[test]
fn a_worked_run_is_played_by_the_program_one_key_at_a_time_and_never_by_enter() {
    let mut bench = drill("receiver-pin", Some("no-clip"), Stage::Watch);
    let before = bench.desk.journal.len();
    bench = bench.play("⏎1ab");
    assert_eq!(bench.desk.journal.len(), before);
    for _ in 0..80 {
        if bench.model.context() == Context::Watching {
            let shown = bench.text(80, 60);
            for key in ["c states it", "r when it is put right", "e ends the"] {
                assert!(!shown.contains(key), "{shown}");
            }
            bench = bench.play("d");
        }
    }
    assert_eq!(bench.model.context(), Context::DrillOver);
    let shown = bench.text(80, 40);
    assert!(
        shown.contains("There was a fault, and it was caught."),
        "{shown}"
    );
}

#[test]
fn a_check_ride_is_told_once_the_examiner_has_signed_as_well() {
    let bench = kept("receiver-pin", Some("no-clip"), Stage::CheckRide).drilled_to("receiver-pin");
    let bench = bench.play("a3").drilled_through().play("f");
    assert_eq!(bench.model.context(), Context::DrillOver);
    let shown = bench.text(80, 40);
    assert!(!shown.contains("What would have happened"), "{shown}");
    let bench = bench.play("s1demo⏎");
    assert_eq!(bench.model.context(), Context::Signer);
    assert!(
        bench
            .model
            .said()
            .unwrap()
            .contains("Tobias Fenn signs next")
    );
    let bench = bench.play("2demo⏎");
    assert_eq!(bench.model.context(), Context::Sealed);
    let shown = bench.text(80, 60);
    assert!(shown.contains("What would have happened"), "{shown}");
    assert!(shown.contains("Not passed."), "{shown}");
}

#[test]
fn a_drill_that_is_left_unrecorded_is_said_to_be_gone() {
    let bench = drill("receiver-pin", None, Stage::Guided).play("⏎⇥q");
    assert_eq!(bench.model.context(), Context::DrillRoom);
    assert_eq!(
        bench.model.said(),
        Some("The drill is left. Nothing of it was recorded.")
    );
}

#[test]
fn a_drill_taken_up_tells_first_where_it_was_left() {
    let bench = room().play("1");
    let key = bench.line("Juniper, two-horse");
    let bench = bench.play(&key);
    assert_eq!(bench.model.context(), Context::Held);
    let bench = bench.play("⏎");
    assert_eq!(bench.model.context(), Context::Next);
}

#[test]
fn a_line_for_the_next_time_is_written_once() {
    let bench = drill("receiver-pin", None, Stage::Solo).drilled_through();
    let bench = bench.play("l⏎");
    assert_eq!(bench.model.context(), Context::Words);
    let bench = bench.play("Both ends, with a light.⏎");
    assert_eq!(bench.model.context(), Context::Debrief);
    let shown = bench.text(80, 24);
    assert!(
        shown.contains("Next time: Both ends, with a light."),
        "{shown}"
    );
    let bench = bench.play("l");
    assert_eq!(bench.model.context(), Context::Debrief);
}

#[test]
fn a_drill_that_is_not_recorded_is_never_called_so() {
    let bench = drill("receiver-pin", None, Stage::Guided).play("⏎b3");
    assert!(
        bench.model.said().unwrap().starts_with("Taken "),
        "{:?}",
        bench.model.said()
    );
    let bench = kept("receiver-pin", None, Stage::Guided).play("⏎b3");
    assert!(
        bench.model.said().unwrap().starts_with("Recorded "),
        "{:?}",
        bench.model.said()
    );
}

#[test]
fn a_recorded_drill_is_signed_as_one_and_leads_back_to_the_room() {
    let bench = kept("receiver-pin", None, Stage::Guided)
        .drilled_through()
        .play("f");
    assert_eq!(bench.model.context(), Context::Signer);
    let bench = bench.play("1demo⏎");
    assert_eq!(bench.desk.sealed_by.as_deref(), Some("ines.calder"));
    let bench = bench.play("⏎");
    assert_eq!(bench.model.context(), Context::DrillRoom);
    let shown = bench.text(80, 24);
    assert!(shown.contains("Ines Calder learns"), "{shown}");
}
