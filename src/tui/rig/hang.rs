//! The curve of a chain, a lanyard or a cord that hangs between two points.
//!
//! Something limp of length `L` hangs by its own weight between two points that lie `c` apart on
//! the plan and `h` apart in height. It takes the shape of a catenary, `y = a cosh((x - x0) / a)`,
//! whose `a` solves `2 a sinh(c / 2a) = sqrt(L² - h²)`. A textbook result (J. Bernoulli, 1691).
//! Valid while the length exceeds the straight distance; a shorter one is drawn straight.

/// A point in space, in inches: rearward from the ball, to the right, above the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spot {
    pub(crate) behind: f64,
    pub(crate) right: f64,
    pub(crate) above: f64,
}

/// The curve from `from` to `to`, never below `floor`, where it would lie.
pub(crate) fn hang(from: Spot, to: Spot, length: f64, floor: f64) -> Vec<Spot> {
    let rise = to.above - from.above;
    let apart = (to.behind - from.behind).hypot(to.right - from.right);
    if length <= apart.hypot(rise) * (1.0 + SLACK) {
        return vec![from, to];
    }
    // Two points one above the other make a loop without width; a little width draws the same.
    let across = apart.max(length * NARROW);
    let a = across / (2.0 * half_turn((length * length - rise * rise).sqrt() / across));
    let lowest = across / 2.0 - a * (rise / length).atanh();
    let start = (lowest / a).cosh();
    (0..=STEPS)
        .map(|step| {
            let share = f64::from(step) / f64::from(STEPS);
            let height = a * (((share * across - lowest) / a).cosh() - start);
            Spot {
                behind: from.behind + share * (to.behind - from.behind),
                right: from.right + share * (to.right - from.right),
                above: (from.above + height).max(floor),
            }
        })
        .collect()
}

/// Less slack than this is drawn straight.
const SLACK: f64 = 1e-6;

/// The least width of a loop, as a share of its length.
const NARROW: f64 = 0.02;

/// Straight pieces a curve is drawn with.
const STEPS: u32 = 32;

/// The `s` with `sinh(s) / s = ratio`, by halving; `ratio` is between 1 and 1 / `NARROW`.
fn half_turn(ratio: f64) -> f64 {
    let (mut low, mut high) = (1e-6_f64, 10.0_f64);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if middle.sinh() / middle < ratio {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spot(behind: f64, right: f64, above: f64) -> Spot {
        Spot {
            behind,
            right,
            above,
        }
    }

    fn low(points: &[Spot]) -> f64 {
        points
            .iter()
            .map(|spot| spot.above)
            .fold(f64::MAX, f64::min)
    }

    fn length(points: &[Spot]) -> f64 {
        points
            .windows(2)
            .map(|pair| {
                (pair[1].behind - pair[0].behind)
                    .hypot(pair[1].right - pair[0].right)
                    .hypot(pair[1].above - pair[0].above)
            })
            .sum()
    }

    /// Solved apart from this program: 27 in over 20 by 13 in, from 13 to 15 in high, hangs to
    /// 8.474 in.
    #[test]
    fn a_crossed_chain_hangs_as_low_as_the_separate_solution_says() {
        let chain = hang(spot(-6.0, -8.0, 13.0), spot(14.0, 5.0, 15.0), 27.0, 0.0);
        assert!((low(&chain) - 8.474).abs() < 0.02, "{}", low(&chain));
    }

    #[test]
    fn the_curve_is_as_long_as_the_chain_and_ends_at_its_eyes() {
        for (rise, chain) in [(0.0, 21.0), (5.0, 30.0), (-12.0, 60.0)] {
            let (from, to) = (spot(0.0, 0.0, 70.0), spot(20.0, 0.0, 70.0 + rise));
            let points = hang(from, to, chain, 0.0);
            assert!((length(&points) / chain - 1.0).abs() < 0.01, "{chain}");
            assert!((points[0].above - from.above).abs() < 1e-9);
            assert!((points[32].above - to.above).abs() < 1e-6);
        }
    }

    #[test]
    fn a_chain_too_short_for_its_eyes_is_straight_and_one_too_long_lies_on_the_floor() {
        let (from, to) = (spot(0.0, 0.0, 10.0), spot(20.0, 0.0, 10.0));
        assert_eq!(hang(from, to, 12.0, 0.0), [from, to]);
        assert!(low(&hang(from, to, 90.0, 3.0)).abs() - 3.0 < 1e-9);
    }

    #[test]
    fn eyes_one_above_the_other_still_give_a_finite_loop() {
        let points = hang(spot(0.0, 0.0, 40.0), spot(0.0, 0.0, 52.0), 30.0, 0.0);
        assert!(points.iter().all(|spot| spot.above.is_finite()));
        // Two legs of together 30 in that end 12 in apart: 9 in below the lower end.
        assert!((low(&points) - 31.0).abs() < 0.5, "{}", low(&points));
    }
}
