//! Whole days of a barn, each thrown by a seed: several laptops and people, real checklists, and
//! whatever can go wrong with a disk, a clock, a battery and a person in a hurry.
//!
//! A seed that breaks a law is told with the command that runs its day again, aloud.

pub(crate) mod actor;
pub(crate) mod barn;
pub(crate) mod day;
pub(crate) mod dice;
pub(crate) mod keys;
pub(crate) mod laptop;
pub(crate) mod law;
pub(crate) mod world;

use crate::store::pretend::{Lie, Pretend};
use std::panic::catch_unwind;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};
use std::thread;

/// Days of a normal run of the tests; more are run on demand.
const DAYS: u64 = 100;

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
    let totals = Mutex::new([("", 0); 10]);
    let work = || {
        loop {
            let seed = next.fetch_add(1, Ordering::Relaxed);
            if seed >= seeds {
                return;
            }
            if seed > 0 && seed.is_multiple_of(10_000) {
                println!("{seed} days");
            }
            let came = catch_unwind(|| {
                let came = day::run(seed, false);
                if seed % 100 == 7 {
                    assert_eq!(came, day::run(seed, false), "another day by the same seed");
                }
                came
            });
            match came {
                Ok(came) => {
                    let mut totals = totals.lock().unwrap();
                    let sums = totals.iter_mut().zip(came.counts());
                    sums.for_each(|(total, (what, count))| *total = (what, total.1 + count));
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
    let totals = totals.into_inner().unwrap();
    let told = totals.map(|(what, total)| format!("{total} {what}"));
    println!("{seeds} days: {}", told.join(", "));
    let mut broken = broken.into_inner().unwrap();
    broken.sort_unstable();
    if let Some(first) = broken.first() {
        println!("what came to pass on the day of seed {first}:");
        drop(catch_unwind(|| day::run(*first, true)));
    }
    let again = |seed| format!("{SEED}={seed} cargo test --test suite sim::one_day -- --nocapture");
    let again: Vec<String> = broken.into_iter().map(again).collect();
    assert!(again.is_empty(), "to see it:\n{}", again.join("\n"));
    assert!(
        seeds < DAYS || totals.iter().all(|(_, total)| *total > 0),
        "nothing happened"
    );
}

#[test]
fn a_hundred_days_break_no_law() {
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

/// A disk that says synced, and has not: the laws are there to be broken.
#[test]
fn on_a_disk_that_lies_a_law_is_broken() {
    for lie in [Lie::Bytes, Lie::Names] {
        let made = |disk: Pretend| disk.lying(lie);
        let days = (1..4).map(|seed| catch_unwind(|| day::run_on(seed, false, made)));
        let told = days.filter_map(|day| day.err()?.downcast::<String>().ok());
        let told: Vec<Box<String>> = told.collect();
        assert!(!told.is_empty(), "{lie:?}");
        assert!(told.iter().all(|told| told.contains("a law is broken")));
    }
}
