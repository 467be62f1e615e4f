//! How long until an act is a line on the disk, and how much of that is the disk?

use crate::trips::{Barn, next_line};
use crate::walked::{entries, fresh, laid, words};
use criterion::Criterion;
use hames::record::{Said, Tip, append};
use hames::store::Unsynced;
use hames::store::{Disk, Journal, Local};
use hames::walk::Entry;
use std::hint::black_box;
use std::time::{Duration, Instant};

/// Its bytes, line end included, and where the next one goes.
type Line = (Vec<u8>, Tip);

pub(crate) fn measure(criterion: &mut Criterion) {
    let walk = entries(fresh(laid()));
    let first = Said::Begun(Box::new(Barn::new().begun(1, None)));
    let (at, actor) = (&walk[0].at, words("Wren Ashdown"));
    let first: Line = append(Tip::START, at, &actor, &first).unwrap();
    let mut group = criterion.benchmark_group("line");
    group.bench_function("made", |bencher| {
        let mut acts = walk.iter().cycle();
        let mut tip = Tip::START;
        bencher.iter(|| {
            let (line, next) = next_line(tip, black_box(acts.next().unwrap()));
            tip = next;
            line
        });
    });
    group.bench_function("made and written", |bencher| {
        bencher.iter_custom(|lines| written(&Unsynced, &first, &walk, lines));
    });
    group.sample_size(30);
    group.bench_function("made and on the disk", |bencher| {
        bencher.iter_custom(|lines| written(&Local, &first, &walk, lines));
    });
    group.finish();
}

/// The time so many lines take, in one journal after the other; opening them is not counted.
fn written<D: Disk>(disk: &D, first: &Line, walk: &[Entry], lines: u64) -> Duration {
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
    let mut left = usize::try_from(lines).unwrap();
    let mut spent = Duration::ZERO;
    while left > 0 {
        let path = folder.path().join(left.to_string());
        let mut journal = Journal::create(disk.clone(), &path, first.0.trim_ascii_end()).unwrap();
        let mut tip = first.1;
        let acts = &walk[..left.min(walk.len())];
        let began = Instant::now();
        for entry in acts {
            let (line, next) = next_line(tip, entry);
            journal.append(line.trim_ascii_end()).unwrap();
            tip = next;
        }
        spent += began.elapsed();
        left -= acts.len();
    }
    spent
}
