//! Reading what a person types: `65 psi`, `4.5bar`, `2-5/16 in`, `1 1/4 in`, `98F`.

use crate::units::{Dimension, Exact, Quantity, Unit};
use std::fmt;

/// Why a text is not a quantity of the dimension asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotAQuantity {
    /// Nothing was typed.
    Empty(Dimension),
    /// A number without a unit.
    NoUnit(Dimension),
    /// The part in front is not a number.
    NoNumber(Dimension, String),
    /// A comma, which some read as a decimal sign and some as a thousands mark.
    Comma(Dimension),
    /// A unit that does not measure this dimension.
    OtherUnit(Dimension, String),
    /// A fraction whose lower number is no tape mark (2, 4, 8, 16, 32, 64).
    Fraction(Dimension, String),
}

/// Longest text taken. A reading is short; a pasted page is not one.
const LONGEST: usize = 40;

/// Reads a quantity of `dimension` from what was typed.
///
/// Takes a decimal (`65`, `4.5`), a tape fraction (`5/16`, `2-5/16`, `1 1/4`), and a unit with or
/// without a blank before it. A count needs no unit; everything else does.
///
/// # Errors
/// [`NotAQuantity`], whose text says what is wrong and gives an example.
pub fn parse_quantity(typed: &str, dimension: Dimension) -> Result<Quantity, NotAQuantity> {
    let text = typed.trim();
    if text.is_empty() {
        return Err(NotAQuantity::Empty(dimension));
    }
    let shown = || text.chars().take(LONGEST).collect::<String>();
    if text.chars().count() > LONGEST {
        return Err(NotAQuantity::NoNumber(dimension, shown()));
    }
    let (number, unit) = split(text);
    if text.contains(',') {
        return Err(NotAQuantity::Comma(dimension));
    }
    if number.is_empty() {
        return Err(NotAQuantity::NoNumber(dimension, shown()));
    }
    let value = match number.split_once('/') {
        Some(_) => tape(number).ok_or_else(|| NotAQuantity::Fraction(dimension, shown()))?,
        None => {
            Exact::parse_decimal(number).map_err(|_| NotAQuantity::NoNumber(dimension, shown()))?
        }
    };
    if unit.is_empty() && dimension != Dimension::Count {
        return Err(NotAQuantity::NoUnit(dimension));
    }
    let unit = Unit::named(unit, dimension)
        .ok_or_else(|| NotAQuantity::OtherUnit(dimension, unit.to_owned()))?;
    Ok(Quantity::new(value, unit))
}

/// Cuts where the number ends: at the first character no number or fraction has.
fn split(text: &str) -> (&str, &str) {
    let end = text
        .char_indices()
        .find(|(at, letter)| {
            let part_of_number = letter.is_ascii_digit() || matches!(letter, '.' | '/' | ',');
            let sign = *letter == '-' && digit_follows(text, *at);
            let blank = *letter == ' ' && fraction_follows(text, *at);
            !(part_of_number || sign || blank)
        })
        .map_or(text.len(), |(at, _)| at);
    let (number, unit) = text.split_at(end);
    (number.trim(), unit.trim())
}

fn digit_follows(text: &str, at: usize) -> bool {
    text.get(at + 1..)
        .is_some_and(|rest| rest.starts_with(|next: char| next.is_ascii_digit()))
}

/// Whether a blank stands between the whole inches and the fraction of `1 1/4`.
fn fraction_follows(text: &str, at: usize) -> bool {
    let rest = text.get(at + 1..).unwrap_or_default();
    let digits = rest.trim_start_matches(|letter: char| letter.is_ascii_digit());
    digits.len() < rest.len() && digits.starts_with('/')
}

/// `5/16`, `2-5/16` or `1 1/4` as an exact number.
fn tape(number: &str) -> Option<Exact> {
    let (whole, fraction) = match number.split_once(['-', ' ']) {
        Some((whole, fraction)) => (Exact::parse_decimal(whole).ok()?, fraction),
        None => (Exact::zero(), number),
    };
    let (upper, lower) = fraction.split_once('/')?;
    let upper: i128 = upper.parse().ok()?;
    let lower: i128 = lower.parse().ok()?;
    let is_tape_mark = [2, 4, 8, 16, 32, 64].contains(&lower);
    (is_tape_mark && 0 < upper && upper < lower && !whole.is_negative())
        .then(|| Exact::ratio(upper, lower))?
        .map(|part| &whole + &part)
}

