//! The three lists beside the drawing, as lines of text: what can be changed, what moves, the
//! ratings chain.

use crate::figures::{Lack, Move, NotKnown, RatedLink};
use crate::tui::text::{columns, shorten};
use crate::tui::theme::Ink;
use crate::tui::whatif::{List, Trying};
use crate::units::Quantity;

/// A line with how it is drawn.
pub(super) type Row = (Ink, String);

impl Trying {
    /// How many lines a list has that can be marked.
    pub(super) fn count(&self, list: List) -> usize {
        match list {
            List::Values => self.dials.len(),
            List::Moves => self.moves().len(),
            List::Links => self.now.links.len(),
        }
    }

    /// What each figure was, and is.
    pub(super) fn moves(&self) -> Vec<Move<'_>> {
        self.now.since(&self.before)
    }

    /// What can be changed, in lines so wide.
    pub(super) fn values(&self, width: usize) -> Vec<Row> {
        let (before, now) = (self.whatif.before(), self.whatif.now());
        let rows = self.dials.iter().map(|dial| {
            let (was, is) = (before.shown(*dial), now.shown(*dial));
            let changed = was != is;
            let value = if changed { since(&was, &is) } else { is };
            let ink = if changed { Ink::Strong } else { Ink::Body };
            (ink, now.label(*dial), value)
        });
        table(rows.collect(), width)
    }

    /// What moves, in lines so wide.
    pub(super) fn figures(&self, width: usize) -> Vec<Row> {
        let rows = self.moves().into_iter().map(|one| {
            let ink = if one.is_moved() {
                Ink::Strong
            } else {
                Ink::Body
            };
            (ink, one.name.clone(), told(&one))
        });
        table(rows.collect(), width)
    }

    /// The ratings from truck to tires and what is left of them, in lines so wide.
    pub(super) fn links(&self, width: usize) -> Vec<Row> {
        let rows = self.now.links.iter().enumerate().map(|(at, link)| {
            let weakest = at == 0 && link.over().is_some();
            let ink = if weakest || link.over() == Some(true) {
                Ink::Strong
            } else if link.in_force {
                Ink::Body
            } else {
                Ink::Dim
            };
            (ink, link.label(), left(link))
        });
        table(rows.collect(), width)
    }

    /// What the rig file does not say and a figure here would need, each field once.
    pub(super) fn undescribed(&self) -> Vec<&'static str> {
        let loads = self.now.axles.iter().map(|axle| axle.load.as_ref().err());
        let lines = self
            .now
            .lines
            .iter()
            .map(|line| line.entry.answer.as_ref().err());
        let mut fields: Vec<&'static str> = loads
            .chain(lines)
            .flatten()
            .flat_map(lacks)
            .map(|lack| lack.field)
            .collect();
        fields.sort_unstable();
        fields.dedup();
        fields
    }
}

fn lacks(not: &NotKnown) -> &[Lack] {
    match not {
        NotKnown::Undescribed(_, lacks) => lacks,
        _ => &[],
    }
}

/// A figure before and now, with a sign where it is more than it may be.
fn told(one: &Move<'_>) -> String {
    let shown = |known: Option<&Quantity>| known.map(|known| known.shown(1));
    let (was, is) = (shown(one.before.known()), shown(one.now.known()));
    let value = match (was, is) {
        (Some(was), Some(is)) if was != is => since(&was, &is),
        (None, Some(is)) => since("not known", &is),
        (Some(was), None) => since(&was, word(one)),
        (_, Some(is)) => is,
        (None, None) => word(one).to_owned(),
    };
    if one.now.is_over() {
        format!("{value} (!) OVER")
    } else {
        value
    }
}

/// What is left of a rating, with a sign where it is passed.
fn left(link: &RatedLink) -> String {
    let Some(margin) = link.margin() else {
        return "not known".to_owned();
    };
    let value = format!("{}, {}", margin.left.shown(0), margin.share.shown(0));
    match (link.in_force, link.over()) {
        (true, Some(true)) => format!("{value} (!) OVER"),
        (true, _) => value,
        (false, _) => format!("({value})"),
    }
}

/// Why there is no number, in a word.
fn word(one: &Move<'_>) -> &'static str {
    match &one.now.entry.answer {
        Err(NotKnown::NoNumber(..)) => "no number",
        Err(NotKnown::Unread(..)) => "not read today",
        Err(NotKnown::NotOnThisRig(_)) => "not on this rig",
        _ => "not known",
    }
}

/// A name of at most so many columns. What is asked of something stays whole: `water and.., weight`.
fn short_name(name: &str, width: usize) -> String {
    match name.rsplit_once(", ") {
        Some((whose, what)) if columns(name) > width && width > columns(what) + 6 => {
            let whose = shorten(whose, width - columns(what) - 2);
            format!("{whose}, {what}")
        }
        _ => shorten(name, width),
    }
}

/// `-1 -> 2 in`: the unit stands once where both have it.
fn since(was: &str, is: &str) -> String {
    match (was.rsplit_once(' '), is.rsplit_once(' ')) {
        (Some((number, unit)), Some((_, other))) if unit == other => format!("{number} -> {is}"),
        _ => format!("{was} -> {is}"),
    }
}

/// Names at the left, values in a column of their own.
fn table(rows: Vec<(Ink, String, String)>, width: usize) -> Vec<Row> {
    let values = rows
        .iter()
        .map(|(_, _, value)| columns(value))
        .max()
        .unwrap_or(0);
    let names = rows
        .iter()
        .map(|(_, name, _)| columns(name))
        .max()
        .unwrap_or(0);
    let names = names.min(width.saturating_sub(values + 1)).max(width / 3);
    let line = |(ink, name, value): (Ink, String, String)| {
        let name = short_name(&name, names);
        let gap = " ".repeat(names.saturating_sub(columns(&name)));
        (ink, shorten(&format!("{name}{gap} {value}"), width))
    };
    rows.into_iter().map(line).collect()
}
