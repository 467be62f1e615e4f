//! The place in the walk: the lines no list and no panel ever covers.

use crate::tui::text::{columns, escaped, time_of};
use crate::tui::theme::Ink;
use crate::tui::walk::Walking;
use crate::walk::{Status, Walk};

/// The place in two lines for a wide window, three for a usual one, two for a small one.
pub(in crate::tui) fn heading(walking: &Walking, width: u16, height: u16) -> Vec<(Ink, String)> {
    let mark = walking.standing.before_a_line();
    let list = walking.walk.plan().checklist();
    let rig = escaped(&walking.walk.plan().rig().name);
    let list = format!("{}, revision {}", escaped(&list.title), list.revision);
    let people = people(&walking.walk);
    let place = (Ink::Body, place(walking));
    let all = format!("{mark}{rig}  {list}  {people}");
    if columns(&all) + columns("DRILL ") <= usize::from(width) {
        return vec![(Ink::Strong, all), place];
    }
    if width >= 60 && height >= 20 {
        return vec![
            (Ink::Strong, format!("{mark}{rig}  {list}")),
            (Ink::Body, people),
            place,
        ];
    }
    let plan = walking.walk.plan();
    let short = format!(
        "{mark}{}  {} rev {}",
        plan.rig().id,
        plan.checklist().id,
        plan.checklist().revision
    );
    vec![(Ink::Strong, short), (Ink::Body, short_place(walking))]
}

fn people(walk: &Walk) -> String {
    let (reader, doer) = (
        escaped(walk.reader().as_str()),
        escaped(walk.doer().as_str()),
    );
    if reader == doer {
        format!("{reader} reads and does")
    } else {
        format!("{reader} reads, {doer} does")
    }
}

fn place(walking: &Walking) -> String {
    let walk = &walking.walk;
    let all = walk.steps().len();
    let mut parts = vec![match walking.here() {
        Some(at) => format!("Step {} of {all}", at + 1),
        None => format!("{} of {all} steps done", done(walk)),
    }];
    for (count, word) in open_items(walk) {
        if count > 0 {
            parts.push(format!("{word} {count}"));
        }
    }
    if let Some((name, time)) = last_done(walking) {
        parts.push(format!("last done {time} {name}"));
    }
    parts.join("  ")
}

fn short_place(walking: &Walking) -> String {
    let walk = &walking.walk;
    let all = walk.steps().len();
    let mut parts = vec![match walking.here() {
        Some(at) => format!("{}/{all}", at + 1),
        None => format!("{}/{all} done", done(walk)),
    }];
    for ((count, _), word) in open_items(walk).into_iter().zip(["off", "again", "open"]) {
        if count > 0 {
            parts.push(format!("{word} {count}"));
        }
    }
    if let Some((name, time)) = last_done(walking) {
        parts.push(format!("last {time} {name}"));
    }
    parts.join(" ")
}

/// What is not settled, each with its word.
fn open_items(walk: &Walk) -> [(usize, &'static str); 3] {
    let bad = |status: &Status| matches!(status, Status::Bad { .. } | Status::NoteOwed);
    [
        (walk.deferred().count(), "put off"),
        (walk.to_look_at_again().count(), "look again"),
        (
            walk.steps().iter().filter(|step| bad(&step.status)).count(),
            "open",
        ),
    ]
}

fn done(walk: &Walk) -> usize {
    let done = |status: &Status| matches!(status, Status::Done(_));
    walk.steps()
        .iter()
        .filter(|step| done(&step.status))
        .count()
}

/// The last completed step and its time.
pub(super) fn last_done(walking: &Walking) -> Option<(String, String)> {
    let (at, when) = walking.walk.last_done()?;
    Some((walking.planned(at)?.name(), time_of(when)))
}
