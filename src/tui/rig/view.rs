//! The three views of a rig, and which of them shows a part best.

use crate::rig::{HitchKind, Place, Rig};
use crate::tui::rig::measure::Measures;
use crate::tui::rig::scene::Scene;
use crate::tui::rig::{above, closeup, side};

/// A way to look at a rig.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum View {
    /// The whole rig from its left.
    Side,
    /// The hitch from its left and a little above.
    Hitch,
    /// The trailer from above, its front to the left.
    Above,
}

impl View {
    /// Every view.
    pub const ALL: [Self; 3] = [Self::Side, Self::Hitch, Self::Above];

    /// The name used in titles and file names.
    pub fn word(self) -> &'static str {
        match self {
            Self::Side => "side",
            Self::Hitch => "hitch",
            Self::Above => "above",
        }
    }

    /// The view that shows a part of such a rig best.
    ///
    /// A gooseneck's landing leg stands far behind its ball, out of the close-up.
    pub fn of(place: Place, kind: HitchKind) -> Self {
        match place {
            Place::Jack if kind == HitchKind::Gooseneck => Self::Side,
            Place::Cab | Place::Truck | Place::Frame | Place::Box => Self::Side,
            Place::Receiver
            | Place::Drawbar
            | Place::Ball
            | Place::Coupler
            | Place::Chains
            | Place::Lanyard
            | Place::Battery
            | Place::Jack
            | Place::Cord => Self::Hitch,
            Place::Lamps | Place::Tires | Place::Wheels | Place::Brakes | Place::Chocks => {
                Self::Above
            }
        }
    }

    /// What this view shows of a rig.
    pub fn scene(self, rig: &Rig) -> Scene {
        self.drawn(rig, &Measures::of(rig))
    }

    /// The same while no horse is aboard; the rig stands as its file says.
    pub(super) fn scene_unloaded(self, rig: &Rig) -> Scene {
        self.drawn(rig, &Measures::of(rig).without_horses())
    }

    fn drawn(self, rig: &Rig, measures: &Measures) -> Scene {
        match self {
            Self::Side => side::scene(rig, measures),
            Self::Hitch => closeup::scene(measures),
            Self::Above => above::scene(rig, measures),
        }
    }
}
