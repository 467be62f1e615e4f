//! How long does the machine take over one act, and over a whole walk taken up again?

use crate::good::next;
use crate::walked::{entries, fresh, laid};
use criterion::{BatchSize, Criterion};
use hames::walk::{Act, Entry, Walk};
use std::hint::black_box;

pub(crate) fn measure(criterion: &mut Criterion) {
    let plan = laid();
    let happened = entries(fresh(plan.clone()));
    let after = |acts: usize| {
        let mut walk = fresh(plan.clone());
        for entry in &happened[..acts] {
            walk.apply(entry);
        }
        walk
    };

    let reading = (0..happened.len()).map(after).find_map(|walk| {
        next(&walk, "")
            .filter(is_reading)
            .map(|(act, _)| (walk, act))
    });
    let (walk, act) = reading.expect("a reading in the shipped checklist");
    criterion.bench_function("act/reading decided and applied", |bencher| {
        bencher.iter_batched(
            || walk.clone(),
            |walk| done(walk, &act),
            BatchSize::SmallInput,
        );
    });
    let lines = happened.len();
    criterion.bench_function(&format!("act/walk of {lines} acts rebuilt"), |bencher| {
        bencher.iter_batched(
            || fresh(plan.clone()),
            |mut walk| {
                for entry in &happened {
                    walk.apply(entry);
                }
                walk
            },
            BatchSize::SmallInput,
        );
    });
}

fn is_reading<T>((act, _): &(Act, T)) -> bool {
    matches!(act, Act::Read { .. })
}

fn done(mut walk: Walk, act: &Act) -> Walk {
    let at = walk.last().clone();
    let entry = Entry {
        event: walk.decide(black_box(act), &at).unwrap(),
        actor: walk.reader().clone(),
        at,
    };
    walk.apply(&entry);
    walk
}
