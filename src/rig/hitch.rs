//! Everything between truck and trailer: the primary hitch, its back-ups, power and jack.

use crate::rig::{Breakaway, Given, Jack, Plug};

/// The parts that join truck and trailer.
#[derive(Clone, Debug, PartialEq)]
pub struct Hitch {
    /// How the ball is carried.
    pub joint: Joint,
    /// The ball.
    pub ball: Ball,
    /// The coupler.
    pub coupler: Coupler,
    /// The two safety chains, left then right.
    pub chains: [Chain; 2],
    /// The breakaway system.
    pub breakaway: Breakaway,
    /// The tongue jack.
    pub jack: Jack,
    /// The electrical plug.
    pub plug: Plug,
    /// Most the trailer turns from straight before body meets body.
    pub turn: Option<Given>,
    /// Spring bars between truck and trailer.
    pub spring_bars: Option<SpringBars>,
}

/// Spring bars, which carry a part of the tongue weight to the front of the truck.
#[derive(Clone, Debug, PartialEq)]
pub struct SpringBars {
    /// The couple both bars bring into the truck when tight.
    pub couple: Given,
}

impl Hitch {
    /// Whether this is a bumper pull or a gooseneck.
    pub fn kind(&self) -> HitchKind {
        match self.joint {
            Joint::BumperPull { .. } => HitchKind::BumperPull,
            Joint::Gooseneck { .. } => HitchKind::Gooseneck,
        }
    }
}

/// The two ways of the trade to carry the ball.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum HitchKind {
    /// Behind the bumper, on a drawbar in a receiver.
    BumperPull,
    /// In the bed, over or ahead of the rear axle.
    Gooseneck,
}

impl HitchKind {
    /// Both kinds with their words.
    pub const WORDS: [(&'static str, Self); 2] = [
        ("bumper-pull", Self::BumperPull),
        ("gooseneck", Self::Gooseneck),
    ];

    /// The word used in rig files and checklists.
    pub fn word(self) -> &'static str {
        match self {
            Self::BumperPull => "bumper-pull",
            Self::Gooseneck => "gooseneck",
        }
    }
}

/// How the ball is carried.
#[derive(Clone, Debug, PartialEq)]
pub enum Joint {
    /// Receiver, drawbar and pin.
    BumperPull {
        /// The square tube on the truck.
        receiver: Receiver,
        /// The bar that carries the ball.
        drawbar: Drawbar,
        /// The pin that holds the bar in the receiver.
        pin: Pin,
    },
    /// A ball locked into the bed.
    Gooseneck {
        /// Ratings of the bed hitch.
        bed: Ratings,
        /// Bed floor above the ground.
        bed_height: Given,
        /// Bed rail above the ground.
        rail_height: Given,
    },
}

/// The two ratings every hitch part has.
#[derive(Clone, Debug, PartialEq)]
pub struct Ratings {
    /// Most trailer weight.
    pub total: Given,
    /// Most weight pressing down on it.
    pub downward: Given,
}

/// The square tube on the truck.
#[derive(Clone, Debug, PartialEq)]
pub struct Receiver {
    /// Ratings when it carries the tongue alone.
    pub carrying: Ratings,
    /// Ratings with spring bars, where it has any.
    pub distributing: Option<Ratings>,
    /// Ground to the inside top of the tube, truck loaded, no trailer.
    pub height: Given,
}

/// The bar that carries the ball.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawbar {
    /// Its ratings.
    pub ratings: Ratings,
    /// How far it lifts the ball above the receiver; negative is a drop.
    pub rise: Given,
}

/// The pin that holds the drawbar.
#[derive(Clone, Debug, PartialEq)]
pub struct Pin {
    /// Its diameter.
    pub diameter: Given,
}

/// The ball.
#[derive(Clone, Debug, PartialEq)]
pub struct Ball {
    /// Diameter as stamped.
    pub diameter: Given,
    /// Most trailer weight as stamped.
    pub total: Given,
    /// Centre of the ball above the platform it stands on.
    pub height: Given,
}

/// The coupler.
#[derive(Clone, Debug, PartialEq)]
pub struct Coupler {
    /// Ball size as stamped.
    pub diameter: Given,
    /// Its ratings.
    pub ratings: Ratings,
    /// How far its lowest point lies below the eyes of the chains.
    pub below_chain_eye: Option<Given>,
}

/// A point in space, seen from the ball: rearward, to the right, and above the ground.
#[derive(Clone, Debug, PartialEq)]
pub struct Position {
    /// Rearward from the ball; negative is ahead of it, on the truck.
    pub behind: Given,
    /// To the right of the middle; negative is left.
    pub right: Given,
    /// Above the ground.
    pub above: Given,
}

/// One safety chain.
#[derive(Clone, Debug, PartialEq)]
pub struct Chain {
    /// Grade as marked on the links; nothing when unmarked.
    pub grade: Option<Grade>,
    /// Nominal size of the link's bar.
    pub size: Given,
    /// Breaking strength, where chain or tag states one.
    pub breaking: Option<Given>,
    /// Breaking strength of the hook.
    pub hook_breaking: Given,
    /// Breaking strength of the link that joins it to the trailer, where there is one. A link
    /// without a mark has none to rely on.
    pub link_breaking: Option<Given>,
    /// Length from the trailer eye to the bearing of the hook.
    pub length: Given,
    /// Where it hooks to the truck.
    pub truck_eye: Position,
    /// Where it is fixed to the trailer.
    pub trailer_eye: Position,
}

/// Chain grades by the marks of 49 CFR 393.108.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Grade {
    /// Proof coil.
    G30,
    /// High test.
    G43,
    /// Transport.
    G70,
    /// Alloy.
    G80,
    /// Alloy.
    G100,
}

impl Grade {
    /// Every grade with the mark used in rig files.
    pub const WORDS: [(&'static str, Self); 5] = [
        ("30", Self::G30),
        ("43", Self::G43),
        ("70", Self::G70),
        ("80", Self::G80),
        ("100", Self::G100),
    ];

    /// The grade of a mark struck into the links. 49 CFR 393.108 takes one, two or three figures
    /// for the same grade: 7, 70 and 700.
    pub fn from_mark(mark: i64) -> Option<Self> {
        match mark {
            3 | 30 | 300 => Some(Self::G30),
            4 | 43 | 430 => Some(Self::G43),
            7 | 70 | 700 => Some(Self::G70),
            8 | 80 | 800 => Some(Self::G80),
            10 | 100 | 1000 => Some(Self::G100),
            _ => None,
        }
    }

    /// The grade as a number, as publications table it.
    pub fn number(self) -> i64 {
        match self {
            Self::G30 => 30,
            Self::G43 => 43,
            Self::G70 => 70,
            Self::G80 => 80,
            Self::G100 => 100,
        }
    }

    /// The mark used in rig files and sentences.
    pub fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, grade)| *grade == self)
            .map_or("", |(word, _)| word)
    }
}
