//! Whether a trailer that was pushed aside swings out, and how fast compared with before.

mod damping;
#[cfg(test)]
mod laws;
mod model;
mod quartic;

pub use damping::{PAGE as SWAY, Sway, SwayRig, sway};
