//! How a trailer stands while forces hold its wheels back.
//!
//! Three things move load then. The weight presses forward, by its height. A trailing torsion arm
//! is lifted by its brake's torque: `N_i = k_i (h_i - z + t x_i) - q B_i`. And under leaf springs
//! the torque turns each spring about its axle, up at the front eye and down at the rear one; the
//! equalizer keeps the eyes it joins alike, so the next axle carries `H (B_i + B_next) / l` more
//! than the one ahead of it. Equal brakes make that `2 H B / l`.

use crate::mechanics::attitude::{Footing, Rest, Stand, Status, on_its_stop, stood};
use crate::mechanics::{NoNumber, Trailer};

/// A trailer about to be braked.
#[derive(Clone, Debug)]
pub(super) struct Braked<'t> {
    trailer: &'t Trailer,
    stand: Stand,
    /// Load the arm's pivot takes off a torsion axle, of its brake force.
    lifting: f64,
    /// Height of the spring eyes over half a spring; leaf springs.
    levering: f64,
}

/// A braked trailer at rest, with forces and loads that agree.
#[derive(Clone, Debug)]
pub(super) struct Settled {
    pub(super) rest: Rest,
    pub(super) status: Status,
    /// Force of each axle at the road, lb.
    pub(super) forces_lb: Vec<f64>,
}

/// Rounds after which forces and loads that keep moving each other are given up.
const MOST_ROUNDS: u32 = 200;

/// Forces agree when they differ by less than this share of the weight.
const AGREES: f64 = 1e-13;

impl<'t> Braked<'t> {
    /// The trailer, and how it stands without brakes; `lifting` in place of the trailer's own.
    pub(super) fn new(
        trailer: &'t Trailer,
        stand: Stand,
        lifting: Option<f64>,
    ) -> Result<Self, NoNumber> {
        let levering = match (trailer.eye_height_in, trailer.half_spring_in) {
            _ if !stand.equalized || stand.places_in.len() < 2 => 0.0,
            (Some(eye), Some(half)) => eye / half,
            _ => {
                return Err(NoNumber::because(
                    "Brakes move load from axle to axle under leaf springs, by an amount that \
                     hangs on the spring eyes: measure their height above the ground and half the \
                     length of one spring, and give trailer.eye_height_in and \
                     trailer.half_spring_in.",
                ));
            }
        };
        Ok(Self {
            lifting: lifting.or(trailer.pivot_over_arm).unwrap_or(0.0),
            trailer,
            stand,
            levering,
        })
    }

    /// The trailer at rest on these axles, with this moment about the ball and these forces at the
    /// road.
    pub(super) fn under(
        &self,
        moment_lb_in: f64,
        forces_lb: &[f64],
    ) -> Result<(Rest, Status), NoNumber> {
        let mut stand_now = self.stand.clone();
        stand_now.moment_lb_in = moment_lb_in;
        if !stand_now.equalized {
            stand_now.beyond_lb = forces_lb.iter().map(|b| -self.lifting * b).collect();
            return stood(&stand_now, self.trailer);
        }
        self.shared(stand_now, &self.steps(forces_lb))
    }

    /// The trailer at rest where each axle's force hangs on its load: forces and loads that agree.
    pub(super) fn settled(
        &self,
        moment_lb_in: f64,
        asks: impl Fn(usize, f64) -> f64,
    ) -> Result<Settled, NoNumber> {
        let mut forces_lb = vec![0.0; self.stand.places_in.len()];
        for _ in 0..MOST_ROUNDS {
            let (rest, status) = self.under(moment_lb_in, &forces_lb)?;
            let mut apart: f64 = 0.0;
            for (axle, (force, load)) in forces_lb.iter_mut().zip(&rest.axle_lb).enumerate() {
                let asked = asks(axle, *load);
                apart = apart.max((asked - *force).abs());
                *force += (asked - *force) * if self.moves_load() { 0.5 } else { 1.0 };
            }
            if apart <= AGREES * self.stand.weight_lb {
                return Ok(Settled {
                    rest,
                    status,
                    forces_lb,
                });
            }
        }
        Err(NoNumber::because(
            "Brake forces and axle loads of this trailer find no balance: each moves the other. \
             Look at the heights of arm pivots or spring eyes again.",
        ))
    }

