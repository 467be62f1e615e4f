//! The trailer in inches: its axles, what it carries, and the box round both.

use crate::figures::load_weight;
use crate::rig::{Axle, Load};
use crate::tui::rig::hang::Spot;
use crate::tui::rig::measure::{FAR, Truck, inches, pounds, spot};
use crate::tui::rig::stance::Carrier;
use crate::tui::rig::tire::TireSize;

/// An axle of the trailer.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Wheels {
    pub(crate) behind: f64,
    pub(crate) half_track: f64,
    pub(crate) tire: TireSize,
    /// Radius of its brake drums, where it has brakes.
    pub(crate) drum: Option<f64>,
}

/// The box of the trailer.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Body {
    pub(crate) front: f64,
    pub(crate) rear: f64,
    pub(crate) floor: f64,
    pub(crate) roof: f64,
    pub(crate) half_width: f64,
}

/// Something carried.
#[derive(Clone, Debug)]
pub(crate) struct Carried {
    pub(crate) name: String,
    pub(crate) at: Spot,
    pub(crate) pounds: f64,
}

impl Wheels {
    pub(crate) fn of(axle: &Axle) -> Self {
        Self {
            behind: inches(&axle.behind_ball).clamp(40.0, 600.0),
            half_track: (inches(&axle.track) / 2.0).clamp(20.0, 60.0),
            tire: TireSize::written(&axle.tire.size),
            drum: axle
                .brake
                .as_ref()
                .map(|brake| (inches(&brake.drum) / 2.0).clamp(3.0, 8.0)),
        }
    }
}

impl Carried {
    /// Nothing else in a horse trailer comes in one piece so heavy.
    const LEAST_HORSE: f64 = 600.0;

    pub(crate) fn of(load: &Load) -> Self {
        Self {
            name: load.name.clone(),
            at: spot(&load.at),
            pounds: load_weight(load)
                .map_or(1.0, |weight| pounds(&weight.quantity))
                .clamp(1.0, 3000.0),
        }
    }

    /// Whether it is drawn as a horse.
    pub(crate) fn is_horse(&self) -> bool {
        self.pounds >= Self::LEAST_HORSE
    }

    /// Its size against a horse of 1,100 lb, by the cube root of its weight.
    pub(crate) fn scale(&self) -> f64 {
        (self.pounds / 1100.0).cbrt()
    }
}

impl Body {
    /// The box that holds the load and stands on the axles.
    pub(crate) fn round(
        axles: &[Wheels],
        load: &[Carried],
        truck: &Truck,
        joint: &Carrier,
    ) -> Self {
        let first = axles.first().map_or(150.0, |axle| axle.behind);
        let last = axles.last().map_or(first, |axle| axle.behind);
        let tire = axles.first().map_or(14.0, |axle| axle.tire.radius);
        let inside = load.iter().filter(|load| load.at.behind > 0.0);
        let (nearest, farthest) = inside.fold((f64::MAX, f64::MIN), |(near, far), load| {
            let room = if load.is_horse() { 46.0 } else { 16.0 };
            (
                near.min(load.at.behind - room),
                far.max(load.at.behind + room),
            )
        });
        let front = match joint {
            Carrier::Drawbar { .. } => 58.0_f64.min(nearest).max(40.0),
            Carrier::Bed { .. } => (truck.tail + 40.0).min(nearest).max(truck.tail + 12.0),
        };
        let front = front.min(first - tire - 6.0);
        let half_track = axles.first().map_or(40.0, |axle| axle.half_track);
        let half_tire = axles.first().map_or(4.0, |axle| axle.tire.width / 2.0);
        Self {
            front,
            rear: (last + 52.0).max(farthest + 4.0).min(FAR),
            floor: tire + 8.0,
            roof: tire + 8.0 + HEADROOM,
            half_width: half_track - half_tire - 1.0,
        }
    }
}

/// Headroom of a horse trailer.
const HEADROOM: f64 = 84.0;
