//! A frame made plain: ASCII alone, for terminals and locales that promise no more.

use ratatui::buffer::Buffer;

/// Replaces whatever is not ASCII, cell by cell, so that no screen can forget to.
pub(super) fn to_ascii(buffer: &mut Buffer) {
    for cell in &mut buffer.content {
        if cell.symbol().is_ascii() {
            continue;
        }
        let plain = match cell.symbol() {
            "“" | "”" => "\"",
            "‘" | "’" => "'",
            "–" | "—" | "─" | "━" => "-",
            "│" | "┃" => "|",
            "·" => ".",
            "×" => "x",
            "²" => "2",
            "³" => "3",

            "é" | "è" | "ê" => "e",
            "á" | "à" | "å" | "ä" => "a",
            "°" | "ö" | "ó" | "ø" => "o",
            "ü" | "ú" => "u",
            "█" | "▀" | "▄" | "▌" | "▐" => "#",
            _ => "?",
        };
        cell.set_symbol(plain);
    }
}