impl NotAQuantity {
    /// What is wrong with the text.
    pub fn reason(&self) -> String {
        match self {
            Self::Empty(_) => "nothing was typed".to_owned(),
            Self::NoUnit(_) => "the unit is missing".to_owned(),
            Self::NoNumber(_, text) => format!("“{text}” is not a number"),
            Self::Comma(_) => "a comma can be read two ways; use a point for decimals".to_owned(),
            Self::OtherUnit(dimension, unit) => {
                format!("“{unit}” is not a unit of {}", dimension.word())
            }
            Self::Fraction(_, text) => {
                format!("“{text}” is not a tape fraction (halves to 64ths)")
            }
        }
    }

    /// What to type instead.
    pub fn advice(&self) -> String {
        let (Self::Empty(dimension)
        | Self::NoUnit(dimension)
        | Self::NoNumber(dimension, _)
        | Self::Comma(dimension)
        | Self::OtherUnit(dimension, _)
        | Self::Fraction(dimension, _)) = self;
        format!(
            "type a {} such as {}",
            dimension.word(),
            dimension.example()
        )
    }
}

impl fmt::Display for NotAQuantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}; {}", self.reason(), self.advice())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn read(text: &str, dimension: Dimension) -> String {
        match parse_quantity(text, dimension) {
            Ok(quantity) => quantity.to_string(),
            Err(error) => error.to_string(),
        }
    }

    #[test]
    fn people_type_the_same_thing_many_ways() {
        for (typed, dimension, means) in [
            ("65 psi", Dimension::Pressure, "65 psi"),
            ("65psi", Dimension::Pressure, "65 psi"),
            (" 65 PSI ", Dimension::Pressure, "65 psi"),
            ("4.5bar", Dimension::Pressure, "4.5 bar"),
            ("448 kPa", Dimension::Pressure, "448 kPa"),
            ("110 ft-lb", Dimension::Torque, "110 ft-lb"),
            ("110 lb-ft", Dimension::Torque, "110 ft-lb"),
            ("150 N·m", Dimension::Torque, "150 N·m"),
            ("150Nm", Dimension::Torque, "150 N·m"),
            ("2-5/16 in", Dimension::Length, "2.3125 in"),
            ("1 1/4 in", Dimension::Length, "1.25 in"),
            ("5/8\"", Dimension::Length, "0.625 in"),
            ("98F", Dimension::Temperature, "98 F"),
            ("-4 °C", Dimension::Temperature, "-4 C"),
            ("12.6V", Dimension::Voltage, "12.6 V"),
            ("7000lbs", Dimension::Mass, "7000 lb"),
            ("4", Dimension::Count, "4"),
        ] {
            assert_eq!(read(typed, dimension), means, "{typed}");
        }
    }

    #[test]
    fn a_refusal_says_what_is_wrong_and_shows_how() {
        for (typed, reason) in [
            (
                "",
                "nothing was typed; type a pressure such as 65 psi or 4.5 bar",
            ),
            (
                "65",
                "the unit is missing; type a pressure such as 65 psi or 4.5 bar",
            ),
            (
                "65 kg",
                "“kg” is not a unit of pressure; type a pressure such as 65 psi or 4.5 bar",
            ),
            (
                "6,5 bar",
                "a comma can be read two ways; use a point for decimals; type a pressure such as 65 psi or 4.5 bar",
            ),
            (
                "1e5 psi",
                "“e5 psi” is not a unit of pressure; type a pressure such as 65 psi or 4.5 bar",
            ),
            (
                "nan psi",
                "“nan psi” is not a number; type a pressure such as 65 psi or 4.5 bar",
            ),
        ] {
            assert_eq!(read(typed, Dimension::Pressure), reason);
        }
        assert!(read("1/3 in", Dimension::Length).contains("not a tape fraction"));
    }

    proptest! {
        #[test]
        fn whatever_is_typed_reading_it_does_not_panic(text in "\\PC{0,50}") {
            for dimension in Dimension::ALL {
                let _ = parse_quantity(&text, dimension);
            }
        }

        #[test]
        fn a_shown_quantity_reads_back_the_same(tenths in -99_999i64..99_999) {
            for dimension in Dimension::ALL {
                for unit in dimension.units() {
                    let value = Exact::ratio(i128::from(tenths), 10).unwrap();
                    let quantity = Quantity::new(value, unit);
                    prop_assert_eq!(parse_quantity(&quantity.to_string(), dimension), Ok(quantity));
                }
            }
        }

        #[test]
        fn changing_the_unit_and_back_changes_nothing(tenths in -99_999i64..99_999) {
            for dimension in Dimension::ALL {
                for from in dimension.units() {
                    for to in dimension.units() {
                        let value = Exact::ratio(i128::from(tenths), 10).unwrap();
                        let quantity = Quantity::new(value, from);
                        let back = quantity.in_unit(to).unwrap().in_unit(from).unwrap();
                        prop_assert_eq!(back, quantity);
                    }
                }
            }
        }
    }
}
