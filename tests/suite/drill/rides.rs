//! Check rides: what is hidden in them, and when they are passed.

use super::bench::{drill_list, rig, scenario_files, scenarios, sights};
use crate::drill::bench::moment;
use hames::drill::{
    Doing, Grading, LEAST_HIDDEN, Line, NoRide, Ride, Run, Stage, There, is_ridden, ride,
};
use hames::rules::Verdict;
use hames::units::Unit;
use hames::walk::{Act, Now, Round, Status, Words};
use std::collections::BTreeSet;
use std::sync::{Arc, LazyLock};

/// More acts than any list has.
const MOST: u64 = 2000;

fn made(list: &str, on: &str, seed: u64) -> Result<Ride, NoRide> {
    static FILES: LazyLock<Vec<String>> = LazyLock::new(scenario_files);
    let files: Vec<&str> = FILES.iter().map(String::as_str).collect();
    ride(list, (on, rig(on)), (&files, scenarios()), (sights(), seed))
}

fn begun(list: &str, on: &str, seed: u64) -> Run {
    let ride = made(list, on, seed).unwrap_or_else(|why| panic!("{list} {on}: {why:?}"));
    let who = Words::read("Wren Ashdown").unwrap();
    Run::begin(Arc::new(ride.drill), Stage::CheckRide, &who, moment(0))
}

/// Plays it rightly; where `slips` says so, what is wrong is taken for well.
fn played(mut run: Run, slips: bool) -> Run {
    for act in 1..MOST {
        let Some(worked) = run.worked() else {
            return run;
        };
        let mut doing = worked.doing;
        if let Doing::Walk(Act::See { state }) = &mut doing
            && let Now::Open(index) = run.walk().now()
            && slips
        {
            let planned = run.walk().plan().steps()[index].clone();
            if let hames::checklist::PlannedAsk::Sighting(ask) = &planned.ask {
                let well = ask.states.iter().find(|one| one.verdict == Verdict::Ok);
                state.clone_from(&well.unwrap().id);
            }
        }
        let at = moment(act * 20_000);
        let did = run
            .decide(&doing, &at)
            .unwrap_or_else(|not| panic!("{doing:?}: {not}"));
        run.apply(&Line { at, did });
    }
    let walk = run.walk();
    panic!("no end: {:?} {:?}", walk.now(), run.worked());
}

/// The lists and rigs of which scenarios know enough.
fn ridden() -> BTreeSet<(String, String)> {
    let all = scenarios()
        .iter()
        .map(|one| (one.list.clone(), one.rig.clone()));
    let all: BTreeSet<_> = all.collect();
    let enough = |(list, on): &(String, String)| made(list, on, 1).is_ok();
    all.into_iter().filter(enough).collect()
}

#[test]
fn a_check_ride_is_the_whole_list_with_at_least_two_faults_at_critical_steps() {
    let ridden = ridden();
    for must in [("hitch-bumper", "juniper"), ("hitch-gooseneck", "mesquite")] {
        let must = (must.0.to_owned(), must.1.to_owned());
        assert!(ridden.contains(&must), "{must:?}: {ridden:?}");
    }
    for (list, on) in &ridden {
        for seed in 0..3 {
            let run = begun(list, on, seed);
            let whole = drill_list(list).checklist.sections.len();
            assert_eq!(run.walk().plan().sections().len(), whole);
            let hidden: Vec<_> = run.drill().faults().collect();
            assert!(hidden.len() >= LEAST_HIDDEN, "{list} {seed}");
            for fault in hidden {
                let plan = run.walk().plan();
                let planned = &plan.steps()[plan.index(&fault.call.step).unwrap()];
                assert!(planned.step.critical && fault.call.verdict >= Verdict::Fix);
            }
        }
    }
}

#[test]
fn a_check_ride_is_offered_where_the_dice_can_put_one_together_and_nowhere_else() {
    let all = scenarios().iter().map(|one| (&*one.list, &*one.rig));
    let all: BTreeSet<_> = all.collect();
    let offered = |(list, on): &(&str, &str)| is_ridden(list, (on, rig(on)), scenarios());
    let (offered, others): (Vec<_>, Vec<_>) = all.into_iter().partition(offered);
    assert!(
        offered.len() > 2 && !others.is_empty(),
        "{offered:?} {others:?}"
    );
    for (list, on) in offered {
        for seed in 0..4 {
            assert!(made(list, on, seed).is_ok(), "{list} {on} {seed}");
        }
    }
    for (list, on) in others {
        assert!(made(list, on, 1).is_err(), "{list} {on}");
    }
}

