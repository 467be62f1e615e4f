//! Any rig that could stand in a yard.

use crate::mechanics::attitude::{StaticRig, StaticSolution, solve_static};
use crate::mechanics::{Axle, Item, Springing, Trailer, Truck};
use proptest::collection::vec;
use proptest::prelude::*;

/// Any truck with its ball behind the rear axle or a little ahead of it.
pub(in crate::mechanics) fn truck() -> impl Strategy<Value = Truck> {
    let body = (110.0..190.0, 2800.0..5200.0, 2000.0..4500.0);
    let springs = (250.0..900.0, 300.0..1600.0);
    let ball = (-8.0..66.0, 16.0..42.0, -5.0..4.0);
    let payload = vec((0.0..500.0, 20.0..200.0), 0..3);
    (body, springs, ball, payload).prop_map(|(body, springs, ball, payload)| {
        let item = |(weight_lb, x_in)| Item {
            weight_lb,
            x_in,
            z_in: 0.0,
            y_in: 0.0,
        };
        Truck {
            name: String::new(),
            wheelbase_in: body.0,
            front_lb: body.1,
            rear_lb: body.2,
            front_rate_lb_in: springs.0,
            rear_rate_lb_in: springs.1,
            ball_behind_rear_axle_in: ball.0,
            ball_height_in: ball.1,
            drawbar_rise_in: ball.2,
            payload: payload.into_iter().map(item).collect(),
            cg_height_in: None,
        }
    })
}

/// Any trailer of one to three axles, sprung so, its axles not all mounted alike.
pub(in crate::mechanics) fn trailer(suspension: Springing) -> impl Strategy<Value = Trailer> {
    let axles = vec((600.0..2500.0, -0.6..0.6), 1..=3);
    let frame = (110.0..300.0, 29.0..44.0, 14.0..42.0, 1500.0..5500.0);
    let items = vec((100.0..3000.0, 20.0..340.0), 1..6);
    let travel = proptest::option::of(0.3..3.0);
    (axles, frame, items, travel).prop_map(move |(axles, frame, items, travel)| {
        let (first, spacing, coupler, reference) = frame;
        let item = |(weight_lb, x_in)| Item {
            weight_lb,
            x_in,
            z_in: 0.0,
            y_in: 0.0,
        };
        let axle = |(place, (rate_lb_in, mount_offset_in)): (f64, (f64, f64))| Axle {
            x_in: first + spacing * place,
            rate_lb_in,
            mount_offset_in,
        };
        Trailer {
            name: String::new(),
            suspension,
            level_coupler_height_in: coupler,
            ref_axle_load_lb: reference,
            axles: [0.0, 1.0, 2.0].into_iter().zip(axles).map(axle).collect(),
            items: items.into_iter().map(item).collect(),
            equalizer_travel_in: travel.filter(|_| suspension == Springing::Equalized),
            eye_height_in: None,
            half_spring_in: None,
            pivot_over_arm: None,
        }
    })
}

pub(in crate::mechanics) fn springing() -> impl Strategy<Value = Springing> {
    prop_oneof![Just(Springing::Torsion), Just(Springing::Equalized)]
}

/// Any rig that stands, and how.
pub(in crate::mechanics) fn standing() -> impl Strategy<Value = (StaticRig, StaticSolution)> {
    springing()
        .prop_flat_map(|springing| (truck(), trailer(springing), couple()))
        .prop_map(|(truck, trailer, wd_moment_lbft)| StaticRig {
            truck,
            trailer,
            wd_moment_lbft,
        })
        .prop_filter_map("it does not stand", |rig| {
            let rests = solve_static(&rig).ok()?;
            Some((rig, rests))
        })
}

/// Mostly no spring bars.
fn couple() -> impl Strategy<Value = f64> {
    prop_oneof![Just(0.0), 0.0..2500.0]
}

/// Weight and moment of things about where their places are counted from.
pub(in crate::mechanics) fn weight_and_moment(items: &[Item]) -> (f64, f64) {
    let weight = items.iter().map(|item| item.weight_lb).sum();
    let moment = items.iter().map(|item| item.weight_lb * item.x_in).sum();
    (weight, moment)
}

/// Whether two numbers are the same as far as this much of the larger.
pub(in crate::mechanics) fn near(one: f64, other: f64, share: f64, of: f64) -> bool {
    (one - other).abs() <= share * of.abs().max(one.abs()).max(other.abs())
}
