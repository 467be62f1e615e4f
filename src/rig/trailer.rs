//! The trailer, its axles and brakes, and the stalls inside.

use crate::rig::{Given, Position, Tire, WheelFit};

/// A horse trailer.
#[derive(Clone, Debug, PartialEq)]
pub struct Trailer {
    /// What people call it.
    pub name: String,
    /// Most it may weigh, loaded.
    pub gvwr: Given,
    /// What it weighs empty.
    pub empty: Given,
    /// Where the middle of the empty trailer's weight is.
    pub empty_middle: Option<Position>,
    /// Height of the coupler's socket when the frame is level.
    pub level_coupler_height: Given,
    /// What each axle carried when that height was taken.
    pub level_axle_load: Option<Given>,
    /// Distance between the two frame marks where the height is taken.
    pub frame_base: Given,
    /// Axles, front to rear. At least one, at most three.
    pub axles: Vec<Axle>,
    /// What joins the leaf springs of its axles.
    pub equalizer: Option<Equalizer>,
    /// The spare tire.
    pub spare: Option<Tire>,
    /// The places a horse can stand in.
    pub stalls: Vec<Stall>,
}

/// A place a horse can stand in.
#[derive(Clone, Debug, PartialEq)]
pub struct Stall {
    /// Short name the load refers to it by, such as `left`.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// Where the middle of a horse in it is.
    pub at: Position,
}

/// The rocker between leaf springs, and the springs it joins.
#[derive(Clone, Debug, PartialEq)]
pub struct Equalizer {
    /// How far one of its ends moves before it meets its stop.
    pub travel: Option<Given>,
    /// The eyes of the springs above the ground.
    pub eye_height: Given,
    /// Half the length of one spring, eye to axle.
    pub half_spring: Given,
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
    /// How far it gives.
    pub spring: Option<Spring>,
    /// Its brakes, if it has any.
    pub brake: Option<Brake>,
    /// Its tires, both alike.
    pub tire: Tire,
    /// How its wheels are fastened.
    pub fit: WheelFit,
    /// What the truck's odometer showed when a wheel of this axle was last off.
    pub wheel_off_at: Option<Given>,
}

/// How far an axle gives under load, its tires left out.
#[derive(Clone, Debug, PartialEq)]
pub enum Spring {
    /// By its rate, both sides together.
    Rate(Given),
    /// By the arm that twists the rubber of a torsion axle.
    Arm {
        /// From the middle of the tube to the middle of the spindle.
        length: Given,
        /// How far the arm hangs below level with no weight on it; negative is above.
        start_angle: Given,
        /// The tube's middle above the ground, loaded.
        pivot_height: Option<Given>,
    },
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
    /// Torque of one wheel's brake at full lever.
    pub torque: Option<Given>,
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
