//! The rig as it truly is, is one: what is wrong with it shows wherever it would.

use super::bench::{drill, scenarios};
use hames::drill::Drill;
use hames::figures::{Each, Figure};
use hames::units::Unit;

fn number(drill: &Drill, figure: Figure, item: Option<usize>, unit: Unit) -> f64 {
    let rig = drill.truly();
    let items = Each::TrailerAxle.items(rig);
    let item = item.map(|at| &items[at]);
    let found = figure.of(rig, item).unwrap().quantity;
    found.in_unit(unit).unwrap().value.to_f64().unwrap()
}

#[test]
fn a_rig_that_stands_nose_high_shows_it_in_its_marks_its_axles_and_its_tongue() {
    let scenario = scenarios()
        .iter()
        .find(|one| one.id == "nose-high")
        .unwrap();
    let (high, level) = (drill(scenario, Some(0), 1), drill(scenario, None, 1));
    let both = |figure, item, unit| {
        (
            number(&high, figure, item, unit),
            number(&level, figure, item, unit),
        )
    };
    let (pitch, was) = both(Figure::AttitudePitch, None, Unit::Degree);
    assert!(pitch > was + 1.0, "{was} to {pitch} degrees");
    let (rear, was) = both(Figure::AxleLoad, Some(1), Unit::Pound);
    assert!(rear > was + 100.0, "rear axle {was} to {rear} lb");
    let (front, was) = both(Figure::AxleLoad, Some(0), Unit::Pound);
    assert!(front < was - 100.0, "front axle {was} to {front} lb");
    let (tongue, was) = both(Figure::TongueWeight, None, Unit::Pound);
    // Two axles, each on a spring of its own, hold the rear up, so that the ball carries more: an
    // equalizer between them would let it carry less.
    assert!(tongue > was, "tongue {was} to {tongue} lb");
}
