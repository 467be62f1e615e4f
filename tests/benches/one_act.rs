//! How long does the machine take over one act, and over a whole walk taken up again?

use crate::walked::{entries, fresh, laid};
use criterion::{BatchSize, Criterion};
use hames::walk::{Act, Entry, Event, Given, Walk};
use std::hint::black_box;
use std::sync::Arc;

pub(crate) fn measure(criterion: &mut Criterion) {
    let plan = Arc::new(laid());
    let happened = entries(fresh(Arc::clone(&plan)));
    let after = |acts: usize| {
        let mut walk = fresh(Arc::clone(&plan));
        for entry in &happened[..acts] {
            walk.apply(entry);
        }
        walk
    };
    let hardest = (0..happened.len()).max_by_key(|at| limits(&happened[*at]));
    let hardest = hardest.expect("a walk with acts");
    let (walk, act) = (after(hardest), happened[hardest].event.act());

    let mut group = criterion.benchmark_group("act");
    group.bench_function(
        "reading with the most limits, decided and applied",
        |bencher| {
            let again = || walk.clone();
            bencher.iter_batched(again, |walk| done(walk, &act), BatchSize::SmallInput);
        },
    );
    let acts = happened.len();
    group.bench_function(format!("walk of {acts} acts rebuilt"), |bencher| {
        bencher.iter(|| after(acts));
    });
    group.bench_function("walk of 90 acts rebuilt", |bencher| {
        bencher.iter(|| after(90));
    });
    group.finish();
}

/// How many limits an answer was held to.
fn limits(entry: &Entry) -> usize {
    match &entry.event {
        Event::Answered {
            given: Given::Read { judgement, .. },
            ..
        } => judgement.held.len(),
        _ => 0,
    }
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
