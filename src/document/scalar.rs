//! Text, words, numbers and quantities: what a single value may be asked for.

use crate::document::fault::{hides, shown};
use crate::document::grow::Content;
use crate::document::{Node, Read, Told, nearest};
use crate::units::{Dimension, Exact, Quantity, parse_quantity};

impl<'d> Node<'d> {
    /// Text of any kind, also empty.
    ///
    /// # Errors
    /// When this is not text; a bare number or `true` is told to want quotes.
    pub fn text(self) -> Read<&'d str> {
        match self.content() {
            Some(Content::Text(text)) => Ok(text),
            Some(Content::Number(digits)) => Err(self.wants_quotes(digits)),
            Some(Content::Flag(flag)) => {
                Err(self.wants_quotes(if *flag { "true" } else { "false" }))
            }
            _ => Err(self.wanted("text", "write the text behind the colon")),
        }
    }

    /// One line of text that shows as it is: not empty, no line break, nothing invisible.
    ///
    /// Blanks and line breaks at its ends are taken off.
    ///
    /// # Errors
    /// When this is not such text.
    pub fn sentence(self) -> Read<&'d str> {
        let text = self.text()?.trim();
        if text.is_empty() {
            return Err(self.fault("this text is empty", "write the text, or take the key away"));
        }
        if text.contains('\n') {
            let fix = "write one paragraph; `>` behind the colon joins lines";
            return Err(self.fault("a line break stands in this text", fix));
        }
        if let Some(hidden) = text.chars().find(|&letter| hides(letter)) {
            let what = format!(
                "an invisible character (U+{:04X}) stands in this text",
                u32::from(hidden)
            );
            return Err(self.fault(what, "write it anew with letters, digits and punctuation"));
        }
        Ok(text)
    }

    /// A name others refer to: lower-case letters, digits and hyphens, a letter first.
    ///
    /// # Errors
    /// When this is not such a name.
    pub fn id(self) -> Read<&'d str> {
        let text = self.text()?;
        let spelled = text
            .bytes()
            .all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-');
        if spelled && text.starts_with(|first: char| first.is_ascii_lowercase()) {
            return Ok(text);
        }
        let fix = match respelled(text) {
            Some(id) => format!("write `{id}`"),
            None => "use lower-case letters, digits and hyphens, a letter first".to_owned(),
        };
        Err(self.fault(format!("{} is not a name", shown(text)), fix))
    }

    /// `true` or `false`.
    ///
    /// # Errors
    /// When this is anything else, `yes` and `on` among it.
    pub fn flag(self) -> Read<bool> {
        match self.content() {
            Some(Content::Flag(flag)) => Ok(*flag),
            _ => Err(self.wanted("true or false", "write one of the two, without quotes")),
        }
    }

    /// A whole number in plain digits.
    ///
    /// # Errors
    /// When this is not one, or does not fit into 64 bits.
    pub fn whole(self) -> Read<i64> {
        let whole = match self.content() {
            Some(Content::Number(digits)) => plain_whole(digits),
            _ => None,
        };
        whole.ok_or_else(|| self.wanted("a whole number", "write digits only, such as 4"))
    }

    /// Figures that are a mark and not a number, bare or in quotes, with every nought.
    ///
    /// # Errors
    /// When this is not text or a number.
    pub fn figures(self) -> Read<&'d str> {
        match self.content() {
            Some(Content::Number(figures) | Content::Text(figures)) => Ok(figures),
            _ => Err(self.wanted("figures", "write them behind the colon")),
        }
    }

    /// A plain decimal number, bare or in quotes, taken exactly as written.
    ///
    /// # Errors
    /// When this is not one: no exponent, no comma, no `.nan`.
    pub fn decimal(self) -> Read<Exact> {
        let number = match self.content() {
            Some(Content::Number(digits) | Content::Text(digits)) => {
                Exact::parse_decimal(digits).ok()
            }
            _ => None,
        };
        number.ok_or_else(|| {
            self.wanted(
                "a number",
                "write digits with at most one point, such as 12.5",
            )
        })
    }

    /// A quantity of `dimension` with its unit, such as `65 psi`; a count may be a bare number.
    ///
    /// # Errors
    /// When this is not one.
    pub fn quantity(self, dimension: Dimension) -> Read<Quantity> {
        let Some(Content::Text(typed) | Content::Number(typed)) = self.content() else {
            let wanted = format!("a {} with its unit", dimension.word());
            return Err(self.wanted(&wanted, format!("write it as {}", dimension.example())));
        };
        parse_quantity(typed, dimension)
            .map_err(|reason| self.fault(reason.reason(), reason.advice()))
    }

    /// A quantity of the first of `dimensions` it can be read as, the usual one first.
    ///
    /// # Errors
    /// When it is none of them; the usual one is told to be wanted.
    pub fn quantity_in(self, dimensions: &[Dimension]) -> Read<Quantity> {
        let written = match self.content() {
            Some(Content::Text(text) | Content::Number(text)) => text.as_str(),
            _ => "",
        };
        let read = dimensions
            .iter()
            .find_map(|dimension| parse_quantity(written, *dimension).ok());
        match (read, dimensions.first()) {
            (Some(quantity), _) => Ok(quantity),
            (None, Some(usual)) => self.quantity(*usual),
            (None, None) => Err(self.wanted("nothing", "take the key away")),
        }
    }

    /// One word of a closed list, and what it means.
    ///
    /// # Errors
    /// When this is none of the words.
    pub fn choice<T: Copy>(self, choices: &[(&str, T)]) -> Read<T> {
        let word = self.text()?;
        if let Some((_, meaning)) = choices.iter().find(|(name, _)| *name == word) {
            return Ok(*meaning);
        }
        let names: Vec<&str> = choices.iter().map(|(name, _)| *name).collect();
        let fix = match nearest(word, names.iter().copied()) {
            Some(meant) => format!(
                "did you mean {meant}? The words here are {}",
                names.join(", ")
            ),
            None => format!("the words here are {}", names.join(", ")),
        };
        Err(self.fault(format!("{} is not a word known here", shown(word)), fix))
    }

    fn wants_quotes(self, written: &str) -> Told {
        self.wanted("text", format!("put it in quotes: \"{written}\""))
    }
}

/// Digits and at most a minus, as a number: neither `+5` nor `0x10`.
fn plain_whole(digits: &str) -> Option<i64> {
    let body = digits.strip_prefix('-').unwrap_or(digits);
    let plain = body.bytes().all(|byte| byte.is_ascii_digit());
    plain.then(|| digits.parse().ok())?
}

/// The name a text comes near to, if any.
fn respelled(text: &str) -> Option<String> {
    let lower = text.trim().to_lowercase();
    let words: Vec<&str> = lower
        .split(|letter: char| !(letter.is_ascii_lowercase() || letter.is_ascii_digit()))
        .filter(|word| !word.is_empty())
        .collect();
    let id = words.join("-");
    let short = id.len() <= 40;
    (short && id.starts_with(|first: char| first.is_ascii_lowercase())).then_some(id)
}
