//! A model drawn. Nothing changes here, and no window is too small.

mod ascii;
mod footer;

pub(super) use footer::cap;

use crate::checklist::{Plan, PlannedStep};
use crate::desk::earlier::FROM_PAPER;
use crate::record::Mode;
use crate::review::trend::Series;
use crate::tui::help;
use crate::tui::lookout::{self, Looking};
use crate::tui::model::Screen;
use crate::tui::page::{Page, inked};
use crate::tui::rig::{Seen, drawing_of};
use crate::tui::text::{escaped, shorten, wrap};
use crate::tui::theme::Ink;
use crate::tui::view::ascii::to_ascii;
use crate::tui::view::footer::footer;
use crate::tui::whatif::Trying;
use crate::tui::{Model, record, room, seal, start, walk, whatif};
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};

/// Below this many columns or rows only a sentence is shown.
const LEAST: (u16, u16) = (40, 12);

/// From this many columns on, the list of steps stands at the left.
const WIDE: u16 = 100;

/// Columns of the list of steps.
pub(super) const LIST: u16 = 32;

/// Fewest and most rows of the drawing.
const LEAST_DRAWING: u16 = 7;
const MOST_DRAWING: u16 = 16;

/// Draws the model.
pub fn view(model: &Model, frame: &mut Frame) {
    let area = frame.area();
    frame
        .buffer_mut()
        .set_style(area, model.look.style(Ink::Body));
    if area.width < LEAST.0 || area.height < LEAST.1 {
        too_small(model, frame, area);
    } else {
        screen(model, frame, area);
    }
    if model.look.ascii {
        to_ascii(frame.buffer_mut());
    }
}

fn too_small(model: &Model, frame: &mut Frame, area: Rect) {
    let marks = marks(model).into_iter().flat_map(|word| [word, ". "]);
    let mark: String = marks.collect();
    let text = format!(
        "{mark}The window is too small: {} columns and {} rows are needed. Nothing is lost; make \
         it larger.",
        LEAST.0, LEAST.1
    );
    draw_lines(
        model,
        frame,
        area,
        Ink::Body,
        &wrap(&text, usize::from(area.width)),
    );
}

/// What a frame is made of, top to bottom.
struct Parts {
    heading: Vec<Line<'static>>,
    banner: Vec<String>,
    said: Vec<String>,
    top: Rect,
    bar: Rect,
    list: Option<Rect>,
    page: Rect,
    low: Rect,
    foot: Rect,
}

fn parts(model: &Model, area: Rect) -> Parts {
    let width = usize::from(area.width);
    let said = model.busy.map(|word| format!("{word}..."));
    let said = said
        .or_else(|| model.said.clone())
        .or_else(|| tried(model)?.undescribed(width));
    let said = said
        .map(|text| wrap(&escaped(&text), width))
        .unwrap_or_default();
    let banner = model.read_only.as_ref().map(|reason| {
        let text = format!("READ ONLY: nothing more can be recorded. {reason}");
        wrap(&escaped(&text), width)
    });
    let banner = banner.unwrap_or_default();
    let heading = heading(model, area);
    // The sentences give way before the step does. Where there is room their first row is kept
    // free, so that the page does not move when one comes and goes.
    let (least, most) = if area.height < 20 { (0, 4) } else { (1, 5) };
    let rows = |count: usize, most: u16| u16::try_from(count).unwrap_or(most).min(most);
    let [top, bar, _, middle, low, foot] = Layout::vertical([
        Constraint::Length(rows(heading.len(), 3)),
        Constraint::Length(rows(banner.len(), 2)),
        Constraint::Length(u16::from(area.height >= 20)),
        Constraint::Fill(1),
        Constraint::Length(rows(said.len(), most).max(least)),
        Constraint::Length(1),
    ])
    .areas(area);
    let walks = matches!(&model.screen, Screen::Walk(walking) if !walking.hides_place());
    let listed = walks && area.width >= WIDE && !model.look.big;
    let (list, page) = if listed {
        let columns = [
            Constraint::Length(LIST),
            Constraint::Length(2),
            Constraint::Fill(1),
        ];
        let [list, _, page] = Layout::horizontal(columns).areas(middle);
        (Some(list), page)
    } else {
        (None, middle)
    };
    Parts {
        heading,
        banner,
        said,
        top,
        bar,
        list,
        page,
        low,
        foot,
    }
}

