//! A point that moves on a circle, seen from a fixed one.

use std::f64::consts::{PI, TAU};

/// A point on a circle, and how far it is from a fixed point.
///
/// Yawing about the ball moves an anchor on such a circle, and so does falling on a tight chain:
/// `d² = a² + r² - 2 a r cos(start + turn) + beside²`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Swing {
    /// From the circle's centre to the fixed point, in its plane.
    pub(super) reach: f64,
    /// The circle's radius.
    pub(super) radius: f64,
    /// Angle between the two at no turn, rad.
    pub(super) start: f64,
    /// How far the fixed point lies beside the circle's plane.
    pub(super) beside: f64,
}

impl Swing {
    /// The distance at this turn, rad.
    pub(super) fn distance(&self, turn: f64) -> f64 {
        let (reach, radius) = (self.reach, self.radius);
        let along =
            reach * reach + radius * radius - 2.0 * reach * radius * libm::cos(self.start + turn);
        (along + self.beside * self.beside).max(0.0).sqrt()
    }

    /// The greatest distance between two turns, and the turn at which it is reached.
    pub(super) fn most(&self, low: f64, high: f64) -> (f64, f64) {
        let opposite = turn_to(PI - self.start, low, high);
        self.best(opposite, low, high, |one, other| one > other)
    }

    /// The smallest distance between two turns, and the turn at which it is reached.
    pub(super) fn least(&self, low: f64, high: f64) -> (f64, f64) {
        let nearest = turn_to(-self.start, low, high);
        self.best(nearest, low, high, |one, other| one < other)
    }

    /// The inner turn where there is one, else the better of the ends; no turn when none matters.
    fn best(
        &self,
        inner: Option<f64>,
        low: f64,
        high: f64,
        better: impl Fn(f64, f64) -> bool,
    ) -> (f64, f64) {
        let turn = match inner {
            Some(turn) if self.reach * self.radius > 0.0 => turn,
            _ => {
                let still = 0.0_f64.clamp(low, high);
                [low, high].into_iter().fold(still, |best, end| {
                    if better(self.distance(end), self.distance(best)) {
                        end
                    } else {
                        best
                    }
                })
            }
        };
        (self.distance(turn), turn)
    }
}

/// The smallest turn, either way, that differs from this one by whole turns and lies between the two.
fn turn_to(turn: f64, low: f64, high: f64) -> Option<f64> {
    let whole = (turn / TAU).round();
    [0.0, 1.0, -1.0]
        .into_iter()
        .map(|more| turn - (whole + more) * TAU)
        .find(|turn| (low..=high).contains(turn))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn no_turn_of_a_sweep_passes_the_closed_form(
            reach in 0.0..40.0, radius in 0.0..40.0, start in -7.0..7.0, beside in -20.0..20.0,
            low in -3.2..3.2, span in 0.0..6.4,
        ) {
            let swing = Swing { reach, radius, start, beside };
            let high = low + span;
            let (most, at_most) = swing.most(low, high);
            let (least, at_least) = swing.least(low, high);
            for at in [at_most, at_least] {
                prop_assert!((low..=high).contains(&at));
            }
            let (mut far, mut near) = (0.0_f64, f64::INFINITY);
            for step in 0..=2000_u32 {
                let found = swing.distance(low + span * f64::from(step) / 2000.0);
                far = far.max(found);
                near = near.min(found);
            }
            prop_assert!(far <= most + 1e-9 && most <= far + 1e-3, "{far} {most}");
            prop_assert!(near >= least - 1e-9 && least >= near - 0.2, "{near} {least}");
        }
    }
}