    /// Whether brake force moves load from axle to axle.
    fn moves_load(&self) -> bool {
        self.lifting > 0.0 || self.levering > 0.0
    }

    /// Axles on an equalizer, each carrying so much more than the first: their loads follow from
    /// the moment alone, unless the equalizer lies on its stop.
    fn shared(&self, mut stand: Stand, more: &[f64]) -> Result<(Rest, Status), NoNumber> {
        let middle = more.iter().sum::<f64>() / counted(more.len());
        stand.beyond_lb = more.iter().map(|more| more - middle).collect();
        let all = resting(&stand, loads_from(0, &stand, more));
        if let Some(on_stop) = on_its_stop(&stand, self.trailer, &all)? {
            return Ok(on_stop);
        }
        let presses = |rest: &Rest| rest.axle_lb.iter().all(|load| *load >= 0.0);
        let rest = (0..more.len())
            .map(|first| resting(&stand, loads_from(first, &stand, more)))
            .find(presses)
            .ok_or_else(|| {
                NoNumber::because(
                    "With these brakes the trailer would lift its axles and hang on the ball. \
                     Look at the weights and places again.",
                )
            })?;
        let status = match Status::of_axles(&rest.on_road) {
            Status::AllAxles => Status::Equalized,
            lifted => lifted,
        };
        Ok((rest, status))
    }

    /// How much more each axle carries than the first.
    fn steps(&self, forces_lb: &[f64]) -> Vec<f64> {
        let mut more = 0.0;
        let mut steps = vec![0.0];
        for pair in forces_lb.windows(2) {
            more += self.levering * pair.iter().sum::<f64>();
            steps.push(more);
        }
        steps
    }
}

/// Loads of the axles from `first` rearward, those ahead of it off the road.
fn loads_from(first: usize, stand: &Stand, more: &[f64]) -> Vec<f64> {
    let least = more.get(first).copied().unwrap_or_default();
    let on = || stand.places_in.iter().zip(more).skip(first);
    let reach: f64 = on().map(|(x, _)| x).sum();
    let beyond: f64 = on().map(|(x, more)| (more - least) * x).sum();
    let load = (stand.moment_lb_in - beyond) / reach;
    let ahead = std::iter::repeat_n(0.0, first);
    ahead
        .chain(on().map(|(_, more)| load + more - least))
        .collect()
}

/// A trailer whose axles, joined by an equalizer, carry these loads: their springs give as much
/// together as frame and ball ask of them.
fn resting(stand: &Stand, axle_lb: Vec<f64>) -> Rest {
    let count = counted(axle_lb.len());
    let push_lb = stand.weight_lb - axle_lb.iter().sum::<f64>();
    let height_in = match stand.footing {
        Footing::Held { height_in } => height_in,
        Footing::Truck {
            free_height_in,
            gives_in_lb,
        } => free_height_in - gives_in_lb * push_lb,
    };
    let given = axle_lb.iter().zip(&stand.rates_lb_in);
    let springs: f64 = given.map(|(load, rate)| load / rate).sum();
    let free: f64 = stand.free_heights_in.iter().sum();
    let places: f64 = stand.places_in.iter().sum();
    Rest {
        height_in,
        pitch_rad: (springs - free + count * height_in) / places,
        push_lb,
        on_road: axle_lb.iter().map(|load| *load > 0.0).collect(),
        axle_lb,
    }
}

/// A number of axles.
pub(super) fn counted(axles: usize) -> f64 {
    f64::from(u32::try_from(axles).unwrap_or(u32::MAX))
}
