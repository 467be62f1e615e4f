//! Colours: the only file that names any. Nothing is told by colour alone.

use ratatui::style::{Color, Modifier, Style};

/// How the screens look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// The colours.
    pub theme: Theme,
    /// Whether colours may be used at all.
    pub colour: bool,
    /// Whether only ASCII may be drawn.
    pub ascii: bool,
    /// Whether the active step is drawn to be read at arm's length.
    pub big: bool,
}

/// Sets of colours.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// The terminal's own, with bold, reverse and underline only.
    #[default]
    Own,
    /// Dim on near black, with no white areas.
    Night,
    /// Black on white, bold.
    Glare,
}

/// What a piece of text is, which decides how it is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Ink {
    Body,
    Dim,
    Strong,
    Key,
    Title,
    Input,
    Warning,
    Banner,
    Ok,
    Note,
    Fix,
    Stop,
}

/// Colours of one theme, by the fixed part of the 256-colour table.
struct Palette {
    ground: u8,
    body: u8,
    dim: u8,
    ok: u8,
    note: u8,
    fix: u8,
    stop: u8,
}

const NIGHT: Palette = Palette {
    ground: 16,
    body: 180,
    dim: 144,
    ok: 151,
    note: 152,
    fix: 222,
    stop: 217,
};

const GLARE: Palette = Palette {
    ground: 231,
    body: 16,
    dim: 16,
    ok: 22,
    note: 18,
    fix: 53,
    stop: 52,
};

impl Theme {
    /// Every theme with its word.
    pub const WORDS: [(&'static str, Self); 3] = [
        ("own", Self::Own),
        ("night", Self::Night),
        ("glare", Self::Glare),
    ];

    /// The word used on screens and for options.
    pub fn word(self) -> &'static str {
        match self {
            Self::Own => "own",
            Self::Night => "night",
            Self::Glare => "glare",
        }
    }

    /// The next one round.
    pub(crate) fn next(self) -> Self {
        match self {
            Self::Own => Self::Night,
            Self::Night => Self::Glare,
            Self::Glare => Self::Own,
        }
    }

    fn palette(self) -> Option<&'static Palette> {
        match self {
            Self::Own => None,
            Self::Night => Some(&NIGHT),
            Self::Glare => Some(&GLARE),
        }
    }
}

impl Look {
    /// How this is drawn.
    pub(crate) fn style(self, ink: Ink) -> Style {
        let shape = Style::new().add_modifier(shape(ink));
        let Some(palette) = self.theme.palette().filter(|_| self.colour) else {
            return shape;
        };
        let shape = match self.theme {
            Theme::Glare => shape.add_modifier(Modifier::BOLD),
            // A light block at night blinds; what is reversed elsewhere is underlined.
            _ if shape.add_modifier.contains(Modifier::REVERSED) => {
                Style::new().add_modifier(Modifier::BOLD.union(Modifier::UNDERLINED))
            }
            _ => shape,
        };
        shape
            .fg(Color::Indexed(colour(palette, ink)))
            .bg(Color::Indexed(palette.ground))
    }
}

fn shape(ink: Ink) -> Modifier {
    match ink {
        Ink::Body | Ink::Dim => Modifier::empty(),
        Ink::Strong | Ink::Key | Ink::Ok | Ink::Note => Modifier::BOLD,
        Ink::Title | Ink::Input => Modifier::BOLD.union(Modifier::UNDERLINED),
        Ink::Warning | Ink::Banner | Ink::Fix | Ink::Stop => {
            Modifier::BOLD.union(Modifier::REVERSED)
        }
    }
}

fn colour(palette: &Palette, ink: Ink) -> u8 {
    match ink {
        Ink::Body | Ink::Strong | Ink::Key | Ink::Title | Ink::Input => palette.body,
        Ink::Dim => palette.dim,
        Ink::Ok => palette.ok,
        Ink::Note => palette.note,
        Ink::Fix | Ink::Warning => palette.fix,
        Ink::Stop | Ink::Banner => palette.stop,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const INKS: [Ink; 12] = [
        Ink::Body,
        Ink::Dim,
        Ink::Strong,
        Ink::Key,
        Ink::Title,
        Ink::Input,
        Ink::Warning,
        Ink::Banner,
        Ink::Ok,
        Ink::Note,
        Ink::Fix,
        Ink::Stop,
    ];

    /// A channel of the 6 by 6 by 6 cube at 16 to 231 of the 256-colour table, in linear light by
    /// the formula of WCAG 2.2, "relative luminance".
    fn linear(level: u8) -> f64 {
        let value = f64::from([0, 95, 135, 175, 215, 255_u8][usize::from(level)]) / 255.0;
        if value <= 0.04045 {
            value / 12.92
        } else {
            ((value + 0.055) / 1.055).powf(2.4)
        }
    }

    fn luminance(index: u8) -> f64 {
        let cube = index - 16;
        0.2126 * linear(cube / 36) + 0.7152 * linear(cube / 6 % 6) + 0.0722 * linear(cube % 6)
    }

    fn contrast(one: u8, other: u8) -> f64 {
        let (one, other) = (luminance(one) + 0.05, luminance(other) + 0.05);
        if one > other {
            one / other
        } else {
            other / one
        }
    }

    #[test]
    fn black_on_white_has_the_contrast_of_21_that_the_standard_gives() {
        assert!((contrast(16, 231) - 21.0).abs() < 1e-9);
    }

    /// WCAG 2.2, success criterion 1.4.6: at least 7 to 1.
    #[test]
    fn every_text_of_a_theme_stands_out_seven_to_one() {
        for palette in [&NIGHT, &GLARE] {
            for ink in INKS {
                let ratio = contrast(colour(palette, ink), palette.ground);
                assert!(ratio >= 7.0, "{ink:?} {ratio:.1}");
            }
        }
    }

    #[test]
    fn the_terminals_own_colours_stay_when_none_may_be_used() {
        for theme in [Theme::Own, Theme::Night, Theme::Glare] {
            let look = Look {
                theme,
                colour: theme == Theme::Own,
                ascii: false,
                big: false,
            };
            for ink in INKS {
                assert_eq!((look.style(ink).fg, look.style(ink).bg), (None, None));
            }
        }
    }
}
