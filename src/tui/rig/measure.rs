//! The numbers of a rig as a drawing needs them: plain inches, the ball's middle at `x = 0`.
//!
//! What the rig file states is taken as it stands. What it does not state (bumpers, walls, the
//! roof) follows from what it does by the proportions below: common practice, no source. A number
//! no rig can have is drawn at the nearest that can be drawn.

use crate::rig::{Given, Joint, Position, Rig};
use crate::tui::rig::body::{Body, Carried, Wheels};
use crate::tui::rig::hang::{Spot, hang};
use crate::tui::rig::stance::{Carrier, Stance};
use crate::tui::rig::tire::TireSize;
use crate::units::{Quantity, Unit};

/// A rig in inches.
#[derive(Clone, Debug)]
pub(crate) struct Measures {
    pub(crate) truck: Truck,
    pub(crate) joint: Carrier,
    /// Middle of the ball above the ground, the truck settled.
    pub(crate) ball: f64,
    pub(crate) ball_radius: f64,
    /// How much higher than level the trailer's coupler stands.
    pub(crate) nose_up: f64,
    /// How much its frame rises toward the nose, an inch along.
    pub(crate) slope: f64,
    pub(crate) axles: Vec<Wheels>,
    pub(crate) body: Body,
    /// Half the distance between the two marks on the frame.
    pub(crate) half_base: f64,
    pub(crate) chains: [Vec<Spot>; 2],
    pub(crate) lanyard: Vec<Spot>,
    pub(crate) switch: Spot,
    pub(crate) anchor: Spot,
    pub(crate) cord: Vec<Spot>,
    pub(crate) jack_foot: f64,
    pub(crate) load: Vec<Carried>,
}

/// The truck.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Truck {
    pub(crate) front_axle: f64,
    pub(crate) rear_axle: f64,
    pub(crate) tire: TireSize,
    /// Its foremost and rearmost points.
    pub(crate) nose: f64,
    pub(crate) tail: f64,
    /// Top of the bed's wall.
    pub(crate) rail: f64,
}

/// From the ball to the bumper.
const BALL_BEHIND_BUMPER: f64 = 10.0;

/// Nothing farther than this is on a rig, and sums of what is stay finite.
pub(crate) const FAR: f64 = 900.0;

/// A length in inches.
pub(crate) fn inches(given: &Given) -> f64 {
    in_unit(&given.quantity, Unit::Inch).clamp(-FAR, FAR)
}

/// A weight in pounds.
pub(crate) fn pounds(weight: &Quantity) -> f64 {
    in_unit(weight, Unit::Pound)
}

fn in_unit(quantity: &Quantity, unit: Unit) -> f64 {
    quantity
        .in_unit(unit)
        .and_then(|quantity| quantity.value.to_f64())
        .unwrap_or_default()
}

/// A point of the rig.
pub(crate) fn spot(position: &Position) -> Spot {
    Spot {
        behind: inches(&position.behind),
        right: inches(&position.right).clamp(-60.0, 60.0),
        above: inches(&position.above).clamp(0.0, 160.0),
    }
}

impl Measures {
    /// The numbers of this rig.
    pub(crate) fn of(rig: &Rig) -> Self {
        let stance = Stance::of(rig);
        let axles: Vec<Wheels> = rig.trailer.axles.iter().map(Wheels::of).collect();
        let load: Vec<Carried> = rig.load.iter().map(Carried::of).collect();
        let truck = Truck::of(rig);
        let body = Body::round(&axles, &load, &truck, &stance.joint);
        let floor = match stance.joint {
            Carrier::Drawbar { .. } => 0.0,
            Carrier::Bed { floor } => floor,
        };
        let breakaway = &rig.hitch.breakaway;
        let (switch, anchor) = (spot(&breakaway.switch), spot(&breakaway.anchor.at));
        let between = |from, to, length: &Given| hang(from, to, inches(length), floor);
        let (plug, clip) = stance.cord_ends(&truck);
        let ends = &rig.hitch.plug;
        let plug = ends.truck_end.as_ref().map_or(plug, spot);
        let clip = ends.trailer_end.as_ref().map_or(clip, spot);
        Self {
            chains: rig.hitch.chains.each_ref().map(|chain| {
                let (from, to) = (spot(&chain.truck_eye), spot(&chain.trailer_eye));
                between(from, to, &chain.length)
            }),
            lanyard: between(anchor, switch, &breakaway.lanyard),
            cord: between(plug, clip, &rig.hitch.plug.cord),
            jack_foot: inches(&rig.hitch.jack.clearance).clamp(0.0, stance.ball),
            half_base: (inches(&rig.trailer.frame_base) / 2.0).clamp(6.0, 150.0),
            ball_radius: (inches(&rig.hitch.ball.diameter) / 2.0).clamp(0.5, 3.0),
            ball: stance.ball,
            nose_up: stance.nose_up,
            slope: stance.slope.unwrap_or(stance.nose_up / middle_axle(&axles)),
            joint: stance.joint,
            truck,
            axles,
            body,
            switch,
            anchor,
            load,
        }
    }

    /// The same with the horses off; what else is carried stays.
    pub(crate) fn without_horses(mut self) -> Self {
        self.load.retain(|load| !load.is_horse());
        self
    }

    /// How high a point of the trailer stands that is `level` high when the frame is level.
    pub(crate) fn tipped(&self, behind: f64, level: f64) -> f64 {
        level + self.nose_up - self.slope * behind
    }

    /// The middle of the trailer's axles, behind the ball.
    pub(crate) fn middle_axle(&self) -> f64 {
        middle_axle(&self.axles)
    }

    /// Where the jack or landing leg stands, behind the ball.
    pub(crate) fn jack(&self) -> f64 {
        match self.joint {
            Carrier::Drawbar { .. } => 24.0_f64.min(self.body.front - 8.0),
            Carrier::Bed { .. } => self.body.front + 8.0,
        }
    }

    /// Where the trailer's wheels begin and end.
    pub(crate) fn wheel_run(&self) -> (f64, f64) {
        let edges = |axle: &Wheels| {
            (
                axle.behind - axle.tire.radius,
                axle.behind + axle.tire.radius,
            )
        };
        let first = self.axles.first().map_or(0.0, |axle| edges(axle).0);
        let last = self.axles.last().map_or(0.0, |axle| edges(axle).1);
        (first, last)
    }
}

fn middle_axle(axles: &[Wheels]) -> f64 {
    let first = axles.first().map_or(150.0, |axle| axle.behind);
    let last = axles.last().map_or(150.0, |axle| axle.behind);
    f64::midpoint(first, last)
}

impl Truck {
    fn of(rig: &Rig) -> Self {
        let wheelbase = inches(&rig.truck.wheelbase).clamp(80.0, 260.0);
        let behind = inches(&rig.truck.ball_behind_rear_axle).clamp(-60.0, 120.0);
        let tire = TireSize::written(&rig.truck.tires.size);
        let rear_axle = -behind;
        let front_axle = rear_axle - wheelbase;
        let least_tail = rear_axle + tire.radius + 6.0;
        let (tail, rail) = match &rig.hitch.joint {
            Joint::BumperPull { .. } => (-BALL_BEHIND_BUMPER, tire.radius * 2.0 + 22.0),
            Joint::Gooseneck { rail_height, .. } => (
                rear_axle + wheelbase * 0.28,
                inches(rail_height).clamp(36.0, 75.0),
            ),
        };
        Self {
            front_axle,
            rear_axle,
            tire,
            nose: front_axle - wheelbase * 0.24,
            tail: tail.max(least_tail),
            rail,
        }
    }
}
