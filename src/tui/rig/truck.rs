//! The truck from the side: a pickup drawn round its two axles.

use crate::rig::Place;
use crate::tui::rig::measure::{Measures, Truck};
use crate::tui::rig::scene::{Fill, Piece, Point, Scene, at, corners};
use crate::tui::rig::tire::TireSize;

/// Height of the sill above the ground, as a share of the tire's height.
const SILL: f64 = 0.6;

/// Room between a tire and its arch.
const ARCH: f64 = 3.0;

/// Top of the roof above the bed's rail.
const ROOF: f64 = 25.0;

/// Draws body, cab and wheels.
pub(crate) fn draw(scene: &mut Scene, measures: &Measures) {
    let truck = &measures.truck;
    let line = Line::of(truck);
    scene.put(Piece::outline(line.body()).of(Place::Truck));
    scene.put(Piece::outline(line.cab()).of(Place::Cab));
    for window in line.windows() {
        scene.put(Piece::outline(window).of(Place::Cab));
    }
    for seam in [line.along(0.41), line.back] {
        let seam = vec![at(seam, line.sill), at(seam, line.rail)];
        scene.put(Piece::line(seam).of(Place::Truck));
    }
    lamps(scene, &line);
    for (id, axle) in [("front", truck.front_axle), ("rear", truck.rear_axle)] {
        arch(scene, axle, truck.tire);
        wheel(scene, axle, truck.tire, [Place::Truck; 2], Some(id));
    }
    scene.note(Place::Cab, "cab", at(line.along(0.45), line.roof - 6.0));
    scene.note(Place::Truck, "truck", at(line.along(0.05), line.hood));
}

fn lamps(scene: &mut Scene, line: &Line) {
    let head = corners(
        at(line.nose, line.hood - 12.0),
        at(line.nose + 5.0, line.hood - 7.0),
    );
    let rear = corners(
        at(line.tail - 3.5, line.rail - 13.0),
        at(line.tail, line.rail - 3.0),
    );
    for lamp in [head, rear] {
        scene.put(Piece::outline(lamp).of(Place::Truck));
    }
}

/// Cuts the body away over a wheel.
fn arch(scene: &mut Scene, behind: f64, tire: TireSize) {
    let cut = Piece::circle(at(behind, tire.radius), tire.radius + ARCH);
    let cut: Vec<Point> = cut
        .points()
        .into_iter()
        .filter(|point| point.y >= tire.radius)
        .collect();
    scene.put(Piece::outline(cut).of(Place::Truck));
}

/// Draws a wheel that stands on the ground: a tire and a rim, which may be parts of their own.
pub(crate) fn wheel(
    scene: &mut Scene,
    behind: f64,
    size: TireSize,
    [tire, rim]: [Place; 2],
    item: Option<&str>,
) {
    let hub = at(behind, size.radius);
    for (place, radius, fill) in [
        (tire, size.radius, Fill::Solid),
        (rim, size.rim * 0.92, Fill::Blank),
        (rim, size.rim * 0.3, Fill::Solid),
    ] {
        let piece = Piece::circle(hub, radius).of(place).fill(fill);
        scene.put(match item {
            Some(id) => piece.item(id),
            None => piece,
        });
    }
}

/// The lines of the truck.
struct Line {
    front_axle: f64,
    wheelbase: f64,
    nose: f64,
    tail: f64,
    back: f64,
    sill: f64,
    rail: f64,
    hood: f64,
    roof: f64,
}

impl Line {
    fn of(truck: &Truck) -> Self {
        let wheelbase = truck.rear_axle - truck.front_axle;
        Self {
            front_axle: truck.front_axle,
            wheelbase,
            nose: truck.nose,
            tail: truck.tail,
            back: truck.front_axle + wheelbase * CAB_BACK,
            sill: truck.tire.radius * 2.0 * SILL,
            rail: truck.rail,
            hood: truck.rail,
            roof: truck.rail + ROOF,
        }
    }

    /// The point a share of the wheelbase behind the front axle.
    fn along(&self, share: f64) -> f64 {
        self.front_axle + self.wheelbase * share
    }

    fn body(&self) -> Vec<Point> {
        vec![
            at(self.tail, self.sill),
            at(self.tail, self.rail),
            at(self.back, self.rail),
            at(self.along(0.12), self.hood + 1.0),
            at(self.nose + 8.0, self.hood - 3.0),
            at(self.nose + 1.0, self.hood - 7.0),
            at(self.nose, self.sill),
        ]
    }

    fn cab(&self) -> Vec<Point> {
        vec![
            at(self.along(0.12), self.hood + 1.0),
            at(self.along(0.27), self.roof - 2.0),
            at(self.along(0.33), self.roof),
            at(self.back - 8.0, self.roof),
            at(self.back - 2.0, self.roof - 4.0),
            at(self.back, self.rail),
        ]
    }

    /// The front and the rear side window.
    fn windows(&self) -> [Vec<Point>; 2] {
        let (low, high) = (self.rail + 3.0, self.roof - 4.5);
        let front = vec![
            at(self.along(0.2), low),
            at(self.along(0.3), high),
            at(self.along(0.4), high),
            at(self.along(0.4), low),
        ];
        let rear = vec![
            at(self.along(0.43), low),
            at(self.along(0.43), high),
            at(self.back - 8.0, high),
            at(self.back - 5.0, low),
        ];
        [front, rear]
    }
}

/// Back of the cab, as a share of the wheelbase behind the front axle.
pub(crate) const CAB_BACK: f64 = 0.67;
