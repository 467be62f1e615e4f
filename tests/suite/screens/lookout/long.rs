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
        unread: all + 1,
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
    assert_eq!(
        second_line(&bench),
        "The newest 4 of 10 trips; of the whole logbook 10 are still to read"
    );
    assert!(matches!(bench.model.meanwhile(), Some(Errand::ReadOn)));
    comes(&mut bench, Reply::StillToRead(2));
    assert_eq!(
        second_line(&bench),
        "The newest 4 of 10 trips; of the whole logbook 2 are still to read"
    );
    comes(&mut bench, Reply::Lookout(Box::new(year())));
    assert!(bench.model.meanwhile().is_none());
    assert_eq!(second_line(&bench), second_line(&barn()));
}

#[test]
fn month_day_filter_and_marked_trip_stay_where_they_are_when_the_others_come() {
    // Into the list, one down: that trip is on another line once there are more before it.
    for keys in ["", "→", "r", "⏎↓", "r⏎"] {
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
fn a_trip_asked_for_meanwhile_opens_once_all_were_read_and_until_then_every_key_is_heard() {
    let waiting = || reading().play("⏎↓⏎");
    let mut bench = waiting();
    let waits = |unread: usize| {
        format!(
            "The trip is opened once all trips were read, {unread} to go. Esc leaves it; other keys \
             do nothing."
        )
    };
    assert_eq!(bench.model.said(), Some(&*waits(10)));
    assert!(matches!(bench.model.meanwhile(), Some(Errand::ReadOn)));
    comes(&mut bench, Reply::StillToRead(2));
    assert_eq!(bench.model.said(), Some(&*waits(2)));
    // Another key moves nothing; Esc and q leave the waiting at once.
    let marked = |bench: &Bench| {
        let text = bench.text(80, 24);
        text.split_once('>')
            .unwrap()
            .1
            .lines()
            .next()
            .unwrap()
            .to_owned()
    };
    let before = marked(&bench);
    let mut bench = bench.play("↓r");
    assert_eq!(
        (marked(&bench), bench.model.said()),
        (before, Some(&*waits(2)))
    );
    let asked = update(
        &mut bench.model,
        Msg::Reply(Reply::Lookout(Box::new(year()))),
    );
    assert!(
        matches!(asked.as_slice(), [Errand::OpenTrip { .. }]),
        "{asked:?}"
    );
    for key in ["q", "⎋"] {
        let mut left = waiting().play(key);
        assert_eq!(left.model.said(), Some("Not waited for any more."), "{key}");
        comes(&mut left, Reply::StillToRead(2));
        comes(&mut left, Reply::Lookout(Box::new(year())));
    }
}

#[test]
fn what_is_pressed_while_a_trip_is_opened_is_not_done_to_it() {
    let mut bench = barn().play("⏎⏎");
    assert!(bench.model.is_deaf());
    update(&mut bench.model, Msg::Unheard(0));
    assert!(!bench.model.is_deaf() && bench.model.said().is_none());
    let mut bench = barn().play("⏎⏎");
    update(&mut bench.model, Msg::Unheard(3));
    assert_eq!(
        bench.model.said(),
        Some("What was typed while this was waited for did nothing.")
    );
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
