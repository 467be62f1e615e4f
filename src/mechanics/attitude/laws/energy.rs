//! A second way to the same answer: what rests has the least energy.
//!
//! The energy of truck springs, ball, trailer springs, weights and spring bars is written out and
//! made least by Newton's method, with no balance of forces in it anywhere.

use super::any::{near, standing, weight_and_moment};
use crate::mechanics::Springing;
use crate::mechanics::attitude::{StaticRig, Status};
use proptest::prelude::*;

/// How truck and trailer lie: drop of the truck's front and rear axle, pitch of the trailer, and
/// how far the equalizer pushes the first springs down; the last one comes up by their sum.
type Lie = Vec<f64>;

struct Energy<'r> {
    rig: &'r StaticRig,
    free_ball_in: f64,
    weight_lb: f64,
    centre_in: f64,
    couple_lb_in: f64,
    /// How far a stop holds the equalizer, where one does.
    stop_in: Option<f64>,
}

impl<'r> Energy<'r> {
    fn of(rig: &'r StaticRig, free_ball_in: f64, stop_in: Option<f64>) -> Self {
        let (weight_lb, moment) = weight_and_moment(&rig.trailer.items);
        Self {
            rig,
            free_ball_in,
            weight_lb,
            centre_in: moment / weight_lb,
            couple_lb_in: rig.wd_moment_lbft * 12.0,
            stop_in,
        }
    }

    /// How many equalizer levers are free.
    fn levers(&self) -> usize {
        let free = self.rig.trailer.suspension == Springing::Equalized && self.stop_in.is_none();
        if free {
            self.rig.trailer.axles.len() - 1
        } else {
            0
        }
    }

    /// The ball's height over the lie: what it is, and by how much each part moves it.
    fn ball(&self, lie: &Lie) -> (f64, [f64; 2]) {
        let truck = &self.rig.truck;
        let reach = truck.ball_behind_rear_axle_in / truck.wheelbase_in;
        let by = [reach, -(1.0 + reach)];
        (self.free_ball_in + by[0] * lie[0] + by[1] * lie[1], by)
    }

    /// How far each trailer spring is squeezed, and how much each part of the lie squeezes it.
    fn squeezes(&self, lie: &Lie) -> Vec<(f64, Vec<f64>)> {
        let trailer = &self.rig.trailer;
        let (ball, by) = self.ball(lie);
        let last = trailer.axles.len() - 1;
        let squeeze = |(at, axle): (usize, &crate::mechanics::Axle)| {
            let mut rates = vec![-by[0], -by[1], axle.x_in];
            for lever in 0..self.levers() {
                rates.push(if at == lever {
                    1.0
                } else if at == last {
                    -1.0
                } else {
                    0.0
                });
            }
            let held = self
                .stop_in
                .map_or(0.0, |stop| if at == 0 { stop } else { -stop });
            let free = trailer.level_coupler_height_in
                + trailer.ref_axle_load_lb / axle.rate_lb_in
                + axle.mount_offset_in;
            let levers: f64 = rates[3..].iter().zip(&lie[3..]).map(|(a, b)| a * b).sum();
            (free + held - ball + axle.x_in * lie[2] + levers, rates)
        };
        trailer.axles.iter().enumerate().map(squeeze).collect()
    }

    fn at(&self, lie: &Lie) -> f64 {
        let truck = &self.rig.truck;
        let (ball, _) = self.ball(lie);
        let springs: f64 = self
            .squeezes(lie)
            .iter()
            .zip(&self.rig.trailer.axles)
            .map(|((squeezed, _), axle)| axle.rate_lb_in * squeezed.max(0.0).powi(2) / 2.0)
            .sum();
        springs
            + truck.front_rate_lb_in * lie[0].powi(2) / 2.0
            + truck.rear_rate_lb_in * lie[1].powi(2) / 2.0
            + self.weight_lb * (ball - lie[2] * self.centre_in)
            - self.couple_lb_in * lie[2]
            + self.couple_lb_in * (lie[1] - lie[0]) / truck.wheelbase_in
    }

