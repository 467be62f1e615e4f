//! The walk machine: acts in, events out, as scripts.

mod bench;
mod holds;
mod judging;
mod laws;
mod order;
