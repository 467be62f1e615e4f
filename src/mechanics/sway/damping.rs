//! # How soon a swaying trailer settles

use crate::mechanics::constants::{GRAVITY_IN_S2, INCH_M, MPH_M_S};
use crate::mechanics::root::zero;
use crate::mechanics::sway::model::Plane;
use crate::mechanics::sway::quartic::Roots;
use crate::mechanics::{NoNumber, Page, Ranges};
use serde::{Deserialize, Serialize};

/// What `hames figure sway` tells of it.
pub const PAGE: Page = Page {
    name: "sway",
    title: "How soon a swaying trailer settles",
    situation: "A gust or a rut pushes the trailer aside, and it swings about the ball, taking \
                the truck's tail with it. Weight on the ball, load kept near the axles and axles \
                far back make each swing smaller than the last; whether a change of load helps \
                or hurts can be told from the sum.",
    formula: "linear single-track truck and trailer at steady speed; unknowns sideways speed, \
              yaw rate, turning on the ball and angle; of the four rates x = -d +- i w the pair \
              with the least d / sqrt(d^2 + w^2) is told: that ratio, and w / 2 pi",
    symbols: &[
        (
            "damping ratio",
            "0 goes on swinging, below 0 grows, 1 does not swing at all",
        ),
        ("frequency", "swings a second, Hz"),
        (
            "critical speed",
            "where the ratio comes down to 0 in this sum, looked for up to 200 mph",
        ),
        (
            "largest real root",
            "greatest rate of motions that do not swing, 1/s; above 0 they run away",
        ),
        (
            "yaw radius",
            "distance from the centre at which all mass would turn as hard, in",
        ),
        (
            "cornering",
            "side force of an axle over its load, at a slip of one radian: 7 front, 9 rear, \
             8 trailer where nothing is given",
        ),
    ],
    holds: "speed from 1 to 200 mph; 0 to 40 % of the trailer on the ball, and a truck front axle \
            that stays on the road",
    assumes: "Small angles, no roll, hands still on the wheel, no friction at the hitch, several \
              trailer axles as one at their middle. How tires corner is assumed, and moves the \
              result more than most loads do.",
    never: "To call any speed right, or to compare two different trailers. It ranks two ways of \
            loading one rig, as more or less damped, and nothing else.",
    source: "linear single-track model of a vehicle with trailer, any textbook of vehicle \
             dynamics; trends as measured by Darling, Tilley and Gao, Proc. IMechE part D 223 \
             (2009) 471, abstract; checked against an independent model",
};

/// A rig in the plane.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SwayRig {
    /// Front axle of the truck before coupling, lb.
    pub truck_front_lb: f64,
    /// Rear axle of the truck before coupling, lb.
    pub truck_rear_lb: f64,
    /// Front axle to rear axle, in.
    pub wheelbase_in: f64,
    /// Ball behind the rear axle, in; negative when ahead of it.
    pub ball_behind_rear_axle_in: f64,
    /// Yaw radius of the truck, in.
    pub truck_yaw_radius_in: f64,
    /// Weight of the loaded trailer, lb.
    pub trailer_gross_lb: f64,
    /// Ball to the middle of the trailer's axles, in.
    pub ball_to_axle_in: f64,
    /// Yaw radius of the trailer, in.
    pub trailer_yaw_radius_in: f64,
    /// Speed, mph.
    pub speed_mph: f64,
    /// Weight on the ball, % of the trailer's.
    pub tongue_pct: f64,
    /// Side force over load at a slip of one radian: the truck's front axle.
    #[serde(default = "SwayRig::front", alias = "c_front_per_rad")]
    pub cornering_front_per_rad: f64,
    /// The same of its rear axle.
    #[serde(default = "SwayRig::rear", alias = "c_rear_per_rad")]
    pub cornering_rear_per_rad: f64,
    /// The same of the trailer's axles.
    #[serde(default = "SwayRig::trailer", alias = "c_trailer_per_rad")]
    pub cornering_trailer_per_rad: f64,
}

/// How a disturbance goes on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Sway {
    /// Damping of the least damped swing; nothing where nothing swings.
    pub damping_ratio: Option<f64>,
    /// Its swings a second.
    pub frequency_hz: Option<f64>,
    /// Where its damping ends, mph.
    pub critical_speed_mph: Option<f64>,
    /// Whether that is nowhere up to 200 mph.
    pub critical_speed_above_200: bool,
    /// The greatest rate that does not swing; nothing where all swing.
    pub largest_real_root_1_s: Option<f64>,
}

/// Fastest speed looked at, mph.
const FASTEST_MPH: u32 = 200;

/// Damping nearer to 0 than this is none.
const SMALL: f64 = 1e-13;

