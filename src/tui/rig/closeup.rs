//! The hitch close up, from its left and a little above, so that crossed chains are seen to cross.

use crate::rig::Place;
use crate::tui::rig::backups::{self, Eye};
use crate::tui::rig::measure::Measures;
use crate::tui::rig::scene::{Pen, Piece, Scene, at, corners};
use crate::tui::rig::stance::Carrier;
use crate::tui::rig::{drawbar, neck, trailer};

/// Free room round the farthest part shown.
const MARGIN: f64 = 12.0;

/// Draws it, the farthest first.
pub(crate) fn scene(measures: &Measures) -> Scene {
    let chains = measures.chains.iter().flatten();
    let spots = chains.chain([&measures.anchor, &measures.switch]);
    let (near, far) = spots.fold((0.0_f64, 0.0_f64), |(near, far), spot| {
        (near.min(spot.behind), far.max(spot.behind))
    });
    let (left, right) = ((near - MARGIN).max(-70.0), (far + MARGIN).clamp(46.0, 90.0));
    match measures.joint {
        Carrier::Drawbar {
            top,
            platform,
            pin_radius,
        } => {
            let high = at(right, measures.ball + 22.0);
            let mut scene = Scene::new(at(left, 0.0), high);
            scene.put(Piece::line(vec![at(left, 0.0), at(right, 0.0)]).pen(Pen::Fine));
            truck_end(&mut scene, measures, top);
            trailer::tongue(&mut scene, measures);
            scene.note(
                Place::Frame,
                "tongue",
                at(right - 4.0, measures.ball + trailer::BEAM / 2.0),
            );
            drawbar::draw(&mut scene, measures, top, platform, pin_radius);
            backups::draw(&mut scene, measures, Eye::RAISED);
            scene
        }
        Carrier::Bed { floor } => {
            let high = at(right, measures.neck() + 8.5);
            let mut scene = Scene::new(at(left, floor - 11.0), high);
            bed(&mut scene, measures, left);
            neck::draw(&mut scene, measures, Eye::RAISED, floor);
            scene.note(Place::Frame, "neck", at(right - 4.0, measures.neck()));
            backups::draw(&mut scene, measures, Eye::RAISED);
            scene
        }
    }
}

/// The bumper and the tailgate above it.
fn truck_end(scene: &mut Scene, measures: &Measures, receiver: f64) {
    let tail = measures.truck.tail;
    let bumper = corners(at(tail - 7.0, receiver + 2.5), at(tail, receiver + 9.0));
    scene.put(Piece::outline(bumper).of(Place::Truck));
    let gate = vec![
        at(tail - 3.0, receiver + 9.0),
        at(tail - 3.0, measures.truck.rail),
    ];
    scene.put(Piece::line(gate).of(Place::Truck));
    scene.note(Place::Truck, "truck", at(tail - 3.0, receiver + 14.0));
}

/// The rail of the bed.
fn bed(scene: &mut Scene, measures: &Measures, left: f64) {
    let rail = vec![
        at(left, measures.truck.rail),
        at(measures.truck.tail, measures.truck.rail),
    ];
    scene.put(Piece::line(rail).of(Place::Truck).pen(Pen::Fine));
}
