//! A barn's own limits among those of a checklist: only ever stricter, and refused with the reason
//! where one would change nothing.

use hames::barn::{Policies, Settings};
use hames::checklist::{
    Plan, PlannedAsk, Shared, Together, for_no_list, held_to, no_stricter_on, put_together,
    shipped_by_default,
};
use hames::rig::{Rig, demo::JUNIPER};
use hames::rules::{Authority, Outcome, judge};
use hames::units::{Exact, Quantity};

const SMALL: &str = include_str!("../vectors/checklist-small.yaml");

fn small() -> Together {
    put_together(SMALL, Shared::shipped(), &Policies::default()).unwrap()
}

/// Settings with these limits, one a line: step, verdict, side and bound.
fn settings(lines: &str) -> Settings {
    let limit = |line: &str| {
        let words: Vec<&str> = line.trim().splitn(4, ' ').collect();
        let [step, verdict, side, bound] = words.as_slice() else {
            panic!("{line}")
        };
        format!(
            "  - {{ checklist: small, step: {step}, verdict: {verdict}, {side}: \"{bound}\", why: a kerb }}\n"
        )
    };
    let limits: String = lines.trim().lines().map(limit).collect();
    let text = format!(
        "format: hames-barn/1\nname: Aspen Yard\nunits: us\nroad-side: right\nlimits:\n{limits}"
    );
    Settings::read(&text).unwrap_or_else(|faults| panic!("{faults:?}"))
}

#[track_caller]
fn refused(line: &str, says: &str) {
    let (held, faults) = held_to(small(), &settings(line).limits);
    let told: Vec<String> = faults
        .iter()
        .map(|fault| format!("{}; {}", fault.what, fault.fix))
        .collect();
    assert_eq!(told, [says], "{line}");
    assert_eq!(faults[0].place.line, 6, "where the limit stands");
    assert_eq!(held, small(), "a refused limit leaves the list as it is");
}

#[test]
fn a_limit_that_changes_nothing_is_refused_with_whose_word_is_stricter() {
    let stricter = "this is no stricter than what the step has: stop below 1 in, by default: \
                    common practice, no source; a barn's own limit is stricter than plate, law \
                    and list; move it, or take it away";
    for line in [
        "rise stop below 1 in",
        "rise stop below 25.4 mm",
        "rise fix at-or-below 0.5 in",
        "rise note below 1 in",
    ] {
        refused(line, stricter);
    }
}

#[test]
fn a_limit_that_no_step_can_take_is_refused_with_what_to_change() {
    for (line, says) in [
        (
            "rize stop below 2 in",
            "“A small walk” has no step `rize`; did you mean rise?",
        ),
        (
            "latch stop below 2 in",
            "`latch` is looked at, and a limit is for what is measured; name a step that asks for \
             a reading",
        ),
        (
            "rise stop below 65 psi",
            "“psi” is not a unit of length; type a length such as 18 1/4 in or 46 cm",
        ),
        (
            "rise stop below 9 in",
            "9 in is outside the values this step takes for plausible, 0 in to 8 in; move the limit",
        ),
        (
            "rise fix above 6 in",
            "`rise` has no branch for a reading on this side, so a fix would lead nowhere; make \
             it a note, or write a checklist of your own with a branch for it",
        ),
    ] {
        refused(line, says);
    }
    let strays = for_no_list(
        &settings("rise stop below 2 in").limits,
        &["smell", "hitch"],
    );
    assert_eq!(
        strays[0].to_string(),
        "6:18: limits[0].checklist: there is no checklist `small`; did you mean smell?"
    );
}

/// Every limit a barn may set on the small list: equal to nothing, beside figures, either side.
const TAKEN: &str = "
    rise stop below 2 in
    rise fix below 75 mm
    rise note above 6 in
    tire fix below 70 psi
    chocks fix below 6";

