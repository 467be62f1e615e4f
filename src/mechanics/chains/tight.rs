//! A chain pulled tight while the trailer comes away and its tongue drops.

use crate::mechanics::chains::Anchor;
use crate::mechanics::chains::swing::Swing;
use crate::mechanics::{NoNumber, finite};
use std::f64::consts::{FRAC_PI_2, PI};

/// A tight chain on the truck's eye: the trailer's eye moves on a circle about it, in a plane
/// along the rig, because the tongue comes straight back and down.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tight {
    truck: Anchor,
    trailer: Anchor,
    /// Reach of the chain in the plane along the rig, in.
    reach: f64,
}

impl Tight {
    /// Two eyes and the chain between them.
    ///
    /// # Errors
    /// [`NoNumber`] when the chain does not reach from eye to eye with the rig straight.
    pub(super) fn of(truck: Anchor, trailer: Anchor, length: f64) -> Result<Self, NoNumber> {
        let across = trailer.y_in - truck.y_in;
        let along = trailer.x_in - truck.x_in;
        let up = trailer.z_in - truck.z_in;
        let needs = finite(
            "the distance of the eyes",
            (along * along + across * across + up * up).sqrt(),
        )?;
        if length < needs {
            return Err(NoNumber::because(
                "the chain does not reach from the truck's eye back to the trailer's with the rig \
                 straight; look at the places of the eyes and at the chain's length",
            ));
        }
        Ok(Self {
            truck,
            trailer,
            reach: (length * length - across * across).max(0.0).sqrt(),
        })
    }

    /// How far the trailer comes away level before the chain is tight.
    pub(super) fn travel(&self) -> f64 {
        let up = self.trailer.z_in - self.truck.z_in;
        self.truck.x_in - self.trailer.x_in + (self.reach * self.reach - up * up).max(0.0).sqrt()
    }

    /// Least and most distance of two other points, one on the truck and one that goes with the
    /// trailer, while the chain is tight and the tongue has dropped anything up to `limit`.
    pub(super) fn distances(&self, truck: Anchor, trailer: Anchor, limit: f64) -> (f64, f64) {
        // The point on the trailer moves on a circle of the chain's reach about this centre.
        let across = self.truck.x_in + trailer.x_in - self.trailer.x_in - truck.x_in;
        let up = self.truck.z_in + trailer.z_in - self.trailer.z_in - truck.z_in;
        let swing = Swing {
            reach: libm::hypot(across, up),
            radius: self.reach,
            start: PI - libm::atan2(up, across),
            beside: trailer.y_in - truck.y_in,
        };
        let angle = |drop: f64| {
            let above = self.trailer.z_in - drop - self.truck.z_in;
            // Straight under the truck's eye the tongue can drop no farther.
            if above <= -self.reach {
                -FRAC_PI_2
            } else {
                libm::asin((above / self.reach).min(1.0))
            }
        };
        let (low, high) = (angle(limit), angle(0.0));
        (swing.least(low, high).0, swing.most(low, high).0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Second method: the travel at each drop found by halving, and a sweep over the drop.
        #[test]
        fn no_drop_of_a_sweep_passes_the_closed_form(
            ahead in 0.0..15.0_f64, behind in 5.0..25.0, sides in -14.0..14.0, up in -6.0..6.0,
            spare in 0.01..15.0, limit in 0.0..12.0,
            switch in (-5.0..40.0, -10.0..10.0, 10.0..30.0), eye in (-20.0..0.0, -10.0..10.0, 10.0..25.0),
        ) {
            let truck = Anchor::from([-ahead, 0.0, 14.0]);
            let trailer = Anchor::from([behind, sides, 14.0 + up]);
            let straight: f64 = (ahead + behind) * (ahead + behind) + sides * sides + up * up;
            let length = straight.sqrt() + spare;
            let tight = Tight::of(truck, trailer, length).unwrap();
            let (switch, eye) = (
                Anchor::from([switch.0, switch.1, switch.2]),
                Anchor::from([eye.0, eye.1, eye.2]),
            );
            let (least, most) = tight.distances(eye, switch, limit);
            let distance = |one: Anchor, other: Anchor, back: f64, drop: f64| {
                ((other.x_in + back - one.x_in).powi(2)
                    + (other.y_in - one.y_in).powi(2)
                    + (other.z_in - drop - one.z_in).powi(2)).sqrt()
            };
            let travel = |drop: f64| {
                let (mut low, mut high) = (-(ahead + behind), length);
                for _ in 0..100 {
                    let middle = f64::midpoint(low, high);
                    if distance(truck, trailer, middle, drop) < length { low = middle } else { high = middle }
                }
                low
            };
            prop_assert!((travel(0.0) - tight.travel()).abs() < 1e-9);
            for step in 0..=100_u32 {
                let drop = limit * f64::from(step) / 100.0;
                if up - drop <= -(length * length - sides * sides).sqrt() {
                    break;
                }
                let found = distance(eye, switch, travel(drop), drop);
                prop_assert!(found >= least - 1e-7 && found <= most + 1e-7, "{least} {found} {most}");
            }
        }
    }
}
