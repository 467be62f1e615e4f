//! Laws that hold for any truck with any trailer, whatever the numbers.

pub(in crate::mechanics) mod any;
mod balance;
mod energy;
mod monotony;
mod tolerance;
mod wild;
