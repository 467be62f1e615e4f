//! The trailer from above, its front to the left and so its left side below: wheels with their
//! tires and brakes, chocks and lamps.

use crate::rig::{Place, Rig};
use crate::tui::rig::body::Wheels;
use crate::tui::rig::measure::Measures;
use crate::tui::rig::scene::{Fill, Note, Pen, Piece, Point, Scene, at, corners};
use crate::tui::rig::stance::Carrier;

/// Free room round the trailer.
const MARGIN: f64 = 8.0;

/// The two sides with the sign of what lies there, in walk-round order.
const SIDES: [(&str, f64); 2] = [("left", -1.0), ("right", 1.0)];

/// Draws it, the farthest first.
pub(crate) fn scene(rig: &Rig, measures: &Measures) -> Scene {
    let body = &measures.body;
    let widest = measures
        .axles
        .iter()
        .map(|axle| axle.half_track + axle.tire.width / 2.0);
    let half = widest.fold(body.half_width, f64::max) + MARGIN;
    let mut scene = Scene::new(at(-52.0, -half), at(body.rear + MARGIN, half));
    truck_end(&mut scene, measures);
    trailer(&mut scene, measures);
    load(&mut scene, measures);
    let ids = rig.trailer.wheels();
    for (index, axle) in measures.axles.iter().enumerate() {
        for (side, sign) in SIDES {
            let id = ids
                .iter()
                .find(|wheel| wheel.axle == index && wheel.id.starts_with(side))
                .map_or(side, |wheel| &wheel.id);
            wheel(&mut scene, axle, sign, id);
        }
    }
    chocks(&mut scene, measures);
    lamps(&mut scene, measures);
    names(&mut scene, measures);
    scene
}

/// The end of the truck's bed, broken off at the edge of the sheet.
fn truck_end(scene: &mut Scene, measures: &Measures) {
    let half = 38.0;
    let tail = measures.truck.tail;
    let bed = vec![
        at(-60.0, -half),
        at(tail, -half),
        at(tail, half),
        at(-60.0, half),
    ];
    scene.put(Piece::line(bed).of(Place::Truck).pen(Pen::Fine));
}

fn trailer(scene: &mut Scene, measures: &Measures) {
    let body = &measures.body;
    let shoulder = body.half_width * 0.7;
    let nose = match measures.joint {
        Carrier::Drawbar { .. } => vec![at(body.front, shoulder), at(body.front, -shoulder)],
        Carrier::Bed { .. } => vec![at(-8.0, 24.0), at(-8.0, -24.0)],
    };
    let knee = match measures.joint {
        Carrier::Drawbar { .. } => body.front + 14.0,
        Carrier::Bed { .. } => 20.0,
    };
    if let Carrier::Drawbar { .. } = measures.joint {
        for (_, sign) in SIDES {
            let beam = vec![at(3.0, sign * 1.5), at(body.front, sign * shoulder * 0.8)];
            scene.put(Piece::line(beam).of(Place::Frame));
        }
    }
    let mut walls = vec![
        at(knee, -body.half_width),
        at(body.rear, -body.half_width),
        at(body.rear, body.half_width),
        at(knee, body.half_width),
    ];
    walls.extend(nose);
    scene.put(Piece::outline(walls).of(Place::Box));
    let ball = Piece::circle(at(0.0, 0.0), 2.5);
    scene.put(ball.of(Place::Ball).fill(Fill::Solid));
}

/// Where each horse stands.
fn load(scene: &mut Scene, measures: &Measures) {
    for load in measures.load.iter().filter(|load| load.is_horse()) {
        let (x, y, scale) = (load.at.behind, load.at.right, load.scale());
        let back = [
            (-50.0, 0.0),
            (-40.0, 5.0),
            (-26.0, 4.0),
            (-16.0, 11.0),
            (10.0, 12.0),
            (34.0, 10.0),
            (40.0, 0.0),
        ];
        let right = back.iter().map(|(along, out)| (*along, *out));
        let left = back.iter().rev().map(|(along, out)| (*along, -*out));
        let points = right
            .chain(left)
            .map(|(along, out)| at(x + along * scale, y + out * scale));
        scene.put(Piece::outline(points.collect()).fill(Fill::Shade));
    }
}

