//! Steps added, gone, moved, and what each says.

use crate::checklist::changes::{At, Found, Gravity, NOTHING, What, asks};
use crate::checklist::{Checklist, Condition, Step, Test};

pub(super) fn steps(before: &Checklist, after: &Checklist, found: &mut Found) {
    for was in before.steps() {
        let at = At::Step(was.id.clone());
        match after.steps().find(|step| step.id == was.id) {
            Some(is) => step(was, is, &at, found),
            None if was.critical => found.push(Gravity::CriticalGone, &at, What::Gone),
            None => found.push(Gravity::Looser, &at, What::Gone),
        }
    }
    for is in after.steps() {
        if !before.steps().any(|step| step.id == is.id) {
            found.push(Gravity::Other, &At::Step(is.id.clone()), What::New);
        }
    }
    moved(before, after, found);
}

/// The fewest steps that were moved: all but the longest row that kept its order. A section's end
/// counts as a place in the row.
fn moved(before: &Checklist, after: &Checklist, found: &mut Found) {
    let old: Vec<&str> = before.steps().map(|step| step.id.as_str()).collect();
    let new: Vec<&str> = after.steps().map(|step| step.id.as_str()).collect();
    let kept: Vec<(usize, &str)> = new
        .iter()
        .filter_map(|id| Some((old.iter().position(|known| known == id)?, *id)))
        .collect();
    let still = in_order(&kept);
    for (_, id) in kept {
        let section = |list: &Checklist| {
            let holds = |step: &Step| step.id == id;
            let mut sections = list.sections.iter();
            let section = sections.find(|section| section.steps.iter().any(holds));
            section.map(|section| section.id.clone())
        };
        if still.contains(&id) && section(before) == section(after) {
            continue;
        }
        let place = new
            .iter()
            .position(|known| *known == id)
            .unwrap_or_default();
        let behind = place.checked_sub(1).and_then(|place| new.get(place));
        let behind = behind.map(|id| (*id).to_owned());
        found.push(
            Gravity::Other,
            &At::Step(id.to_owned()),
            What::Moved(behind),
        );
    }
}

/// The longest row of these that stands in its old order.
fn in_order<'s>(kept: &[(usize, &'s str)]) -> Vec<&'s str> {
    let mut rows: Vec<Vec<&'s str>> = Vec::new();
    for (at, (place, id)) in kept.iter().enumerate() {
        let earlier = kept.iter().take(at).zip(&rows);
        let before = earlier.filter(|((other, _), _)| other < place);
        let longest = before.map(|(_, row)| row).max_by_key(|row| row.len());
        let mut row = longest.cloned().unwrap_or_default();
        row.push(id);
        rows.push(row);
    }
    rows.into_iter().max_by_key(Vec::len).unwrap_or_default()
}

fn step(was: &Step, is: &Step, at: &At, found: &mut Found) {
    found.flag(at, "critical", (was.critical, is.critical));
    found.flag(at, "volatile", (was.volatile, is.volatile));
    found.flag(at, "blind", (was.blind, is.blind));
    let until = |step: &Step| {
        let until = step.deferrable.as_ref();
        until.map_or(NOTHING.to_owned(), |until| {
            format!("before {}", until.before)
        })
    };
    let weight = looser_with(is.deferrable.is_some());
    found.differ(weight, at, "deferrable", (&until(was), &until(is)));
    let when = |step: &Step| step.when.as_ref().map_or(NOTHING.to_owned(), condition);
    found.differ(
        looser_with(is.when.is_some()),
        at,
        "when",
        (&when(was), &when(is)),
    );
    let warning = |step: &Step| step.warning.clone().unwrap_or(NOTHING.to_owned());
    let weight = looser_with(is.warning.is_none());
    found.differ(weight, at, "warning", (&warning(was), &warning(is)));
    found.differ(Gravity::Other, at, "act", (&was.act, &is.act));
    let place = |step: &Step| step.place.word();
    found.differ(Gravity::Other, at, "place", (place(was), place(is)));
    let each = |step: &Step| step.each.map_or(NOTHING, |each| each.word());
    found.differ(Gravity::Other, at, "each", (each(was), each(is)));
    let least = |step: &Step| {
        let least = step.least.map(|least| format!("{} s", least.as_secs()));
        least.unwrap_or(NOTHING.to_owned())
    };
    let weight = looser_with(is.least < was.least);
    found.differ(weight, at, "least", (&least(was), &least(is)));
    let serves = |step: &Step| step.serves.map_or(NOTHING, |kind| kind.word());
    found.differ(Gravity::Other, at, "serves", (serves(was), serves(is)));
    let closes = |step: &Step| {
        let words: Vec<&str> = step.closes.iter().map(|carry| carry.word()).collect();
        if words.is_empty() {
            NOTHING.to_owned()
        } else {
            words.join(", ")
        }
    };
    found.differ(Gravity::Other, at, "closes", (&closes(was), &closes(is)));
    asks::asks(&was.ask, &is.ask, at, found);
    found.differ(Gravity::Words, at, "name", (&was.name, &is.name));
    found.differ(Gravity::Words, at, "why", (&was.why, &is.why));
    found.differ(Gravity::Words, at, "skipped", (&was.skipped, &is.skipped));
}

fn looser_with(looser: bool) -> Gravity {
    if looser {
        Gravity::Looser
    } else {
        Gravity::Other
    }
}

fn condition(when: &Condition) -> String {
    let test = match &when.test {
        Test::Rig {
            figure,
            side,
            value,
        } => format!(
            "{} {} {value}",
            figure.word(),
            side.word().replace('-', " ")
        ),
        Test::Answered { step, state } => format!("{step} answered as {state}"),
        Test::Carried { what, unless } => {
            let unless = unless.map(|other| format!(" and not {}", other.word()));
            format!("{} left open{}", what.word(), unless.unwrap_or_default())
        }
    };
    format!("{test}, because {}", when.because)
}
