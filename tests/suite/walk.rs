//! The walk machine: acts in, events out, as scripts.

pub(crate) mod bench;
mod facts;
mod holds;
mod judging;
mod laws;
mod order;
mod second;
