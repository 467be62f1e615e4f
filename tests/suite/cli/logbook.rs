//! `hames logbook`: what the records of a whole barn come to.

mod export;
mod merge;
mod questions;
mod receipt;
mod table;
mod trace;
