//! Where a condition that held stops holding.

use crate::mechanics::NoNumber;

/// Halvings: from any bracket to the last digit a computer holds.
const HALVINGS: u32 = 64;

/// Between `low`, where `before` holds, and `high`, where it does not, the place where it stops
/// holding.
///
/// # Errors
/// Whatever `before` refuses with.
pub(crate) fn crossing(
    mut low: f64,
    mut high: f64,
    mut before: impl FnMut(f64) -> Result<bool, NoNumber>,
) -> Result<f64, NoNumber> {
    for _ in 0..HALVINGS {
        let middle = low + (high - low) / 2.0;
        if before(middle)? {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(low + (high - low) / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_crossing_is_found_to_the_last_digit() {
        let found = crossing(0.0, 2.0, |x| Ok(x * x < 2.0)).unwrap();
        assert!((found - 2.0_f64.sqrt()).abs() < 1e-15);
    }
}
