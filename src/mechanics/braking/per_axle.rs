//! One number for every axle, or one for each.

use crate::mechanics::braking::braked::counted;
use crate::mechanics::{Ranges, Trailer};
use serde::Deserialize;

/// A number of each axle.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(untagged)]
pub enum PerAxle {
    /// The same for all.
    Same(f64),
    /// Front to rear.
    Each(Vec<f64>),
}

impl PerAxle {
    /// Looks at each: none below nothing, one for every axle.
    pub(super) fn look(&self, what: &str, trailer: &Trailer, ranges: &mut Ranges) {
        let axles = trailer.axles.len();
        let all = self.of(axles);
        let takes = format!("one number for each of {axles} axles");
        ranges.holds(all.len() == axles, what, counted(all.len()), &takes);
        for one in all {
            ranges.not_negative(what, one);
        }
    }

    /// Front to rear.
    pub(super) fn of(&self, axles: usize) -> Vec<f64> {
        match self {
            Self::Same(one) => vec![*one; axles],
            Self::Each(each) => each.clone(),
        }
    }
}
