//! How long from the text of a checklist and a rig to steps with every limit a number?

use crate::walked::{checklist, laid};
use criterion::Criterion;
use hames::checklist::{Checklist, Plan};
use hames::rig::Rig;
use hames::rig::demo::JUNIPER;
use std::hint::black_box;

pub(crate) fn measure(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("lay");
    group.bench_function("checklist read from its YAML", |bencher| {
        bencher.iter(|| Checklist::read(black_box(checklist())));
    });
    group.bench_function("rig read from its YAML", |bencher| {
        bencher.iter(|| Rig::read(black_box(JUNIPER)));
    });
    let (checklist, rig) = (laid().checklist().clone(), laid().rig().clone());
    group.bench_function("checklist laid on the rig", |bencher| {
        bencher.iter_batched(
            || (checklist.clone(), rig.clone()),
            |(checklist, rig)| Plan::lay(checklist, rig),
            criterion::BatchSize::SmallInput,
        );
    });
    group.finish();
}