#[test]
fn whoever_looks_and_measures_passes_and_whoever_takes_all_for_well_does_not() {
    for (list, on) in ridden() {
        for seed in 0..2 {
            let run = played(begun(&list, &on, seed), false);
            let faults: Vec<&str> = run.drill().faults().map(|one| one.id.as_str()).collect();
            assert_eq!(
                run.is_passed(),
                Some(true),
                "{list} {seed} {faults:?} {:?}",
                run.debrief()
            );
            let caught = run.score().caught().count();
            assert!(caught >= faults.len(), "{list} {seed} {faults:?}: {caught}");
        }
    }
    let slipped = (0..6).map(|seed| played(begun("hitch-bumper", "juniper", seed), true));
    let failed = slipped.filter(|run| run.is_passed() == Some(false)).count();
    assert!(failed >= 5, "{failed} of 6");
}

#[test]
fn the_same_seed_hides_the_same_and_another_something_else() {
    let hidden = |seed| {
        let ride = made("hitch-bumper", "juniper", seed).unwrap();
        ride.scenario
    };
    assert_eq!(hidden(3), hidden(3));
    let all: BTreeSet<String> = (0..20).map(hidden).collect();
    assert!(all.len() > 12, "{}", all.len());
}

#[test]
fn nothing_of_a_check_ride_is_told_before_it_has_ended() {
    let run = begun("hitch-bumper", "juniper", 3);
    assert!(!run.stage().tells_at_once() && !run.stage().tells_before_signing());
    for planned in run.walk().plan().steps() {
        assert!(!run.gives_hint(&planned.key));
    }
    assert_eq!(run.is_passed(), Some(false));
}

#[test]
fn of_a_list_the_scenarios_know_too_little_of_there_is_no_check_ride() {
    assert!(matches!(
        made("hitch-bumper", "mesquite", 1),
        Err(NoRide::TooFew | NoRide::Unplayable(_))
    ));
    assert!(matches!(
        made("no-such-list", "juniper", 1),
        Err(NoRide::NoList)
    ));
}

#[test]
fn a_ride_in_which_nothing_is_hidden_is_never_passed() {
    let plain = scenarios().iter().find(|one| one.id == "receiver-pin");
    let drill = super::bench::drill(plain.unwrap(), None, 1);
    let who = Words::read("Wren Ashdown").unwrap();
    let run = Run::begin(Arc::new(drill), Stage::CheckRide, &who, moment(0));
    let run = played(run, false);
    assert!(run.score().is_clean());
    assert_eq!(run.is_passed(), Some(false));
}

/// Plays it rightly, but for what was put right: that is answered without another look.
fn played_without_looking_again(mut run: Run) -> Run {
    for act in 1..MOST {
        let Some(worked) = run.worked() else {
            return run;
        };
        let mut doing = worked.doing;
        if let Now::Open(index) = run.walk().now()
            && matches!(
                run.walk().steps()[index].status,
                Status::Open(Round::PutRight)
            )
            && matches!(doing, Doing::Look(_))
            && let Some(There::State(state)) = run.drill().there(run.walk(), index)
        {
            doing = Doing::Walk(Act::See { state });
        }
        let at = moment(act * 20_000);
        let did = run.decide(&doing, &at).unwrap();
        run.apply(&Line { at, did });
    }
    panic!("no end");
}

#[test]
fn who_does_not_look_again_at_what_was_put_right_passes_by_the_older_rules_alone() {
    let ride = |older: bool| {
        let ride = made("hitch-bumper", "juniper", 1).unwrap();
        let mut drill = ride.drill;
        if older {
            Arc::make_mut(&mut drill.scenario).graded = Grading::FirstAnswer;
        }
        let who = Words::read("Wren Ashdown").unwrap();
        let run = Run::begin(Arc::new(drill), Stage::CheckRide, &who, moment(0));
        played_without_looking_again(run)
    };
    let (newest, older) = (ride(false), ride(true));
    assert!(newest.score().again.iter().any(|one| one.critical));
    assert_eq!(newest.is_passed(), Some(false));
    assert!(older.score().again.is_empty());
    assert_eq!(older.is_passed(), Some(true));
    assert_ne!(newest.grading().pass_rule(), older.grading().pass_rule());
}

#[test]
fn what_no_formula_gives_at_an_unhitching_reads_what_a_rig_that_is_well_shows() {
    let run = begun("unhitch", "juniper", 1);
    let plan = run.walk().plan();
    for (step, number, unit) in [
        ("ball-gap", "4 in", Unit::Inch),
        ("battery-parked", "12.7 V", Unit::Volt),
    ] {
        let planned = plan.steps().iter().find(|one| one.step.id == step).unwrap();
        let There::Value(value) = run.drill().there_at_first(planned) else {
            panic!("{step} is read");
        };
        assert_eq!((value.to_string().as_str(), value.unit), (number, unit));
    }
}
