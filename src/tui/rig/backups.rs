//! What holds, stops and lights the trailer beside the ball: chains, lanyard, battery, cord, jack.

use crate::rig::Place;
use crate::tui::rig::hang::Spot;
use crate::tui::rig::measure::Measures;
use crate::tui::rig::scene::{Fill, Pen, Piece, Point, Scene, at, corners};
use crate::tui::rig::stance::Carrier;

/// From where a view looks at the rig: straight from the left, or from a little above, so that
/// what lies to the right stands higher and crossed chains are seen to cross.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Eye {
    /// How much higher a point an inch to the right is drawn.
    pub(crate) lift: f64,
}

impl Eye {
    /// Straight from the left.
    pub(crate) const LEVEL: Self = Self { lift: 0.0 };
    /// From the left and a little above.
    pub(crate) const RAISED: Self = Self { lift: 0.3 };

    /// Where a spot is drawn.
    pub(crate) fn sees(self, spot: Spot) -> Point {
        at(spot.behind, spot.above + self.lift * spot.right)
    }

    fn sees_all(self, spots: &[Spot]) -> Vec<Point> {
        spots.iter().map(|spot| self.sees(*spot)).collect()
    }
}

/// Draws all of them; the far ones first.
pub(crate) fn draw(scene: &mut Scene, measures: &Measures, eye: Eye) {
    jack(scene, measures);
    cord(scene, measures, eye);
    battery(scene, measures, eye);
    chains(scene, measures, eye);
    lanyard(scene, measures, eye);
}

fn chains(scene: &mut Scene, measures: &Measures, eye: Eye) {
    let [left, right] = &measures.chains;
    for (id, chain) in [("right", right), ("left", left)] {
        let points = eye.sees_all(chain);
        let ends = [points.first(), points.last()].map(Option::<&Point>::copied);
        scene.put(
            Piece::line(points)
                .of(Place::Chains)
                .item(id)
                .pen(Pen::Links),
        );
        for end in ends.into_iter().flatten() {
            let ring = Piece::circle(end, 0.9);
            scene.put(ring.of(Place::Chains).item(id).fill(Fill::Open));
        }
    }
    let low = left.iter().min_by(|a, b| a.above.total_cmp(&b.above));
    if let Some(low) = low {
        scene.note(Place::Chains, "chains", eye.sees(*low));
    }
}

fn lanyard(scene: &mut Scene, measures: &Measures, eye: Eye) {
    let points = eye.sees_all(&measures.lanyard);
    let lowest = points.iter().min_by(|a, b| a.y.total_cmp(&b.y)).copied();
    scene.put(Piece::line(points).of(Place::Lanyard));
    let switch = eye.sees(measures.switch);
    let case = corners(
        at(switch.x - 0.5, switch.y - 1.0),
        at(switch.x + 3.5, switch.y + 1.2),
    );
    scene.put(Piece::outline(case).of(Place::Lanyard).fill(Fill::Solid));
    let anchor = eye.sees(measures.anchor);
    // What the anchor is fixed to: the frame above it, or the bed below.
    let fixed = match measures.joint {
        Carrier::Drawbar { top, .. } => top + 2.5,
        Carrier::Bed { floor } => floor,
    };
    let stem = vec![anchor, at(anchor.x, fixed)];
    scene.put(Piece::line(stem).of(Place::Lanyard));
    scene.put(
        Piece::circle(anchor, 1.4)
            .of(Place::Lanyard)
            .fill(Fill::Open),
    );
    scene.note(Place::Lanyard, "lanyard", lowest.unwrap_or(switch));
    scene.note(Place::Lanyard, "anchor", anchor);
    scene.note(Place::Lanyard, "switch", at(switch.x + 2.0, switch.y));
}

fn battery(scene: &mut Scene, measures: &Measures, eye: Eye) {
    let low = match measures.joint {
        Carrier::Drawbar { .. } => at(32.0, measures.ball + 2.0),
        Carrier::Bed { .. } => at(eye.sees(measures.switch).x + 6.0, measures.neck()),
    };
    let high = at(low.x + 8.0, low.y + 6.5);
    scene.put(Piece::outline(corners(low, high)).of(Place::Battery));
    for pole in [low.x + 1.5, low.x + 5.0] {
        let pole = corners(at(pole, high.y), at(pole + 1.5, high.y + 1.2));
        scene.put(Piece::outline(pole).of(Place::Battery).fill(Fill::Solid));
    }
    scene.note(Place::Battery, "battery", at(low.x + 4.0, high.y));
}

fn cord(scene: &mut Scene, measures: &Measures, eye: Eye) {
    let points = eye.sees_all(&measures.cord);
    let socket = points.first().copied();
    let middle = points.get(points.len() / 2).copied();
    scene.put(Piece::line(points).of(Place::Cord));
    if let Some(socket) = socket {
        let plug = corners(
            at(socket.x - 1.0, socket.y - 1.6),
            at(socket.x + 3.0, socket.y + 1.6),
        );
        scene.put(Piece::outline(plug).of(Place::Cord).fill(Fill::Solid));
        scene.note(Place::Cord, "plug and cord", middle.unwrap_or(socket));
    }
}

/// The tongue jack of a bumper pull, the landing leg of a gooseneck, its foot at the clearance.
fn jack(scene: &mut Scene, measures: &Measures) {
    let x = measures.jack();
    let foot = measures.jack_foot;
    let (low, top) = match measures.joint {
        Carrier::Drawbar { .. } => (measures.ball - 5.0, measures.ball + 15.0),
        Carrier::Bed { .. } => (measures.body.floor - 8.0, measures.body.floor + 26.0),
    };
    let leg = corners(at(x - 1.0, foot), at(x + 1.0, low.max(foot + 1.0)));
    scene.put(Piece::outline(leg).of(Place::Jack));
    let tube = corners(at(x - 1.6, low.max(foot + 1.0)), at(x + 1.6, top));
    scene.put(Piece::outline(tube).of(Place::Jack));
    let plate = corners(at(x - 3.5, foot), at(x + 3.5, foot + 1.0));
    scene.put(Piece::outline(plate).of(Place::Jack).fill(Fill::Solid));
    let crank = vec![
        at(x, top),
        at(x, top + 1.5),
        at(x - 6.0, top + 1.5),
        at(x - 6.0, top + 4.5),
    ];
    scene.put(Piece::line(crank).of(Place::Jack));
    scene.note(Place::Jack, "jack", at(x, f64::midpoint(foot, low)));
}
