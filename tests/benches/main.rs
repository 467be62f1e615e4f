//! How fast it is: one file a question. `cargo bench`, or `cargo bench -- verify` for one of them.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a measurement that meets the unexpected must stop there and say so"
)]
#![allow(
    clippy::disallowed_methods,
    reason = "benchmarks look at files and processes from outside"
)]
#![allow(clippy::print_stdout, reason = "what is measured is told")]

#[path = "../suite/harness/good.rs"]
#[expect(dead_code, reason = "the suite also tells these answers line by line")]
mod good;

mod key_to_frame;
mod lay_a_checklist;
mod line_to_disk;
mod long_logbook;
mod lookout;
mod one_act;
mod rig_solved;
mod start_up;
mod trips;
mod verify;
mod walked;
mod what_if;

use criterion::{Criterion, criterion_group, criterion_main};
use std::time::Duration;

fn settings() -> Criterion {
    Criterion::default()
        .warm_up_time(Duration::from_secs(1))
        .measurement_time(Duration::from_secs(4))
}

criterion_group! {
    name = speed;
    config = settings();
    targets = key_to_frame::measure, line_to_disk::measure, start_up::measure, verify::measure, verify::measure_aim, long_logbook::measure, lookout::measure,
        one_act::measure, lay_a_checklist::measure, what_if::measure, rig_solved::measure
}
criterion_main!(speed);
