//! Every screen as text at three sizes, as approved; and what holds at every size.

use crate::screens::bench::{Bench, LOOK, runs, text};
use crate::screens::stations::{station, stations};
use hames::tui::{Look, Msg, Theme, update};
use std::collections::BTreeSet;

const SIZES: [(u16, u16); 3] = [(40, 12), (80, 24), (120, 40)];

fn approve(name: &str, shown: &str) {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path("../snapshots");
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.bind(|| insta::assert_snapshot!(format!("screen_{name}"), shown));
}

#[test]
fn every_screen_looks_as_it_was_approved() {
    for station in stations() {
        let shown = SIZES.map(|(columns, rows)| {
            format!(
                "-- {columns} x {rows}\n{}\n",
                station.bench.text(columns, rows)
            )
        });
        approve(station.name, &shown.concat());
    }
}

/// A step, a stop, the banner of a failed disk and a day of a month, with how each run of cells is drawn.
#[test]
fn emphasis_and_colours_are_as_approved() {
    let emphasised = [
        "sighting",
        "branch_stop_reading",
        "read_only",
        "lookout_day",
    ];
    for station in stations()
        .iter()
        .filter(|one| emphasised.contains(&one.name))
    {
        for theme in [Theme::Own, Theme::Night, Theme::Glare] {
            let bench = station.bench.clone_with(Look { theme, ..LOOK });
            let name = format!("{}_{}", station.name, theme.word());
            approve(&name, &runs(&bench.frame(80, 24)));
        }
    }
}

#[test]
fn the_big_view_is_as_approved() {
    let big = Look { big: true, ..LOOK };
    let bench = station("outcome_reading").bench.clone_with(big);
    approve("outcome_reading_big", &bench.text(80, 24));
}

/// Every size once, each with the next screen, and with every look many sizes large and small.
#[test]
fn no_size_of_window_stops_any_screen() {
    let (columns, rows) = (200_u16, 60_u16);
    let all = columns * rows;
    // The step has no factor in common with their number, so it meets each size once.
    let shuffled = (0..u32::from(all)).map(|turn| u16::try_from(turn * 7919 % u32::from(all)));
    let size = |at: u16| (1 + at / rows, 1 + at % rows);
    // All of those that a window is likely to have, and of the others every eighth.
    let is_met = |(columns, rows): &(u16, u16)| {
        (*columns <= 82 && *rows <= 26) || (columns + rows).is_multiple_of(8)
    };
    let sizes: Vec<(u16, u16)> = shuffled
        .map(|at| size(at.unwrap()))
        .filter(is_met)
        .collect();
    let looks = looks();
    let mut drawn = BTreeSet::new();
    for (look, sizes) in looks.iter().zip(sizes.chunks(sizes.len() / looks.len())) {
        let mut benches: Vec<Bench> = stations()
            .iter()
            .map(|station| station.bench.clone_with(*look))
            .collect();
        let turns = benches.len();
        for (turn, (columns, rows)) in sizes.iter().enumerate() {
            let bench = &mut benches[turn % turns];
            update(&mut bench.model, Msg::Resized(*columns, *rows));
            bench.frame(*columns, *rows);
            drawn.insert((*columns, *rows));
        }
    }
    assert!(drawn.len() > 3000, "{}", drawn.len());
}

/// Every way of drawing there is.
fn looks() -> Vec<Look> {
    let mut looks = Vec::new();
    for (_, theme) in Theme::WORDS {
        for (colour, ascii, big) in [
            (true, false, false),
            (true, true, false),
            (true, false, true),
            (true, true, true),
            (false, false, false),
            (false, true, false),
            (false, false, true),
            (false, true, true),
        ] {
            looks.push(Look {
                theme,
                colour,
                ascii,
                big,
            });
        }
    }
    looks
}

#[test]
fn every_frame_of_the_demo_and_of_a_drill_says_so() {
    for station in stations() {
        let mark = if station.bench.drills.is_some() {
            "DRILL"
        } else {
            "DEMO"
        };
        for (columns, rows) in [(40, 12), (120, 40), (30, 8)] {
            let shown = station.bench.text(columns, rows);
            assert!(shown.starts_with(mark), "{}:\n{shown}", station.name);
        }
    }
}

