//! Tires and how wheels are fastened.

use crate::rig::{Given, Source};
use crate::units::Quantity;

/// A tire, as its sidewall reads and as it was filled.
#[derive(Clone, Debug, PartialEq)]
pub struct Tire {
    /// Size as written.
    pub size: String,
    /// Load range letter as written.
    pub load_range: String,
    /// Most it carries at `max_pressure`.
    pub max_load: Given,
    /// Cold pressure at which it carries that.
    pub max_pressure: Given,
    /// Cold pressure asked for on this trailer.
    pub cold: Given,
    /// The maker's loads at lower pressures.
    pub table: Option<LoadTable>,
    /// When and how it was last filled.
    pub set: Option<TireSet>,
    /// When it was made.
    pub made: Option<DateCode>,
    /// Load index as written.
    pub load_index: Option<u16>,
    /// Letter of the speed it is made for, as written.
    pub speed: Option<char>,
    /// Middle of the wheel above the ground, loaded.
    pub radius: Option<Given>,
    /// How far it gives.
    pub spring_rate: Option<Given>,
}

/// A maker's table of what a tire carries at which pressure.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadTable {
    /// At least two rows, pressure and load rising.
    pub rows: Vec<TableRow>,
    /// Where the table stands.
    pub source: Source,
}

/// What a tire carries at one pressure.
#[derive(Clone, Debug, PartialEq)]
pub struct TableRow {
    /// Cold pressure.
    pub pressure: Quantity,
    /// Most it carries at that pressure.
    pub load: Quantity,
}

/// How a tire was filled: what its pressure means on another day depends on it.
#[derive(Clone, Debug, PartialEq)]
pub struct TireSet {
    /// Cold pressure it was set to.
    pub pressure: Given,
    /// Air temperature then.
    pub air: Given,
    /// Height above the sea there.
    pub altitude: Option<Given>,
}

/// The last figures of a tire's identification number: week and year, or, before 2000, week and
/// the last figure of the year.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DateCode(String);

impl DateCode {
    /// The last week a code can name.
    const LAST_WEEK: u8 = 53;

    /// The code of these figures; nothing when no tire bears such.
    pub fn read(figures: &str) -> Option<Self> {
        let plain = figures.bytes().all(|byte| byte.is_ascii_digit());
        let week: u8 = figures.get(..2)?.parse().ok()?;
        let known = matches!(figures.len(), 3 | 4) && (1..=Self::LAST_WEEK).contains(&week);
        (plain && known).then(|| Self(figures.to_owned()))
    }

    /// The figures as they stand on the sidewall: `3419`.
    pub fn figures(&self) -> &str {
        &self.0
    }
}

/// How a wheel is fastened.
#[derive(Clone, Debug, PartialEq)]
pub struct WheelFit {
    /// Number of studs.
    pub studs: Given,
    /// Stud diameter.
    pub stud: Given,
    /// Threads of the stud, to the inch.
    pub thread: Option<Given>,
    /// Proof strength of the stud.
    pub proof: Option<Given>,
    /// What the nut presses on.
    pub seat: Option<Seat>,
    /// Torque to aim at.
    pub torque: Given,
    /// Least torque the maker allows.
    pub torque_low: Given,
    /// Most torque the maker allows.
    pub torque_high: Given,
}

/// The shape of a nut's seat. Nut and wheel must have the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seat {
    /// A cone.
    Cone,
    /// A part of a ball.
    Ball,
    /// A flat flange or washer.
    Flange,
}

impl Seat {
    /// Every seat with its word.
    pub const WORDS: [(&'static str, Self); 3] = [
        ("cone", Self::Cone),
        ("ball", Self::Ball),
        ("flange", Self::Flange),
    ];

    /// The word used in rig files and on screens.
    pub fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, seat)| *seat == self)
            .map_or("", |(word, _)| word)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_date_code_is_week_and_year_in_four_figures_or_three() {
        for code in ["3419", "0100", "5312", "348"] {
            assert_eq!(DateCode::read(code).unwrap().figures(), code);
        }
        for code in [
            "", "34", "0019", "5421", "34191", "34 19", "3A19", "+419", "٣٤١٩",
        ] {
            assert_eq!(DateCode::read(code), None, "{code}");
        }
    }
}
