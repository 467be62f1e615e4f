//! The trailer from the side: box, frame, wheels, and what stands about them.

use crate::rig::Place;
use crate::tui::rig::measure::Measures;
use crate::tui::rig::scene::{Fill, Piece, Point, Scene, at, corners};
use crate::tui::rig::stance::Carrier;
use crate::tui::rig::truck;

/// Depth of the frame's beams.
pub(crate) const BEAM: f64 = 4.0;

/// Draws the box with its frame; what is inside and in front of it comes later.
pub(crate) fn box_and_frame(scene: &mut Scene, measures: &Measures) {
    let body = &measures.body;
    scene.put(Piece::outline(walls(measures)).of(Place::Box));
    let door = body.rear - 5.0;
    let door = vec![
        tipped(measures, door, body.floor),
        tipped(measures, door, body.roof - 4.0),
    ];
    scene.put(Piece::line(door).of(Place::Box));
    let beam = [body.front, body.rear]
        .map(|x| tipped(measures, x, body.floor))
        .into_iter()
        .chain([body.rear, body.front].map(|x| tipped(measures, x, body.floor - BEAM)));
    scene.put(
        Piece::outline(beam.collect())
            .of(Place::Frame)
            .fill(Fill::Solid),
    );
    scene.note(
        Place::Box,
        "box",
        tipped(measures, body.rear - 30.0, body.roof),
    );
}

/// Draws the wheels and the chocks before and behind them.
pub(crate) fn wheels(scene: &mut Scene, measures: &Measures) {
    for axle in &measures.axles {
        truck::wheel(
            scene,
            axle.behind,
            axle.tire,
            [Place::Tires, Place::Wheels],
            None,
        );
    }
    chocks(scene, measures);
}

/// Draws the two marks where the frame's height is taken, each with a rule to the ground. Where
/// along the frame they sit is not described: they are drawn on both sides of the axles.
pub(crate) fn height_marks(scene: &mut Scene, measures: &Measures) {
    let body = &measures.body;
    let room = measures.half_base + 4.0;
    let middle = measures
        .middle_axle()
        .min(body.rear - room)
        .max(body.front + room);
    for behind in [middle - measures.half_base, middle + measures.half_base] {
        let (foot, top) = (at(behind, 0.0), tipped(measures, behind, body.floor - BEAM));
        scene.put(Piece::line(vec![top, foot]).of(Place::Frame));
        for end in [top, foot] {
            let tick = vec![at(end.x - 4.0, end.y), at(end.x + 4.0, end.y)];
            scene.put(Piece::line(tick).of(Place::Frame));
        }
    }
    let front = middle - measures.half_base;
    scene.note(Place::Frame, "frame height", at(front, body.floor * 0.5));
}

/// Draws the wedges before the first wheel and behind the last.
fn chocks(scene: &mut Scene, measures: &Measures) {
    let (front, rear) = measures.wheel_run();
    for (toe, heel) in [(front + 6.0, front - 5.0), (rear - 6.0, rear + 5.0)] {
        let wedge = vec![at(toe, 0.0), at(heel, 7.0), at(heel, 0.0)];
        scene.put(Piece::outline(wedge).of(Place::Chocks).fill(Fill::Solid));
    }
}

/// The walls of the box, and of the nose where it reaches over a bed.
fn walls(measures: &Measures) -> Vec<Point> {
    let body = &measures.body;
    let mut points = vec![at(body.rear, body.floor), at(body.rear, body.roof)];
    match measures.joint {
        Carrier::Drawbar { .. } => points.extend([
            at(body.front + 16.0, body.roof),
            at(body.front + 4.0, body.roof - 14.0),
            at(body.front, body.floor + 30.0),
        ]),
        Carrier::Bed { .. } => {
            let neck = measures.neck();
            points.extend([
                at(14.0, body.roof),
                at(-4.0, body.roof - 12.0),
                at(-8.0, neck),
                at(body.front, neck),
            ]);
        }
    }
    points.push(at(body.front, body.floor));
    points
        .into_iter()
        .map(|point| tipped(measures, point.x, point.y))
        .collect()
}

/// Draws the beams from the box to the coupler of a bumper pull.
pub(crate) fn tongue(scene: &mut Scene, measures: &Measures) {
    let (front, half) = (measures.body.front, BEAM / 2.0);
    let low = at(8.0, measures.ball - half);
    let high = at(
        front,
        measures.tipped(front, measures.ball - measures.nose_up) + half,
    );
    let beam = corners(low, high);
    scene.put(Piece::outline(beam).of(Place::Frame));
}

fn tipped(measures: &Measures, behind: f64, level: f64) -> Point {
    at(behind, measures.tipped(behind, level))
}
