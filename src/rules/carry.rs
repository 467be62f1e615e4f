//! What a walk leaves to the walks behind it.

/// Something that outlives the walk it was found on, until a later walk closes it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Carry {
    /// A wheel was off. Its nuts settle, and are read again at 10, 25 and 50 miles.
    WheelOff,
    /// Nuts were found below their torque. They are read again within 25 miles.
    TorqueLoose,
    /// A hub ran warmer than the others.
    HubWarm,
    /// The rig was left out of sight.
    RigLeft,
    /// A horse or other load came on or off: weights, and the gain for them, are others.
    LoadChanged,
    /// The breakaway battery is low.
    BatteryLow,
    /// The hitch was undone, or another person touched it.
    HitchTouched,
    /// Hard braking, a kerb or a hole in the road.
    HardKnock,
}

impl Carry {
    /// Every one with the word used in checklists and records.
    pub const WORDS: [(&'static str, Self); 8] = [
        ("wheel-off", Self::WheelOff),
        ("torque-loose", Self::TorqueLoose),
        ("hub-warm", Self::HubWarm),
        ("rig-left", Self::RigLeft),
        ("load-changed", Self::LoadChanged),
        ("battery-low", Self::BatteryLow),
        ("hitch-touched", Self::HitchTouched),
        ("hard-knock", Self::HardKnock),
    ];

    /// The word used in checklists and records.
    pub fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, carry)| *carry == self)
            .map_or("", |(word, _)| word)
    }

    /// What happened, as people say it.
    pub fn told(self) -> &'static str {
        match self {
            Self::WheelOff => "wheel was off",
            Self::TorqueLoose => "nuts found loose",
            Self::HubWarm => "hub ran warm",
            Self::RigLeft => "rig was left out of sight",
            Self::LoadChanged => "load changed",
            Self::BatteryLow => "breakaway battery low",
            Self::HitchTouched => "hitch undone or touched",
            Self::HardKnock => "hard braking or a knock",
        }
    }
}

/// One thing left: what, and at which part of the rig where it is one of several.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Carried {
    /// What was left.
    pub what: Carry,
    /// The part, by the id it has in steps, such as `left-front`.
    pub part: Option<String>,
}
