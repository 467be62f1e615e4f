//! The breakaway battery: what its volts at rest mean, and how long it holds the brakes.
//!
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
//! volt; these are common practice, no source. The glass-mat ones are entries of the table of
//! `soc_from_volts`; of the flooded ones its table makes 72 and 57 %.
//!
//! # Minutes
//!
//! The law asks for fifteen. No volts under the magnets' load can be reckoned that would show them:
//! that hangs on the age of the battery, and the least a checklist takes there is a rule of thumb.

use crate::figures::fineness::Fineness;
use crate::figures::gather::Gather;
use crate::figures::{Fact, Found, Input, Lacking, Today, Working, magnets};
use crate::mechanics::electrics::{
    BATTERY_HOLD, BatteryInCold, BatteryLoaded, Hold, PEUKERT, battery_cold, battery_hold,
};
use crate::rig::{BatteryKind, Rig};
use crate::units::Unit::{AmpHour, Fahrenheit, Minute};
use crate::units::{Exact, Quantity, Unit};

/// Hours over which the capacity in a rig file is rated.
const RATED_HOURS: f64 = 20.0;

/// The whole of a capacity, %.
const WHOLE_PCT: f64 = 100.0;

/// Minutes the breakaway battery, charged, holds this trailer's magnets; in the air of today where
/// that was read.
pub(crate) fn minutes(today: &Today<'_>) -> Result<Found, Lacking> {
    let held = held(today)?;
    let quantity = Fineness::new(Minute, (1, 1)).down(held.hold.hold_min)?;
    Ok(held.found(quantity))
}

/// Capacity on the label that would hold them for the fifteen minutes the law asks for.
pub(crate) fn needed_capacity(today: &Today<'_>) -> Result<Found, Lacking> {
    let held = held(today)?;
    let label_ah = held.hold.capacity_for_15_min_ah * WHOLE_PCT / held.share_pct;
    let quantity = Fineness::new(AmpHour, (1, 10)).up(label_ah)?;
    Ok(held.found(quantity))
}

/// How a battery holds, and from what that was reckoned.
struct Held {
    hold: Hold,
    share_pct: f64,
    inputs: Vec<Input>,
}

impl Held {
    fn found(self, quantity: Quantity) -> Found {
        Found {
            quantity,
            from: "a charged breakaway battery on this trailer's magnets".to_owned(),
            by_maker: false,
            working: Some(Working {
                page: &BATTERY_HOLD,
                inputs: self.inputs,
            }),
        }
    }
}

fn held(today: &Today<'_>) -> Result<Held, Lacking> {
    let battery = &today.rig.hitch.breakaway.battery;
    let (current_a, current_from) = magnets::current_to_hold(today.rig)?;
    let mut gather = Gather::new();
    let label_ah = gather.number(
        "capacity at the 20-hour rate",
        "hitch.breakaway.battery.capacity",
        Some(&battery.capacity),
        AmpHour,
    );
    let air = today.facts.get(Fact::AirTemperature).is_some();
    let temp_f = air.then(|| gather.fact(today, Fact::AirTemperature, Fahrenheit));
    let mut inputs = gather.done()?;
    let (capacity_ah, share_pct) = match temp_f {
        None => (label_ah, WHOLE_PCT),
        Some(temp_f) => {
            let cold = battery_cold(&BatteryInCold {
                capacity_ah: label_ah,
                temp_f,
            })?;
            inputs.push(input(
                "share of it left in that air",
                format!("{:.0} %", cold.share_pct),
                "a fifth off at freezing, from memory",
            ));
            (cold.cold_capacity_ah, cold.share_pct)
        }
    };
    inputs.push(input(
        "current of all magnets",
        format!("{current_a:.1} A"),
        &current_from,
    ));
    inputs.push(input(
        "Peukert's exponent",
        PEUKERT.to_string(),
        "assumed for a sound battery",
    ));
    let hold = battery_hold(&BatteryLoaded {
        capacity_ah,
        rated_hours: RATED_HOURS,
        current_a,
        peukert: PEUKERT,
    })?;
    Ok(Held {
        hold,
        share_pct,
        inputs,
    })
}

fn input(what: &str, value: String, from: &str) -> Input {
    Input {
        what: what.to_owned(),
        value,
        from: from.to_owned(),
    }
}

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
    use crate::figures::{Fact, Facts, Figure, Today};
    use crate::rig::demo::JUNIPER;
    use crate::rig::{BatteryKind, Rig};
    use crate::units::{Quantity, Unit};

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

    /// 12 Ah and 13.09 A: 20 h (12 / 261.8)^1.15 is 34.6 min. At 32 F, with 9.6 Ah, 26.7 min; and
    /// fifteen minutes ask for 5.80 Ah, on the label 7.25 Ah.
    #[test]
    fn a_cold_battery_holds_the_magnets_for_less_time() {
        let rig = &Rig::read(JUNIPER).unwrap();
        let shown = |facts: &Facts, figure: Figure| {
            let found = figure.of(Today { rig, facts }, None).unwrap();
            found.quantity.to_string()
        };
        let mild = Facts::default();
        assert_eq!(shown(&mild, Figure::BatteryMinutes), "34 min");
        assert_eq!(shown(&mild, Figure::BatteryNeededCapacity), "5.8 Ah");
        let frost =
            Facts::default().with(Fact::AirTemperature, Quantity::whole(32, Unit::Fahrenheit));
        assert_eq!(shown(&frost, Figure::BatteryMinutes), "26 min");
        assert_eq!(shown(&frost, Figure::BatteryNeededCapacity), "7.3 Ah");
    }

    #[test]
    fn a_trailer_without_brakes_asks_nothing_of_its_battery() {
        let mut juniper = Rig::read(JUNIPER).unwrap();
        for axle in &mut juniper.trailer.axles {
            axle.brake = None;
        }
        assert!(Figure::BatteryMinutes.of(&juniper, None).is_err());
    }
}
