//! What is followed over the trips of a rig: of each kind its words, its unit, and on which side it
//! is bad.

use crate::mechanics::tires::TOLD_AT_F;
use crate::mechanics::trends::{BadSide, MONTH_DAYS};
use crate::review::trend::normal;
use crate::units::{Quantity, Unit};

/// What is followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Kind {
    /// Air in a trailer tire, told at one temperature.
    TirePressure,
    /// Air in the truck's tires, by axle.
    TruckTirePressure,
    /// Air in the spare.
    SparePressure,
    /// Breakaway battery at rest.
    BatteryRest,
    /// Breakaway battery under load.
    BatteryLoad,
    /// What a wheel's nuts lost since they were last read.
    TorqueLoss,
    /// How much warmer a hub ran than the middle of the others.
    HubTemperature,
    /// Deceleration by the trailer's brakes alone.
    BrakePull,
    /// Depth of a tread.
    Tread,
}

/// In what span of time a slope is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Per {
    /// 30 days.
    Month,
    /// 365 days.
    Year,
}

/// What there is to know of a kind, apart from where its readings come from.
struct Facts {
    key: &'static str,
    title: &'static str,
    unit: Unit,
    /// The finest step of a value, and of a slope.
    steps: [(i128, i128); 2],
    bad: BadSide,
    per: Per,
    /// How far back from the newest reading.
    days: Option<i64>,
}

/// Half a year: what leaked or ran warm before that tells little of today. Ours, no source.
const HALF_A_YEAR: Option<i64> = Some(182);

/// A year.
const A_YEAR: Option<i64> = Some(365);

impl Kind {
    /// Each, in the order they are told.
    pub const ALL: [Self; 9] = [
        Self::TirePressure,
        Self::TruckTirePressure,
        Self::SparePressure,
        Self::BatteryRest,
        Self::BatteryLoad,
        Self::TorqueLoss,
        Self::HubTemperature,
        Self::BrakePull,
        Self::Tread,
    ];

    /// The word in commands and JSON.
    pub const fn key(self) -> &'static str {
        self.facts().key
    }

    /// What it is called: `Trailer tire`.
    pub const fn title(self) -> &'static str {
        self.facts().title
    }

    /// The unit its values are told in; of a hub a difference.
    pub const fn unit(self) -> Unit {
        self.facts().unit
    }

    /// On which side of its limit it is bad.
    pub(super) const fn bad(self) -> BadSide {
        self.facts().bad
    }

    /// A drawn value, told to the finest step of its values.
    pub fn nearest(self, value: f64) -> Option<Quantity> {
        normal::nearest(value, self.step(), self.unit())
    }

    /// In what span of time its slope is told.
    pub const fn per(self) -> Per {
        self.facts().per
    }

    /// The finest step of its values.
    pub const fn step(self) -> (i128, i128) {
        let [value, _] = self.facts().steps;
        value
    }

    /// The finest step of its slope.
    pub const fn slope_step(self) -> (i128, i128) {
        let [_, slope] = self.facts().steps;
        slope
    }

    /// How many days back from its newest reading the slope is told by, where no day was named.
    pub const fn days(self) -> Option<i64> {
        self.facts().days
    }

    /// Whether what is put right is another thing from then on, with a slope of its own: a new
    /// battery. A tire that is filled goes on leaking.
    pub const fn begins_anew(self) -> bool {
        matches!(self, Self::BatteryRest | Self::BatteryLoad)
    }

    /// Whether it is the air in a tire.
    pub const fn is_air(self) -> bool {
        matches!(
            self,
            Self::TirePressure | Self::TruckTirePressure | Self::SparePressure
        )
    }

    /// The air its values are told at, where they are brought to one.
    pub fn told_at(self) -> Option<Quantity> {
        let air = normal::nearest(TOLD_AT_F, (1, 1), Unit::Fahrenheit);
        air.filter(|_| self.is_air())
    }

    const fn facts(self) -> Facts {
        use BadSide::{Above, Below};
        match self {
            Self::TirePressure => Facts::air("tire-pressure", "Trailer tire"),
            Self::TruckTirePressure => Facts::air("truck-tire-pressure", "Truck tires"),
            Self::SparePressure => Facts::air("spare-pressure", "Spare tire"),
            Self::BatteryRest => Facts::volts("battery-rest", "Battery at rest"),
            Self::BatteryLoad => Facts::volts("battery-load", "Battery under load"),
            Self::TorqueLoss => Facts {
                key: "torque-loss",
                title: "Torque lost",
                unit: Unit::Percent,
                steps: [(1, 10), (1, 10)],
                bad: Above,
                per: Per::Month,
                days: A_YEAR,
            },
            Self::HubTemperature => Facts {
                key: "hub-temperature",
                title: "Hub over others",
                unit: Unit::Fahrenheit,
                steps: [(1, 10), (1, 10)],
                bad: Above,
                per: Per::Month,
                days: HALF_A_YEAR,
            },
            Self::BrakePull => Facts {
                key: "brake-pull",
                title: "Brake pull",
                unit: Unit::StandardGravity,
                steps: [(1, 1000), (1, 1000)],
                bad: Below,
                per: Per::Year,
                days: A_YEAR,
            },
            Self::Tread => Facts {
                key: "tread",
                title: "Tread",
                unit: Unit::Inch,
                steps: [(1, 1000), (1, 1000)],
                bad: Below,
                per: Per::Year,
                days: None,
            },
        }
    }
}

impl Facts {
    const fn air(key: &'static str, title: &'static str) -> Self {
        Self {
            key,
            title,
            unit: Unit::Psi,
            steps: [(1, 10), (1, 100)],
            bad: BadSide::Below,
            per: Per::Month,
            days: HALF_A_YEAR,
        }
    }

    const fn volts(key: &'static str, title: &'static str) -> Self {
        Self {
            key,
            title,
            unit: Unit::Volt,
            steps: [(1, 100), (1, 1000)],
            bad: BadSide::Below,
            per: Per::Month,
            days: None,
        }
    }
}

impl Per {
    /// How many days it has.
    pub const fn days(self) -> f64 {
        match self {
            Self::Month => MONTH_DAYS,
            Self::Year => 365.0,
        }
    }

    /// What it is called.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Month => "month",
            Self::Year => "year",
        }
    }
}
