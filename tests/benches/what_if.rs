//! How long from a value changed in thought to the frame that shows what moved?

use crate::key_to_frame::LOOK;
use criterion::Criterion;
use hames::desk::Reply;
use hames::figures::Facts;
use hames::record::Mode;
use hames::rig::{Rig, demo::JUNIPER};
use hames::tui::{Key, Model, Msg, first_rig, update, view};
use hames::walk::Moment;
use ratatui::Terminal;
use ratatui::backend::TestBackend;

pub(crate) fn measure(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("rig in thought");
    for (columns, rows) in [(80, 24), (120, 40)] {
        let mut model = looking_at_juniper(columns, rows);
        let mut terminal = Terminal::new(TestBackend::new(columns, rows)).unwrap();
        group.bench_function(
            format!("redraw of the what-if screen, {columns}x{rows}"),
            |bencher| {
                bencher.iter(|| terminal.draw(|frame| view(&model, frame)).unwrap().area);
            },
        );
        // One step more, one step back, and so on.
        let mut keys = [Key::Right, Key::Left].into_iter().cycle();
        group.bench_function(
            format!("a step, reckoned and drawn, {columns}x{rows}"),
            |bencher| {
                bencher.iter(|| {
                    let key = keys.next().unwrap();
                    update(&mut model, Msg::Press { key, repeat: false });
                    terminal.draw(|frame| view(&model, frame)).unwrap();
                });
            },
        );
    }
    group.finish();
}

fn looking_at_juniper(columns: u16, rows: u16) -> Model {
    let now = Moment {
        wall: chrono::DateTime::UNIX_EPOCH.into(),
        boot: "boot-1".to_owned(),
        mono_ms: 0,
    };
    let (mut model, _) = first_rig(LOOK, now, "juniper".to_owned());
    update(&mut model, Msg::Resized(columns, rows));
    let rig = Reply::Rig {
        rig: Box::new(Rig::read(JUNIPER).unwrap()),
        facts: Facts::default(),
        mode: Mode::Demo,
    };
    update(&mut model, Msg::Reply(rig));
    model
}
