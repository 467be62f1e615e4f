//! What the trailer carries.

use crate::rig::{Given, Position};

/// One thing carried: a horse, tack, water, hay.
#[derive(Clone, Debug, PartialEq)]
pub struct Load {
    /// What it is.
    pub name: String,
    /// Its weight.
    pub weight: Given,
    /// Where its middle is.
    pub at: Position,
}
