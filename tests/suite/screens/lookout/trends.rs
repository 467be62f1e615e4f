//! How readings move, on the screen: the list of series and the chart of one.

use super::{barn, followed};
use crate::demo_year::trends::TOLD;
use crate::screens::bench::{Bench, LOOK};
use hames::desk::Errand;
use hames::review::trend::{RigTrends, Said, Series};
use hames::tui::{Context, Key, Look, Msg, update};
use hames::year::SLOW_LEAK;

fn all() -> impl Iterator<Item = &'static Series> {
    TOLD.iter().flat_map(|rig: &RigTrends| &rig.series)
}

/// The place in the list of a series of this rig with something to ask about this wheel.
fn asked_of(rig: &str, wheel: &str) -> usize {
    let asks = TOLD.iter().flat_map(|one| {
        let series = one.series.iter().filter(|series| series.ask.is_some());
        series.map(|series| (one.rig.as_str(), series.part.as_deref()))
    });
    let mut asks = asks.enumerate();
    let found = asks.find(|(_, one)| *one == (rig, Some(wheel)));
    found.unwrap().0
}

fn ascii(bench: &Bench) -> Bench {
    bench.clone_with(Look {
        ascii: true,
        ..LOOK
    })
}

#[test]
fn the_leak_of_the_year_is_asked_about_and_drawn_with_its_limit_and_the_day_it_comes_there() {
    let list = followed().play("t");
    assert_eq!(list.model.context(), Context::Series);
    let shown = list.text(80, 24);
    let first = shown.find("Something to ask").unwrap();
    let rest = shown.find("Nothing to ask").unwrap();
    let leak = shown
        .find("Trailer tire, right rear: does it lose air")
        .unwrap();
    assert!(first < leak && leak < rest, "{shown}");

    let down = "↓".repeat(asked_of(SLOW_LEAK.rig, SLOW_LEAK.wheel));
    let chart = list.play(&down).play("⏎");
    assert_eq!(chart.model.context(), Context::Chart);
    for (columns, rows) in [(80, 24), (120, 40)] {
        let shown = chart.text(columns, rows);
        let words = shown.split_whitespace().collect::<Vec<_>>().join(" ");
        for said in [
            "DEMO sumac: Trailer tire, right rear",
            "Does it lose air at its valve, its rim or a nail?",
            "═ the limit (fix)",
            "⠒ the line",
            "⠐ its interval",
            "At 70 F it loses",
            "no sooner than",
            ", about ",
        ] {
            assert!(words.contains(said), "{said}\n{shown}");
        }
        // The word and the value of the limit stand beside its line.
        let limit = shown.lines().find(|line| line.contains("════")).unwrap();
        assert!(limit.trim_start().starts_with("fix "), "{limit}");
    }
}

#[test]
fn a_slope_is_drawn_only_where_it_is_told_with_its_interval_and_else_that_none_can_be() {
    let mut chart = followed().play("t⏎");
    let (mut told, mut untold) = (0, 0);
    let mut listed: Vec<&Series> = all().collect();
    listed.sort_by_key(|series| series.ask.is_none());
    for series in listed {
        let shown = chart.text(120, 40);
        let words = shown.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(words.contains(&series.name()), "{}\n{shown}", series.name());
        let is_line = shown.contains("⠒ the line") && shown.contains("⠐ its interval");
        match &series.said {
            Said::Trend(trend) => {
                told += 1;
                assert!(is_line, "{shown}");
                let low = trend.low.value.magnitude().to_string();
                assert!(words.contains(&low), "{low}\n{shown}");
            }
            Said::NoTrend(_) if !series.points.is_empty() => {
                untold += 1;
                assert!(!shown.contains("the line"), "{shown}");
                assert!(words.contains("No trend can be told from"), "{shown}");
            }
            _ => assert!(!shown.contains("the line"), "{shown}"),
        }
        chart = chart.play("→");
    }
    assert!(told > 4 && untold > 4, "{told} {untold}");
}

#[test]
fn where_only_ascii_may_be_drawn_the_chart_is_of_the_letters_of_the_text_chart() {
    let down = "↓".repeat(asked_of(SLOW_LEAK.rig, SLOW_LEAK.wheel));
    let shown = ascii(&followed().play("t").play(&down).play("⏎")).text(80, 24);
    assert!(shown.is_ascii(), "{shown}");
    for sign in [
        "o a reading",
        "= the limit (fix)",
        ". the line",
        ": its interval",
    ] {
        assert!(shown.contains(sign), "{sign}\n{shown}");
    }
    assert!(shown.contains("|====="), "{shown}");
}

#[test]
fn keys_go_through_the_list_and_back_to_where_one_was() {
    let place = |bench: &Bench| {
        let shown = bench.text(80, 24);
        let line = shown.lines().nth(1).unwrap().to_owned();
        line.split_once(". ").unwrap().0.to_owned()
    };
    let all = all().count();
    let chart = followed().play("t⏎");
    assert_eq!(place(&chart), format!("1 of {all}"));
    // Nothing comes before the first, and nothing after the last.
    assert_eq!(place(&chart.clone_with(LOOK).play("←⇞")), place(&chart));
    let third = chart.play("→⇟");
    assert_eq!(place(&third), format!("3 of {all}"));
    let back = third.play("⎋");
    assert_eq!(back.model.context(), Context::Series);
    let marked = back.text(80, 24);
    let marked = marked.lines().find(|line| line.starts_with('>')).unwrap();
    assert!(marked.contains("mesquite"), "{marked}");
    let last = back.play("⇲⏎");
    assert_eq!(place(&last), format!("{all} of {all}"));
    assert_eq!(place(&last.clone_with(LOOK).play("→")), place(&last));
    let month = last.play("qq");
    assert_eq!(month.model.context(), Context::Days);
}

#[test]
fn the_rig_that_is_filtered_by_is_the_only_one_listed() {
    let list = followed().play("rt").text(120, 60);
    assert!(
        list.starts_with("DEMO How readings of juniper move"),
        "{list}"
    );
    assert!(list.contains("Truck tires, front"), "{list}");
    assert!(
        !list.contains("sumac") && !list.contains("mesquite"),
        "{list}"
    );
}

#[test]
fn they_are_asked_for_when_they_are_wanted_and_where_none_is_followed_that_is_said() {
    let mut bench = barn();
    let press = Msg::Press {
        key: Key::Char('t'),
        repeat: false,
    };
    let asked = update(&mut bench.model, press);
    assert!(matches!(&asked[..], [Errand::LookAtTrends]), "{asked:?}");
    assert_eq!(bench.model.busy(), Some("laying the readings side by side"));
    let none = barn().play("t");
    assert_eq!(none.model.context(), Context::Days);
    let said = none.model.said().unwrap();
    assert!(
        said.starts_with("No reading of these trips is followed."),
        "{said}"
    );
}

#[test]
fn a_small_window_has_the_words_alone_and_none_stops_it() {
    let chart = followed().play("t⏎");
    let small = chart.text(40, 12);
    assert!(
        small.contains("It falls") && !small.contains('═'),
        "{small}"
    );
    let mut more = chart.clone_with(LOOK);
    update(&mut more.model, Msg::Resized(40, 12));
    let more = more.play("↓↓").text(40, 12);
    assert!(more.contains("-- Up, Down: more --"), "{more}");
    let other = ascii(&chart);
    for columns in (1..130).step_by(3) {
        // The one way of drawing in odd rows, the other in even ones.
        for rows in 1..44 {
            let bench = if rows % 2 == 0 { &chart } else { &other };
            bench.frame(columns, rows);
        }
    }
}
