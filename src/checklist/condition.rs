//! When a step applies, and why.

use crate::figures::Figure;
use crate::rules::{Carry, Side};
use crate::units::Quantity;

/// A condition with its reason, shown whenever the step is left out.
#[derive(Clone, Debug, PartialEq)]
pub struct Condition {
    /// What must hold.
    pub test: Test,
    /// Why the step depends on it.
    pub because: String,
}

/// What must hold for a step to apply.
#[derive(Clone, Debug, PartialEq)]
pub enum Test {
    /// A figure of the rig lies on this side of a value.
    Rig {
        /// The figure.
        figure: Figure,
        /// The side.
        side: Side,
        /// The value.
        value: Quantity,
    },
    /// An earlier step of the walk was answered with this state.
    Answered {
        /// The earlier step.
        step: String,
        /// The state.
        state: String,
    },
    /// An earlier walk left this open; a repeated step stands for the parts it was left for.
    Carried {
        /// What was left.
        what: Carry,
        /// Not where this was left too.
        unless: Option<Carry>,
    },
}
