//! The roots of a polynomial of the fourth degree with real coefficients.
//!
//! It is taken apart into two of the second degree. With the cube term shifted away,
//! `y^4 + p y^2 + q y + r = (y^2 + s y + u) (y^2 - s y + v)`, and `s^2` is a root, not below 0, of
//! `z^3 + 2 p z^2 + (p^2 - 4 r) z - q^2`: one always lies between 0 and the bound that the
//! coefficients set. The two halves then say by their own signs whether roots are real, without
//! any tolerance. Source: Descartes' solution, any textbook of algebra.

/// Roots, parted by kind.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Roots {
    /// Real ones.
    pub(super) real: Vec<f64>,
    /// Of each complex pair the real part and the positive imaginary part.
    pub(super) pairs: Vec<(f64, f64)>,
}

/// The roots of `x^4 + b x^3 + c x^2 + d x + e`.
pub(super) fn roots([cube, square, linear, constant]: [f64; 4]) -> Roots {
    let shift = cube / 4.0;
    let p = square - 6.0 * shift * shift;
    let skew = linear - 2.0 * shift * square + 8.0 * shift * shift * shift;
    let r = constant - shift * linear + shift * shift * (square - 3.0 * shift * shift);
    let below = p * p - 4.0 * r;
    let bound = 1.0 + (2.0 * p).abs().max(below.abs()).max(skew * skew);
    let root = last_not_above(bound, |z| ((z + 2.0 * p) * z + below) * z - skew * skew);
    let s = root.sqrt();
    let sum = p + root;
    // Both give how far the halves differ; each is exact where the other loses its digits.
    let apart = if root > SMALL * bound {
        skew / s
    } else {
        (sum * sum - 4.0 * r).max(0.0).sqrt().copysign(skew)
    };
    let mut roots = Roots::default();
    for (half, twice) in [(s / 2.0, sum - apart), (-s / 2.0, sum + apart)] {
        let middle = -half - shift;
        let beyond = half * half - twice / 2.0;
        if beyond < 0.0 {
            roots.pairs.push((middle, (-beyond).sqrt()));
        } else {
            roots.real.push(middle - beyond.sqrt());
            roots.real.push(middle + beyond.sqrt());
        }
    }
    roots
}

/// Of the bound, below which a root counts as none.
const SMALL: f64 = 1e-10;

/// Halvings: enough to come from any bound to its last digit, or to nothing.
const HALVINGS: u32 = 128;

/// The greatest place found up to which `of` has not come above 0.
fn last_not_above(bound: f64, of: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0, bound);
    for _ in 0..HALVINGS {
        let middle = low + (high - low) / 2.0;
        if of(middle) <= 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Coefficients of the product of two polynomials `x^2 + m x + n`.
    fn product((m, n): (f64, f64), (k, l): (f64, f64)) -> [f64; 4] {
        [m + k, n + l + m * k, m * l + n * k, n * l]
    }

    fn found(halves: [(f64, f64); 2]) -> Roots {
        let mut found = roots(product(halves[0], halves[1]));
        found.real.sort_by(f64::total_cmp);
        found.pairs.sort_by(|one, other| one.0.total_cmp(&other.0));
        found
    }

    fn near(found: &[f64], expected: &[f64]) {
        assert_eq!(found.len(), expected.len(), "{found:?}");
        for (found, expected) in found.iter().zip(expected) {
            assert!((found - expected).abs() < 1e-6, "{found} is not {expected}");
        }
    }

    #[test]
    fn four_whole_numbers_come_back() {
        near(
            &found([(-3.0, 2.0), (-7.0, 12.0)]).real,
            &[1.0, 2.0, 3.0, 4.0],
        );
    }

    #[test]
    fn two_pairs_with_one_real_part_come_back() {
        let found = found([(2.0, 5.0), (2.0, 17.0)]);
        let mut turns: Vec<f64> = found.pairs.iter().map(|pair| pair.1).collect();
        turns.sort_by(f64::total_cmp);
        near(&turns, &[2.0, 4.0]);
        near(&[found.pairs[0].0, found.pairs[1].0], &[-1.0, -1.0]);
    }

    #[test]
    fn a_pair_twice_is_a_pair_twice() {
        let found = found([(0.0, 1.0), (0.0, 1.0)]);
        near(&[found.pairs[0].1, found.pairs[1].1], &[1.0, 1.0]);
    }

    proptest! {
        #[test]
        fn a_pair_and_two_real_roots_come_back(
            part in -9.0..9.0_f64, turn in 0.5..9.0_f64, one in -9.0..0.0_f64, other in 0.5..9.0_f64
        ) {
            let pair = (-2.0 * part, part * part + turn * turn);
            let found = found([pair, (-one - other, one * other)]);
            near(&found.real, &[one, other]);
            near(&[found.pairs[0].0, found.pairs[0].1], &[part, turn]);
        }

        #[test]
        fn two_pairs_come_back(
            slow in -9.0..-1.0_f64, turn in 0.5..9.0_f64, fast in 0.0..9.0_f64, other in 0.5..9.0_f64
        ) {
            let pair = |part: f64, turn: f64| (-2.0 * part, part * part + turn * turn);
            let found = found([pair(slow, turn), pair(fast, other)]);
            near(&[found.pairs[0].0, found.pairs[0].1], &[slow, turn]);
            near(&[found.pairs[1].0, found.pairs[1].1], &[fast, other]);
        }
    }
}