fn screen(model: &Model, frame: &mut Frame, area: Rect) {
    let parts = parts(model, area);
    for (row, line) in parts.top.rows().zip(&parts.heading) {
        frame.render_widget(line, row);
    }
    draw_lines(model, frame, parts.bar, Ink::Banner, &parts.banner);
    if let (Some(area), Screen::Walk(walking)) = (parts.list, &model.screen) {
        let lines = walk::list(walking, usize::from(area.height));
        for (row, (ink, text)) in area.rows().zip(lines) {
            let text = shorten(&escaped(&text), usize::from(area.width));
            frame.render_widget(inked(text, model.look.style(ink)), row);
        }
    }
    if let Some(trying) = tried(model) {
        whatif::draw(trying, model.look, frame, parts.page);
    } else if let Some(looking) = month(model) {
        lookout::draw(looking, model.look, frame, parts.page);
    } else {
        page(model, frame, parts.page);
    }
    draw_lines(model, frame, parts.low, Ink::Strong, &parts.said);
    frame.render_widget(footer(model, usize::from(area.width)), parts.foot);
}

/// What is drawn beside words.
enum Drawn<'m> {
    /// The part of a step, below them.
    Step(&'m Plan, &'m PlannedStep),
    /// The rig of a drill as far as it was looked at, below them too, and whether the run is watched.
    Seen(Box<Seen>, bool),
    /// The chart of a series, above them.
    Chart(&'m Series),
}

/// Draws what is in the middle: words, and beside them a drawing where there is room.
fn page(model: &Model, frame: &mut Frame, area: Rect) {
    let page = written(model, area);
    let drawn = drawn(model);
    let (words, room) = beside_drawing(drawn.as_ref(), &page, area);
    let placed = page.placed(usize::from(words.height), scroll(model));
    placed.draw(model.look, frame, words);
    match (drawn, room) {
        (Some(Drawn::Step(plan, step)), Some(room)) => {
            let drawing = drawing_of(plan, step, model.look.ascii);
            frame.render_widget(&drawing, room);
        }
        (Some(Drawn::Seen(seen, _)), Some(room)) => {
            let [told, room] =
                Layout::vertical([Constraint::Length(1), Constraint::Fill(1)]).areas(room);
            draw_lines(model, frame, told, Ink::Dim, &[seen.told]);
            frame.render_widget(&seen.drawing.ascii(model.look.ascii), room);
        }
        (Some(Drawn::Chart(series)), Some(room)) => {
            lookout::draw_chart(series, model.look, frame.buffer_mut(), room);
        }
        _ => {}
    }
}

/// The rig in thought, where it is on the screen with no page over it.
fn tried(model: &Model) -> Option<&Trying> {
    match &model.screen {
        Screen::WhatIf(trying) if model.help.is_none() && !trying.is_open() => Some(trying),
        _ => None,
    }
}

/// The month of a logbook, where it is on the screen with no page over it.
fn month(model: &Model) -> Option<&Looking> {
    match &model.screen {
        Screen::Lookout(looking) if model.help.is_none() && !looking.is_page() => Some(looking),
        _ => None,
    }
}

/// What is drawn beside the words. The part of a step is marked: a person in a cab looks before
/// reading.
fn drawn(model: &Model) -> Option<Drawn<'_>> {
    match &model.screen {
        _ if model.help.is_some() => None,
        Screen::Walk(walking) if !model.look.big && walking.drill.is_some() => {
            let watched = walking.is_watched();
            let seen = walking.seen().map(Box::new)?;
            Some(Drawn::Seen(seen, watched))
        }
        Screen::Walk(walking) if !model.look.big => {
            let (plan, step) = walking.drawn_step()?;
            Some(Drawn::Step(plan, step))
        }
        Screen::Lookout(looking) => looking.charted().map(Drawn::Chart),
        _ => None,
    }
}

/// The room for words and, beside them, for the drawing where enough is left.
fn beside_drawing(drawn: Option<&Drawn<'_>>, page: &Page, area: Rect) -> (Rect, Option<Rect>) {
    match drawn {
        // Of a run that is watched the words say what is done.
        Some(Drawn::Step(..) | Drawn::Seen(_, true)) => above_drawing(&page.wishes(), area),
        // What was looked at is worth more than what explains.
        Some(Drawn::Seen(_, false)) => {
            let [all, useful] = page.wishes();
            above_drawing(&[all, useful, page.wishes_at_the_least()], area)
        }
        Some(Drawn::Chart(_)) => lookout::chart_room(page, area),
        None => (area, None),
    }
}

