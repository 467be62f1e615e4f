//! A frame as a picture: a buffer as SVG, for documents and for looking at screens.

use ratatui::buffer::{Buffer, Cell};
use ratatui::layout::Position;
use ratatui::style::{Color, Modifier};

/// Width and height of a cell, the line its text stands on, and the margin, in picture units.
const CELL: (u32, u32, u32) = (9, 20, 15);
const MARGIN: u32 = 8;

/// Ink and ground where a terminal is left its own colours.
const OWN: (&str, &str) = ("#1b1b1b", "#f4f1ea");

/// The buffer as an SVG document.
pub fn picture(buffer: &Buffer) -> String {
    let width = u32::from(buffer.area.width) * CELL.0 + 2 * MARGIN;
    let height = u32::from(buffer.area.height) * CELL.1 + 2 * MARGIN;
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" \
         font-family=\"DejaVu Sans Mono, monospace\" font-size=\"15\">\n{}",
        rect((0, 0), (width, height), OWN.1)
    );
    for place in buffer.area.positions() {
        if let Some(cell) = buffer.cell(place) {
            svg.push_str(&drawn(cell, place));
        }
    }
    svg.push_str("</svg>\n");
    svg
}

fn drawn(cell: &Cell, place: Position) -> String {
    let x = u32::from(place.x) * CELL.0 + MARGIN;
    let y = u32::from(place.y) * CELL.1 + MARGIN;
    let (mut ink, mut ground) = (colour(cell.fg, OWN.0), colour(cell.bg, OWN.1));
    if cell.modifier.contains(Modifier::REVERSED) {
        std::mem::swap(&mut ink, &mut ground);
    }
    let half = CELL.1 / 2;
    let mut svg = String::new();
    if ground != OWN.1 {
        svg += &rect((x, y), (CELL.0, CELL.1), &ground);
    }
    svg += &match cell.symbol() {
        " " => String::new(),
        // A block of a font seldom fills its cell.
        "█" => rect((x, y), (CELL.0, CELL.1), &ink),
        "▀" => rect((x, y), (CELL.0, half), &ink),
        "▄" => rect((x, y + half), (CELL.0, half), &ink),
        symbol => text((x, y + CELL.2), &ink, cell.modifier, symbol),
    };
    if cell.modifier.contains(Modifier::UNDERLINED) {
        svg += &rect((x, y + CELL.2 + 2), (CELL.0, 1), &ink);
    }
    svg
}

fn rect((x, y): (u32, u32), (width, height): (u32, u32), fill: &str) -> String {
    format!("<rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" fill=\"{fill}\"/>\n")
}

fn text((x, y): (u32, u32), ink: &str, modifier: Modifier, symbol: &str) -> String {
    let bold = modifier.contains(Modifier::BOLD);
    let weight = if bold { " font-weight=\"bold\"" } else { "" };
    let symbol = symbol.replace('&', "&amp;").replace('<', "&lt;");
    format!("<text x=\"{x}\" y=\"{y}\" fill=\"{ink}\"{weight}>{symbol}</text>\n")
}

/// A colour of the fixed part of the 256-colour table; anything else is the terminal's own.
fn colour(colour: Color, own: &str) -> String {
    let Color::Indexed(index @ 16..=231) = colour else {
        return own.to_owned();
    };
    let level = |part: u8| if part == 0 { 0 } else { 55 + 40 * part };
    let (red, green, blue) = ((index - 16) / 36, (index - 16) / 6 % 6, (index - 16) % 6);
    format!("#{:02x}{:02x}{:02x}", level(red), level(green), level(blue))
}

#[cfg(test)]
mod tests {
    use super::*;
    use ratatui::layout::Rect;
    use ratatui::style::Style;

    #[test]
    fn a_cell_is_drawn_with_its_colours_and_its_text_is_no_markup() {
        let mut buffer = Buffer::empty(Rect::new(0, 0, 2, 1));
        let night = Style::new().fg(Color::Indexed(217)).bg(Color::Indexed(16));
        buffer.set_string(0, 0, "<", night.add_modifier(Modifier::BOLD));
        let svg = picture(&buffer);
        assert!(
            svg.contains("width=\"9\" height=\"20\" fill=\"#000000\""),
            "{svg}"
        );
        assert!(
            svg.contains("fill=\"#ffafaf\" font-weight=\"bold\">&lt;</text>"),
            "{svg}"
        );
        assert_eq!(svg.matches("<text").count(), 1);
    }

    #[test]
    fn what_is_reversed_has_its_colours_exchanged() {
        let mut buffer = Buffer::empty(Rect::new(0, 0, 1, 1));
        buffer.set_string(0, 0, "A", Style::new().add_modifier(Modifier::REVERSED));
        let svg = picture(&buffer);
        let (ink, ground) = OWN;
        assert!(
            svg.contains(&format!("height=\"20\" fill=\"{ink}\"")),
            "{svg}"
        );
        assert!(svg.contains(&format!("fill=\"{ground}\">A<")), "{svg}");
    }
}