/// Interruptions of seconds lose the place; so no list and no panel hides it.
#[test]
fn every_screen_of_a_walk_shows_step_total_and_what_was_last_done() {
    for station in stations() {
        let Some(walk) = station
            .bench
            .model
            .walk()
            .filter(|walk| walk.ended().is_none())
        else {
            continue;
        };
        let all = walk.steps().len().to_string();
        let last = walk
            .last_done()
            .map(|(_, at)| at.wall.format("%H:%M").to_string());
        for (columns, rows) in SIZES {
            let shown = station.bench.text(columns, rows);
            let place = shown.lines().take(3).collect::<Vec<_>>().join("\n");
            assert!(place.contains(&all), "{}:\n{shown}", station.name);
            if let Some(time) = &last {
                assert!(place.contains(time.as_str()), "{}:\n{shown}", station.name);
            }
        }
    }
}

#[test]
fn in_ascii_nothing_else_is_drawn_and_nothing_is_lost() {
    for station in stations() {
        let bench = station.bench.clone_with(Look {
            ascii: true,
            ..LOOK
        });
        for (columns, rows) in SIZES {
            let shown = text(&bench.frame(columns, rows));
            assert!(shown.is_ascii(), "{}:\n{shown}", station.name);
            assert!(!shown.contains("??"), "{}:\n{shown}", station.name);
        }
    }
}

#[test]
fn without_colours_every_theme_draws_none() {
    for station in stations() {
        for theme in [Theme::Night, Theme::Glare] {
            let bench = station.bench.clone_with(Look {
                theme,
                colour: false,
                ..LOOK
            });
            let frame = bench.frame(80, 24);
            let plain = |cell: &ratatui::buffer::Cell| {
                use ratatui::style::Color::Reset;
                cell.fg == Reset && cell.bg == Reset
            };
            assert!(frame.content.iter().all(plain), "{}", station.name);
        }
    }
}

#[test]
fn a_blind_step_shows_no_expected_value_before_its_answer() {
    let bench = Bench::walking().at_step("ball-size");
    for (columns, rows) in SIZES {
        let shown = bench.text(columns, rows);
        assert!(!shown.contains("2.3") && !shown.contains("5/16"), "{shown}");
        assert!(!shown.contains("Limit:"), "{shown}");
    }
    let shown = bench.play("2 5/16 in⏎").text(80, 24);
    assert!(shown.contains("Limit:"), "{shown}");
}

/// A number without whose word it is asks for belief.
#[test]
fn after_a_reading_every_limit_says_whose_word_it_is_and_the_one_that_matters_its_source() {
    for name in ["outcome_reading", "outcome_again", "branch_stop_reading"] {
        for (columns, rows) in SIZES {
            let shown = station(name).bench.text(columns, rows);
            let mut limits = shown
                .lines()
                .filter_map(|line| line.split("Limit: ").nth(1));
            assert!(
                limits.clone().count() > 0
                    && limits
                        .all(|limit| limit.ends_with("(default)") || limit.ends_with("(plate)")),
                "{shown}"
            );
        }
    }
    let shown = station("outcome_reading").bench.text(80, 24);
    assert!(
        shown.contains("95 % of cold pressure asked for 65 psi (plate")
            && shown.contains("Common practice, no source"),
        "{shown}"
    );
}

#[test]
fn limits_that_read_alike_are_told_once() {
    let bench = Bench::walking().at_step("trailer-weight").play("a6300 lb⏎");
    let shown = bench.text(80, 24);
    let mut limits: Vec<&str> = shown
        .lines()
        .filter(|line| line.contains("Limit:"))
        .collect();
    let all = limits.len();
    limits.dedup();
    assert!(all > 0 && limits.len() == all, "{shown}");
}

#[test]
fn a_sighting_is_as_it_should_be_and_only_a_reading_is_inside_its_limits() {
    let shown = station("outcome_ok").bench.text(80, 24);
    assert!(shown.contains("OK  as it should be"), "{shown}");
    let shown = station("outcome_reading").bench.text(80, 24);
    assert!(shown.contains("OK  inside every limit"), "{shown}");
}

#[test]
fn no_screen_uses_the_word_nobody_may_promise() {
    for station in stations() {
        for (columns, rows) in SIZES {
            let shown = station.bench.text(columns, rows).to_lowercase();
            let word = concat!("sa", "fe");
            assert!(
                !shown.contains(&format!("{word} ")),
                "{}:\n{shown}",
                station.name
            );
            assert!(
                !shown.contains(&format!("{word}.")),
                "{}:\n{shown}",
                station.name
            );
        }
    }
}