/// How a trailer's swing dies out or grows.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, or the tongue lifts the truck's front axle.
pub fn sway(inputs: &SwayRig) -> Result<Sway, NoNumber> {
    inputs.looked_at()?;
    let plane = inputs.plane()?;
    let at = |mph: f64| {
        plane.roots(mph * MPH_M_S / INCH_M).ok_or_else(|| {
            NoNumber::because(
                "These weights and lengths are too large or too small to reckon with.",
            )
        })
    };
    // What does not swing is damped as far as can be.
    let damping = |mph: f64| Ok(least_damped(&at(mph)?).map_or(1.0, |swing| swing.ratio));
    let roots = at(inputs.speed_mph)?;
    let swing = least_damped(&roots);
    let mut critical = None;
    for mph in 2..=FASTEST_MPH {
        let mph = f64::from(mph);
        if damping(mph)? < 0.0 {
            critical = Some(zero(mph - 1.0, mph, SMALL, damping)?);
            break;
        }
    }
    Ok(Sway {
        damping_ratio: swing.map(|swing| swing.ratio),
        frequency_hz: swing.map(|swing| swing.turns / (2.0 * core::f64::consts::PI)),
        critical_speed_mph: critical,
        critical_speed_above_200: critical.is_none(),
        largest_real_root_1_s: roots.real.into_iter().reduce(f64::max),
    })
}

/// A swing.
#[derive(Clone, Copy, Debug)]
struct Swing {
    ratio: f64,
    turns: f64,
}

fn least_damped(roots: &Roots) -> Option<Swing> {
    let swings = roots.pairs.iter().map(|(grows, turns)| Swing {
        ratio: -grows / (grows * grows + turns * turns).sqrt(),
        turns: *turns,
    });
    swings.reduce(|least, next| {
        if next.ratio < least.ratio {
            next
        } else {
            least
        }
    })
}

impl SwayRig {
    /// Side force over load of a pickup's front tires at a slip of one radian, assumed.
    pub(crate) fn front() -> f64 {
        7.0
    }

    /// The same of its rear tires.
    pub(crate) fn rear() -> f64 {
        9.0
    }

    /// The same of a trailer's tires.
    pub(crate) fn trailer() -> f64 {
        8.0
    }

    fn looked_at(&self) -> Result<(), NoNumber> {
        let mut ranges = Ranges::new();
        for (what, given) in [
            ("truck_front_lb", self.truck_front_lb),
            ("truck_rear_lb", self.truck_rear_lb),
            ("wheelbase_in", self.wheelbase_in),
            ("truck_yaw_radius_in", self.truck_yaw_radius_in),
            ("trailer_gross_lb", self.trailer_gross_lb),
            ("ball_to_axle_in", self.ball_to_axle_in),
            ("trailer_yaw_radius_in", self.trailer_yaw_radius_in),
            ("cornering_front_per_rad", self.cornering_front_per_rad),
            ("cornering_rear_per_rad", self.cornering_rear_per_rad),
            ("cornering_trailer_per_rad", self.cornering_trailer_per_rad),
        ] {
            ranges.positive(what, given);
        }
        let reach = self.ball_behind_rear_axle_in;
        ranges
            .holds(
                reach.is_finite() && reach > -self.wheelbase_in,
                "ball_behind_rear_axle_in",
                reach,
                "a ball behind the front axle",
            )
            .within("speed_mph", self.speed_mph, 1.0, f64::from(FASTEST_MPH))
            .within("tongue_pct", self.tongue_pct, 0.0, 40.0);
        ranges.checked()
    }

    fn plane(&self) -> Result<Plane, NoNumber> {
        let truck_lb = self.truck_front_lb + self.truck_rear_lb;
        let to_front = self.wheelbase_in * self.truck_rear_lb / truck_lb;
        let to_rear = self.wheelbase_in - to_front;
        let on_ball = self.tongue_pct / 100.0;
        let push = on_ball * self.trailer_gross_lb;
        let lifts = push * self.ball_behind_rear_axle_in / self.wheelbase_in;
        let (front, rear) = (
            self.truck_front_lb - lifts,
            self.truck_rear_lb + push + lifts,
        );
        if front <= 0.0 || rear <= 0.0 {
            return Err(NoNumber::because(
                "With this weight on the ball an axle of the truck would leave the road. Weigh \
                 the tongue again.",
            ));
        }
        let (truck_mass, trailer_mass) = (
            truck_lb / GRAVITY_IN_S2,
            self.trailer_gross_lb / GRAVITY_IN_S2,
        );
        let axles = self.trailer_gross_lb - push;
        Ok(Plane {
            truck_mass,
            trailer_mass,
            truck_inertia: truck_mass * self.truck_yaw_radius_in * self.truck_yaw_radius_in,
            trailer_inertia: trailer_mass * self.trailer_yaw_radius_in * self.trailer_yaw_radius_in,
            to_front,
            to_rear,
            to_ball: to_rear + self.ball_behind_rear_axle_in,
            to_centre: self.ball_to_axle_in * (1.0 - on_ball),
            to_axle: self.ball_to_axle_in,
            front_lb: self.cornering_front_per_rad * front,
            rear_lb: self.cornering_rear_per_rad * rear,
            trailer_lb: self.cornering_trailer_per_rad * axles,
        })
    }
}
