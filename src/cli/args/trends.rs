//! `hames logbook trends` as typed.

use crate::cli::args::logbook::day;
use crate::review::trend::Kind;
use chrono::NaiveDate;
use clap::ValueEnum;
use std::path::PathBuf;

/// Of which rig, what, from when on.
#[derive(Clone, Debug, Default, PartialEq, Eq, clap::Args)]
pub struct TrendsArgs {
    /// Logbooks or folders of trips to look in, instead of the logbook
    #[arg(value_name = "DIR")]
    pub(in crate::cli) paths: Vec<PathBuf>,
    /// Of this rig alone, by its id
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) rig: Option<String>,
    /// This alone
    #[arg(long, value_enum, value_name = "KIND")]
    pub(in crate::cli) what: Option<What>,
    /// By the readings from this day on, such as 2026-11-20; without it by those of the last half
    /// year, or as far back as each thing is looked at
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub(in crate::cli) since: Option<NaiveDate>,
    /// One JSON object a line
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// What is followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum What {
    /// Air in each trailer tire, told at 70 F
    TirePressure,
    /// Air in the truck's tires, by axle
    TruckTirePressure,
    /// Air in the spare
    SparePressure,
    /// Breakaway battery at rest
    BatteryRest,
    /// Breakaway battery under load
    BatteryLoad,
    /// Torque a wheel's nuts had lost when they were read again
    TorqueLoss,
    /// Each hub against the middle of the others
    HubTemperature,
    /// Deceleration by the trailer's brakes alone
    BrakePull,
    /// Depth of each tread
    Tread,
    /// Age of the tires, by the rig file of the newest trip
    TireAge,
}

impl What {
    /// The kind of series; nothing where it is none.
    pub(in crate::cli) const fn kind(self) -> Option<Kind> {
        match self {
            Self::TirePressure => Some(Kind::TirePressure),
            Self::TruckTirePressure => Some(Kind::TruckTirePressure),
            Self::SparePressure => Some(Kind::SparePressure),
            Self::BatteryRest => Some(Kind::BatteryRest),
            Self::BatteryLoad => Some(Kind::BatteryLoad),
            Self::TorqueLoss => Some(Kind::TorqueLoss),
            Self::HubTemperature => Some(Kind::HubTemperature),
            Self::BrakePull => Some(Kind::BrakePull),
            Self::Tread => Some(Kind::Tread),
            Self::TireAge => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_typed_has_the_word_that_json_has() {
        let mut kinds = Vec::new();
        for what in What::value_variants() {
            if let Some(kind) = what.kind() {
                let word = what.to_possible_value().unwrap();
                assert_eq!(word.get_name(), kind.key());
                kinds.push(kind);
            }
        }
        assert_eq!(kinds, Kind::ALL);
    }
}
