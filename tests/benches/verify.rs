//! How long does verifying a thousand trips take, and how much of that could nobody save?

use crate::trips::{Barn, PERFORMED, Trip, WITNESSED};
use crate::walked::{entries, fresh, laid};
use criterion::{Criterion, SamplingMode, Throughput};
use hames::record::{Finding, Mode, Namespace, verify};
use hames::store::TripFolder;
use sha2::{Digest, Sha256};
use ssh_key::{PublicKey, SshSig};
use std::fs::File;
use std::hint::black_box;
use std::process::{Command, Stdio};

const TRIPS: u64 = 1000;

/// So many of them go through the stock tool, which is too slow for all.
const BY_TOOL: usize = 50;

pub(crate) fn measure(criterion: &mut Criterion) {
    let barn = Barn::new();
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
    let walk = entries(fresh(laid()));
    let trips = barn.logbook(folder.path(), TRIPS, &walk);

    let mut group = criterion.benchmark_group("verify");
    group.sample_size(10).sampling_mode(SamplingMode::Flat);
    group.throughput(Throughput::Elements(TRIPS));
    group.bench_function("1000 trips", |bencher| {
        bencher.iter(|| {
            for trip in &trips {
                let crews = std::slice::from_ref(&barn.crew);
                let examined = verify(&trip.files(), Mode::Real, crews);
                assert_eq!(examined.finding(), Finding::Intact);
            }
        });
    });
    let unread: Vec<Bare<'_>> = trips.iter().map(|trip| Bare::of(trip, &barn)).collect();
    group.bench_function("1000 trips, hashes and signatures alone", |bencher| {
        bencher.iter(|| unread.iter().for_each(Bare::check));
    });
    group.finish();

    let mut tool = criterion.benchmark_group("verify");
    tool.sample_size(BY_TOOL);
    let mut sampled = trips.iter().take(BY_TOOL).cycle();
    tool.bench_function("one trip, its two signatures by ssh-keygen", |bencher| {
        bencher.iter(|| by_tool(&sampled.next().unwrap().folder));
    });
    tool.finish();
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
            black_box(Sha256::digest(line));
        }
        for file in [&self.trip.checklist, &self.trip.rig, &self.trip.seal] {
            black_box(Sha256::digest(file));
        }
        for (key, namespace, signature) in &self.signatures {
            let held = key.verify(namespace.name(), &self.trip.seal, signature);
            assert_eq!(held, Ok(()));
        }
    }
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
