//! Sights, held to the steps they are of.

use crate::checklist::{Ask, SightingAsk, Together};
use crate::document::nearest;
use crate::drill::check::names::{no_such, twice};
use crate::drill::check::{Known, Remark, Rule};
use crate::drill::{Sight, Sights, Vantage};
use std::collections::HashSet;

pub(super) fn remarks(sights: &Sights, known: &Known) -> Vec<Remark> {
    let steps: Vec<(&str, Option<&SightingAsk>)> = known.lists().flat_map(asks).collect();
    let mut remarks = Vec::new();
    let mut seen = HashSet::new();
    for (at, sight) in sights.steps().enumerate() {
        let key = |key: &str| format!("sights[{at}].{key}");
        if !seen.insert(sight.step.as_str()) {
            let what = format!("`{}` is told of twice", sight.step);
            remarks.push(twice(key("step"), what));
        }
        let own = steps.iter().filter(|(step, _)| *step == sight.step);
        let own: Vec<Option<&SightingAsk>> = own.map(|(_, ask)| *ask).collect();
        if own.is_empty() {
            let looked_at = steps.iter().filter(|(_, ask)| ask.is_some());
            let looked_at: Vec<&str> = looked_at.map(|(step, _)| *step).collect();
            remarks.push(no_such_step(key("step"), &sight.step, &looked_at));
        } else if own.iter().all(Option::is_none) {
            let what = format!("`{}` is measured and has no states", sight.step);
            let fix = "take it away; what is measured is reckoned or said by a scenario";
            remarks.push(Remark::new(Rule::OtherAsk, key("step"), what, fix));
        }
        // Lists may ask one step otherwise; each has to be told.
        for ask in own.into_iter().flatten() {
            remarks.extend(of_step(sight, ask, &key));
        }
    }
    remarks
}

fn asks(list: &Together) -> impl Iterator<Item = (&str, Option<&SightingAsk>)> {
    list.checklist.steps().map(|step| {
        let ask = match &step.ask {
            Ask::Sighting(ask) | Ask::Independent(ask) => Some(ask),
            Ask::Reading(_) => None,
        };
        (step.id.as_str(), ask)
    })
}

fn no_such_step(path: String, step: &str, known: &[&str]) -> Remark {
    let what = format!("no list has a step `{step}`");
    let fix = match nearest(step, known.iter().copied()) {
        Some(meant) => format!("did you mean `{meant}`?"),
        None => "name a step that asks what is seen".to_owned(),
    };
    Remark::new(Rule::NoSuchName, path, what, fix)
}

fn of_step(sight: &Sight, ask: &SightingAsk, key: &dyn Fn(&str) -> String) -> Vec<Remark> {
    let states = ask.states.iter().filter(|state| !state.cannot_see);
    let states: Vec<&str> = states.map(|state| state.id.as_str()).collect();
    let mut remarks = Vec::new();
    for (path, state) in sight.named() {
        if !states.contains(&state) {
            let what = format!("`{}` has no state `{state}` that is seen", sight.step);
            remarks.push(no_such(key(&path), what, &states));
        }
    }
    let places: Vec<Vantage> = sight.places().collect();
    for (at, from) in places.iter().enumerate() {
        let untold = states
            .iter()
            .filter(|state| sight.sees(*from, state).is_none());
        let untold: Vec<&str> = untold.copied().collect();
        if !untold.is_empty() {
            let what = format!(
                "{} it is not said what is seen in {}",
                from.label(),
                untold.join(", ")
            );
            let fix = "say it, also where it looks like another state from there";
            remarks.push(Remark::new(
                Rule::Untold,
                key(&format!("looks[{at}].sees")),
                what,
                fix,
            ));
        }
    }
    if remarks.is_empty() {
        let alike = states
            .iter()
            .filter(|state| !sight.is_known(state, &places));
        let alike: Vec<&str> = alike.copied().collect();
        if !alike.is_empty() {
            let what = format!(
                "nothing tells these apart from any place: {}",
                alike.join(", ")
            );
            let fix = "let them look different from some place, or to the hand";
            remarks.push(Remark::new(Rule::LooksAlike, key("looks"), what, fix));
        }
    }
    remarks
}
