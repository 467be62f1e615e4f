//! How long from a key to the frame that shows it, terminal and disk left out?

use crate::good::{next, step};
use crate::walked::{fresh, laid};
use criterion::Criterion;
use hames::checklist::PlannedAsk;
use hames::desk::Reply;
use hames::record::Mode;
use hames::tui::{Key, Look, Model, Msg, Theme, first, update, view};
use hames::walk::{Now, Walk};
use ratatui::Terminal;
use ratatui::backend::TestBackend;

/// How the screens look that are timed.
pub(crate) const LOOK: Look = Look {
    theme: Theme::Own,
    colour: true,
    ascii: false,
    big: false,
};

pub(crate) fn measure(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("key to frame");
    for (columns, rows) in [(80, 24), (120, 40)] {
        let mut model = at_a_reading(columns, rows);
        let mut terminal = Terminal::new(TestBackend::new(columns, rows)).unwrap();
        let mut keys = [
            Key::Char('6'),
            Key::Char('5'),
            Key::Backspace,
            Key::Backspace,
        ]
        .into_iter()
        .cycle();
        group.bench_function(format!("{columns}x{rows}"), |bencher| {
            bencher.iter(|| {
                let key = keys.next().unwrap();
                let repeat = false;
                update(&mut model, Msg::Press { key, repeat });
                terminal.draw(|frame| view(&model, frame)).unwrap();
            });
        });
    }
    group.finish();
}

/// The screen that waits for a value: the step, its limits, the rig drawn, and what was typed.
fn at_a_reading(columns: u16, rows: u16) -> Model {
    let walk = walked_to_a_reading();
    let now = walk.last().clone();
    let (mut model, _) = first(LOOK, now.clone());
    update(&mut model, Msg::Resized(columns, rows));
    let walking = Reply::Walking {
        walk: Box::new(walk),
        trip: "9f0c11b2".to_owned(),
        mode: Mode::Real,
        standing: hames::desk::Approval::Shipped,
        notices: Vec::new(),
        barn: hames::barn::ForWalk::default(),
        now,
    };
    update(&mut model, Msg::Reply(walking));
    model
}

fn walked_to_a_reading() -> Walk {
    let mut walk = fresh(laid());
    loop {
        if let Now::Open(index) = walk.now()
            && matches!(walk.plan().steps()[index].ask, PlannedAsk::Reading { .. })
        {
            return walk;
        }
        let (act, _) = next(&walk, "Odile Marsh").unwrap();
        let at = walk.last().clone();
        step(&mut walk, &act, &at).unwrap();
    }
}
