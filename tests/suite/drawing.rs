//! The rig's drawing: true to the rig's numbers, marked so that no colour is needed, and legible
//! at every size.

mod pictures;
mod shown;
mod truth;

use hames::rig::{Place, Rig, demo};
use hames::tui::rig::{Drawing, View};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Modifier;
use ratatui::widgets::Widget;

/// The demo barn's rigs.
fn rigs() -> [Rig; 2] {
    [demo::JUNIPER, demo::MESQUITE].map(|text| Rig::read(text).unwrap())
}

/// The same rigs with one, two and three axles.
fn rigs_of_all_axles() -> Vec<Rig> {
    let mut all = Vec::new();
    for rig in rigs() {
        for count in 1..=3 {
            let mut rig = rig.clone();
            let mut third = rig.trailer.axles[1].clone();
            third.behind_ball.quantity = third
                .behind_ball
                .quantity
                .plus(&hames::units::Quantity::whole(34, hames::units::Unit::Inch))
                .unwrap();
            rig.trailer.axles.push(third);
            rig.trailer.axles.truncate(count);
            all.push(rig);
        }
    }
    all
}

fn view(view: View, rig: &Rig) -> Drawing {
    match view {
        View::Side => Drawing::side(rig),
        View::Hitch => Drawing::hitch(rig),
        View::Above => Drawing::above(rig),
    }
}

/// The drawing a step about `place` gets.
fn marked(rig: &Rig, place: Place) -> Drawing {
    view(View::of(place, rig.kind()), rig).marked(place, None)
}

fn painted(drawing: &Drawing, width: u16, height: u16) -> Buffer {
    let area = Rect::new(0, 0, width, height);
    let mut buffer = Buffer::empty(area);
    drawing.render(area, &mut buffer);
    buffer
}

/// The screen as text, without blanks at line ends.
fn text(buffer: &Buffer) -> String {
    let row = |y| -> String {
        let cells = (0..buffer.area.width).map(|x| buffer[(x, y)].symbol());
        cells.collect::<String>().trim_end().to_owned() + "\n"
    };
    (0..buffer.area.height).map(row).collect()
}

fn is_reversed(buffer: &Buffer, x: u16, y: u16) -> bool {
    let both = Modifier::REVERSED | Modifier::BOLD;
    buffer[(x, y)].modifier.contains(both)
}

/// The runs of marked cells, a line for each row: `row 3: 4-9 12`.
fn marked_runs(buffer: &Buffer) -> String {
    let row = |y| {
        let marked = (0..buffer.area.width).filter(|x| is_reversed(buffer, *x, y));
        let runs: Vec<String> = marked
            .collect::<Vec<u16>>()
            .chunk_by(|a, b| a + 1 == *b)
            .map(|run| match run {
                [only] => only.to_string(),
                _ => format!("{}-{}", run[0], run[run.len() - 1]),
            })
            .collect();
        (!runs.is_empty()).then(|| format!("row {y}: {}\n", runs.join(" ")))
    };
    (0..buffer.area.height).filter_map(row).collect()
}
