//! How long from a described rig to how it stands, with how far from level it may?

use criterion::Criterion;
use hames::figures::{Figure, sheet};
use hames::rig::Rig;
use hames::rig::demo::{JUNIPER, MESQUITE};
use std::hint::black_box;

pub(crate) fn measure(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("full rig solve with level tolerance");
    for (name, text) in [("bumper pull", JUNIPER), ("gooseneck", MESQUITE)] {
        let rig = Rig::read(text).unwrap();
        group.bench_function(name, |bencher| {
            bencher.iter(|| {
                let rig = black_box(&rig);
                let stands = Figure::AttitudePitch.of(rig, None);
                let first = Figure::LevelFirst.of(rig, None);
                assert!(stands.is_ok() && first.is_ok());
                (stands, first)
            });
        });
    }
    group.finish();
    let rig = Rig::read(JUNIPER).unwrap();
    criterion.bench_function("every figure of a rig", |bencher| {
        bencher.iter(|| sheet(black_box(&rig)));
    });
}
