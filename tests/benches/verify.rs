//! How long does verifying a thousand trips take, and how much of that could nobody save?

use crate::trips::{Barn, PERFORMED, Trip, WITNESSED};
use crate::walked::{cut_short, entries, fresh, laid};
use criterion::{Criterion, SamplingMode};
use hames::record::{Digest, Finding, Hashed, Mode, Namespace, Tag, verify, verify_next};
use hames::store::TripFolder;
use ssh_key::{PublicKey, SshSig};
use std::cell::LazyCell;
use std::fs::File;
use std::hint::black_box;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::time::{Duration, Instant};

const TRIPS: u64 = 1000;

/// So many of them go through the stock tool, which is too slow for all.
const BY_TOOL: usize = 50;

/// The aim is set for so many trips of so many lines.
const AIM_TRIPS: u64 = 10_000;
const AIM_LINES: usize = 60;

/// 10,000 trips of 60 lines verified, beside what nobody could save, and how many times that is.
/// Both take turns, and each counts by its best round, in processor time where the system tells it.
pub(crate) fn measure_aim(criterion: &mut Criterion) {
    let barn = Barn::new();
    // Written only when asked for.
    let trips = LazyCell::new(|| barn.trips(AIM_TRIPS, &cut_short(fresh(laid()), AIM_LINES)));
    let crews = std::slice::from_ref(&barn.crew);
    let verified = |trips: &[Trip]| {
        let mut hashed = Hashed::default();
        for trip in trips {
            let examined = verify_next(&mut hashed, &trip.files(), Mode::Real, crews);
            assert_eq!(examined.finding(), Finding::Intact);
        }
    };
    criterion.bench_function("verify/10000 trips of 60 lines, to bare", |bencher| {
        let trips: &[Trip] = &trips;
        let unread: Vec<Bare<'_>> = trips.iter().map(|trip| Bare::of(trip, &barn)).collect();
        bencher.iter_custom(|times| {
            let checked = || unread.iter().for_each(Bare::check);
            let rounds = (0..times.max(3)).map(|_| (took(checked), took(|| verified(trips))));
            let rounds: Vec<(Duration, Duration)> = rounds.collect();
            let least = rounds.iter().map(|(least, _)| *least).min().unwrap();
            let verified = rounds.iter().map(|(_, verified)| *verified).min().unwrap();
            let ratio = verified.as_secs_f64() / least.as_secs_f64();
            println!("verified {verified:.2?}, bare {least:.2?}: {ratio:.2} times");
            verified * u32::try_from(times).unwrap()
        });
    });
}

fn took(work: impl Fn()) -> Duration {
    let (began, clock) = (processor_time(), Instant::now());
    work();
    match (began, processor_time()) {
        (Some(began), Some(ended)) => ended.saturating_sub(began),
        _ => clock.elapsed(),
    }
}

/// What this process has had of the processors, as Linux tells it.
fn processor_time() -> Option<Duration> {
    let told = std::fs::read_to_string("/proc/self/schedstat").ok()?;
    Some(Duration::from_nanos(told.split(' ').next()?.parse().ok()?))
}

pub(crate) fn measure(criterion: &mut Criterion) {
    let barn = Barn::new();
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
    // Written only when one of the following is asked for.
    let trips = LazyCell::new(|| barn.trips(TRIPS, &entries(fresh(laid()))));
    let folders = LazyCell::new(|| barn.logbook(folder.path(), &trips));

    let mut group = criterion.benchmark_group("verify");
    group.sample_size(10).sampling_mode(SamplingMode::Flat);
    let crews = std::slice::from_ref(&barn.crew);
    group.bench_function("1000 trips", |bencher| {
        let trips = &**trips;
        bencher.iter(|| {
            for trip in trips {
                let examined = verify(&trip.files(), Mode::Real, crews);
                assert_eq!(examined.finding(), Finding::Intact);
            }
        });
    });
    group.bench_function("1000 trips, and walked again", |bencher| {
        let (trips, plan) = (&**trips, Arc::new(laid()));
        bencher.iter(|| {
            for trip in trips {
                let examined = verify(&trip.files(), Mode::Real, crews).repeated(Some(&plan));
                assert_eq!(examined.finding(), Finding::Intact);
            }
        });
    });
    group.bench_function("1000 trips, hashes and signatures alone", |bencher| {
        let unread: Vec<Bare<'_>> = trips.iter().map(|trip| Bare::of(trip, &barn)).collect();
        bencher.iter(|| unread.iter().for_each(Bare::check));
    });
    group.bench_function("1000 trips by hames verify, from the disk", |bencher| {
        LazyCell::force(&folders);
        bencher.iter(|| by_program(folder.path()));
    });
    group.sample_size(BY_TOOL);
    group.bench_function("one trip by ssh-keygen, its two signatures", |bencher| {
        let mut sampled = folders.iter().take(BY_TOOL).cycle();
        bencher.iter(|| by_tool(sampled.next().unwrap()));
    });
    group.finish();
}

/// What is left when nothing is read: the bytes, cut into lines, and the signatures as numbers.
struct Bare<'a> {
    trip: &'a Trip,
    lines: Vec<&'a [u8]>,
    signatures: [(PublicKey, Namespace, SshSig); 2],
}

impl<'a> Bare<'a> {
    fn of(trip: &'a Trip, barn: &Barn) -> Self {
        let signature = |key: &hames::record::PublicKey, namespace, armor: &[u8]| {
            let key = PublicKey::from_openssh(&key.to_string()).unwrap();
            let signature = SshSig::from_pem(armor).unwrap();
            (key, namespace, signature)
        };
        Self {
            trip,
            lines: trip.journal.split(|byte| *byte == b'\n').collect(),
            signatures: [
                signature(barn.driver.public(), PERFORMED, &trip.by_person),
                signature(barn.laptop.public(), WITNESSED, &trip.by_device),
            ],
        }
    }

    fn check(&self) {
        for line in &self.lines {
            black_box(Digest::tagged(Tag::Line, line));
        }
        for file in [&*self.trip.checklist, &self.trip.rig, &self.trip.seal] {
            black_box(Digest::of(file));
        }
        for (key, namespace, signature) in &self.signatures {
            let held = key.verify(namespace.name(), &self.trip.seal, signature);
            assert_eq!(held, Ok(()));
        }
    }
}

/// What a manager with Hames does, the reading of the files included.
fn by_program(logbook: &Path) {
    let mut program = Command::new(env!("CARGO_BIN_EXE_hames"));
    let status = program
        .arg("verify")
        .arg(logbook)
        .stdout(Stdio::null())
        .status();
    assert!(status.unwrap().success());
}

/// What a manager without Hames does with a trip; the tool knows nothing of its lines.
fn by_tool(folder: &TripFolder) {
    for (who, namespace, signature) in [
        ("wren.ashdown", PERFORMED, folder.person_signature()),
        ("laptop-7f3a", WITNESSED, folder.device_signature()),
    ] {
        let answer = Command::new("ssh-keygen")
            .args(["-Y", "verify", "-I", who, "-n", namespace.name(), "-f"])
            .arg(folder.crew())
            .arg("-s")
            .arg(signature)
            .stdin(File::open(folder.seal()).unwrap())
            .stdout(Stdio::null())
            .status();
        assert!(answer.unwrap().success());
    }
}
