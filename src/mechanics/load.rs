//! What is carried, what it weighs and where it lies.

mod mass_properties;

pub(crate) use mass_properties::weighed;
pub use mass_properties::{MassItems, PAGE as MASS_PROPERTIES, mass_properties};
