//! Axle loads at a known pitch, and the pitch at which one of them reaches its limit.
//!
//! With the pitch t given, the height z is the one unknown left, and the moment about the ball
//! decides it: `sum N_i x_i = C`, `N_i = max(0, k_i (h_i - z + t x_i))`. The sum only falls as z
//! rises, so there is one answer, and an axle that pulls at the road with all others in is off it
//! in that answer too.

use crate::mechanics::Springing;

/// One axle as a spring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spring {
    /// Behind the ball, in.
    pub(crate) place_in: f64,
    /// Rate with tires, lb/in.
    pub(crate) rate: f64,
    /// Ball height at which it, alone and level, would carry nothing, in.
    pub(crate) free_height_in: f64,
}

/// A trailer to be tilted.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Tilt {
    springs: Vec<Spring>,
    /// Moment about the ball that the axles must balance, lb in.
    moment_lb_in: f64,
}

/// A trailer held at a pitch.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Tilted {
    /// Height of the ball, in.
    pub(crate) height_in: f64,
    /// Load of each axle, lb.
    pub(crate) axle_lb: Vec<f64>,
    /// Whether each axle is on the road.
    pub(crate) on_road: Vec<bool>,
}

/// An axle at its limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtLimit {
    /// Which one, from the front.
    pub axle: usize,
    /// Pitch, nose up, rad.
    pub pitch_rad: f64,
    /// Height of the ball, in.
    pub height_in: f64,
}

/// Steepest pitch at which small angles still tell the truth to some percent, rad: 20 deg.
pub(crate) const STEEPEST_RAD: f64 = core::f64::consts::PI / 9.0;

/// Two pitches nearer than this are one, rad.
const SAME_RAD: f64 = 1e-12;

impl Tilt {
    pub(crate) fn new(springs: Vec<Spring>, suspension: Springing, moment_lb_in: f64) -> Self {
        let springs = match suspension {
            Springing::Torsion => springs,
            Springing::Equalized => shared(&springs),
        };
        Self {
            springs,
            moment_lb_in,
        }
    }

    /// The trailer held at this pitch, nose up; nothing where no axle would carry anything.
    pub(crate) fn at(&self, pitch_rad: f64) -> Option<Tilted> {
        let mut on_road = vec![true; self.springs.len()];
        loop {
            let line = self.line(&on_road, 1.0)?;
            let height_in = line.height(pitch_rad);
            let loads = line.loads.iter().map(|load| load.at(pitch_rad));
            let axle_lb: Vec<f64> = loads
                .zip(&on_road)
                .map(|(load, on_road)| if *on_road { load } else { 0.0 })
                .collect();
            if axle_lb.iter().all(|load| *load >= 0.0) {
                return Some(Tilted {
                    height_in,
                    axle_lb,
                    on_road,
                });
            }
            for (on_road, load) in on_road.iter_mut().zip(&axle_lb) {
                *on_road &= *load >= 0.0;
            }
        }
    }

    /// The first axle that reaches its limit as the nose goes up (`1.0`) or down (`-1.0`) from
    /// level; nothing when none does before [`STEEPEST_RAD`].
    pub(crate) fn first_at_limit(&self, limits_lb: &[f64], nose: f64) -> Option<AtLimit> {
        let mut on_road = self.at(0.0)?.on_road;
        let mut from = 0.0;
        // Each axle leaves the road or meets it again; a few turns are the most there can be.
        for _ in 0..4 * self.springs.len() {
            let line = self.line(&on_road, nose)?;
            let loads = || line.loads.iter().zip(&on_road).enumerate();
            let limit = loads()
                .zip(limits_lb)
                .filter(|((_, (load, on_road)), _)| **on_road && load.slope > 0.0)
                .map(|((axle, (load, _)), limit)| (load.reaches(*limit), axle))
                .filter(|(pitch, _)| *pitch >= from - SAME_RAD)
                .min_by(|one, other| one.0.total_cmp(&other.0));
            let turn = loads()
                .filter(|(_, (load, on_road))| {
                    if **on_road {
                        load.slope < 0.0
                    } else {
                        load.slope > 0.0
                    }
                })
                .map(|(axle, (load, _))| (load.reaches(0.0), axle))
                .filter(|(pitch, _)| *pitch > from + SAME_RAD)
                .min_by(|one, other| one.0.total_cmp(&other.0));
            match (limit, turn) {
                (Some((pitch, axle)), turn) if turn.is_none_or(|(turns, _)| pitch <= turns) => {
                    return (pitch <= STEEPEST_RAD).then(|| AtLimit {
                        axle,
                        pitch_rad: nose * pitch,
                        height_in: line.height(pitch),
                    });
                }
                (_, Some((pitch, axle))) if pitch < STEEPEST_RAD => {
                    from = pitch;
                    if let Some(on_road) = on_road.get_mut(axle) {
                        *on_road = !*on_road;
                    }
                }
                _ => return None,
            }
        }
        None
    }

    /// Height and loads as straight lines over the pitch, with just these axles on the road.
    fn line(&self, on_road: &[bool], nose: f64) -> Option<Line> {
        let (mut kx, mut khx, mut kxx) = (0.0, 0.0, 0.0);
        for (spring, on_road) in self.springs.iter().zip(on_road) {
            if *on_road {
                let first = spring.rate * spring.place_in;
                kx += first;
                khx += first * spring.free_height_in;
                kxx += first * spring.place_in;
            }
        }
        let height = Straight {
            start: (khx - self.moment_lb_in) / kx,
            slope: nose * kxx / kx,
        };
        if !height.start.is_finite() || !height.slope.is_finite() {
            return None;
        }
        let load = |spring: &Spring| Straight {
            start: spring.rate * (spring.free_height_in - height.start),
            slope: spring.rate * (nose * spring.place_in - height.slope),
        };
        Some(Line {
            height,
            loads: self.springs.iter().map(load).collect(),
        })
    }
}

/// Springs joined by an equalizer: each carries what one spring of their mean would.
pub(crate) fn shared(springs: &[Spring]) -> Vec<Spring> {
    let count = f64::from(u32::try_from(springs.len()).unwrap_or(u32::MAX));
    let mean = |part: fn(&Spring) -> f64| springs.iter().map(part).sum::<f64>() / count;
    let one = Spring {
        place_in: mean(|spring| spring.place_in),
        // The same force through each: their softnesses add, not their rates.
        rate: 1.0 / mean(|spring| 1.0 / spring.rate),
        free_height_in: mean(|spring| spring.free_height_in),
    };
    vec![one; springs.len()]
}

struct Line {
    height: Straight,
    loads: Vec<Straight>,
}

impl Line {
    fn height(&self, pitch: f64) -> f64 {
        self.height.at(pitch)
    }
}

#[derive(Clone, Copy)]
struct Straight {
    start: f64,
    slope: f64,
}

impl Straight {
    fn at(&self, pitch: f64) -> f64 {
        self.start + self.slope * pitch
    }

    fn reaches(&self, value: f64) -> f64 {
        (value - self.start) / self.slope
    }
}
