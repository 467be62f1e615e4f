//! Two safety chains that mirror each other, by the places of their eyes.

use crate::mechanics::Ranges;
use crate::mechanics::chains::Anchor;
use crate::mechanics::chains::anchor::FARTHEST_IN;
use serde::Deserialize;

/// The eyes of two chains that mirror each other.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
pub struct EyePair {
    /// The truck's eyes, rearward from the ball; negative is ahead of it, in.
    pub truck_x_in: f64,
    /// How far each is from the middle, in.
    pub truck_half_width_in: f64,
    /// How high they are, in.
    pub truck_z_in: f64,
    /// The trailer's eyes, rearward from the ball, in.
    pub trailer_x_in: f64,
    /// How far each is from the middle, in.
    pub trailer_half_width_in: f64,
    /// How high they are, in.
    pub trailer_z_in: f64,
}

impl EyePair {
    pub(super) fn look(&self, ranges: &mut Ranges) {
        for (what, given) in [
            ("truck_x_in", self.truck_x_in),
            ("truck_z_in", self.truck_z_in),
            ("trailer_x_in", self.trailer_x_in),
            ("trailer_z_in", self.trailer_z_in),
        ] {
            ranges.within(what, given, -FARTHEST_IN, FARTHEST_IN);
        }
        for (what, given) in [
            ("truck_half_width_in", self.truck_half_width_in),
            ("trailer_half_width_in", self.trailer_half_width_in),
        ] {
            ranges.within(what, given, 0.0, FARTHEST_IN);
        }
    }

    /// The ends of the chain that is hooked to the truck's left eye.
    pub(super) fn left(&self, crossed: bool) -> (Anchor, Anchor) {
        let truck = [self.truck_x_in, -self.truck_half_width_in, self.truck_z_in];
        let side = if crossed { 1.0 } else { -1.0 };
        let trailer = [
            self.trailer_x_in,
            side * self.trailer_half_width_in,
            self.trailer_z_in,
        ];
        (truck.into(), trailer.into())
    }
}
