//! What is said: the list of series, each on a line with its newest value, and what stands below
//! the chart of one.

use crate::desk::trend as said;
use crate::review::trend::Series;
use crate::tui::lookout::trends::Moving;
use crate::tui::page::{Page, Rank};
use crate::tui::text::{columns, escaped, shorten};
use crate::tui::theme::Ink;

/// From so many columns on the names have a column of their own.
const ROOM_FOR_NAMES: usize = 60;

/// Longest id of a rig in the list.
const RIG: usize = 10;

/// Writes the list, or what is said of the series that is open.
pub(in crate::tui::lookout) fn body(moving: &Moving, page: &mut Page) {
    match moving.charted() {
        Some(series) => below(series, page),
        None => list(moving, page),
    }
}

fn list(moving: &Moving, page: &mut Page) {
    let (asks, quiet) = moving.listed.split_at(moving.asks());
    let rig = |rig: &str| shorten(&escaped(rig), RIG);
    let rigs = moving.listed.iter().map(|(id, _)| columns(&rig(id)));
    let rigs = rigs.max().unwrap_or(0);
    let asked = asks.iter().map(|(id, series)| {
        let told = format!("{} Now {}.", said::asked(series), said::now(series));
        (format!("{:<rigs$}", rig(id)), Ink::Body, escaped(&told))
    });
    let names = quiet.iter().map(|(_, series)| columns(&series.name()));
    let names = names.max().filter(|_| page.width() >= ROOM_FOR_NAMES);
    let still = quiet.iter().map(|(id, series)| {
        let (rig, name) = (rig(id), escaped(&series.name()));
        let now = said::now(series);
        match names {
            Some(names) => (format!("{rig:<rigs$} {name:<names$}"), Ink::Body, now),
            None => (format!("{rig:<rigs$}"), Ink::Body, format!("{name}: {now}")),
        }
    });
    let (asked, still): (Vec<_>, Vec<_>) = (asked.collect(), still.collect());
    let still_marked = moving.marked.checked_sub(asked.len());
    let parts = [
        ("Something to ask", &asked, Some(moving.marked)),
        ("Nothing to ask", &still, still_marked),
    ];
    for (title, lines, marked) in parts {
        if !lines.is_empty() {
            page.together(|page| {
                page.say(Rank::Needed, Ink::Strong, title);
                page.choices(lines, marked);
            });
        }
    }
}

/// What it comes to, and its newest values.
fn below(series: &Series, page: &mut Page) {
    page.together(|page| {
        page.say(Rank::Needed, Ink::Body, &escaped(&said::told(series)));
        if !series.points.is_empty() {
            page.say(Rank::Needed, Ink::Body, &escaped(&said::newest(series)));
        }
    });
}
