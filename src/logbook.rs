//! What the records of a whole barn come to, when they are laid side by side: receipts, continuity,
//! instruments, clocks, tables, order and witnesses.
//!
//! Nothing here reads a file. Trips come in as verified, one after the other.

pub mod order;

mod part;
mod receipt;

pub use part::took_part;
pub use receipt::{Sought, seek};
