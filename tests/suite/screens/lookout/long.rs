//! A long logbook: the newest trips are here at once, and nothing that was chosen moves when the
//! others come.

use super::barn;
use super::year::{opened, year};
use crate::screens::bench::Bench;
use hames::desk::{Errand, Lookout, Reply};
use hames::review::Filter;
use hames::tui::{Msg, update};

/// The newest trips of the year, and how many others there are.
fn newest() -> Lookout {
    let whole = year();
    let (all, few) = (whole.trips.len(), 4);
    Lookout {
        trips: whole.trips.into_iter().skip(all - few).collect(),
        closed: Vec::new(),
        unread: all - few + 1,
        ..whole
    }
}

/// With these before the eyes while the others are read.
pub(crate) fn reading() -> Bench {
    Bench::over(newest(), opened(), Filter::default())
}

fn comes(bench: &mut Bench, reply: Reply) {
    let asked = update(&mut bench.model, Msg::Reply(reply));
    assert!(asked.is_empty(), "{asked:?}");
}

fn second_line(bench: &Bench) -> String {
    bench.text(80, 24).lines().nth(1).unwrap().to_owned()
}

#[test]
fn the_newest_are_shown_and_the_others_are_asked_for_while_no_key_comes() {
    let mut bench = reading();
    assert_eq!(second_line(&bench), "4 trips; the newest, 6 still to read");
    assert!(matches!(bench.model.meanwhile(), Some(Errand::ReadOn)));
    comes(&mut bench, Reply::StillToRead(2));
    assert_eq!(second_line(&bench), "4 trips; the newest, 2 still to read");
    comes(&mut bench, Reply::Lookout(Box::new(year())));
    assert!(bench.model.meanwhile().is_none());
    assert_eq!(second_line(&bench), second_line(&barn()));
}

#[test]
fn month_day_filter_and_marked_trip_stay_where_they_are_when_the_others_come() {
    // Into the list, one down: that trip is on another line once there are more before it.
    for keys in ["", "→", "r", "⏎↓", "r⏎", "⏎↓⏎⏎"] {
        let mut bench = reading().play(keys);
        let marked = |bench: &Bench| {
            let text = bench.text(80, 24);
            let mark = text.split_once('>')?;
            mark.1.lines().next().map(str::to_owned)
        };
        let (context, before) = (bench.model.context(), marked(&bench));
        let month = bench.text(80, 24).lines().next().unwrap()[..24].to_owned();
        comes(&mut bench, Reply::Lookout(Box::new(year())));
        assert_eq!(bench.model.context(), context, "{keys}");
        assert_eq!(marked(&bench), before, "{keys}: {}", bench.text(80, 24));
        assert!(bench.text(80, 24).starts_with(&month), "{keys}");
    }
}

#[test]
fn a_marked_trip_that_turns_out_closed_gives_its_mark_to_the_first_of_the_list() {
    let mut bench = reading().play("⏎↓");
    let mut whole = year();
    let marked = whole.trips.len() - 3;
    whole.trips.remove(marked);
    comes(&mut bench, Reply::Lookout(Box::new(whole)));
    assert!(bench.text(80, 24).contains('>'), "{}", bench.text(80, 24));
}
