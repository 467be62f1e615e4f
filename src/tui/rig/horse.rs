//! What the trailer carries, from the side: horses where they stand, everything else as a crate.

use crate::tui::rig::body::Carried;
use crate::tui::rig::measure::Measures;
use crate::tui::rig::scene::{Fill, Note, Piece, Scene, at, corners};

/// A horse of 1,100 lb that looks forward, in inches: from its middle, from its hooves.
const HORSE: [(f64, f64); 30] = [
    (-51.0, 60.0),
    (-45.0, 72.0),
    (-40.0, 79.0),
    (-36.0, 76.0),
    (-24.0, 69.0),
    (-12.0, 63.0),
    (4.0, 59.0),
    (22.0, 62.0),
    (34.0, 58.0),
    (40.0, 48.0),
    (41.0, 28.0),
    (37.0, 30.0),
    (36.0, 46.0),
    (32.0, 34.0),
    (35.0, 22.0),
    (32.0, 0.0),
    (26.0, 0.0),
    (28.0, 20.0),
    (18.0, 34.0),
    (2.0, 30.0),
    (-14.0, 32.0),
    (-16.0, 18.0),
    (-16.0, 0.0),
    (-22.0, 0.0),
    (-22.0, 18.0),
    (-24.0, 34.0),
    (-30.0, 44.0),
    (-33.0, 58.0),
    (-42.0, 60.0),
    (-48.0, 56.0),
];

/// A crate of so many pounds is one cubic foot: tack, hay and water mixed.
const CRATE_POUNDS: f64 = 14.0;

/// Draws the load; the crates first, for the horses are what is looked for.
pub(crate) fn draw(scene: &mut Scene, measures: &Measures) {
    let (horses, crates): (Vec<&Carried>, Vec<&Carried>) =
        measures.load.iter().partition(|load| load.is_horse());
    for load in crates {
        let half = 6.0 * (load.pounds / CRATE_POUNDS).cbrt();
        let on_floor = load.at.above.max(measures.body.floor + half);
        let middle = at(load.at.behind, measures.tipped(load.at.behind, on_floor));
        let low = at(middle.x - half, middle.y - half);
        let high = at(middle.x + half, middle.y + half);
        scene.put(Piece::outline(corners(low, high)));
        name(scene, load, high.y);
    }
    for load in horses {
        let scale = load.scale();
        let floor = measures.tipped(load.at.behind, measures.body.floor);
        let points = HORSE
            .iter()
            .map(|(x, y)| at(load.at.behind + x * scale, floor + y * scale));
        scene.put(Piece::outline(points.collect()).fill(Fill::Shade));
        name(scene, load, floor + 60.0 * scale);
    }
}

fn name(scene: &mut Scene, load: &Carried, top: f64) {
    scene.notes.push(Note {
        text: load.name.clone(),
        place: None,
        at: at(load.at.behind, top),
    });
}
