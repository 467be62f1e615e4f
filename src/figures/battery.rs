//! # Resting volts of a lead-acid battery
//!
//! A battery that rests, neither charged nor loaded for some hours, shows its charge by its volts.
//! Glass-mat cells rest higher than flooded ones.
//!
//! | charge | flooded | glass mat |
//! |---|---|---|
//! | three quarters | 12.4 V | 12.6 V |
//! | half | 12.2 V | 12.3 V |
//!
//! Valid for 12 V batteries near room temperature. Tables of battery makers differ by a tenth of a
//! volt; these are common practice, no source.

use crate::figures::Found;
use crate::rig::{BatteryKind, Rig};
use crate::units::{Exact, Quantity, Unit};

/// Resting volts of the breakaway battery at three quarters of its charge.
pub(crate) fn three_quarters(rig: &Rig) -> Option<Found> {
    tabled(rig, 124, 126, "three quarters")
}

/// Resting volts of the breakaway battery at half its charge.
pub(crate) fn half(rig: &Rig) -> Option<Found> {
    tabled(rig, 122, 123, "half")
}

fn tabled(rig: &Rig, flooded: i128, glass_mat: i128, charge: &str) -> Option<Found> {
    let (tenths, kind) = match rig.hitch.breakaway.battery.kind {
        BatteryKind::Flooded => (flooded, "flooded"),
        BatteryKind::Agm => (glass_mat, "glass-mat"),
    };
    Some(Found {
        quantity: Quantity::new(Exact::ratio(tenths, 10)?, Unit::Volt),
        from: format!("table for a {kind} battery at {charge} charge"),
        by_maker: false,
        working: None,
    })
}

#[cfg(test)]
mod tests {
    use crate::figures::Figure;
    use crate::rig::demo::JUNIPER;
    use crate::rig::{BatteryKind, Rig};

    #[test]
    fn a_glass_mat_battery_rests_higher_than_a_flooded_one_of_the_same_charge() {
        for (kind, three_quarters, half) in [
            (BatteryKind::Agm, "12.6 V", "12.3 V"),
            (BatteryKind::Flooded, "12.4 V", "12.2 V"),
        ] {
            let mut juniper = Rig::read(JUNIPER).unwrap();
            juniper.hitch.breakaway.battery.kind = kind;
            let volts = |figure: Figure| figure.of(&juniper, None).unwrap().quantity.to_string();
            assert_eq!(volts(Figure::BatteryThreeQuarters), three_quarters);
            assert_eq!(volts(Figure::BatteryHalf), half);
        }
    }
}
