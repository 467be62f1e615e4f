//! A frame as a picture: text of a buffer as SVG, for documents and for looking at screens.

use ratatui::buffer::Buffer;
use ratatui::style::{Color, Modifier};
use std::fmt::Write;

/// Columns and rows of a character cell, and where its text stands, in picture units.
const CELL: (u32, u32, u32) = (9, 20, 15);

/// Colours of a terminal left as it is.
const OWN: (&str, &str) = ("#1b1b1b", "#f4f1ea");

/// The buffer as an SVG document.
pub fn picture(buffer: &Buffer) -> String {
    let (columns, rows) = (u32::from(buffer.area.width), u32::from(buffer.area.height));
    let (width, height) = (columns * CELL.0 + 16, rows * CELL.1 + 16);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" \
         font-family=\"DejaVu Sans Mono, monospace\" font-size=\"15\">\
         <rect width=\"100%\" height=\"100%\" fill=\"{}\"/>\n",
        OWN.1
    );
    for row in buffer.area.rows() {
        for place in row.columns() {
            let Some(cell) = buffer.cell((place.x, place.y)) else {
                continue;
            };
            let (x, y) = (
                u32::from(place.x) * CELL.0 + 8,
                u32::from(place.y) * CELL.1 + 8,
            );
            let (mut ink, mut ground) = (colour(cell.fg, OWN.0), colour(cell.bg, OWN.1));
            if cell.modifier.contains(Modifier::REVERSED) {
                std::mem::swap(&mut ink, &mut ground);
            }
            let weight = if cell.modifier.contains(Modifier::BOLD) {
                " font-weight=\"bold\""
            } else {
                ""
            };
            let under = if cell.modifier.contains(Modifier::UNDERLINED) {
                " text-decoration=\"underline\""
            } else {
                ""
            };
            // Writing to a string does not fail.
            let _ = write!(
                svg,
                "<rect x=\"{x}\" y=\"{y}\" width=\"{}\" height=\"{}\" fill=\"{ground}\"/>",
                CELL.0, CELL.1
            );
            if cell.symbol() != " " {
                let text = cell
                    .symbol()
                    .replace('&', "&amp;")
                    .replace('<', "&lt;")
                    .replace('>', "&gt;");
                let y = y + CELL.2;
                let _ = writeln!(
                    svg,
                    "<text x=\"{x}\" y=\"{y}\" fill=\"{ink}\"{weight}{under}>{text}</text>"
                );
            }
        }
    }
    svg.push_str("</svg>\n");
    svg
}

/// A colour of the fixed part of the 256-colour table; anything else is the terminal's own.
fn colour(colour: Color, own: &str) -> String {
    match colour {
        Color::Indexed(index @ 16..=231) => {
            let level = |part: u8| if part == 0 { 0 } else { 55 + 40 * part };
            let cube = index - 16;
            format!(
                "#{:02x}{:02x}{:02x}",
                level(cube / 36),
                level(cube / 6 % 6),
                level(cube % 6)
            )
        }
        _ => own.to_owned(),
    }
}
