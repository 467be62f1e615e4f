//! A barn of three laptops and fifty trips, and what becomes of it when it is damaged.

mod alike;
mod damage;
pub(crate) mod drills;
mod found;
pub(crate) mod making;
mod order;
pub(crate) mod rides;
mod sampled;
pub(crate) mod words;
