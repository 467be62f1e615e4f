//! What part of the matter a figure is about, to list figures as a person looks for them.

use crate::figures::Figure;

/// A part of the matter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Area {
    /// How strong the links between truck and trailer are.
    Ratings,
    /// What everything weighs, and what each axle carries.
    Weights,
    /// How truck and trailer stand.
    Attitude,
    /// Tires and their pressures.
    Tires,
    /// Wheels and their nuts.
    Wheels,
    /// Chains, lanyard, cord and jack.
    Chains,
    /// Brakes, magnets, battery and wires.
    Brakes,
    /// Whatever else is known.
    Others,
}

impl Area {
    /// Every area with its title, in the order of a report.
    pub const TITLES: [(Self, &'static str); 8] = [
        (Self::Ratings, "Ratings chain"),
        (Self::Weights, "Weights"),
        (Self::Attitude, "Attitude"),
        (Self::Tires, "Tires"),
        (Self::Wheels, "Wheels"),
        (Self::Chains, "Chains, lanyard, jack"),
        (Self::Brakes, "Brakes and breakaway"),
        (Self::Others, "Others"),
    ];
}

impl Figure {
    /// What part of the matter it is about, by the first word of its name.
    pub fn area(self) -> Area {
        let (first, rest) = self.word().split_once('.').unwrap_or((self.word(), ""));
        match first {
            "truck" if rest.starts_with("tire") => Area::Tires,
            "ball" | "coupler" | "drawbar" | "hitch" | "ratings" | "receiver" => Area::Ratings,
            "axle" | "combined" | "horse" | "horses" | "tongue" | "trailer" | "truck" => {
                Area::Weights
            }
            "attitude" | "level" => Area::Attitude,
            "spare" | "tire" | "tires" => Area::Tires,
            "wheel" | "wheels" => Area::Wheels,
            "chain" | "chains" | "cord" | "cradle" | "jack" | "lanyard" => Area::Chains,
            "battery" | "brake" | "brakes" | "braking" | "breakaway" | "magnet" | "magnets"
            | "pull" | "wire" => Area::Brakes,
            _ => Area::Others,
        }
    }
}
