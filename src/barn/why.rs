//! Why each policy's default is what it is, what the other side says, and what holds either way.

use crate::barn::Policy;

/// The grounds of a policy.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Why {
    /// What is decided, as a clause.
    pub asks: &'static str,
    /// Why the default is the default.
    pub default: Said,
    /// What those say who hold with the other choice.
    pub other: Said,
    /// What neither side gives up.
    pub either_way: &'static str,
}

/// An argument, with whose word it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Said {
    /// The argument, as sentences.
    pub says: &'static str,
    /// Where it is written, or that there is no source.
    pub source: &'static str,
}

impl Policy {
    /// Its grounds.
    pub fn why(self) -> Why {
        match self {
            Self::Lanyard => LANYARD,
            Self::Chains => CHAINS,
            Self::Tie => TIE,
            Self::TirePressure => TIRE_PRESSURE,
            Self::Anchor => ANCHOR,
            Self::GooseneckChains => GOOSENECK_CHAINS,
            Self::Level => LEVEL,
            Self::RoadSide => ROAD_SIDE,
        }
    }
}

const NO_SOURCE: &str = "common practice, no source";

const LANYARD: Why = Why {
    asks: "when the breakaway lanyard pulls, should the hitch let go",
    default: Said {
        says: "The brakes come on when the hitch lets go, while the chains still guide the \
               trailer, and it trails straight.",
        source: NO_SOURCE,
    },
    other: Said {
        says: "Brakes that lock on a trailer still hanging in its chains make no controlled stop. \
               The chains act first, and the lanyard only when the trailer is lost.",
        source: NO_SOURCE,
    },
    either_way: "The lanyard reaches in the sharpest turn, hangs on a point that outlives the \
                 hitch, and is not threaded through a chain.",
};

const CHAINS: Why = Why {
    asks: "what the two safety chains must hold",
    default: Said {
        says: "A chain may miss its eye or break at the first jerk, and then one is left. Each \
               holds the trailer alone.",
        source: "New Hampshire RSA 266:63; SAE J684, class 4",
    },
    other: Said {
        says: "The two are counted together. The federal rule is written for full trailers.",
        source: "49 CFR 393.70(d), FMCSA interpretation, question 2",
    },
    either_way: "The law where the trip runs comes first where it asks for more.",
};

const TIE: Why = Why {
    asks: "in which order a horse is tied and shut in",
    default: Said {
        says: "A horse that is tied with nothing behind it can run back and fight the rope. US \
               clinicians and owners close bar or door first.",
        source: NO_SOURCE,
    },
    other: Said {
        says: "The horse is tied with slack first, so that it stands while the bar is closed, and \
               a second practised person is there throughout.",
        source: "manual of a UK trailer maker, read in a copy",
    },
    either_way: "Where the horse is tied first, a second person stands at the bar already. When \
                 unloading, it is untied before bar or door is opened.",
};

const TIRE_PRESSURE: Why = Why {
    asks: "by what the cold pressure of trailer tires is set",
    default: Said {
        says: "The load of a wheel is seldom known, and the placard's pressure carries the most it \
               may be. There is nothing to gain in less.",
        source: "trailer and tire makers' guidelines, read in copies",
    },
    other: Said {
        says: "A tire fuller than its load needs rides hard and wears in the middle. Who has \
               weighed the wheel can go by the tire maker's load table.",
        source: NO_SOURCE,
    },
    either_way: "Never below the table for the load weighed and a tenth more, and never above what \
                 the sidewall states.",
};

const ANCHOR: Why = Why {
    asks: "where on the truck the breakaway lanyard may hang",
    default: Said {
        says: "What hangs on hitch, ball, ball mount or chain leaves with it, and nothing pulls the \
               pin.",
        source: "makers' instructions for breakaway switches, from memory",
    },
    other: Said {
        says: "It may hang on a point of the towbar made for it, or in one loop round the neck of a \
               fixed ball, where the makers of both allow it.",
        source: "European caravan practice, from memory",
    },
    either_way: "Never on a chain, on a chain's hook, or on a ball that comes off.",
};

const GOOSENECK_CHAINS: Why = Why {
    asks: "where a gooseneck needs safety chains",
    default: Said {
        says: "Ball lock and coupler can fail on a gooseneck as on any other hitch.",
        source: "makers and insurers ask for chains, from memory",
    },
    other: Said {
        says: "The federal rule speaks of keeping a drawbar from dropping, which a gooseneck does \
               not have, and some state codes leave goosenecks out.",
        source: "49 CFR 393.70(d), from memory",
    },
    either_way: "The law is looked up for every state on the way.",
};

const LEVEL: Why = Why {
    asks: "how far off level the trailer may stand",
    default: Said {
        says: "What counts is that no axle and no tire comes to carry more than it may, and that \
               follows from the springs, the ratings and the load of this rig.",
        source: "statics, any textbook",
    },
    other: Said {
        says: "Half a degree can be seen with a level, and needs no data of the axles.",
        source: NO_SOURCE,
    },
    either_way: "Where the rig file does not say enough, half a degree stands.",
};

const ROAD_SIDE: Why = Why {
    asks: "on which side of the road traffic keeps where the barn hauls",
    default: Said {
        says: "Traffic keeps right in most of the world, North America among it. A horse alone, or \
               the heavier of two, stands on the crown side, so that the rig does not lean to the \
               ditch.",
        source: "trailer makers' manuals, read in copies",
    },
    other: Said {
        says: "Traffic keeps left in the United Kingdom, Ireland, Australia and New Zealand, and \
               the crown side is the rig's right. Some drivers hold that a road's crown is too \
               slight to matter; none was found who loads the edge side.",
        source: NO_SOURCE,
    },
    either_way: "It is where the barn hauls that decides, not what it is used to.",
};