/// A wheel with its tire, its rim and, inside it, its brake.
fn wheel(scene: &mut Scene, axle: &Wheels, sign: f64, id: &str) {
    let middle = at(axle.behind, sign * axle.half_track);
    let block = |half: f64, near: f64, far: f64| {
        let (low, high) = (middle.y + sign * near, middle.y + sign * far);
        corners(
            at(axle.behind - half, low.min(high)),
            at(axle.behind + half, low.max(high)),
        )
    };
    let half_width = axle.tire.width / 2.0;
    let hub = vec![at(axle.behind, 0.0), at(axle.behind, middle.y)];
    scene.put(Piece::line(hub).of(Place::Frame).pen(Pen::Fine));
    if let Some(drum) = axle.drum {
        let drum = block(drum, -half_width - 6.0, -half_width - 1.0);
        scene.put(
            Piece::outline(drum)
                .of(Place::Brakes)
                .item(id)
                .fill(Fill::Blank),
        );
    }
    let tire = block(axle.tire.radius, -half_width, half_width);
    scene.put(
        Piece::outline(tire)
            .of(Place::Tires)
            .item(id)
            .fill(Fill::Solid),
    );
    let rim = block(axle.tire.rim, half_width * 0.1, half_width);
    scene.put(Piece::outline(rim).of(Place::Wheels).item(id));
}

/// A wedge before the first wheel and behind the last, on both sides.
fn chocks(scene: &mut Scene, measures: &Measures) {
    let (front, rear) = measures.wheel_run();
    let Some(axle) = measures.axles.first() else {
        return;
    };
    for (side, sign) in SIDES {
        for (toe, heel) in [(front - 3.0, front - 11.0), (rear + 3.0, rear + 11.0)] {
            let y = sign * axle.half_track;
            let wedge = vec![
                at(toe, y - 4.0),
                at(toe, y + 4.0),
                at(heel, y + 4.0),
                at(heel, y - 4.0),
            ];
            scene.put(Piece::outline(wedge).of(Place::Chocks).item(side));
            let ridge = vec![at(toe, y), at(heel, y)];
            scene.put(Piece::line(ridge).of(Place::Chocks).item(side));
        }
    }
}

/// Tail, side and front lamps.
fn lamps(scene: &mut Scene, measures: &Measures) {
    let body = &measures.body;
    for (side, sign) in SIDES {
        let y = sign * (body.half_width - 5.0);
        let edge = sign * body.half_width;
        let front = body.front + 20.0;
        let tail = corners(at(body.rear - 1.0, y - 5.0), at(body.rear + 4.0, y + 5.0));
        scene.put(
            Piece::outline(tail)
                .of(Place::Lamps)
                .item(side)
                .fill(Fill::Solid),
        );
        let marker = corners(
            at(front - 4.0, edge.min(edge + sign * 3.0)),
            at(front + 4.0, edge.max(edge + sign * 3.0)),
        );
        scene.put(
            Piece::outline(marker)
                .of(Place::Lamps)
                .item(side)
                .fill(Fill::Solid),
        );
    }
}

/// Names each kind of part at one of its kind.
fn names(scene: &mut Scene, measures: &Measures) {
    let body = &measures.body;
    let (front, _) = measures.wheel_run();
    if let (Some(first), Some(last)) = (measures.axles.first(), measures.axles.last()) {
        let outside = first.half_track + first.tire.width / 4.0;
        let inside = last.half_track - last.tire.width / 2.0 - 3.0;
        scene.note(
            Place::Tires,
            "tires",
            at(first.behind - first.tire.rim, outside),
        );
        scene.note(Place::Wheels, "wheels", at(last.behind, outside));
        scene.note(Place::Brakes, "brakes", at(last.behind, -inside));
        scene.note(Place::Chocks, "chocks", at(front - 7.0, -first.half_track));
    }
    scene.note(
        Place::Lamps,
        "lamps",
        at(body.rear + 1.0, body.half_width - 5.0),
    );
    scene.note(Place::Ball, "ball", at(0.0, 0.0));
    scene.note(
        Place::Frame,
        "frame",
        at(body.front * 0.5, -body.half_width * 0.3),
    );
    side_names(scene, body.half_width);
}

fn side_names(scene: &mut Scene, half_width: f64) {
    for (side, sign) in SIDES {
        let at: Point = at(70.0, sign * half_width);
        scene.notes.push(Note {
            text: format!("{side} side"),
            place: None,
            at,
        });
    }
}
