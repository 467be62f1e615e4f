//! The three lists beside the drawing, as lines of text: what can be changed, what moves, the
//! ratings chain.

use crate::desk::{Line as WhyLine, why_figure};
use crate::figures::{Lack, Move, NotKnown, RatedLink};
use crate::rig::Place;
use crate::tui::text::{columns, shorten};
use crate::tui::theme::Ink;
use crate::tui::whatif::{List, Trying};
use crate::units::Quantity;
use std::cmp::Ordering;

/// From this width on, what a figure is held to stands behind it.
const ROOMY: usize = 42;

/// Which line tells of a swing.
const SWING: usize = 3;

const SWING_FROM: &str = "truck and trailer as two bodies joined at the ball, both rigs at one \
    speed. It knows no tire and no road of this rig, so it is told as more or less alone; no speed \
    is said to be right.";

/// A line with how it is drawn.
pub(super) type Row = (Ink, String);

impl Trying {
    /// How many lines a list has that can be marked.
    pub(super) fn count(&self, list: List) -> usize {
        match list {
            List::Values => self.dials.len(),
            List::Moves => self.moves().len() + 1,
            List::Links => self.now.links.len(),
        }
    }

    /// What each figure was, and is.
    pub(super) fn moves(&self) -> Vec<Move<'_>> {
        self.now.since(&self.before)
    }

    /// The part of the rig whose rating is looked at.
    pub(super) fn marked_place(&self) -> Option<Place> {
        let links = self.now.links.iter().filter(|_| self.list == List::Links);
        links.map(|link| link.place).nth(self.mark(List::Links))
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
            (ink, one.name.clone(), told(&one, width >= ROOMY))
        });
        let mut rows: Vec<_> = rows.collect();
        let (ink, word) = match &self.settles {
            None => (Ink::Body, "as described"),
            Some(Ok(settles)) => (Ink::Strong, settles.word()),
            Some(Err(_)) => (Ink::Body, "not known"),
        };
        let swing = (ink, "a swing".to_owned(), word.to_owned());
        rows.insert(SWING.min(rows.len()), swing);
        table(rows, width)
    }

    /// What stands behind a line of what moves.
    pub(super) fn behind(&self, line: usize) -> Vec<Vec<WhyLine>> {
        let figure = match line.cmp(&SWING) {
            Ordering::Less => line,
            Ordering::Greater => line - 1,
            Ordering::Equal => return vec![self.behind_swing()],
        };
        let moves = self.moves();
        let entry = moves.get(figure).map(|one| &one.now.entry);
        entry.map_or_else(Vec::new, why_figure)
    }

    fn behind_swing(&self) -> Vec<WhyLine> {
        let told = match &self.settles {
            None => "nothing is changed, so there is nothing to compare".to_owned(),
            Some(Ok(settles)) => settles.word().to_owned(),
            Some(Err(why)) => format!("not known: {why}"),
        };
        vec![
            (
                "Figure:",
                format!("a swing of the trailer, left alone: {told}"),
            ),
            ("Comes from:", SWING_FROM.to_owned()),
        ]
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
            let mark = if weakest { "weakest: " } else { "" };
            let name = format!("{mark}{}", link.label());
            (ink, name, left(link))
        });
        table(rows.collect(), width)
    }

    /// What the rig file does not say and a figure here would need, in a line so wide.
    pub(in crate::tui) fn undescribed(&self, width: usize) -> Option<String> {
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
        let text = format!("Not described: {}", fields.join(", "));
        (!fields.is_empty()).then(|| shorten(&text, width))
    }
}

fn lacks(not: &NotKnown) -> &[Lack] {
    match not {
        NotKnown::Undescribed(_, lacks) => lacks,
        _ => &[],
    }
}

/// A figure before and now, what it is held to where there is room, and a sign where it is more.
fn told(one: &Move<'_>, roomy: bool) -> String {
    let rating = one.now.most.as_ref().filter(|_| roomy);
    let shown = |known: Option<&Quantity>| {
        let known = known?;
        let of = rating.and_then(|rating| {
            let same = known.in_unit(rating.unit)?;
            Some(format!("{} of {}", same.value.rounded(1), rating.shown(1)))
        });
        Some(of.unwrap_or_else(|| known.shown(1)))
    };
    let (was, is) = (shown(one.before.known()), shown(one.now.known()));
    let value = match (was, is) {
        (Some(_), Some(is)) if one.before.known() != one.now.known() => {
            let was = one.before.known().map(|was| was.shown(1));
            since(&was.unwrap_or_default(), &is)
        }
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
    let value = format!("{} left, {}", margin.left.shown(0), margin.share.shown(0));
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

/// Names at the left, values in a column of their own. A long value is not cut: its name is.
fn table(rows: Vec<(Ink, String, String)>, width: usize) -> Vec<Row> {
    let longest = rows.iter().map(|(_, name, _)| columns(name)).max();
    let usual = rows.iter().map(|(_, _, value)| columns(value)).max();
    let names = width.saturating_sub(usual.unwrap_or(0) + 1);
    let names = names.max(width / 2).min(longest.unwrap_or(0));
    let line = |(ink, name, value): (Ink, String, String)| {
        let room = width.saturating_sub(columns(&value) + 1).min(names);
        let name = short_name(&name, room);
        let gap = " ".repeat(room.saturating_sub(columns(&name)));
        (ink, shorten(&format!("{name}{gap} {value}"), width))
    };
    rows.into_iter().map(line).collect()
}
