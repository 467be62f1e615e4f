//! What is known of a figure before any rig is: which facts of the day it rests on, and whether
//! every rig file has it. The linter reads both.

use crate::figures::{Fact, Figure};

impl Figure {
    /// The facts it moves with.
    pub fn rests_on(self) -> &'static [Fact] {
        match self {
            Self::AirTemperature
            | Self::BatteryMinutes
            | Self::BatteryNeededCapacity
            | Self::BatteryRestLeast
            | Self::HeatHumidityCare
            | Self::HeatHumidityDanger
            | Self::TireColdToday => &[Fact::AirTemperature],
            Self::WheelRecheckAt => &[Fact::Odometer],
            Self::LevelRearHigh
            | Self::LevelRearHighest
            | Self::LevelRearLow
            | Self::LevelRearLowest => &[Fact::FrontMark],
            Self::TongueShareRead => &[Fact::TongueWeight, Fact::TrailerWeight],
            Self::MarginDownward => &[Fact::TongueWeight],
            Self::MarginTotal | Self::TongueLeast | Self::TongueMost | Self::TrailerRead => {
                &[Fact::TrailerWeight]
            }
            _ => &[],
        }
    }

    /// The facts without which it is not known. The others only make it truer.
    pub fn needs(self) -> &'static [Fact] {
        match self {
            Self::BatteryMinutes
            | Self::BatteryNeededCapacity
            | Self::BatteryRestLeast
            | Self::MarginDownward
            | Self::MarginTotal => &[],
            _ => self.rests_on(),
        }
    }

    /// Whether it is read off a field that every rig file has, so that it is never missing.
    pub fn is_on_every_rig(self) -> bool {
        matches!(
            self,
            Self::AxleCount
                | Self::AxleGawr
                | Self::BallDiameter
                | Self::BallTotal
                | Self::BatteryCapacity
                | Self::BatteryHalf
                | Self::BatteryThreeQuarters
                | Self::BrakesAsked
                | Self::ChainLength
                | Self::CordLength
                | Self::CouplerDiameter
                | Self::CouplerTotal
                | Self::DialIndicatorCount
                | Self::HitchIsGooseneck
                | Self::HorseCount
                | Self::HorseWeight
                | Self::HygrometerCount
                | Self::JackClearance
                | Self::LanyardLength
                | Self::LevelGap
                | Self::MagnetCount
                | Self::MagnetsMetered
                | Self::ReceiverCarryingDownward
                | Self::ReceiverCarryingTotal
                | Self::SpareCount
                | Self::ThermometerCount
                | Self::TireCold
                | Self::TireMaxPressure
                | Self::TrailerGross
                | Self::TrailerGvwr
                | Self::TreadGaugeCount
                | Self::TruckGawrFront
                | Self::TruckGawrRear
                | Self::TruckGcwr
                | Self::TruckGvwr
                | Self::TruckPayload
                | Self::TruckTireCold
                | Self::WeakestDownward
                | Self::WeakestTotal
                | Self::WheelStuds
                | Self::WheelTorque
                | Self::WheelTorqueHigh
                | Self::WheelTorqueLow
        )
    }
}

#[cfg(test)]
mod tests {
    use crate::figures::{Each, Fact, Facts, Figure, Found, NotKnown, Today};
    use crate::rig::Rig;
    use crate::rig::demo::{JUNIPER, MESQUITE};
    use crate::units::{Quantity, Unit};

    fn rigs() -> Vec<Rig> {
        let read = |text| Rig::read(text).unwrap();
        vec![read(JUNIPER), read(MESQUITE)]
    }

    fn found(figure: Figure, rig: &Rig, facts: &Facts) -> Result<Found, NotKnown> {
        let items = figure.each().map(|each: Each| each.items(rig));
        let item = items.as_ref().and_then(|items| items.first());
        figure.of(Today { rig, facts }, item)
    }

    fn everything() -> Facts {
        let known = |fact: Fact| match fact {
            Fact::AirTemperature => Quantity::whole(41, Unit::Fahrenheit),
            Fact::FrontMark => Quantity::whole(18, Unit::Inch),
            Fact::Humidity => Quantity::whole(62, Unit::Percent),
            Fact::Odometer => Quantity::whole(48_210, Unit::Mile),
            Fact::TongueWeight => Quantity::whole(620, Unit::Pound),
            Fact::TrailerWeight => Quantity::whole(5_600, Unit::Pound),
        };
        let facts = Fact::WORDS.map(|(_, fact)| fact);
        facts.into_iter().fold(Facts::default(), |facts, fact| {
            facts.with(fact, known(fact))
        })
    }

    #[test]
    fn a_figure_moves_with_the_facts_it_is_listed_to_rest_on_and_with_no_other() {
        for rig in &rigs() {
            for figure in Figure::ALL {
                let (before, after) = (
                    found(figure, rig, &Facts::default()),
                    found(figure, rig, &everything()),
                );
                let listed = figure.rests_on();
                if let Err(NotKnown::Unread(_, fact)) = &before {
                    assert!(
                        figure.needs().contains(fact),
                        "{} needs {}",
                        figure.word(),
                        fact.word()
                    );
                }
                if before.is_ok() {
                    assert!(figure.needs().is_empty(), "{}", figure.word());
                }
                if listed.is_empty() {
                    assert_eq!(before, after, "{}", figure.word());
                }
            }
        }
    }

    #[test]
    fn a_figure_said_to_be_on_every_rig_is_on_the_bumper_pull_and_on_the_gooseneck() {
        for rig in &rigs() {
            for figure in Figure::ALL.into_iter().filter(|one| one.is_on_every_rig()) {
                let found = found(figure, rig, &Facts::default());
                assert!(found.is_ok(), "{}: {found:?}", figure.word());
            }
        }
    }
}
