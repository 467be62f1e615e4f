//! A near miss as the sketch of a scenario: what was found on a walk, and nothing of who found it.
//!
//! List, section, rig, and what was seen or read are taken over; every sentence is left to be
//! written, so that no word a person said gets into a drill.

use crate::checklist::{PlannedAsk, PlannedStep, SightingAsk, StepKey};
use crate::document::{Remarks, Tree};
use crate::drill::Family;
use crate::drill::check::BLANK;
use crate::drill::format::FORMAT;
use crate::rules::{Carried, Outcome, Verdict};
use crate::walk::{Answer, Given, Walk};

/// The file of a scenario on what this step came to at first that was fix or stop. Its blanks are
/// to be written before it can be played.
///
/// Nothing where the step came to neither, or could only not be seen.
pub fn sketch(walk: &Walk, step: &StepKey) -> Option<String> {
    let index = walk.plan().index(step)?;
    let (planned, state) = walk.step(index)?;
    let found = state
        .answers
        .iter()
        .find_map(|answer| found(planned, answer))?;
    let section = walk.plan().sections().get(planned.section)?;
    let id = step.as_str().replace('/', "-");
    let mut scenario = vec![
        ("id", text(&format!("near-miss-{id}"))),
        ("title", blank("a title that gives nothing away")),
        ("family", blank(&format!("one of {}", families()))),
        ("list", text(&walk.plan().checklist().id)),
        ("sections", Tree::List(vec![text(&section.id)])),
        ("rig", text(&walk.plan().rig().id)),
        (
            "tale",
            blank("what somebody knows before it begins, and no names"),
        ),
    ];
    let carried = walk.plan().carried();
    if !carried.is_empty() {
        let carried = carried.iter().map(carries);
        scenario.push(("carries", Tree::List(carried.collect())));
    }
    scenario.push(("faults", Tree::List(vec![fault(step, &found)])));
    scenario.push((
        "good",
        map(vec![(
            "why",
            blank("why all is well when nothing is wrong"),
        )]),
    ));
    scenario.push((
        "source",
        blank("where it stands written, or common practice, no source"),
    ));
    let file = map(vec![
        ("format", text(FORMAT)),
        ("scenarios", Tree::List(vec![map(scenario)])),
    ]);
    Some(file.written(&remarks()))
}

/// What was found.
struct Found {
    verdict: Verdict,
    /// How the rig differs, under its key.
    differs: (&'static str, Tree),
    /// What it would have been taken for.
    slip: (&'static str, Tree),
}

fn found(planned: &PlannedStep, answer: &Answer) -> Option<Found> {
    let Outcome::Judged(verdict) = answer.given.outcome() else {
        return None;
    };
    if !verdict.blocks() {
        return None;
    }
    Some(match (&answer.given, &planned.ask) {
        (Given::Seen { state, .. }, PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask)) => {
            Found {
                verdict,
                differs: ("seen", seen(ask, state)?),
                slip: ("state", text(&well(ask)?)),
            }
        }
        (Given::Read { typed, .. }, PlannedAsk::Reading { .. }) => Found {
            verdict,
            differs: ("read", text(&typed.quantity().to_string())),
            slip: ("verdict", text(Verdict::Ok.word())),
        },
        _ => return None,
    })
}

/// The state, where it is one that can be seen.
fn seen(ask: &SightingAsk, state: &str) -> Option<Tree> {
    let known = ask.states.iter().find(|one| one.id == state)?;
    (!known.cannot_see).then(|| text(state))
}

fn well(ask: &SightingAsk) -> Option<String> {
    let well = ask.states.iter().find(|one| one.verdict == Verdict::Ok)?;
    Some(well.id.clone())
}

fn fault(step: &StepKey, found: &Found) -> Tree {
    let (differs, there) = &found.differs;
    let is = if *differs == "seen" { "state" } else { "is" };
    let (wrong, taken_for) = &found.slip;
    let step = || ("step", text(step.as_str()));
    map(vec![
        ("id", text("as-found")),
        (
            differs,
            Tree::List(vec![map(vec![step(), (is, there.clone())])]),
        ),
        (
            "call",
            map(vec![step(), ("verdict", text(found.verdict.word()))]),
        ),
        ("slip", map(vec![step(), (wrong, taken_for.clone())])),
        ("why", blank("why it is the right call")),
        ("would", blank("what would have happened")),
    ])
}

fn carries(carried: &Carried) -> Tree {
    let part = carried.part.iter().map(|part| ("part", text(part)));
    map(std::iter::once(("what", text(carried.what.word())))
        .chain(part)
        .collect())
}

fn families() -> String {
    Family::WORDS.map(|(word, _)| word).join(", ")
}

fn remarks() -> Remarks {
    let mut remarks = Remarks::default();
    let say = [
        "What nearly happened, as a scenario. What begins with ____ is still to be written;",
        "`hames lint FILE` names each. Put in no person, horse, place or day.",
    ];
    for line in say {
        remarks.put("format", line);
    }
    remarks
}

fn text(text: &str) -> Tree {
    Tree::Text(text.to_owned())
}

fn blank(wanted: &str) -> Tree {
    text(&format!("{BLANK} {wanted}"))
}

fn map(entries: Vec<(&str, Tree)>) -> Tree {
    let entries = entries.into_iter();
    Tree::Map(
        entries
            .map(|(key, value)| (key.to_owned(), value))
            .collect(),
    )
}
