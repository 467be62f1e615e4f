//! The numbers of a rig as a drawing needs them: plain inches, the ball's middle at `x = 0`.
//!
//! What the rig file states is taken as it stands. What it does not state (bumpers, walls, the
//! roof) follows from what it does by the proportions below: common practice, no source. A number
//! no rig can have is drawn at the nearest that can be drawn.

use crate::rig::{Axle, Given, Joint, Position, Rig};
use crate::tui::rig::hang::{Spot, hang};
use crate::tui::rig::tire::TireSize;
use crate::units::Unit;

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

/// What carries the ball; heights above the ground, the truck settled.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Carrier {
    /// A drawbar in a receiver.
    Drawbar {
        /// Inside top of the receiver.
        top: f64,
        /// Top of the platform the ball stands on.
        platform: f64,
        pin_radius: f64,
    },
    /// The floor of the bed.
    Bed { floor: f64 },
}

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

/// A truck settles under the tongue until the trailer stands level, but hardly more than this;
/// what the ball is too high beyond it tips the trailer in the drawing too.
const MOST_SETTLING: f64 = 4.0;

/// From the ball to the bumper.
const BALL_BEHIND_BUMPER: f64 = 10.0;

/// Headroom of a horse trailer.
const HEADROOM: f64 = 84.0;

/// Where a cord is clipped to the tongue or neck, behind the ball.
const CORD_CLIP: f64 = 30.0;

/// Nothing farther than this is on a rig, and sums of what is stay finite.
const FAR: f64 = 900.0;

/// A length in inches.
pub(crate) fn inches(given: &Given) -> f64 {
    in_unit(given, Unit::Inch).clamp(-FAR, FAR)
}

fn in_unit(given: &Given, unit: Unit) -> f64 {
    given
        .quantity
        .in_unit(unit)
        .and_then(|quantity| quantity.value.to_f64())
        .unwrap_or_default()
}

fn spot(position: &Position) -> Spot {
    Spot {
        behind: inches(&position.behind),
        right: inches(&position.right).clamp(-60.0, 60.0),
        above: inches(&position.above).clamp(0.0, 160.0),
    }
}

impl Measures {
    /// The numbers of this rig.
    pub(crate) fn of(rig: &Rig) -> Self {
        let stands = Standing::of(rig);
        let axles: Vec<Wheels> = rig.trailer.axles.iter().map(Wheels::of).collect();
        let load: Vec<Carried> = rig.load.iter().map(Carried::of).collect();
        let truck = Truck::of(rig);
        let body = Body::round(&axles, &load, &truck, &stands.joint);
        let floor = match stands.joint {
            Carrier::Drawbar { .. } => 0.0,
            Carrier::Bed { floor } => floor,
        };
        let breakaway = &rig.hitch.breakaway;
        let (switch, anchor) = (spot(&breakaway.switch), spot(&breakaway.anchor.at));
        let between = |from, to, length: &Given| hang(from, to, inches(length), floor);
        let (plug, clip) = cord_ends(&stands, &truck);
        Self {
            chains: rig.hitch.chains.each_ref().map(|chain| {
                let (from, to) = (spot(&chain.truck_eye), spot(&chain.trailer_eye));
                between(from, to, &chain.length)
            }),
            lanyard: between(anchor, switch, &breakaway.lanyard),
            cord: between(plug, clip, &rig.hitch.plug.cord),
            jack_foot: inches(&rig.hitch.jack.clearance).clamp(0.0, stands.ball),
            half_base: (inches(&rig.trailer.frame_base) / 2.0).clamp(6.0, 150.0),
            ball_radius: (inches(&rig.hitch.ball.diameter) / 2.0).clamp(0.5, 3.0),
            ball: stands.ball,
            nose_up: stands.nose_up,
            joint: stands.joint,
            truck,
            axles,
            body,
            switch,
            anchor,
            load,
        }
    }

    /// How high a point of the trailer stands that is `level` high when the frame is level.
    pub(crate) fn tipped(&self, behind: f64, level: f64) -> f64 {
        level + self.nose_up * (1.0 - behind / self.middle_axle())
    }

    /// The middle of the trailer's axles, behind the ball.
    pub(crate) fn middle_axle(&self) -> f64 {
        let first = self.axles.first().map_or(150.0, |axle| axle.behind);
        let last = self.axles.last().map_or(150.0, |axle| axle.behind);
        f64::midpoint(first, last)
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

/// How truck and trailer stand once coupled.
struct Standing {
    joint: Carrier,
    ball: f64,
    nose_up: f64,
}

impl Standing {
    fn of(rig: &Rig) -> Self {
        let level = inches(&rig.trailer.level_coupler_height).clamp(8.0, 70.0);
        let above_platform = inches(&rig.hitch.ball.height).clamp(1.0, 9.0);
        let platform = match &rig.hitch.joint {
            Joint::BumperPull {
                receiver, drawbar, ..
            } => inches(&receiver.height) + inches(&drawbar.rise).clamp(-14.0, 14.0),
            Joint::Gooseneck { bed_height, .. } => inches(bed_height),
        };
        let free = (platform + above_platform).clamp(8.0, 70.0);
        let settled = (free - level).clamp(0.0, MOST_SETTLING);
        let ball = free - settled;
        let platform = ball - above_platform;
        let joint = match &rig.hitch.joint {
            Joint::BumperPull { drawbar, pin, .. } => Carrier::Drawbar {
                top: platform - inches(&drawbar.rise).clamp(-14.0, 14.0),
                platform,
                pin_radius: (inches(&pin.diameter) / 2.0).clamp(0.2, 0.8),
            },
            Joint::Gooseneck { .. } => Carrier::Bed { floor: platform },
        };
        Self {
            joint,
            ball,
            nose_up: ball - level,
        }
    }
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

impl Wheels {
    fn of(axle: &Axle) -> Self {
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

    fn of(load: &crate::rig::Load) -> Self {
        Self {
            name: load.name.clone(),
            at: spot(&load.at),
            pounds: in_unit(&load.weight, Unit::Pound).clamp(1.0, 3000.0),
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
    fn round(axles: &[Wheels], load: &[Carried], truck: &Truck, joint: &Carrier) -> Self {
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

/// The two ends of the cord: the socket on the truck, the clip on the trailer.
fn cord_ends(stands: &Standing, truck: &Truck) -> (Spot, Spot) {
    let (socket, clip_height) = match stands.joint {
        Carrier::Drawbar { top, .. } => (
            Spot {
                behind: truck.tail - 1.0,
                right: 12.0,
                above: top + 3.0,
            },
            stands.ball + 3.0,
        ),
        Carrier::Bed { .. } => (
            Spot {
                behind: truck.tail - 8.0,
                right: 0.0,
                above: truck.rail - 8.0,
            },
            truck.rail + 10.0,
        ),
    };
    let clip = Spot {
        behind: CORD_CLIP,
        right: 0.0,
        above: clip_height,
    };
    (socket, clip)
}
