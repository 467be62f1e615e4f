//! The one test binary: every file below is a module here, and a test holds that to be so.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that meets the unexpected must stop there and say so"
)]
#![allow(
    clippy::disallowed_methods,
    reason = "tests look at files and processes from outside"
)]

mod agent;
mod approval;
mod architecture;
mod attention;
mod barn50;
mod barn_files;
mod barn_limits;
mod both_systems;
#[cfg(feature = "browser")]
mod browser;
mod changes;
mod checklist_files;
mod clerk;
mod clerk_answers;
mod clerk_clock;
mod clerk_drill;
mod clerk_haul;
mod clerk_manager;
mod clerk_second;
mod clerk_start;
mod cli;
mod corpus;
mod crash;
mod demo_year;
mod describe;
mod document;
mod document_syntax;
mod drawing;
mod drill;
mod due;
mod frozen;
mod harness;
mod haul;
mod hitch_up;
mod house;
mod judged;
mod judging;
mod logbook_order;
mod mechanics;
mod merge;
mod paper;
mod plain;
mod record_crew;
mod record_crew_next;
mod record_earlier;
mod record_hardware;
mod record_journal;
mod record_questions;
mod record_ssh;
mod record_statements;
mod record_trip;
mod record_verify;
mod record_version_2;
mod record_version_3;
mod record_wire;
mod report;
mod rig_files;
mod schema;
mod screens;
mod second;
mod sim;
mod stock;
mod store;
mod teaching;
mod terminal;
mod threats;
mod walk;
mod year;
