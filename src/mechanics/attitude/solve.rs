//! # Truck and trailer at rest

use crate::mechanics::attitude::stand::{Footing, Rest, Stand, stand};
use crate::mechanics::attitude::{TruckAlone, Uncoupled, truck_uncoupled};
use crate::mechanics::load::{MassItems, mass_properties};
use crate::mechanics::{MassProperties, NoNumber, Page, Ranges, Springing, Trailer, Truck, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure solve_static` tells of it.
pub const PAGE: Page = Page {
    name: "solve_static",
    title: "Truck and trailer at rest",
    situation: "The trailer rests on the ball and on its axles, and the ball rests on the truck's \
                springs, so one settles with the other. Torsion axles carry what their own height \
                gives them; an equalizer gives leaf-sprung axles the same load.",
    formula: "sum N_i + F = W; sum N_i x_i = W x + M; N_i = k_i (h_i - z + t x_i) for torsion \
              axles, the mean of all for an equalizer; z = z0 - cF F + cM M. An axle that comes \
              out below 0 is off the road and the rest is solved again.",
    symbols: &[
        ("N_i", "load of one trailer axle, lb"),
        ("x_i", "its place behind the ball, in"),
        ("k_i", "its rate with tires, lb/in"),
        (
            "h_i",
            "ball height at which it would carry nothing, level and alone, in",
        ),
        ("F", "push on the ball, the tongue weight, lb"),
        (
            "W, x",
            "weight of the loaded trailer, lb, and its place behind the ball, in",
        ),
        (
            "M",
            "couple of spring bars, nose down on the truck, nose up on the trailer, lb in",
        ),
        ("z, z0", "height of the ball coupled, and before, in"),
        ("t", "pitch of the trailer, nose up, rad"),
        (
            "cF, cM",
            "how far the ball gives to a push and a couple, in/lb and 1/lb",
        ),
    ],
    holds: "one to three axles, pitch of a few degrees, springs off their stops",
    assumes: "Level ground, linear springs, no friction in springs or equalizer. Leaving the small \
              angles out costs up to 24 lb an axle and 0.06 deg, so nothing finer than 10 lb and \
              0.1 deg is shown.",
    never: "In place of a scale ticket where there is one, or on a slope.",
    source: "statics of bodies on springs, any textbook; checked against an independent model",
};

/// A truck with a trailer on its ball.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StaticRig {
    /// The truck.
    pub truck: Truck,
    /// The trailer.
    pub trailer: Trailer,
    /// Couple of the spring bars, lb ft.
    #[serde(default, alias = "spring_bar_moment_lbft", alias = "moment_lbft")]
    pub wd_moment_lbft: f64,
}

/// How truck and trailer stand.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StaticSolution {
    /// Tongue weight, lb.
    pub tongue_lb: f64,
    /// Tongue weight of the trailer's weight, %.
    pub tongue_pct_of_gross: f64,
    /// Weight of the loaded trailer, lb.
    pub trailer_gross_lb: f64,
    /// Height of the ball, in.
    pub ball_height_coupled_in: f64,
    /// How far coupling lowered the ball, in.
    pub ball_drop_in: f64,
    /// Pitch of the trailer, nose up, deg.
    pub trailer_pitch_deg: f64,
    /// Load of each trailer axle, front to rear, lb.
    pub axle_lb: Vec<f64>,
    /// All trailer axles together, lb.
    pub axle_sum_lb: f64,
    /// Load of one tire of each axle, lb.
    pub tire_lb: Vec<f64>,
    /// Load of the truck's front axle, lb.
    pub truck_front_lb: f64,
    /// Load of the truck's rear axle, lb.
    pub truck_rear_lb: f64,
    /// What the trailer took off the front axle, lb; negative is added.
    pub front_unloading_lb: f64,
    /// The same of the front axle's load before, %.
    pub front_unloading_pct: f64,
    /// How far the truck came down at its front axle, in.
    pub truck_front_drop_in: f64,
    /// How far the truck came down at its rear axle, in.
    pub truck_rear_drop_in: f64,
    /// Pitch the truck took on, nose up, deg.
    pub truck_pitch_nose_up_deg: f64,
    /// Which axles are on the road, or what the equalizer does.
    pub status: Status,
    /// How far the drawbar must rise, or drop where negative, for a level trailer, in; nothing
    /// where no height does.
    pub drawbar_change_for_level_in: Option<f64>,
    /// Ball height at which the trailer is level, in.
    pub ball_height_for_level_in: Option<f64>,
}

/// Which axles are on the road, or what the equalizer does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Status {
    /// Every axle is on the road, each on its own spring.
    AllAxles,
    /// At least one axle is off the road.
    AxleLifted,
    /// The equalizer keeps the axles' loads alike.
    Equalized,
    /// The equalizer lies on its stop, and the axles act each on its own spring.
    EqualizerStop,
}

/// How truck and trailer stand at rest.
///
/// # Errors
/// [`NoNumber`] when a number is out of range, or no axle would reach the road.
pub fn solve_static(inputs: &StaticRig) -> Result<StaticSolution, NoNumber> {
    Statics::of(inputs)?.solve()
}

/// Everything that is known before the trailer is stood.
#[derive(Clone, Debug)]
pub(crate) struct Statics<'r> {
    pub(crate) truck: &'r Truck,
    pub(crate) trailer: &'r Trailer,
    pub(crate) mass: MassProperties,
    pub(crate) before: Uncoupled,
    pub(crate) gives: Gives,
    /// Couple of the spring bars, lb in.
    pub(crate) couple_lb_in: f64,
}

/// How far the ball gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Gives {
    /// To a push, in/lb.
    pub(crate) push_in_lb: f64,
    /// To a nose-down couple on the truck: how far it rises, in per lb in.
    pub(crate) couple_in_lb_in: f64,
}

impl Gives {
    pub(crate) fn of(truck: &Truck) -> Self {
        let base = truck.wheelbase_in;
        let front = truck.ball_behind_rear_axle_in / base;
        let rear = 1.0 + front;
        let (kf, kr) = (truck.front_rate_lb_in, truck.rear_rate_lb_in);
        Self {
            push_in_lb: front * front / kf + rear * rear / kr,
            couple_in_lb_in: (front / kf + rear / kr) / base,
        }
    }
}

impl<'r> Statics<'r> {
    pub(crate) fn of(inputs: &'r StaticRig) -> Result<Self, NoNumber> {
        let mut ranges = Ranges::new();
        inputs.truck.look(&mut ranges);
        inputs.trailer.look(&mut ranges);
        ranges.finite("wd_moment_lbft", inputs.wd_moment_lbft);
        ranges.checked()?;
        let alone = TruckAlone {
            truck: inputs.truck.clone(),
        };
        let items = MassItems {
            items: inputs.trailer.items.clone(),
        };
        Ok(Self {
            truck: &inputs.truck,
            trailer: &inputs.trailer,
            mass: mass_properties(&items)?,
            before: truck_uncoupled(&alone)?,
            gives: Gives::of(&inputs.truck),
            couple_lb_in: inputs.wd_moment_lbft * 12.0,
        })
    }

    /// The trailer ready to be stood on this truck.
    pub(crate) fn stand_on_truck(&self) -> Stand {
        let footing = Footing::Truck {
            free_height_in: self.before.ball_height_in
                + self.gives.couple_in_lb_in * self.couple_lb_in,
            gives_in_lb: self.gives.push_in_lb,
        };
        let trailer = self.trailer;
        Stand {
            weight_lb: self.mass.weight_lb,
            moment_lb_in: self.mass.weight_lb * self.mass.x_cg_in + self.couple_lb_in,
            places_in: trailer.axle_places(),
            rates_lb_in: trailer.axles.iter().map(|axle| axle.rate_lb_in).collect(),
            free_heights_in: trailer.free_heights(),
            beyond_lb: vec![0.0; trailer.axles.len()],
            equalized: trailer.suspension == Springing::Equalized,
            footing,
        }
    }

    fn solve(&self) -> Result<StaticSolution, NoNumber> {
        let (rest, status) = stood(&self.stand_on_truck(), self.trailer)?;
        self.told(&rest, status)
    }

    /// The solution in the terms people use.
    pub(crate) fn told(&self, rest: &Rest, status: Status) -> Result<StaticSolution, NoNumber> {
        let (truck, push, couple) = (self.truck, rest.push_lb, self.couple_lb_in);
        let base = truck.wheelbase_in;
        let reach = truck.ball_behind_rear_axle_in;
        let front = (couple - push * reach) / base;
        let rear = (push * (base + reach) - couple) / base;
        let front_drop = front / truck.front_rate_lb_in;
        let rear_drop = rear / truck.rear_rate_lb_in;
        let level = self.level();
        let before = self.before;
        Ok(StaticSolution {
            tongue_lb: push,
            tongue_pct_of_gross: finite("the tongue's share", 100.0 * push / self.mass.weight_lb)?,
            trailer_gross_lb: self.mass.weight_lb,
            ball_height_coupled_in: rest.height_in,
            ball_drop_in: before.ball_height_in - rest.height_in,
            trailer_pitch_deg: rest.pitch_rad.to_degrees(),
            axle_sum_lb: rest.axle_lb.iter().sum(),
            tire_lb: rest.axle_lb.iter().map(|load| load / 2.0).collect(),
            axle_lb: rest.axle_lb.clone(),
            truck_front_lb: before.front_lb + front,
            truck_rear_lb: before.rear_lb + rear,
            front_unloading_lb: -front,
            front_unloading_pct: if before.front_lb > 0.0 {
                -100.0 * front / before.front_lb
            } else {
                0.0
            },
            truck_front_drop_in: front_drop,
            truck_rear_drop_in: rear_drop,
            truck_pitch_nose_up_deg: ((rear_drop - front_drop) / base).to_degrees(),
            status,
            drawbar_change_for_level_in: level.map(|level| level.rise_in - truck.drawbar_rise_in),
            ball_height_for_level_in: level.map(|level| level.height_in),
        })
    }

    /// The level trailer, where there is one with every axle on the road.
    pub(crate) fn level(&self) -> Option<Level> {
        let stand = self.stand_on_truck();
        let (mut kx, mut khx, mut k, mut kh) = (0.0, 0.0, 0.0, 0.0);
        let count = f64::from(u32::try_from(stand.places_in.len()).ok()?);
        let mean_h = stand.free_heights_in.iter().sum::<f64>() / count;
        let axles = stand
            .places_in
            .iter()
            .zip(&stand.rates_lb_in)
            .zip(&stand.free_heights_in);
        for ((x, rate), h) in axles {
            let h = if stand.equalized { mean_h } else { *h };
            kx += rate * x;
            khx += rate * h * x;
            k += rate;
            kh += rate * h;
        }
        let height = (khx - stand.moment_lb_in) / kx;
        let bears = stand.free_heights_in.iter().all(|h| *h >= height) || stand.equalized;
        if !bears || !height.is_finite() {
            return None;
        }
        let push = stand.weight_lb - (kh - k * height);
        let free = self.before.ball_height_in - self.truck.drawbar_rise_in;
        let gives = self.gives;
        Some(Level {
            height_in: height,
            push_lb: push,
            rise_in: height + gives.push_in_lb * push
                - gives.couple_in_lb_in * self.couple_lb_in
                - free,
        })
    }
}

/// The drawbar that makes a trailer level.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Level {
    /// Height of the ball then, in.
    pub(crate) height_in: f64,
    /// Tongue weight then, lb.
    pub(crate) push_lb: f64,
    /// Rise of that drawbar, in.
    pub(crate) rise_in: f64,
}

/// Stands a trailer and says how its axles share; an equalizer that would move past its stop lies
/// on it.
pub(crate) fn stood(trailer: &Stand, of: &Trailer) -> Result<(Rest, Status), NoNumber> {
    let rest = stand(trailer)?;
    let lifted = rest.on_road.contains(&false);
    if !trailer.equalized {
        let status = if lifted {
            Status::AxleLifted
        } else {
            Status::AllAxles
        };
        return Ok((rest, status));
    }
    if let (Some(travel), [ahead, behind]) = (of.equalizer_travel_in, &trailer.places_in[..]) {
        let moved = rest.pitch_rad * (behind - ahead) / 2.0;
        if moved.abs() > travel {
            let stop = travel.copysign(moved);
            let mut stopped = trailer.clone();
            stopped.equalized = false;
            for (height, by) in stopped.free_heights_in.iter_mut().zip([stop, -stop]) {
                *height += by;
            }
            let rest = stand(&stopped)?;
            return Ok((rest, Status::EqualizerStop));
        }
    }
    let status = if lifted {
        Status::AxleLifted
    } else {
        Status::Equalized
    };
    Ok((rest, status))
}
