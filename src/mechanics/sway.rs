//! Whether a trailer that was pushed aside swings out, and how fast compared with before.

mod damping;
mod model;
mod quartic;

pub use damping::{PAGE as SWAY, Sway, SwayRig, sway};
