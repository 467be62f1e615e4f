//! What holds, stops or lights the trailer beside ball and chains: breakaway, jack and plug.

use crate::rig::{Given, Position};

/// The breakaway system.
#[derive(Clone, Debug, PartialEq)]
pub struct Breakaway {
    /// Where the switch sits on the trailer.
    pub switch: Position,
    /// Length of the lanyard.
    pub lanyard: Given,
    /// What the lanyard is clipped to on the truck.
    pub anchor: Anchor,
    /// The battery that applies the brakes.
    pub battery: Battery,
    /// How far the switch's pin moves before the brakes are on.
    pub pin_travel: Option<Given>,
    /// When the lanyard must pull, where the barn has said so.
    pub pulls: Option<Pulls>,
}

/// When a lanyard must pull the switch: the trade teaches both.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Pulls {
    /// Before the chains come tight, so that the brakes are on while they hold.
    #[default]
    BeforeChains,
    /// Only when the chains have gone too.
    AfterChains,
}

impl Pulls {
    /// Both with their words.
    pub const WORDS: [(&'static str, Self); 2] = [
        ("before-chains", Self::BeforeChains),
        ("after-chains", Self::AfterChains),
    ];

    /// The word used in rig files and on screens.
    pub fn word(self) -> &'static str {
        match self {
            Self::BeforeChains => "before-chains",
            Self::AfterChains => "after-chains",
        }
    }
}

/// A point on the truck that stays with the truck when the whole hitch leaves it.
#[derive(Clone, Debug, PartialEq)]
pub struct Anchor {
    /// Its name, as people point at it.
    pub name: String,
    /// What it is.
    pub kind: AnchorKind,
    /// Where it is.
    pub at: Position,
}

/// Anchors that are independent of every hitch part and of the chains. Chain, hook, ball, ball
/// mount, drawbar, receiver, pin and coupler are not in this list on purpose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AnchorKind {
    /// An eye bolted or welded to the truck's frame.
    FrameEye,
    /// A fixed eye in the bed, not the chain's.
    BedEye,
    /// A stake pocket of the bed.
    StakePocket,
}

impl AnchorKind {
    /// Every kind with its word.
    pub const WORDS: [(&'static str, Self); 3] = [
        ("frame-eye", Self::FrameEye),
        ("bed-eye", Self::BedEye),
        ("stake-pocket", Self::StakePocket),
    ];
}

/// The battery that applies the trailer's brakes on separation.
#[derive(Clone, Debug, PartialEq)]
pub struct Battery {
    /// How it is built, which decides what its resting volts mean.
    pub kind: BatteryKind,
    /// Capacity at the 20-hour rate.
    pub capacity: Given,
}

/// How a lead-acid battery is built.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BatteryKind {
    /// Flooded cells.
    Flooded,
    /// Absorbed glass mat.
    Agm,
}

impl BatteryKind {
    /// Every kind with its word.
    pub const WORDS: [(&'static str, Self); 2] = [("flooded", Self::Flooded), ("agm", Self::Agm)];
}

/// The tongue jack or landing legs.
#[derive(Clone, Debug, PartialEq)]
pub struct Jack {
    /// Least foot clearance on the road.
    pub clearance: Given,
}

/// The electrical plug and its cord.
#[derive(Clone, Debug, PartialEq)]
pub struct Plug {
    /// Kind as the trade names it, such as `7-way blade`.
    pub kind: String,
    /// Cord from its clip on the trailer to the plug.
    pub cord: Given,
    /// Where it plugs in on the truck.
    pub truck_end: Option<Position>,
    /// Where its clip is on the trailer.
    pub trailer_end: Option<Position>,
    /// The wire to the brakes.
    pub brake_wire: Option<BrakeWire>,
}

/// The wire that feeds the brake magnets.
#[derive(Clone, Debug, PartialEq)]
pub struct BrakeWire {
    /// Its AWG number.
    pub gauge: Given,
    /// Battery or plug to the magnets, one way.
    pub length: Given,
}
