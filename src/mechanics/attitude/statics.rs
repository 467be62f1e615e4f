//! What truck and trailer have to do with each other, before and after the trailer is stood.

use crate::mechanics::attitude::level_drawbar::Level;
use crate::mechanics::attitude::solve::{StaticRig, StaticSolution};
use crate::mechanics::attitude::stand::{Footing, Rest, Stand, stand};
use crate::mechanics::attitude::tilt::STEEPEST_RAD;
use crate::mechanics::attitude::truck_uncoupled::before_coupling;
use crate::mechanics::attitude::{Status, Uncoupled};
use crate::mechanics::constants::FOOT_IN;
use crate::mechanics::load::weighed;
use crate::mechanics::{MassProperties, NoNumber, Ranges, Springing, Trailer, Truck, finite};

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
        Ok(Self {
            truck: &inputs.truck,
            trailer: &inputs.trailer,
            mass: weighed(&inputs.trailer.items)?,
            before: before_coupling(&inputs.truck)?,
            gives: Gives::of(&inputs.truck),
            couple_lb_in: inputs.wd_moment_lbft * FOOT_IN,
        })
    }

    /// The trailer ready to be stood on this truck.
    pub(crate) fn stand_on_truck(&self) -> Stand {
        let footing = Footing::Truck {
            free_height_in: self.before.ball_height_in
                + self.gives.couple_in_lb_in * self.couple_lb_in,
            gives_in_lb: self.gives.push_in_lb,
        };
        let moment = self.mass.weight_lb * self.mass.x_cg_in + self.couple_lb_in;
        sprung(self.trailer, self.mass.weight_lb, moment, footing)
    }

    pub(crate) fn solve(&self) -> Result<StaticSolution, NoNumber> {
        let (rest, status) = stood(&self.stand_on_truck(), self.trailer)?;
        self.told(&rest, status)
    }

    /// The solution in the terms people use.
    pub(crate) fn told(&self, rest: &Rest, status: Status) -> Result<StaticSolution, NoNumber> {
        let (truck, push, couple) = (self.truck, rest.push_lb, self.couple_lb_in);
        let base = truck.wheelbase_in;
        let reach = truck.ball_behind_rear_axle_in;
        let before = self.before;
        let front = (couple - push * reach) / base;
        let rear = (push * (base + reach) - couple) / base;
        let front_drop = front / truck.front_rate_lb_in;
        let rear_drop = rear / truck.rear_rate_lb_in;
        let pitch = not_too_steep(rest.pitch_rad)?.to_degrees();
        let truck_pitch = not_too_steep((rear_drop - front_drop) / base)?.to_degrees();
        let unloading_pct = (before.front_lb > 0.0)
            .then(|| finite("the share", 100.0 * (0.0 - front) / before.front_lb));
        let level = self.level();
        Ok(StaticSolution {
            tongue_lb: finite("the tongue weight", push)?,
            tongue_pct_of_gross: finite("the tongue's share", 100.0 * push / self.mass.weight_lb)?,
            trailer_gross_lb: self.mass.weight_lb,
            ball_height_coupled_in: above_the_road(rest.height_in)?,
            ball_drop_in: finite("the drop", before.ball_height_in - rest.height_in)?,
            trailer_pitch_deg: pitch,
            axle_sum_lb: finite("the axles' load", rest.axle_lb.iter().sum())?,
            tire_lb: rest.axle_lb.iter().map(|load| load / 2.0).collect(),
            axle_lb: rest.axle_lb.clone(),
            on_road: rest.on_road.clone(),
            truck_front_lb: on_the_road("front", before.front_lb + front)?,
            truck_rear_lb: on_the_road("rear", before.rear_lb + rear)?,
            front_unloading_lb: 0.0 - front,
            front_unloading_pct: unloading_pct.transpose()?,
            truck_front_drop_in: finite("the front axle's drop", front_drop)?,
            truck_rear_drop_in: finite("the rear axle's drop", rear_drop)?,
            truck_pitch_nose_up_deg: truck_pitch,
            status,
            drawbar_change_for_level_in: level
                .as_ref()
                .map(|level| level.rise_in - truck.drawbar_rise_in),
            ball_height_for_level_in: level.map(|level| level.height_in),
        })
    }

    /// The level trailer, where there is one.
    pub(crate) fn level(&self) -> Option<Level> {
        let stand = self.stand_on_truck();
        let mut tilted = stand.tilt().at(0.0)?;
        if let Some(stopped) = stopped(&stand, self.trailer, 0.0, &tilted.axle_lb) {
            tilted = stopped.tilt().at(0.0)?;
        }
        let push = stand.weight_lb - tilted.axle_lb.iter().sum::<f64>();
        let free = self.before.ball_height_in - self.truck.drawbar_rise_in;
        let gives = self.gives;
        let rise = tilted.height_in + gives.push_in_lb * push
            - gives.couple_in_lb_in * self.couple_lb_in
            - free;
        let there = tilted.height_in > 0.0 && push.is_finite() && rise.is_finite();
        there.then_some(Level {
            height_in: tilted.height_in,
            push_lb: push,
            rise_in: rise,
            axle_lb: tilted.axle_lb,
        })
    }
}

