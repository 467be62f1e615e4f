//! Hames judges a horse trailer's hitch-up, step by step, and keeps a signed record of it.
//!
//! The modules stand in reading order: each names only those above it.
//! The table of who may name whom is in `docs/architecture.md`, and a test holds the code to it.
//!
//! Pure, values in and values out: no clock, disk, environment, randomness or terminal.

pub mod units;

pub mod text;

pub mod document;

pub mod rig;

pub mod mechanics;

pub mod figures;

pub mod rules;

pub mod barn;

pub mod due;

pub mod checklist;

pub mod paper;

pub mod walk;

pub mod haul;

pub mod shown;

pub mod year;

pub mod drill;

pub mod record;

pub mod logbook;

pub mod review;

pub mod desk;

pub mod report;

// The world: files, clock and randomness.

pub mod store;

pub mod world;

// The screens.

#[cfg(feature = "tui")]
pub mod tui;

// The walk, line by line.

pub mod plain;

#[cfg(feature = "tui")]
pub mod cli;
