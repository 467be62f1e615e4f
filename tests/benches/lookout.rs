//! A logbook of 10,000 trips looked over: how long from a key to its frame, wherever one stands.

use crate::key_to_frame::LOOK;
use chrono::{DateTime, FixedOffset, TimeDelta};
use criterion::Criterion;
use hames::desk::{Lookout, Reply, SeenTrip};
use hames::logbook::TripCounts;
use hames::record::{Finding, Id, Mode, Opinion};
use hames::review::{Filter, Glance};
use hames::rules::Verdict;
use hames::tui::{Key, Model, Msg, first_lookout, update, view};
use hames::walk::{Ended, Moment};
use ratatui::Terminal;
use ratatui::backend::TestBackend;

const TRIPS: u64 = 10_000;

/// Trips of a busy day: so a month has near a thousand.
const A_DAY: u64 = 30;

pub(crate) fn measure(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("looked over");
    // What is pressed again and again, after what was pressed before.
    let moves: [(&str, &[Key], [Key; 2]); 4] = [
        ("a day on", &[], [Key::Left, Key::Right]),
        ("a month on", &[], [Key::PageUp, Key::PageDown]),
        ("a trip on", &[Key::Enter], [Key::Down, Key::Up]),
        ("another filter", &[], [Key::Char('g'), Key::Char('c')]),
    ];
    for (columns, rows) in [(80, 24), (120, 40)] {
        for (what, before, keys) in moves {
            let mut model = looked_over(columns, rows);
            for key in before {
                press(&mut model, *key);
            }
            let mut terminal = Terminal::new(TestBackend::new(columns, rows)).unwrap();
            let mut keys = keys.into_iter().cycle();
            group.bench_function(format!("{what}, {columns}x{rows}"), |bencher| {
                bencher.iter(|| {
                    press(&mut model, keys.next().unwrap());
                    terminal.draw(|frame| view(&model, frame)).unwrap();
                });
            });
        }
    }
    group.finish();
}

fn press(model: &mut Model, key: Key) {
    let errands = update(model, Msg::Press { key, repeat: false });
    assert!(errands.is_empty(), "{errands:?}");
}

fn looked_over(columns: u16, rows: u16) -> Model {
    let began: DateTime<FixedOffset> = "2025-11-26T05:00:00-05:00".parse().unwrap();
    let now = Moment {
        wall: began + TimeDelta::days(365),
        boot: "boot".to_owned(),
        mono_ms: 0,
    };
    let (mut model, _) = first_lookout(LOOK, now, (Mode::Real, Filter::default()), false);
    update(&mut model, Msg::Resized(columns, rows));
    let trips = (0..TRIPS).map(|nth| trip(nth, began)).collect();
    let closed = Vec::new();
    let mode = Mode::Real;
    let lookout = Lookout {
        mode,
        trips,
        closed,
        unread: 0,
    };
    update(&mut model, Msg::Reply(Reply::Lookout(Box::new(lookout))));
    model
}

fn trip(nth: u64, began: DateTime<FixedOffset>) -> SeenTrip {
    let pick = |of: &[&str]| of[usize::try_from(nth).unwrap() % of.len()].to_owned();
    let hours = TimeDelta::hours(i64::try_from(24 * nth / A_DAY).unwrap());
    let worst = [Verdict::Ok, Verdict::Ok, Verdict::Note, Verdict::Fix];
    let folder = format!("{:06}-9f0c11b2", nth + 1);
    SeenTrip {
        glance: Glance {
            trip: Id::read(&format!("{nth:08x}9f0c11b2")).unwrap(),
            device: Id::read("laptop-7f3a").unwrap(),
            seq: nth + 1,
            rig: pick(&["juniper", "mesquite", "sumac"]),
            checklist: "hitch-bumper".to_owned(),
            title: pick(&["Hitch up a bumper pull", "Stop on the way", "Unhitch"]),
            revision: 4,
            who: pick(&["Wren Ashdown", "Tobias Fenn", "Odile Marsh", "Hazel Brack"]),
            others: vec![pick(&["Perrin Quill", "Ansel Dunmore"])],
            at: began + hours,
            from_paper: false,
            took_ms: 1_200_000,
            ended: Some(Ended::Complete),
            signed: true,
            worst: worst[usize::try_from(nth).unwrap() % worst.len()],
            left_open: 0,
            counts: TripCounts::default(),
            finding: Finding::NotCountersigned,
            said: (!nth.is_multiple_of(5)).then_some(Opinion::Agreed),
            doubts: 0,
        },
        folder,
    }
}