    fn slope_and_curve(&self, lie: &Lie) -> (Vec<f64>, Vec<Vec<f64>>) {
        let truck = &self.rig.truck;
        let size = lie.len();
        let (_, by) = self.ball(lie);
        let mut slope = vec![0.0; size];
        let mut curve = vec![vec![0.0; size]; size];
        for (at, rate) in [(0, truck.front_rate_lb_in), (1, truck.rear_rate_lb_in)] {
            slope[at] += rate * lie[at] + self.weight_lb * by[at];
            curve[at][at] += rate;
        }
        slope[0] -= self.couple_lb_in / truck.wheelbase_in;
        slope[1] += self.couple_lb_in / truck.wheelbase_in;
        slope[2] -= self.weight_lb * self.centre_in + self.couple_lb_in;
        for ((squeezed, rates), axle) in self.squeezes(lie).iter().zip(&self.rig.trailer.axles) {
            if *squeezed > 0.0 {
                for row in 0..size {
                    slope[row] += axle.rate_lb_in * squeezed * rates[row];
                    for column in 0..size {
                        curve[row][column] += axle.rate_lb_in * rates[row] * rates[column];
                    }
                }
            }
        }
        (slope, curve)
    }

    /// The lie of least energy.
    fn least(&self) -> Lie {
        let mut lie = vec![0.0; 3 + self.levers()];
        // Begun so far nose up that every trailer spring is squeezed: one in the air has no slope.
        lie[2] = 1.0;
        for _ in 0..200 {
            let (slope, mut curve) = self.slope_and_curve(&lie);
            for (at, row) in curve.iter_mut().enumerate() {
                row[at] += 1e-9;
            }
            let step = solved(curve, slope);
            let before = self.at(&lie);
            let mut share = 1.0;
            let moved = loop {
                let next: Lie = lie.iter().zip(&step).map(|(a, b)| a - share * b).collect();
                if self.at(&next) <= before {
                    break Some(next);
                }
                if share < 1e-12 {
                    break None;
                }
                share /= 2.0;
            };
            let Some(next) = moved else { break };
            let still = lie.iter().zip(&next).all(|(a, b)| (a - b).abs() < 1e-14);
            lie = next;
            if still {
                break;
            }
        }
        lie
    }
}

/// Gauss's elimination with the largest pivot.
fn solved(mut rows: Vec<Vec<f64>>, mut right: Vec<f64>) -> Vec<f64> {
    let size = right.len();
    for column in 0..size {
        let pivot = (column..size)
            .max_by(|a, b| rows[*a][column].abs().total_cmp(&rows[*b][column].abs()))
            .unwrap();
        rows.swap(column, pivot);
        right.swap(column, pivot);
        let (top, push) = (rows[column].clone(), right[column]);
        for (row, right) in rows.iter_mut().zip(&mut right).skip(column + 1) {
            let by = row[column] / top[column];
            for (cell, top) in row.iter_mut().zip(&top) {
                *cell -= by * top;
            }
            *right -= by * push;
        }
    }
    for row in (0..size).rev() {
        let known: f64 = (row + 1..size).map(|at| rows[row][at] * right[at]).sum();
        right[row] = (right[row] - known) / rows[row][row];
    }
    right
}

proptest! {
    #[test]
    fn the_rig_rests_where_its_energy_is_least((rig, rests) in standing()) {
        let uncoupled = rests.ball_height_coupled_in + rests.ball_drop_in;
        let travel = rig.trailer.equalizer_travel_in.filter(|_| rig.trailer.axles.len() == 2);
        let mut energy = Energy::of(&rig, uncoupled, None);
        let mut lie = energy.least();
        let beyond = travel.filter(|travel| lie[3].abs() > *travel);
        if let Some(travel) = beyond {
            energy = Energy::of(&rig, uncoupled, Some(travel.copysign(lie[3])));
            lie = energy.least();
        }
        let (ball, _) = energy.ball(&lie);
        prop_assert!(near(ball, rests.ball_height_coupled_in, 1e-6, 1.0), "{ball}");
        prop_assert!(near(lie[2].to_degrees(), rests.trailer_pitch_deg, 1e-6, 1.0), "{}", lie[2]);
        prop_assert!(near(lie[0], rests.truck_front_drop_in, 1e-6, 1.0));
        prop_assert!(near(lie[1], rests.truck_rear_drop_in, 1e-6, 1.0));
        let axles = energy.squeezes(&lie);
        for (((squeezed, _), axle), load) in axles.iter().zip(&rig.trailer.axles).zip(&rests.axle_lb) {
            let force = axle.rate_lb_in * squeezed.max(0.0);
            prop_assert!(near(force, *load, 1e-6, rests.trailer_gross_lb), "{force} {load}");
        }
        if beyond.is_some() && !rests.on_road.contains(&false) {
            prop_assert_eq!(rests.status, Status::EqualizerStop);
        }
    }
}
