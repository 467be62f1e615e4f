//! How likely counts are.

mod at_least;

pub use at_least::{Counted, Likely, PAGE as AT_LEAST, at_least};
