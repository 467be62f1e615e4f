//! The list of sections and steps with their marks.
//!
//! A circle when a step is begun and a slash through it when it is done is how procedures are
//! followed by hand at nuclear plants (place-keeping, DOE-HDBK-1028-2009, from memory). Each mark
//! is told apart without colour.

use crate::checklist::PlannedStep;
use crate::tui::text::{columns, shorten};
use crate::tui::theme::Ink;
use crate::tui::view::LIST;
use crate::tui::walk::Walking;
use crate::walk::{Round, Status};

/// What each mark means, for the glossary and the list of keys.
pub(in crate::tui) const MARKS: [(&str, &str); 7] = [
    ("( )", "not begun"),
    ("(o)", "begun"),
    ("(/)", "done"),
    ("(>)", "put off"),
    ("(!)", "to be put right"),
    ("(?)", "to be looked at again"),
    ("(-)", "does not apply"),
];

/// The mark of a step.
pub(in crate::tui) fn mark(walking: &Walking, at: usize) -> &'static str {
    let Some((_, state)) = walking.walk.step(at) else {
        return "( )";
    };
    match &state.status {
        Status::Waiting(_) if walking.walk.left_out(at).is_some() => "(-)",
        Status::Waiting(Round::First) => "( )",
        Status::Waiting(_) => "(?)",
        Status::Open(_) | Status::Doubted(..) => "(o)",
        Status::Bad { .. } | Status::NoteOwed => "(!)",
        Status::Done(_) => "(/)",
        Status::Deferred { .. } => "(>)",
    }
}

/// A step's name in so many columns: which wheel or chain it is stays readable.
fn fitted(name: &str, width: usize) -> String {
    match name.rsplit_once(", ") {
        Some((step, item)) if columns(name) > width => {
            let room = width.saturating_sub(columns(item) + 2);
            format!("{}, {item}", shorten(step, room))
        }
        _ => name.to_owned(),
    }
}

/// Sections and, of the one at hand, the steps: as many lines as there are rows.
pub(in crate::tui) fn list(walking: &Walking, rows: usize) -> Vec<(Ink, String)> {
    let plan = walking.walk.plan();
    let at_hand = walking.at_hand();
    let here = at_hand
        .and_then(|at| walking.planned(at))
        .map(|planned| planned.section);
    let here = here.or(walking.walk.section());
    let (mut lines, mut focus) = (Vec::new(), 0);
    for (index, section) in plan.sections().iter().enumerate() {
        let open = here == Some(index);
        let sign = match () {
            () if walking.walk.is_closed(index) => "(/)",
            () if open => "(o)",
            () => "( )",
        };
        if open {
            focus = lines.len();
        }
        let ink = if open { Ink::Strong } else { Ink::Body };
        lines.push((ink, format!("{sign} {}", section.title)));
        for at in (section.first..section.first + section.count).filter(|_| open) {
            let active = at_hand == Some(at);
            if active {
                focus = lines.len();
            }
            let name = plan
                .steps()
                .get(at)
                .map(PlannedStep::name)
                .unwrap_or_default();
            let (ink, sign) = if active {
                (Ink::Strong, ">")
            } else {
                (Ink::Body, " ")
            };
            let name = fitted(&name, usize::from(LIST).saturating_sub(7));
            lines.push((ink, format!(" {sign} {} {name}", mark(walking, at))));
        }
    }
    // The active line stays inside, with as much behind it as before it.
    let most = lines.len().saturating_sub(rows);
    let from = focus.saturating_sub(rows / 2).min(most);
    lines.into_iter().skip(from).take(rows).collect()
}
