//! How often a service is due: as the rig's maker has it or, where the rig file has no word of
//! that, as the trade does.
//!
//! None of these is a law for a private horse trailer; a business is held to an inspection every
//! 12 months by 49 CFR 396.17, which takes more than this list.

use crate::rig::{Interval, Rig, ServiceKind, Span};
use crate::rules::{Authority, Basis};
use crate::units::{Quantity, Unit};

/// How often something is due, and whose word that is.
#[derive(Clone, Debug, PartialEq)]
pub struct Every {
    /// By time.
    pub time: Option<Span>,
    /// By distance.
    pub distance: Option<Quantity>,
    /// Whose word it is.
    pub basis: Basis,
}

const NO_SOURCE: &str = "common practice, no source";

/// How often the trade does it.
pub fn usual(what: ServiceKind) -> Every {
    const YEAR: Option<Span> = Some(Span::Months(12));
    let (time, miles, source) = match what {
        ServiceKind::WheelBearings => (
            YEAR,
            Some(12_000),
            "axle makers' manuals, read in a copy; some hubs that are greased through ask for 6 \
             months or 6000 miles, so read your own",
        ),
        ServiceKind::BrakeAdjustment => (
            None,
            Some(3_000),
            "a trailer owner's manual, read in a copy; new shoes also after the first 200 miles",
        ),
        ServiceKind::BrakeInspection => (
            YEAR,
            Some(12_000),
            "a trailer owner's manual, read in a copy",
        ),
        ServiceKind::Floor
        | ServiceKind::Frame
        | ServiceKind::Tires
        | ServiceKind::Wiring
        | ServiceKind::Coupler
        | ServiceKind::Doors
        | ServiceKind::Chains
        | ServiceKind::EmergencyKit
        | ServiceKind::PressureGauge => (YEAR, None, NO_SOURCE),
        ServiceKind::BreakawayBattery => (
            Some(Span::Days(90)),
            None,
            "a trailer owner's manual and winter storage advice, read in a copy",
        ),
        ServiceKind::TorqueWrench => (
            YEAR,
            None,
            "ISO 6789, from memory: 12 months or 5000 clicks, and after a fall or an overload",
        ),
        ServiceKind::TirePressure => (
            Some(Span::Days(30)),
            None,
            "survey of US horse-trailer wrecks, Clemson, 2006, read in a copy: monthly at least",
        ),
        ServiceKind::Weighing => (
            YEAR,
            None,
            "common practice, no source; and whenever truck, trailer, hitch or load changes",
        ),
    };
    Every {
        time,
        distance: miles.map(|miles| Quantity::whole(miles, Unit::Mile)),
        basis: Basis {
            authority: Authority::Default,
            source: source.to_owned(),
        },
    }
}

impl Every {
    /// As the rig file has it, or as the trade does.
    pub(super) fn of(rig: &Rig, what: ServiceKind) -> Self {
        let own = rig.service(what).and_then(|service| service.every.as_ref());
        own.map_or_else(|| usual(what), Self::filed)
    }

    fn filed(interval: &Interval) -> Self {
        let authority = if interval.source.by.is_makers() {
            Authority::Plate
        } else {
            Authority::Barn
        };
        Self {
            time: interval.time,
            distance: interval.distance.clone(),
            basis: Basis {
                authority,
                source: interval.source.told(),
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::demo::JUNIPER;

    #[test]
    fn every_service_has_an_interval_and_says_whose_word_it_is() {
        for (word, what) in ServiceKind::WORDS {
            let every = usual(what);
            assert!(every.time.is_some() || every.distance.is_some(), "{word}");
            assert!(!every.basis.source.is_empty(), "{word}");
        }
    }

    #[test]
    fn the_makers_interval_stands_before_the_trades() {
        let battery = |text: &str| {
            let rig = Rig::read(text).unwrap();
            Every::of(&rig, ServiceKind::BreakawayBattery).basis
        };
        let told = battery(JUNIPER);
        assert_eq!(told.authority, Authority::Plate);
        assert_eq!(told.source, "manual, leaflet in the battery's box");
        let guessed = JUNIPER.replace("days: 90, by: manual", "days: 90, by: estimate");
        assert_eq!(battery(&guessed).authority, Authority::Barn);
        let silent = JUNIPER.replace("    every: { days: 90, by: manual", "    # every: {");
        assert_eq!(battery(&silent).authority, Authority::Default);
    }
}