/// The room for words and, below them, for the rig.
fn above_drawing(wishes: &[usize], area: Rect) -> (Rect, Option<Rect>) {
    let mut words = wishes.iter().filter_map(|rows| u16::try_from(*rows).ok());
    let fits = |rows: &u16| area.height.saturating_sub(rows + 1) >= LEAST_DRAWING;
    let Some(rows) = words.find(fits) else {
        return (area, None);
    };
    let most = Constraint::Max(MOST_DRAWING);
    let [words, _, drawing] =
        Layout::vertical([Constraint::Length(rows), Constraint::Length(1), most]).areas(area);
    (words, Some(drawing))
}

/// How far what is in the middle can be scrolled, in a window of the model's size.
pub(super) fn most_scroll(model: &Model) -> usize {
    let area = parts(model, Rect::new(0, 0, model.size.0, model.size.1)).page;
    let page = written(model, area);
    let (words, _) = beside_drawing(drawn(model).as_ref(), &page, area);
    page.most_scroll(usize::from(words.height))
}

/// Rows of what is in the middle, in a window of the model's size.
pub(super) fn rows(model: &Model) -> usize {
    usize::from(
        parts(model, Rect::new(0, 0, model.size.0, model.size.1))
            .page
            .height,
    )
}

fn scroll(model: &Model) -> usize {
    match &model.screen {
        _ if model.help.is_some() => 0,
        Screen::Start(start) => start.read.unwrap_or(0),
        Screen::Drills(room) => room.scroll,
        Screen::Walk(walking) => walking.scroll,
        Screen::Seal(sealing) => sealing.scroll,
        Screen::Record(reading) => reading.scroll,
        Screen::WhatIf(trying) => trying.scroll,
        Screen::Lookout(looking) => looking.scroll,
    }
}

/// What is in the middle.
fn written(model: &Model, area: Rect) -> Page {
    let mut page = Page::new(model.look, area.width);
    match &model.screen {
        _ if model.help.is_some() => help::body(model, &mut page),
        Screen::Start(start) => start::body(start, model, area.height, &mut page),
        Screen::Drills(room) => room::body(room, model, &mut page),
        Screen::Walk(walking) => walk::body(walking, model, &mut page),
        Screen::Seal(sealing) => seal::body(sealing, model, &mut page),
        Screen::Record(reading) => record::body(reading, &mut page),
        Screen::WhatIf(trying) => whatif::body(trying, &mut page),
        Screen::Lookout(looking) => lookout::body(looking, &mut page),
    }
    page
}

/// The one or two lines that say where one is. No list or panel covers them.
fn heading(model: &Model, area: Rect) -> Vec<Line<'static>> {
    let lines = match &model.screen {
        Screen::Start(start) => start::heading(start, model.barn.as_ref()),
        Screen::Drills(room) => room::heading(room, model.drills.as_ref()),
        Screen::Walk(walking) => walk::heading(walking, area.width, area.height),
        Screen::Seal(sealing) => sealing.heading(),
        Screen::Record(reading) => reading.heading(),
        Screen::WhatIf(trying) => trying.heading(),
        Screen::Lookout(looking) => looking.heading((area.width, area.height)),
    };
    let words = marks(model);
    let mark: usize = words.iter().map(|word| word.len() + 1).sum();
    let width = usize::from(area.width);
    let lines = lines.into_iter().enumerate().map(|(at, (ink, text))| {
        let ink = model.look.style(ink);
        if at > 0 {
            return inked(shorten(&text, width), ink);
        }
        let marks = words.iter().flat_map(|word| {
            let banner = Span::styled(*word, model.look.style(Ink::Banner));
            [banner, Span::raw(" ")]
        });
        let text = Span::styled(shorten(&text, width.saturating_sub(mark)), ink);
        Line::from(marks.chain([text]).collect::<Vec<_>>())
    });
    lines.collect()
}

/// The words that mark a frame: that the walk does not count, that it is entered from paper, that
/// the rig is not as described.
fn marks(model: &Model) -> Vec<&'static str> {
    let thought = matches!(&model.screen, Screen::WhatIf(trying) if trying.is_thought());
    let paper = model.walk().is_some_and(|walk| walk.paper().is_some());
    let words = [
        mode_word(model),
        paper.then_some(FROM_PAPER),
        thought.then_some("WHAT IF"),
    ];
    words.into_iter().flatten().collect()
}

/// The word that marks every frame of a walk that does not count.
fn mode_word(model: &Model) -> Option<&'static str> {
    match model.mode()? {
        Mode::Real => None,
        Mode::Demo => Some("DEMO"),
        Mode::Drill => Some("DRILL"),
    }
}

fn draw_lines(model: &Model, frame: &mut Frame, area: Rect, ink: Ink, lines: &[String]) {
    for (row, line) in area.rows().zip(lines) {
        frame.render_widget(inked(line.clone(), model.look.style(ink)), row);
    }
}