/// A trailer of this weight, and with this moment about the ball, on its own springs.
pub(crate) fn sprung(trailer: &Trailer, weight_lb: f64, moment_lb_in: f64, on: Footing) -> Stand {
    Stand {
        weight_lb,
        moment_lb_in,
        places_in: trailer.axle_places(),
        rates_lb_in: trailer.axles.iter().map(|axle| axle.rate_lb_in).collect(),
        free_heights_in: trailer.free_heights(),
        beyond_lb: vec![0.0; trailer.axles.len()],
        equalized: trailer.suspension == Springing::Equalized,
        footing: on,
    }
}

/// Stands a trailer and says how its axles share; an equalizer that would move past its stop lies
/// on it.
pub(crate) fn stood(trailer: &Stand, of: &Trailer) -> Result<(Rest, Status), NoNumber> {
    let rest = stand(trailer)?;
    let axles = Status::of_axles(&rest.on_road);
    if !trailer.equalized || axles != Status::AllAxles {
        return Ok((rest, axles));
    }
    let on_stop = on_its_stop(trailer, of, &rest)?;
    Ok(on_stop.unwrap_or((rest, Status::Equalized)))
}

/// How the trailer stands with its equalizer on its stop, if at rest like this it lies there.
pub(crate) fn on_its_stop(
    trailer: &Stand,
    of: &Trailer,
    rest: &Rest,
) -> Result<Option<(Rest, Status)>, NoNumber> {
    let Some(stopped) = stopped(trailer, of, rest.pitch_rad, &rest.axle_lb) else {
        return Ok(None);
    };
    let rest = stand(&stopped)?;
    let status = match Status::of_axles(&rest.on_road) {
        Status::AllAxles => Status::EqualizerStop,
        lifted => lifted,
    };
    Ok(Some((rest, status)))
}

/// The same trailer with the equalizer between its two axles on its stop, where it would move past
/// it: the axles then act each on its own spring.
fn stopped(trailer: &Stand, of: &Trailer, pitch_rad: f64, shared_lb: &[f64]) -> Option<Stand> {
    let travel = of.equalizer_travel_in.filter(|_| trailer.equalized)?;
    let moves = equalizer_moves(trailer, pitch_rad, shared_lb)?;
    if moves.abs() <= travel {
        return None;
    }
    let stop = travel.copysign(moves);
    let mut stopped = trailer.clone();
    stopped.equalized = false;
    for (height, by) in stopped.free_heights_in.iter_mut().zip([stop, -stop]) {
        *height += by;
    }
    Some(stopped)
}

/// How far the equalizer between two axles pushes the front spring down and lets the rear one up:
/// half the difference of what frame and springs ask for. Nose up makes it positive.
fn equalizer_moves(trailer: &Stand, pitch_rad: f64, shared_lb: &[f64]) -> Option<f64> {
    let [ahead, behind] = trailer.places_in[..] else {
        return None;
    };
    let [ahead_free, behind_free] = trailer.free_heights_in[..] else {
        return None;
    };
    let [ahead_rate, behind_rate] = trailer.rates_lb_in[..] else {
        return None;
    };
    let each = shared_lb.first()? - trailer.beyond_lb.first()?;
    let tilts = pitch_rad * (behind - ahead) + behind_free - ahead_free;
    Some((tilts + each / ahead_rate - each / behind_rate) / 2.0)
}

fn not_too_steep(pitch_rad: f64) -> Result<f64, NoNumber> {
    if finite("the pitch", pitch_rad)?.abs() <= STEEPEST_RAD {
        return Ok(pitch_rad);
    }
    Err(NoNumber::because(format!(
        "It would pitch by {:.0} deg, and the reckoning holds up to {:.0} deg. Look at the \
         drawbar, the heights and the rates again.",
        pitch_rad.to_degrees(),
        STEEPEST_RAD.to_degrees()
    )))
}

fn above_the_road(height_in: f64) -> Result<f64, NoNumber> {
    if finite("the ball's height", height_in)? > 0.0 {
        return Ok(height_in);
    }
    Err(NoNumber::because(
        "The ball would come down to the road. Look at the drawbar, the tongue weight and the \
         truck's rates again.",
    ))
}

/// The load of an axle of the truck, if it carries any.
fn on_the_road(which: &str, load_lb: f64) -> Result<f64, NoNumber> {
    if finite("the axle's load", load_lb)? >= 0.0 {
        return Ok(load_lb);
    }
    Err(NoNumber::because(format!(
        "The truck's {which} axle would leave the road. Look at the tongue weight, at where the \
         ball and the payload lie and at the spring bars again."
    )))
}
