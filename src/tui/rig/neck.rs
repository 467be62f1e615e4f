//! Bed hitch, ball, coupler and neck of a gooseneck, from the side.

use crate::rig::Place;
use crate::tui::rig::backups::Eye;
use crate::tui::rig::measure::Measures;
use crate::tui::rig::scene::{Fill, Piece, Scene, at, corners};
use crate::tui::rig::truck::CAB_BACK;

/// Clearance between the bed's rail and the neck above it (5.5 to 7 in are asked for: common
/// practice, no source).
const RAIL_CLEARANCE: f64 = 7.0;

/// Half the width of the bed that is shown where the eye looks down on it.
const HALF_BED: f64 = 13.0;

/// Depth of the neck's beam.
const NECK: f64 = 6.0;

impl Measures {
    /// Underside of a gooseneck's nose when the frame is level.
    pub(crate) fn neck(&self) -> f64 {
        self.truck.rail + RAIL_CLEARANCE + NECK
    }
}

/// Draws the bed's floor, what is bolted to it, and the neck that comes down on it.
pub(crate) fn draw(scene: &mut Scene, measures: &Measures, eye: Eye, floor: f64) {
    let truck = &measures.truck;
    let bed_front = truck.front_axle + (truck.rear_axle - truck.front_axle) * CAB_BACK;
    let near = floor - eye.lift * HALF_BED;
    let cross_member = corners(at(-15.0, near - 4.0), at(15.0, near - 1.5));
    scene.put(Piece::outline(cross_member).of(Place::Drawbar));
    let hub = corners(at(-4.5, near - 6.0), at(4.5, near));
    scene.put(Piece::outline(hub).of(Place::Receiver).fill(Fill::Shade));
    scene.note(Place::Receiver, "bed hitch", at(2.0, near - 6.0));
    scene.note(Place::Drawbar, "cross-member", at(-12.0, near - 4.0));
    let far = floor + eye.lift * HALF_BED;
    let bed = corners(at(bed_front, near), at(truck.tail, far));
    scene.put(Piece::outline(bed).of(Place::Truck));
    coupler(scene, measures);
    ball(scene, measures, floor);
}

fn ball(scene: &mut Scene, measures: &Measures, floor: f64) {
    let radius = measures.ball_radius;
    let neck = corners(at(-radius * 0.6, floor), at(radius * 0.6, measures.ball));
    scene.put(Piece::outline(neck).of(Place::Ball).fill(Fill::Solid));
    let round = Piece::circle(at(0.0, measures.ball), radius);
    scene.put(round.of(Place::Ball).fill(Fill::Solid));
    scene.note(Place::Ball, "ball", at(0.0, measures.ball));
}

/// The socket, the inner tube with its set-bolts in the outer one, and the beam of the neck.
fn coupler(scene: &mut Scene, measures: &Measures) {
    let ball = measures.ball;
    let neck = measures.tipped(0.0, measures.neck());
    let beam = corners(at(-5.0, neck - NECK), at(measures.body.front, neck));
    scene.put(Piece::outline(beam).of(Place::Frame));
    let middle = f64::midpoint(ball, neck);
    let outer = corners(at(-3.6, middle), at(3.6, neck));
    let inner = corners(at(-2.8, ball + 3.0), at(2.8, middle + 1.0));
    scene.put(Piece::outline(inner).of(Place::Coupler));
    scene.put(Piece::outline(outer).of(Place::Frame));
    for bolt in [middle + 2.5, middle + 6.0] {
        let bolt = corners(at(3.6, bolt - 0.6), at(5.4, bolt + 0.6));
        scene.put(Piece::outline(bolt).of(Place::Coupler).fill(Fill::Solid));
    }
    let socket = vec![
        at(-3.4, ball - 0.8),
        at(-3.4, ball + 2.0),
        at(-2.8, ball + 3.4),
        at(2.8, ball + 3.4),
        at(3.4, ball + 2.0),
        at(3.4, ball - 0.8),
    ];
    scene.put(Piece::outline(socket).of(Place::Coupler));
    let lever = vec![
        at(-3.4, ball - 0.2),
        at(-7.5, ball + 0.6),
        at(-8.5, ball + 2.4),
    ];
    scene.put(Piece::line(lever).of(Place::Coupler));
    scene.note(Place::Coupler, "coupler and latch", at(-2.8, ball + 12.0));
}
