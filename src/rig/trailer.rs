//! The trailer, its axles, wheels and tires.

use crate::rig::Given;

/// A horse trailer.
#[derive(Clone, Debug, PartialEq)]
pub struct Trailer {
    /// What people call it.
    pub name: String,
    /// Most it may weigh, loaded.
    pub gvwr: Given,
    /// What it weighs empty.
    pub empty: Given,
    /// Height of the coupler's socket when the frame is level.
    pub level_coupler_height: Given,
    /// Distance between the two frame marks where the height is taken.
    pub frame_base: Given,
    /// Axles, front to rear. At least one, at most three.
    pub axles: Vec<Axle>,
    /// The spare tire.
    pub spare: Option<Tire>,
}

/// One axle with the two wheels it carries.
#[derive(Clone, Debug, PartialEq)]
pub struct Axle {
    /// Most it may carry.
    pub gawr: Given,
    /// Distance behind the ball.
    pub behind_ball: Given,
    /// Left tire to right tire, centre to centre.
    pub track: Given,
    /// How it is sprung.
    pub suspension: Suspension,
    /// Its brakes, if it has any.
    pub brake: Option<Brake>,
    /// Its tires, both alike.
    pub tire: Tire,
    /// How its wheels are fastened.
    pub fit: WheelFit,
}

/// How an axle is sprung.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Suspension {
    /// Rubber torsion arms: each axle carries what its own height gives it.
    Torsion,
    /// Leaf springs joined by an equalizer, which shares the load between axles.
    EqualizedLeaf,
}

impl Suspension {
    /// Both kinds with their words.
    pub const WORDS: [(&'static str, Self); 2] = [
        ("torsion", Self::Torsion),
        ("equalized-leaf", Self::EqualizedLeaf),
    ];
}

/// An electric drum brake on each wheel of an axle.
#[derive(Clone, Debug, PartialEq)]
pub struct Brake {
    /// Drum diameter.
    pub drum: Given,
    /// Current one magnet draws at full lever.
    pub magnet_current: Given,
}

/// A tire, as its sidewall reads.
#[derive(Clone, Debug, PartialEq)]
pub struct Tire {
    /// Size as written.
    pub size: String,
    /// Load range letter as written.
    pub load_range: String,
    /// Most it carries at `max_pressure`.
    pub max_load: Given,
    /// Cold pressure at which it carries that.
    pub max_pressure: Given,
    /// Cold pressure asked for on this trailer.
    pub cold: Given,
}

/// How a wheel is fastened.
#[derive(Clone, Debug, PartialEq)]
pub struct WheelFit {
    /// Number of studs.
    pub studs: Given,
    /// Stud diameter.
    pub stud: Given,
    /// Torque to aim at.
    pub torque: Given,
    /// Least torque the maker allows.
    pub torque_low: Given,
    /// Most torque the maker allows.
    pub torque_high: Given,
}

/// One wheel position of the trailer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wheel {
    /// Id in records, such as `left-front`.
    pub id: String,
    /// Index of its axle, from the front.
    pub axle: usize,
}

impl Trailer {
    /// The wheel positions: left side front to rear, then right side rear to front, as a person
    /// walks round from the left of the tongue.
    pub fn wheels(&self) -> Vec<Wheel> {
        let names: &[&str] = match self.axles.len() {
            1 => &[""],
            2 => &["-front", "-rear"],
            _ => &["-front", "-middle", "-rear"],
        };
        let left = names
            .iter()
            .enumerate()
            .map(|(axle, name)| ("left", axle, name));
        let right = names
            .iter()
            .enumerate()
            .rev()
            .map(|(axle, name)| ("right", axle, name));
        left.chain(right)
            .map(|(side, axle, name)| Wheel {
                id: format!("{side}{name}"),
                axle,
            })
            .collect()
    }
}
