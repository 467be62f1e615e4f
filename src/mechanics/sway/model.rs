//! Truck and trailer in the plane, each axle as one wheel, at steady speed.
//!
//! Three things may change: the truck's sideways speed s, its yaw rate r, and the rate at which
//! the trailer turns on the ball; the trailer's angle itself pulls it back in line. Motions that
//! go as `e^(x t)` make three equations with x in them, and where their determinant is nothing
//! are the rates at which a push dies out or grows.

use crate::mechanics::sway::quartic::{Roots, roots};

/// What the equations are made of, in pounds, inches and seconds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Plane {
    /// Masses of truck and trailer.
    pub(super) truck_mass: f64,
    pub(super) trailer_mass: f64,
    /// Their moments of inertia about their own upright axes.
    pub(super) truck_inertia: f64,
    pub(super) trailer_inertia: f64,
    /// From the truck's centre ahead to its front axle, and back to its rear axle and the ball.
    pub(super) to_front: f64,
    pub(super) to_rear: f64,
    pub(super) to_ball: f64,
    /// From the ball back to the trailer's centre and its axle.
    pub(super) to_centre: f64,
    pub(super) to_axle: f64,
    /// Side force over slip angle of each axle, lb.
    pub(super) front_lb: f64,
    pub(super) rear_lb: f64,
    pub(super) trailer_lb: f64,
}

/// How sideways speed, yaw rate and turning on the ball, a unit of each, move a place.
type Moves = [f64; 3];

/// A polynomial in x, from its constant up.
type Poly = [f64; 5];

impl Plane {
    /// The rates at which a push dies out or grows at this speed, in/s.
    pub(super) fn roots(&self, speed: f64) -> Option<Roots> {
        let [constant, first, second, third, fourth] = self.determinant(speed)?;
        let over = [third, second, first, constant].map(|one| one / fourth);
        let finite = over.iter().all(|one| one.is_finite());
        finite.then(|| roots(over))
    }

    fn determinant(&self, speed: f64) -> Option<Poly> {
        let trailer_centre: Moves = [1.0, -self.to_ball - self.to_centre, -self.to_centre];
        let trailer_axle: Moves = [1.0, -self.to_ball - self.to_axle, -self.to_axle];
        let heavy = squares(&[
            (self.truck_mass, [1.0, 0.0, 0.0]),
            (self.trailer_mass, trailer_centre),
            (self.truck_inertia, [0.0, 1.0, 0.0]),
            (self.trailer_inertia, [0.0, 1.0, 1.0]),
        ]);
        let held = squares(&[
            (self.front_lb / speed, [1.0, self.to_front, 0.0]),
            (self.rear_lb / speed, [1.0, -self.to_rear, 0.0]),
            (self.trailer_lb / speed, trailer_axle),
        ]);
        // Yawing at speed is a sideways acceleration of both centres.
        let yawing = [
            self.truck_mass + self.trailer_mass,
            self.trailer_mass * (-self.to_ball - self.to_centre),
            self.trailer_mass * -self.to_centre,
        ];
        let rows = heavy.iter().zip(&held).zip(yawing).zip(trailer_axle);
        let rows: Vec<[Poly; 3]> = rows
            .map(|((([s, r, a], [held_s, held_r, held_a]), yawing), axle)| {
                [
                    [*held_s, *s, 0.0, 0.0, 0.0],
                    [held_r + yawing * speed, *r, 0.0, 0.0, 0.0],
                    [-self.trailer_lb * axle, *held_a, *a, 0.0, 0.0],
                ]
            })
            .collect();
        let [[s1, r1, a1], [s2, r2, a2], [s3, r3, a3]] = rows.first_chunk()?;
        let minor = |one, other, third, fourth| less(&times(one, other), &times(third, fourth));
        let first = times(s1, &minor(r2, a3, a2, r3));
        let second = times(r1, &minor(s2, a3, a2, s3));
        let third = times(a1, &minor(s2, r3, r2, s3));
        Some(less(&first, &less(&second, &third)))
    }
}

/// The sum of weight times square of each.
fn squares(parts: &[(f64, Moves)]) -> [[f64; 3]; 3] {
    let mut sum = [[0.0; 3]; 3];
    for (weight, moves) in parts {
        for (row, across) in sum.iter_mut().zip(moves) {
            for (cell, along) in row.iter_mut().zip(moves) {
                *cell += weight * across * along;
            }
        }
    }
    sum
}

/// The product, of which nothing beyond the fourth degree is asked.
fn times(one: &Poly, other: &Poly) -> Poly {
    let mut product = [0.0; 5];
    for (degree, factor) in one.iter().enumerate() {
        for (cell, by) in product.iter_mut().skip(degree).zip(other) {
            *cell += factor * by;
        }
    }
    product
}

fn less(one: &Poly, other: &Poly) -> Poly {
    let mut difference = *one;
    for (cell, by) in difference.iter_mut().zip(other) {
        *cell -= by;
    }
    difference
}
