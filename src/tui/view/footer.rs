//! The bottom line: the keys valid now, in words.

use crate::tui::keys::{Context, Press, Row, letter, live};
use crate::tui::model::Screen;
use crate::tui::text::columns;
use crate::tui::theme::Ink;
use crate::tui::{Action, Model, start, walk};
use ratatui::text::{Line, Span};

/// The keys valid now, in words: what the screen waits for first, then hold, doubt and help.
pub(super) fn footer(model: &Model, width: usize) -> Line<'static> {
    let rows: Vec<&Row> = live(model).into_iter().filter(|row| row.footer).collect();
    let always = |row: &&Row| matches!(row.action, Action::Hold | Action::Unsure | Action::Help);
    let text = |row: &Row| format!("{} {}", cap(model, row), row.label);
    let mut room = width;
    let mut kept = Vec::new();
    let (last, first): (Vec<&Row>, Vec<&Row>) = rows.into_iter().partition(always);
    for row in last.iter().chain(&first) {
        let takes = columns(&text(row)) + 2;
        if takes <= room + 2 {
            room = room.saturating_sub(takes);
            kept.push(row.action);
        }
    }
    let shown = first
        .iter()
        .chain(&last)
        .filter(|row| kept.contains(&row.action));
    let spans = shown.enumerate().flat_map(|(at, row)| {
        let gap = if at == 0 { "" } else { "  " };
        [
            Span::raw(gap),
            Span::styled(cap(model, row), model.look.style(Ink::Key)),
            Span::styled(format!(" {}", row.label), model.look.style(Ink::Body)),
        ]
    });
    Line::from(spans.collect::<Vec<_>>())
}

/// The cap of a key; of digits and letters only as many as the screen has.
pub(in crate::tui) fn cap(model: &Model, row: &Row) -> String {
    let count = choices(model, row.press);
    let listed = matches!(
        model.context_below(),
        Context::Start | Context::RigPage | Context::DrillRoom | Context::DrillFamilies
    );
    // There lines have letters once the digits are used up.
    let lettered = count.checked_sub(start::DIGITS + 1).filter(|_| listed);
    let lettered = lettered.map(|last| letter(last).unwrap_or('m'));
    match (row.press, lettered) {
        (Press::Digits, Some(last)) => return format!("1-9 a-{last}"),
        (Press::Letters, Some(last)) => return format!("a-{last}"),
        _ => {}
    }
    match row.press {
        Press::Digits if count > 1 => format!("1-{}", count.min(9)),
        Press::Digits => "1".to_owned(),
        Press::Letters if count > 1 => {
            format!("a-{}", letter(count - 1).unwrap_or('m'))
        }
        Press::Letters => "a".to_owned(),
        _ => row.cap(),
    }
}

/// How many numbered or lettered lines the screen has.
fn choices(model: &Model, press: Press) -> usize {
    match (&model.screen, model.context_below()) {
        (Screen::Start(start), Context::Start | Context::RigPage) => model
            .barn
            .as_ref()
            .map_or(0, |barn| start.choices(barn).len()),
        (Screen::Drills(room), _) => {
            let drills = model.drills.as_ref();
            drills.map_or(0, |drills| room.lines(drills))
        }
        (Screen::Walk(walking), Context::Looking) if press == Press::Letters => {
            walking.places().len()
        }
        (Screen::Walk(walking), _) => walk::choices(walking, model),
        _ => model.crew().len(),
    }
}
