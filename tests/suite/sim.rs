//! Whole days of a barn, each thrown by a seed: several laptops and people, real checklists, and
//! whatever can go wrong with a disk, a clock, a battery and a person in a hurry.
//!
//! A seed that breaks a law is told with the command that runs its day again, aloud.

pub(crate) mod actor;
pub(crate) mod barn;
pub(crate) mod day;
pub(crate) mod dice;
pub(crate) mod laptop;
pub(crate) mod law;
pub(crate) mod world;

use std::panic::catch_unwind;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};
use std::thread;

/// Days of a normal run of the tests.
const DAYS: u64 = 1000;

/// Says to the tests which one day to run, or how many.
const SEED: &str = "SIM_SEED";
const SEEDS: &str = "SIM_SEEDS";

/// Runs the days of these seeds, on every core. Every hundredth is run twice and has to come to
/// the same bytes of every file.
#[expect(
    clippy::print_stdout,
    reason = "how much came to pass, for whoever asks"
)]
fn run_days(seeds: u64) {
    let next = AtomicU64::new(0);
    let broken = Mutex::new(Vec::new());
    let totals = Mutex::new((0, 0, 0));
    let work = || {
        loop {
            let seed = next.fetch_add(1, Ordering::Relaxed);
            if seed >= seeds {
                return;
            }
            let came = catch_unwind(|| {
                let came = day::run(seed, false);
                if seed % 100 == 7 {
                    assert_eq!(came, day::run(seed, false), "another day by the same seed");
                }
                came
            });
            let mut totals = totals.lock().unwrap();
            match came {
                Ok(came) => {
                    totals.0 += came.trips;
                    totals.1 += came.lines;
                    totals.2 += came.mishaps;
                }
                Err(_) => broken.lock().unwrap().push(seed),
            }
        }
    };
    let cores = thread::available_parallelism().map_or(2, usize::from);
    thread::scope(|scope| {
        for _ in 0..cores {
            scope.spawn(work);
        }
    });
    let (trips, lines, mishaps) = totals.into_inner().unwrap();
    println!("{seeds} days: {trips} trips, {lines} lines, {mishaps} mishaps");
    let broken = broken.into_inner().unwrap();
    let again = |seed| format!("{SEED}={seed} cargo test --test suite sim::one_day -- --nocapture");
    let again: Vec<String> = broken.into_iter().map(again).collect();
    assert!(again.is_empty(), "to see it:\n{}", again.join("\n"));
    assert!(
        trips > 0 && lines > trips && mishaps > 0,
        "nothing happened"
    );
}

#[test]
fn a_thousand_days_break_no_law() {
    let seeds = std::env::var(SEEDS).ok();
    run_days(seeds.map_or(DAYS, |seeds| seeds.parse().unwrap()));
}

/// The day of the seed that is named, told step by step; where none is named, one with the long
/// lists, twice.
#[test]
fn one_day_by_the_same_seed_comes_to_the_same_bytes() {
    let named = std::env::var(SEED).ok();
    let seed = named.as_ref().map_or(0, |seed| seed.parse().unwrap());
    let came = day::run(seed, named.is_some());
    assert_eq!(came, day::run(seed, false));
}
