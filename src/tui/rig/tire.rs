//! How large a tire is, by the size written on its sidewall.
//!
//! `ST225/75R15`: 225 mm wide, a sidewall 75 % of that high, on a 15 in rim (the metric marking of
//! the Tire and Rim Association's yearbook; from memory).

/// The two sizes of a tire a drawing needs, in inches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct TireSize {
    /// Half its height.
    pub(crate) radius: f64,
    /// Half the height of its rim.
    pub(crate) rim: f64,
    /// Its width.
    pub(crate) width: f64,
}

/// What is drawn for a size that cannot be read: the 15 in trailer tire most often seen (common
/// practice, no source).
const USUAL: TireSize = TireSize {
    radius: 14.1,
    rim: 7.5,
    width: 8.9,
};

const MILLIMETRES_PER_INCH: f64 = 25.4;

impl TireSize {
    /// The size written so, or the usual one where the writing is of another kind.
    pub(crate) fn written(size: &str) -> Self {
        Self::metric(size).unwrap_or(USUAL)
    }

    fn metric(size: &str) -> Option<Self> {
        let mut numbers = size
            .split(|c: char| !c.is_ascii_digit())
            .filter(|digits| !digits.is_empty())
            .map(|digits| digits.parse::<u16>().ok().map(f64::from));
        let width = numbers.next()?? / MILLIMETRES_PER_INCH;
        let share = numbers.next()?? / 100.0;
        let rim = numbers.next()?? / 2.0;
        let radius = rim + share * width;
        let usual = (4.0..14.0).contains(&width) && (9.0..24.0).contains(&radius);
        usual.then_some(Self { radius, rim, width })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_metric_size_gives_the_height_of_the_tire() {
        for (size, height) in [
            ("ST225/75R15", 28.3),
            ("ST205/80-14", 26.9),
            ("P265/70R17", 31.6),
            ("LT235/85R16", 31.7),
            ("235/80 R16", 30.8),
        ] {
            let tire = TireSize::written(size);
            assert!((tire.radius * 2.0 - height).abs() < 0.1, "{size}: {tire:?}");
        }
    }

    #[test]
    fn a_size_of_another_kind_is_drawn_as_the_usual_tire() {
        for size in ["", "8-14.5", "7.00-15LT", "ST999999/75R15", "ST225/75R95"] {
            assert_eq!(TireSize::written(size), USUAL, "{size}");
        }
    }
}
