//! What a person sees: every part marked by word, leader and reverse, at every size.

use crate::drawing::{
    is_reversed, marked, marked_runs, painted, rigs, rigs_of_all_axles, text, view,
};
use hames::checklist::{Plan, shipped_by_default};
use hames::figures::{Each, Item};
use hames::rig::Place;
use hames::tui::rig::{Drawing, View, drawing_of};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::widgets::Widget;

/// A corner of a small screen, the usual room beside a step, and a wide screen.
const SIZES: [(u16, u16); 3] = [(20, 5), (58, 16), (120, 40)];

#[test]
fn each_view_of_the_demo_rigs_is_as_reviewed() {
    for rig in rigs() {
        for (of, place) in [
            (View::Side, Place::Frame),
            (View::Hitch, Place::Chains),
            (View::Above, Place::Tires),
        ] {
            for (ascii, painter) in [(false, "dots"), (true, "ascii")] {
                let drawing = view(of, &rig).marked(place, None).ascii(ascii);
                let shown: Vec<String> = SIZES
                    .into_iter()
                    .map(|(width, height)| {
                        let buffer = painted(&drawing, width, height);
                        let runs = marked_runs(&buffer);
                        format!("{width} by {height}\n{}marked\n{runs}", text(&buffer))
                    })
                    .collect();
                let name = format!("{}-{}-{painter}", rig.id, of.word());
                insta::assert_snapshot!(name, shown.join("\n"));
            }
        }
    }
}

#[test]
fn every_part_is_named_and_reversed_in_the_view_chosen_for_it() {
    for rig in rigs_of_all_axles() {
        for (word, place) in Place::WORDS {
            for (width, height) in SIZES {
                for ascii in [false, true] {
                    let buffer = painted(&marked(&rig, place).ascii(ascii), width, height);
                    let case = format!("{} {word} {width}x{height}\n{}", rig.id, text(&buffer));
                    let words = word.to_uppercase();
                    let label = text(&buffer).lines().position(|line| line.contains(&words));
                    let label = u16::try_from(label.expect(&case)).unwrap();
                    let leader = leader(&buffer, label);
                    let drawn = (0..height)
                        .flat_map(|y| (0..width).map(move |x| (x, y)))
                        .filter(|(x, y)| *y != label && is_reversed(&buffer, *x, *y))
                        .filter(|cell| !leader.contains(cell));
                    assert!(drawn.count() > 0, "{case}");
                }
            }
        }
    }
}

/// The cells between a label and the tip of its leader.
fn leader(buffer: &Buffer, label: u16) -> Vec<(u16, u16)> {
    let cells = (0..buffer.area.height).flat_map(|y| (0..buffer.area.width).map(move |x| (x, y)));
    let tip = cells
        .filter(|(x, y)| *y != label && is_reversed(buffer, *x, *y))
        .find(|cell| "▼▲V^".contains(buffer[*cell].symbol()));
    let rows = |tip: u16| tip.min(label)..=tip.max(label);
    tip.map_or(vec![], |(x, y)| rows(y).map(|row| (x, row)).collect())
}

#[test]
fn a_step_repeated_for_each_wheel_marks_that_wheel_alone() {
    let [rig, _] = rigs();
    let all = marked_runs(&painted(
        &Drawing::above(&rig).marked(Place::Tires, None),
        58,
        16,
    ));
    for item in Each::TrailerWheel.items(&rig) {
        let drawing = Drawing::above(&rig).marked(Place::Tires, Some(&item));
        let buffer = painted(&drawing, 58, 16);
        let label = format!("TIRES {}", item.name().to_uppercase());
        assert!(text(&buffer).contains(&label), "{}", text(&buffer));
        assert!(marked_runs(&buffer).len() < all.len());
    }
}

#[test]
fn the_right_side_is_above_and_the_left_below_when_seen_from_above() {
    let [rig, _] = rigs();
    for item in Each::TrailerWheel.items(&rig) {
        let drawing = Drawing::above(&rig).marked(Place::Tires, Some(&item));
        let tire = drawing
            .scene()
            .pieces
            .iter()
            .find(|piece| piece.item.as_deref() == Some(item.id.as_str()))
            .and_then(hames::tui::rig::Piece::middle)
            .unwrap();
        assert_eq!(tire.y > 0.0, item.id.starts_with("right"), "{}", item.id);
    }
}

#[test]
fn the_plain_painter_writes_nothing_but_ascii() {
    for rig in rigs() {
        for (word, place) in Place::WORDS {
            let shown = text(&painted(&marked(&rig, place).ascii(true), 120, 40));
            assert!(shown.is_ascii(), "{word}\n{shown}");
        }
    }
}

#[test]
fn no_size_stops_the_painters() {
    let widths = [0, 1, 2, 3, 5, 9, 20, 59, 120, 200];
    let heights = [0, 1, 2, 3, 4, 5, 9, 13, 14, 22, 60];
    for rig in rigs() {
        for place in [Place::Box, Place::Chains, Place::Lamps] {
            for ascii in [false, true] {
                let drawing = marked(&rig, place).ascii(ascii);
                for (width, height) in widths.iter().flat_map(|w| heights.map(|h| (*w, h))) {
                    painted(&drawing, width, height);
                }
            }
        }
    }
}

#[test]
fn an_area_partly_off_the_screen_is_cut_to_it() {
    let [rig, _] = rigs();
    let mut buffer = Buffer::empty(Rect::new(0, 0, 30, 8));
    let drawing = marked(&rig, Place::Coupler);
    drawing.render(Rect::new(20, 4, 60, 20), &mut buffer);
    drawing.render(Rect::new(40, 40, 60, 20), &mut buffer);
    assert!((0..20).all(|x| (0..8).all(|y| buffer[(x, y)].symbol() == " ")));
}

#[test]
fn without_a_mark_nothing_is_reversed() {
    for rig in rigs() {
        for of in View::ALL {
            assert_eq!(marked_runs(&painted(&view(of, &rig), 80, 24)), "");
        }
    }
}

#[test]
fn every_step_of_a_walk_has_a_drawing_with_its_own_part_marked() {
    let mut plans = 0;
    for (shipped, rig) in shipped_by_default().flat_map(|text| rigs().map(|rig| (text, rig))) {
        let Ok(plan) = Plan::lay(shipped.checklist.clone(), rig) else {
            continue;
        };
        plans += 1;
        for step in plan.steps() {
            let shown = text(&painted(&drawing_of(&plan, step, false), 58, 16));
            let place = step.step.place.word().to_uppercase();
            // No view has one axle of the trailer apart from the other, nor a horse.
            let apart = |item: &&Item| !matches!(item.each, Each::TrailerAxle | Each::Horse);
            let item = step.item.as_ref().filter(apart);
            let item = item.map(|item| item.name().to_uppercase());
            let words: Vec<String> = [place].into_iter().chain(item).collect();
            assert!(shown.contains(&words.join(" ")), "{}\n{shown}", step.key);
        }
    }
    assert!(plans > 0, "no shipped checklist fits a demo rig");
}
