//! `hames logbook`: what the records of a whole barn come to.

pub(crate) mod countersign;
mod defects;
mod drills;
mod export;
pub(crate) mod forks;
mod incident;
mod joining;
mod look;
mod merge;
mod people;
mod prune;
mod questions;
mod receipt;
pub(crate) mod report;
mod show;
mod sketch;
mod steps;
mod table;
mod trace;
mod trends;