#[test]
fn a_limit_that_is_taken_stands_with_the_barns_word_and_leads_where_the_lists_own_does() {
    let (held, faults) = held_to(small(), &settings(TAKEN).limits);
    assert_eq!(faults, []);
    let rise = held
        .checklist
        .steps()
        .find(|step| step.id == "rise")
        .unwrap();
    let hames::checklist::Ask::Reading(ask) = &rise.ask else {
        panic!("a rise is measured")
    };
    let added = &ask.limits[1];
    assert_eq!(added.basis.authority, Authority::Barn);
    assert_eq!(added.basis.source, "a kerb");
    assert_eq!(added.branch.as_deref(), Some("close"));
    assert_eq!(ask.limits.len(), 4);
    assert_eq!(
        put_together(&held.text, Shared::shipped(), &Policies::default()),
        Ok(held),
        "the text is the list"
    );
}

#[test]
fn no_reading_is_ever_judged_more_leniently_than_by_the_list_alone() {
    let (held, _) = held_to(small(), &settings(TAKEN).limits);
    let rig = Rig::read(JUNIPER).unwrap();
    let plans = [small(), held].map(|put| Plan::lay(put.checklist, rig.clone()).unwrap());
    for (alone, stricter) in plans[0].steps().iter().zip(plans[1].steps()) {
        let (
            PlannedAsk::Reading { ask, limits, .. },
            PlannedAsk::Reading {
                limits: with_own, ..
            },
        ) = (&alone.ask, &stricter.ask)
        else {
            continue;
        };
        let (low, high) = (&ask.plausible.0.value, &ask.plausible.1.value);
        for part in 0..=64 {
            let share = Exact::ratio(part, 64).unwrap();
            let reading = Quantity::new(low + &(&(high - low) * &share), ask.unit);
            let judged = [limits, with_own].map(|limits| judge(&reading, None, limits).outcome);
            let [Outcome::Judged(alone), Outcome::Judged(with_own)] = judged else {
                panic!("without an instrument everything can be judged")
            };
            assert!(with_own >= alone, "{reading}: {with_own:?}");
        }
    }
}

#[test]
fn the_demo_barns_own_limit_stands_in_its_list_and_nothing_is_refused() {
    let demo = Settings::read(hames::barn::DEMO).unwrap();
    let lists: Vec<Together> = shipped_by_default().cloned().collect();
    let known: Vec<&str> = lists.iter().map(|put| put.checklist.id.as_str()).collect();
    assert_eq!(for_no_list(&demo.limits, &known), []);
    for put in lists {
        let own = demo
            .limits
            .iter()
            .filter(|own| own.checklist.text == put.checklist.id);
        let more = own.count();
        let before = put.text.matches("authority: barn").count();
        let (held, faults) = held_to(put, &demo.limits);
        assert_eq!(faults, []);
        assert_eq!(held.text.matches("authority: barn").count(), before + more);
    }
}

/// What a limit looser than the rig's own figure is told, on Juniper.
fn told_on_juniper(step: &str, verdict: &str, side: &str, bound: &str) -> Vec<String> {
    let text = format!(
        "format: hames-barn/1\nname: Aspen Yard\nunits: us\nroad-side: right\nlimits:\n  \
         - {{ checklist: hitch-bumper, step: {step}, verdict: {verdict}, {side}: \"{bound}\", \
         why: a kerb }}\n"
    );
    let settings = Settings::read(&text).unwrap();
    let list = shipped_by_default().find(|put| put.checklist.id == "hitch-bumper");
    let (held, refused) = held_to(list.unwrap().clone(), &settings.limits);
    assert_eq!(refused, []);
    let plan = Plan::lay(held.checklist, Rig::read(JUNIPER).unwrap()).unwrap();
    let faults = no_stricter_on(&plan, &settings.limits);
    faults.iter().map(ToString::to_string).collect()
}

#[test]
fn a_limit_looser_than_the_plate_of_a_rig_is_refused_on_that_rig_with_whose_word_it_is() {
    let told = told_on_juniper("trailer-weight", "stop", "above", "9000 lb");
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(
        told[0].contains("with Juniper, two-horse bumper pull this is no stricter than")
            && told[0].contains("stop above 7000 lb, by plate: certification label"),
        "{told:?}"
    );
    assert_eq!(
        told_on_juniper("jack-clear", "fix", "below", "4 in").len(),
        1
    );
    assert_eq!(
        told_on_juniper("trailer-weight", "stop", "above", "6500 lb"),
        [""; 0]
    );
    assert_eq!(
        told_on_juniper("jack-clear", "fix", "below", "12 in"),
        [""; 0]
    );
}
