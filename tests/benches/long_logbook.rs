//! A logbook of 10,000 trips: how long until the second start shows it, and what `hames verify`
//! takes of the memory.

use crate::start_up::{HAMES, frame};
use crate::trips::Barn;
use crate::walked::{cut_short, fresh, laid};
use criterion::{Criterion, SamplingMode};
use std::cell::LazyCell;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

const TRIPS: u64 = 10_000;
const LINES: usize = 60;

/// Stands on the start screen of the logbook and nowhere before it.
const FIRST_FRAME: &str = "Rain Stables";

/// A tenth of it, to see what the memory of `hames verify` grows with.
const FEW: u64 = 1000;

pub(crate) fn measure(criterion: &mut Criterion) {
    let home = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
    let written = |name, trips| {
        let logbook = home.path().join(name);
        let barn = Barn::new();
        let trips = barn.trips(trips, &cut_short(fresh(laid()), LINES));
        barn.logbook(&logbook, &trips);
        std::fs::write(logbook.join("barn.txt"), FIRST_FRAME).unwrap();
        logbook
    };
    // Written only when asked for.
    let long = LazyCell::new(|| written("long", TRIPS));
    let short = LazyCell::new(|| written("short", FEW));
    let start = |logbook: &Path| {
        frame(
            home.path(),
            &["--logbook".as_ref(), logbook.as_os_str()],
            FIRST_FRAME,
        )
    };

    let mut group = criterion.benchmark_group("10000 trips");
    group.sample_size(10).sampling_mode(SamplingMode::Flat);
    group.bench_function("second start", |bencher| {
        println!("a start before took {:.0?}", start(&long));
        bencher.iter_custom(|starts| (0..starts).map(|_| start(&long)).sum());
    });
    let looked_over = |logbook: &Path| {
        let place = logbook.as_os_str();
        let arguments = ["logbook".as_ref(), "--logbook".as_ref(), place];
        frame(home.path(), &arguments, "still to read")
    };
    group.bench_function("looked over, to its first screen", |bencher| {
        println!("a look before took {:.0?}", looked_over(&long));
        bencher.iter_custom(|looks| (0..looks).map(|_| looked_over(&long)).sum());
    });
    group.bench_function("hames verify, and its memory", |bencher| {
        println!("{FEW} trips: at most {}", peak_of_verify(&short));
        bencher.iter_custom(|times| {
            let began = std::time::Instant::now();
            let peaks = (0..times).map(|_| peak_of_verify(&long));
            let peak = peaks.max().unwrap();
            println!("{TRIPS} trips: at most {peak}");
            began.elapsed()
        });
    });
    group.finish();
}

/// The most memory that verifying took at any time, as Linux tells it while it runs.
fn peak_of_verify(logbook: &Path) -> String {
    let mut program = Command::new(HAMES);
    program.arg("verify").arg(logbook).stdout(Stdio::null());
    let mut running = program.spawn().unwrap();
    let status = format!("/proc/{}/status", running.id());
    let mut peak = String::from("not told by this system");
    while running.try_wait().unwrap().is_none() {
        let told = std::fs::read_to_string(&status).unwrap_or_default();
        let line = told.lines().find(|line| line.starts_with("VmHWM:"));
        peak = line.map_or(peak, str::to_owned);
        std::thread::sleep(Duration::from_millis(5));
    }
    peak
}
