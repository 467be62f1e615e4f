//! The trips of a day or a month as rows: as many as the room has, the marked one among them.

use crate::record::{Opinion, counted};
use crate::review::{Glance, Weight};
use crate::tui::Look;
use crate::tui::lookout::{Looking, index};
use crate::tui::page::inked;
use crate::tui::text::{escaped, shorten};
use crate::tui::theme::Ink;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// From this many columns on a trip has a second row, with who and how it ended.
const TWO_ROWS: u16 = 40;

/// Columns of the mark, the sign and what keeps them apart.
const SIGNS: usize = 4;

/// Draws the heading of the list and the trips.
pub(super) fn draw(looking: &Looking, look: Look, frame: &mut Frame, area: Rect) {
    let width = usize::from(area.width);
    let heading = shorten(&heading(looking, width), width);
    let mut rows = area.rows();
    if let Some(row) = rows.next() {
        frame.render_widget(inked(heading, look.style(Ink::Title)), row);
    }
    let wide = area.width >= TWO_ROWS;
    let each = if wide { 2 } else { 1 } + usize::from(look.big);
    let room = usize::from(area.height.saturating_sub(1));
    let listed = looking.listed();
    // The last row is kept to say that there are more.
    let fits = if listed.len() * each <= room {
        listed.len()
    } else {
        (room.saturating_sub(1) / each).max(1)
    };
    let from = looking
        .marked
        .map_or(0, |marked| (marked + 1).saturating_sub(fits));
    let shown = listed.iter().enumerate().skip(from).take(fits);
    for (at, place) in shown {
        let Some(trip) = looking.trip(*place) else {
            continue;
        };
        let here = looking.marked == Some(at);
        let lines = lines(&trip.glance, looking.day.is_none(), wide);
        for (number, text) in (0..each).zip(lines.into_iter().map(Some).chain([None])) {
            let (Some(row), Some(text)) = (rows.next(), text) else {
                continue;
            };
            let sign = (number == 0).then(|| trip.glance.weight());
            let text = shorten(&text, width.saturating_sub(SIGNS));
            frame.render_widget(line((here, sign), text, look), row);
        }
    }
    let (above, below) = (from > 0, from + fits < listed.len());
    let more = match (looking.marked, above, below) {
        (_, false, false) => None,
        (None, _, _) => Some("-- Enter: more --"),
        (_, true, true) => Some("-- Up, Down: more --"),
        (_, true, false) => Some("-- Up: more --"),
        (_, false, true) => Some("-- Down: more --"),
    };
    if let (Some(more), Some(last)) = (more, area.rows().next_back()) {
        frame.render_widget(inked(more, look.style(Ink::Key)), last);
    }
}

/// Which trips these are and how many, in what words there is room for.
fn heading(looking: &Looking, width: usize) -> String {
    let days = match looking.day {
        Some(day) => looking.index.of_day(day).into_iter().collect(),
        None => looking.index.of_month(looking.month),
    };
    let counts = index::counts(&days);
    let long = match looking.day {
        Some(day) => format!("{}: {counts}", day.format("%A %-d %B")),
        None => format!("The whole month: {counts}"),
    };
    if long.len() <= width {
        return long;
    }
    let trips: usize = days.iter().map(|day| day.trips).sum();
    let open: usize = days.iter().map(|day| day.open).sum();
    match looking.day {
        Some(day) => format!("{}: {trips}, {open} open", day.format("%a %-d")),
        None => format!("All: {trips}, {open} open"),
    }
}

/// One row: whether it is marked, the sign, the words.
fn line((here, sign): (bool, Option<Weight>), text: String, look: Look) -> Line<'static> {
    let ink = if here { Ink::Strong } else { Ink::Body };
    let mark = if here && sign.is_some() { "> " } else { "  " };
    let sign = sign.map_or(' ', Weight::sign);
    Line::from(vec![
        Span::styled(mark, look.style(Ink::Key)),
        Span::styled(format!("{sign} "), look.style(Ink::Key)),
        Span::styled(text, look.style(ink)),
    ])
}

/// The words of a trip: when, rig and list; in a second row whether it is open, how it ended, who.
fn lines(glance: &Glance, dated: bool, wide: bool) -> Vec<String> {
    let rig = escaped(&glance.rig);
    if !wide {
        let at = if dated { "%d" } else { "%H:%M" };
        return vec![format!("{} {rig}", glance.at.format(at))];
    }
    let at = if dated { "%a %-d %H:%M" } else { "%H:%M" };
    let at = glance.at.format(at);
    vec![
        format!("{at} {rig}, {}", escaped(&glance.title)),
        format!("{}; {}; {}", told(glance), glance.ended_as(), who(glance)),
    ]
}

/// Whether it is open, and how many questions there are about it.
fn told(glance: &Glance) -> String {
    match glance.questions() {
        0 => stands(glance).to_owned(),
        some => format!("{}; {}", stands(glance), counted(some, "question")),
    }
}

/// Everybody who took part, whoever signed first.
pub(super) fn who(glance: &Glance) -> String {
    let who = escaped(&glance.who);
    match glance.others.as_slice() {
        [] => who,
        others => format!("{who} with {}", escaped(&others.join(", "))),
    }
}

/// Whether it is open, in a word or two.
pub(super) fn stands(glance: &Glance) -> &'static str {
    match glance.said {
        _ if glance.weight() == Weight::Doubtful => glance.finding.word(),
        Some(Opinion::Agreed) => "agreed",
        Some(Opinion::Asked) => "open, asked",
        None => "open",
    }
}
