//! What earlier walks left open, told in sentences: the same on the start screen, line by line
//! and in a refusal.

use crate::checklist::Plan;
use crate::desk::told::shown;
use crate::due::When;
use crate::haul::{Defect, Open, Owned, Standing, Today, is_past, lasting};
use crate::rules::{Carried, Verdict};
use crate::text::{capital, ended};
use chrono::{DateTime, FixedOffset};

/// The mark of a walk that was walked on paper and is entered afterwards.
pub const FROM_PAPER: &str = "FROM PAPER";

/// A defect on the start screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DefectCard {
    /// What was found, by whom and when.
    pub told: String,
    /// Whether it keeps the rig off the road, and does not only warn.
    pub blocks: bool,
}

/// What stands open, as sentences.
pub fn opens(standing: &Standing) -> Vec<String> {
    standing.open.iter().map(open).collect()
}

/// What was found bad, those that keep the rig off the road first.
pub fn defects(standing: &Standing, today: Today<'_>) -> Vec<DefectCard> {
    let card = |defect: &Defect| DefectCard {
        told: owned(defect, today),
        blocks: defect.blocks(today),
    };
    let mut cards: Vec<DefectCard> = standing.defects.iter().map(card).collect();
    cards.sort_by_key(|card| !card.blocks);
    cards
}

/// What was carried in, without when and by whom: `wheel was off, left front`.
pub fn carried(carried: &Carried) -> String {
    let part = carried.part.as_ref().map(|part| part.replace('-', " "));
    let part = part.map(|part| format!(", {part}")).unwrap_or_default();
    format!("{}{part}", carried.what.told())
}

/// What earlier walks had left open when a walk began, in one line; nothing where that is nothing.
pub fn carried_in(plan: &Plan) -> Option<String> {
    let told: Vec<String> = plan.carried().iter().map(carried).collect();
    (!told.is_empty()).then(|| told.join("; "))
}

fn open(open: &Open) -> String {
    let since = &open.since;
    let odometer = since.odometer.as_ref().map(|odometer| {
        let odometer = shown(odometer);
        format!(", {odometer}")
    });
    format!(
        "{} ({}{}, {}): {}.",
        capital(&carried(&open.carried)),
        date(&since.at),
        odometer.unwrap_or_default(),
        since.who,
        owed(open)
    )
}

/// What later walks still owe it.
fn owed(open: &Open) -> String {
    let dues: Vec<String> = open.dues().iter().map(shown).collect();
    if let Some((last, before)) = dues.split_last() {
        let before = before.join(", ");
        let and = if before.is_empty() { "" } else { " and " };
        return format!("its nuts are due at {before}{and}{last}");
    }
    let lasting = lasting(open.carried.what);
    match (open.marks_left.len(), lasting.marks_mi.len()) {
        (left, all) if left < all => format!("{}; {left} of {all} to go", lasting.owed),
        _ => lasting.owed.to_owned(),
    }
}

/// A defect as it is today, with who sees to it and by when.
pub fn owned(defect: &Defect, today: Today<'_>) -> String {
    let mut told = as_it_is(defect, defect.verdict(today));
    for owner in owners(defect, today) {
        told = format!("{} {owner}", ended(&told));
    }
    told
}

/// Who sees to a defect and by when, a sentence for each word that stands.
pub fn owners(defect: &Defect, today: Today<'_>) -> Vec<String> {
    let told = |one: &Owned| {
        let when = one.when(today, defect.furthest.as_ref());
        let words = one.words.as_ref();
        let words = words.map_or_else(String::new, |words| format!(", “{words}”"));
        let when = if when == When::default() {
            String::new()
        } else if is_past(&when) && defect.found.verdict == Verdict::Note {
            format!("; {when}, so it is to be put right ({})", one.basis())
        } else {
            format!("; {when} ({})", one.basis())
        };
        format!("{} sees to it{words}{when}", one.owner)
    };
    defect.owners().map(told).collect()
}

/// The same of one word in short, without whose it is.
pub fn owner(one: &Owned, defect: &Defect, today: Today<'_>) -> String {
    match one.when(today, defect.furthest.as_ref()) {
        when if when == When::default() => format!("{} sees to it", one.owner),
        when => format!("{} sees to it; {when}", one.owner),
    }
}

/// A defect: `STOP. Coupler seat: lever stands up. Tobias Fenn, 2026-11-20 06:10, Hitch up …`.
pub fn told(defect: &Defect) -> String {
    as_it_is(defect, defect.found.verdict)
}

fn as_it_is(defect: &Defect, verdict: Verdict) -> String {
    let found = &defect.found;
    let verdict = match verdict {
        Verdict::Ok | Verdict::Note => verdict.word().to_owned(),
        Verdict::Fix | Verdict::Stop => verdict.word().to_uppercase(),
    };
    let limit = found.limit.as_ref().map(|limit| {
        let side = limit.side.word().replace('-', " ");
        format!(", {side} {}", shown(&limit.bound))
    });
    let remark = found
        .remark
        .as_ref()
        .map(|words| ended(&format!(" “{words}”")));
    format!(
        "{}: {}: {}{}.{} {}, {}, {}",
        verdict,
        found.name,
        found.found,
        limit.unwrap_or_default(),
        remark.unwrap_or_default(),
        found.who,
        date(&found.at),
        defect.list
    )
}

/// A day and time as records show them.
pub fn date(at: &DateTime<FixedOffset>) -> String {
    at.format("%Y-%m-%d %H:%M").to_string()
}
