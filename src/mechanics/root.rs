//! Where a falling quantity comes down to nothing.

use crate::mechanics::NoNumber;

/// Rounds: each second one halves at least, which brings any bracket to its last digit.
const ROUNDS: u32 = 128;

/// Between `low`, where `of` is not below 0, and `high`, where it is not above, the place where it
/// is 0, or as near as `enough`. On straight pieces the line through both ends meets it at once;
/// around a corner the bracket is halved.
///
/// # Errors
/// Whatever `of` refuses with.
pub(crate) fn zero(
    mut low: f64,
    mut high: f64,
    enough: f64,
    mut of: impl FnMut(f64) -> Result<f64, NoNumber>,
) -> Result<f64, NoNumber> {
    let (mut at_low, mut at_high) = (of(low)?, of(high)?);
    for (end, there) in [(low, at_low), (high, at_high)] {
        if there.abs() <= enough {
            return Ok(end);
        }
    }
    let mut middle = low;
    for round in 0..ROUNDS {
        middle = if round % 2 == 0 {
            low + (high - low) * (at_low / (at_low - at_high)).clamp(0.0, 1.0)
        } else {
            low + (high - low) / 2.0
        };
        let there = of(middle)?;
        if there.abs() <= enough {
            break;
        }
        if there > 0.0 {
            (low, at_low) = (middle, there);
        } else {
            (high, at_high) = (middle, there);
        }
    }
    Ok(middle)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_curve_is_followed_to_the_last_digit() {
        let found = zero(0.0, 2.0, 0.0, |x| Ok(2.0 - x * x)).unwrap();
        assert!((found - 2.0_f64.sqrt()).abs() < 1e-15);
    }

    #[test]
    fn a_straight_piece_takes_a_handful_of_looks() {
        let mut looks = 0;
        let found = zero(0.0, 10.0, 1e-12, |x| {
            looks += 1;
            Ok(if x < 3.0 { 4.0 - x } else { 10.0 - 3.0 * x })
        });
        assert!((found.unwrap() - 10.0 / 3.0).abs() < 1e-12);
        assert!(looks < 12, "{looks}");
    }

    #[test]
    fn an_end_that_is_nothing_already_is_the_place() {
        assert_eq!(zero(0.0, 1.0, 0.0, |x| Ok(-x)), Ok(0.0));
    }
}
