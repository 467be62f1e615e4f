//! The whole rig from its left.

use crate::rig::Rig;
use crate::tui::rig::backups::Eye;
use crate::tui::rig::measure::Measures;
use crate::tui::rig::scene::{Pen, Piece, Scene, at};
use crate::tui::rig::stance::Carrier;
use crate::tui::rig::view::View;
use crate::tui::rig::{backups, drawbar, horse, neck, trailer, truck};

/// Free room round the rig.
const MARGIN: f64 = 6.0;

/// Draws it, the farthest first.
pub(crate) fn scene(rig: &Rig, measures: &Measures) -> Scene {
    let (left, right) = (measures.truck.nose - MARGIN, measures.body.rear + MARGIN);
    let top = measures.body.roof.max(measures.truck.rail + 24.0) + 2.0;
    let mut scene = Scene::new(at(left, 0.0), at(right, top));
    scene.put(Piece::line(vec![at(left, 0.0), at(right, 0.0)]).pen(Pen::Fine));
    truck::draw(&mut scene, measures);
    trailer::box_and_frame(&mut scene, measures);
    horse::draw(&mut scene, measures);
    match measures.joint {
        Carrier::Drawbar {
            top,
            platform,
            pin_radius,
        } => {
            trailer::tongue(&mut scene, measures);
            drawbar::draw(&mut scene, measures, top, platform, pin_radius);
        }
        Carrier::Bed { floor } => neck::draw(&mut scene, measures, Eye::LEVEL, floor),
    }
    trailer::height_marks(&mut scene, measures);
    backups::draw(&mut scene, measures, Eye::LEVEL);
    trailer::wheels(&mut scene, measures);
    // The parts of the hitch are too small here for names; the close-up has them.
    let kind = rig.kind();
    scene.notes.retain(|note| {
        note.place
            .is_none_or(|place| View::of(place, kind) == View::Side)
    });
    scene
}
