//! What a step asks: readings with their limits, sightings with their states.

use crate::checklist::changes::bound::{looser, written};
use crate::checklist::changes::{At, Found, Gravity, NOTHING, What};
use crate::checklist::{Ask, ReadingAsk, SightingAsk, State};
use crate::rules::Rung;

pub(super) fn asks(was: &Ask, is: &Ask, at: &At, found: &mut Found) {
    // Another person than the one who works is the closer look.
    let weight = match (by_another(was), by_another(is)) {
        (true, false) => Gravity::Looser,
        _ => Gravity::Other,
    };
    found.differ(weight, at, "what it asks", (kind(was), kind(is)));
    match (was, is) {
        (Ask::Reading(was), Ask::Reading(is)) => reading(was, is, at, found),
        (Ask::Sighting(was) | Ask::Independent(was), Ask::Sighting(is) | Ask::Independent(is)) => {
            sighting(was, is, at, found);
        }
        _ => {}
    }
}

fn kind(ask: &Ask) -> &'static str {
    match ask {
        Ask::Reading(ask) if ask.second => "second reading",
        Ask::Reading(_) => "reading",
        Ask::Sighting(_) => "sighting",
        Ask::Independent(_) => "sighting by another person",
    }
}

fn by_another(ask: &Ask) -> bool {
    match ask {
        Ask::Reading(ask) => ask.second,
        Ask::Sighting(_) => false,
        Ask::Independent(_) => true,
    }
}

fn reading(was: &ReadingAsk, is: &ReadingAsk, at: &At, found: &mut Found) {
    let measures = |ask: &ReadingAsk| {
        format!(
            "{} in {} with {}",
            ask.dimension.word(),
            ask.unit,
            ask.instrument.word()
        )
    };
    found.differ(
        Gravity::Other,
        at,
        "reading",
        (&measures(was), &measures(is)),
    );
    let target = |ask: &ReadingAsk| ask.target.as_ref().map_or(NOTHING.to_owned(), written);
    found.differ(Gravity::Other, at, "target", (&target(was), &target(is)));
    let plausible = |ask: &ReadingAsk| format!("{} to {}", ask.plausible.0, ask.plausible.1);
    found.differ(
        Gravity::Other,
        at,
        "plausible",
        (&plausible(was), &plausible(is)),
    );
    let tells = |ask: &ReadingAsk| ask.tells.map_or(NOTHING, |fact| fact.word());
    found.differ(Gravity::Other, at, "tells", (tells(was), tells(is)));
    limits(&was.limits, &is.limits, at, found);
}

/// Limits are held against each other by verdict and side, in their order.
fn limits(was: &[Rung], is: &[Rung], at: &At, found: &mut Found) {
    let alike = |one: &Rung, other: &Rung| one.verdict == other.verdict && one.side == other.side;
    let nth = |all: &[Rung], index: usize, rung: &Rung| {
        all.iter()
            .take(index)
            .filter(|other| alike(other, rung))
            .count()
    };
    let partner = |all: &'_ [Rung], rung: &Rung, nth: usize| -> Option<Rung> {
        all.iter()
            .filter(|other| alike(other, rung))
            .nth(nth)
            .cloned()
    };
    for (index, rung) in was.iter().enumerate() {
        if let Some(now) = partner(is, rung, nth(was, index, rung)) {
            limit(rung, &now, at, found);
        } else {
            let part = told(rung);
            found.push(Gravity::Looser, at, What::Removed { part });
        }
    }
    for (index, rung) in is.iter().enumerate() {
        if partner(was, rung, nth(is, index, rung)).is_none() {
            let part = told(rung);
            found.push(Gravity::Other, at, What::Added { part });
        }
    }
}

fn limit(was: &Rung, is: &Rung, at: &At, found: &mut Found) {
    let part = format!(
        "{} {}",
        was.verdict.word(),
        was.side.word().replace('-', " ")
    );
    // Which way it moved cannot be said of every two bounds; then it is taken for the worse.
    let weight = match looser(was.side, &was.bound, &is.bound) {
        Some(false) => Gravity::Other,
        Some(true) | None => Gravity::Looser,
    };
    found.differ(
        weight,
        at,
        &part,
        (&written(&was.bound), &written(&is.bound)),
    );
    let basis = |rung: &Rung| rung.basis.to_string();
    let weight = if was.basis.authority == is.basis.authority {
        Gravity::Words
    } else {
        Gravity::Other
    };
    let whose = format!("whose word the {part} is");
    found.differ(weight, at, &whose, (&basis(was), &basis(is)));
    let leads = format!("where the {part} leads");
    found.differ(
        Gravity::Other,
        at,
        &leads,
        (branch(was.branch.as_ref()), branch(is.branch.as_ref())),
    );
    let leaves = |rung: &Rung| rung.leaves.map_or(NOTHING, |carry| carry.word());
    let what = format!("what the {part} leaves");
    found.differ(Gravity::Other, at, &what, (leaves(was), leaves(is)));
}

fn told(rung: &Rung) -> String {
    let side = rung.side.word().replace('-', " ");
    format!("{} {side} {}", rung.verdict.word(), written(&rung.bound))
}

fn branch(branch: Option<&String>) -> &str {
    branch.map_or(NOTHING, String::as_str)
}

fn sighting(was: &SightingAsk, is: &SightingAsk, at: &At, found: &mut Found) {
    let named = |ask: &'_ SightingAsk, id: &str| -> Option<State> {
        ask.states.iter().find(|state| state.id == id).cloned()
    };
    for before in &was.states {
        let Some(now) = named(is, &before.id) else {
            let weight = if before.verdict.blocks() {
                Gravity::Looser
            } else {
                Gravity::Other
            };
            let part = format!("state “{}”", before.seen);
            found.push(weight, at, What::Removed { part });
            continue;
        };
        let part = format!("verdict of “{}”", before.seen);
        let weight = if now.verdict < before.verdict {
            Gravity::Looser
        } else {
            Gravity::Other
        };
        found.differ(
            weight,
            at,
            &part,
            (before.verdict.word(), now.verdict.word()),
        );
        let part = format!("state {}", before.id);
        found.differ(Gravity::Other, at, &part, (&before.seen, &now.seen));
        let part = format!("where “{}” leads", before.seen);
        found.differ(
            Gravity::Other,
            at,
            &part,
            (branch(before.branch.as_ref()), branch(now.branch.as_ref())),
        );
        let leaves = |state: &State| state.leaves.map_or(NOTHING, |carry| carry.word());
        let part = format!("what “{}” leaves", before.seen);
        found.differ(Gravity::Other, at, &part, (leaves(before), leaves(&now)));
    }
    for now in &is.states {
        if named(was, &now.id).is_none() {
            let part = format!("state “{}”", now.seen);
            found.push(Gravity::Other, at, What::Added { part });
        }
    }
    let basis = (was.basis.to_string(), is.basis.to_string());
    found.differ(Gravity::Words, at, "whose word it is", (&basis.0, &basis.1));
    let order = |ask: &SightingAsk| {
        let ids: Vec<&str> = ask.states.iter().map(|state| state.id.as_str()).collect();
        ids.join(", ")
    };
    let (before, now) = (order(was), order(is));
    let same = was.states.len() == is.states.len()
        && was
            .states
            .iter()
            .all(|state| named(is, &state.id).is_some());
    if same {
        found.differ(Gravity::Other, at, "order of states", (&before, &now));
    }
}
