//! The resting volts at which the breakaway battery still holds this trailer's magnets for the
//! fifteen minutes the law asks for: its charge, cold and all, against what the magnets draw.

use crate::figures::{Found, Input, Lacking, Today, Working, battery};
use crate::mechanics::electrics::{
    Charge, Chemistry, RestingVolts, SOC_FROM_VOLTS, soc_from_volts,
};
use crate::rig::BatteryKind;
use crate::units::Unit::{AmpHour, Volt};
use crate::units::{Exact, Quantity};

/// Hundredths of a volt from which on, and up to which, a resting battery is sought.
const SOUGHT: (i128, i128) = (1150, 1320);

/// Its step: no meter kept with a rig tells a smaller one.
const STEP: usize = 5;

/// The least volts at rest, up to the next twentieth.
pub(crate) fn least(today: &Today<'_>) -> Result<Found, Lacking> {
    let battery = &today.rig.hitch.breakaway.battery;
    let needed = battery::needed_capacity(today)?;
    let amp_hours = |quantity: &Quantity| quantity.in_unit(AmpHour)?.value.to_f64();
    let share = amp_hours(&needed.quantity).zip(amp_hours(&battery.capacity.quantity));
    let charge_pct = share.map_or(f64::INFINITY, |(needed, label)| 100.0 * needed / label);
    let kind = match battery.kind {
        BatteryKind::Agm => Chemistry::Agm,
        BatteryKind::Flooded => Chemistry::Flooded,
    };
    let shows = |hundredths: &i128| -> Option<Quantity> {
        let volts = Exact::ratio(*hundredths, 100)?;
        let volts_read = volts.to_f64()?;
        let told = soc_from_volts(&RestingVolts {
            volts: volts_read,
            kind,
        });
        let enough =
            matches!(told, Ok(Charge { soc_pct: Some(charge), .. }) if charge >= charge_pct);
        enough.then(|| Quantity::new(volts, Volt))
    };
    let least = (SOUGHT.0..=SOUGHT.1)
        .step_by(STEP)
        .find_map(|at| shows(&at));
    let Some(quantity) = least.filter(|_| charge_pct <= 100.0) else {
        return Err(Lacking::NoNumber(format!(
            "even full this battery does not hold the trailer's magnets for fifteen minutes; that \
             takes {} on its label, so fit a larger one",
            needed.quantity
        )));
    };
    let mut inputs = needed
        .working
        .map_or_else(Vec::new, |working| working.inputs);
    inputs.push(Input {
        what: "capacity on the label that would hold them fifteen minutes".to_owned(),
        value: needed.quantity.to_string(),
        from: "reckoned from the above, by Peukert's law".to_owned(),
    });
    Ok(Found {
        quantity,
        from: format!(
            "{charge_pct:.0} % of its charge holds this trailer's magnets for fifteen minutes"
        ),
        by_maker: false,
        working: Some(Working {
            page: &SOC_FROM_VOLTS,
            inputs,
        }),
    })
}

#[cfg(test)]
mod tests {
    use crate::figures::{Fact, Facts, Figure, NotKnown, Today};
    use crate::rig::Rig;
    use crate::rig::demo::JUNIPER;
    use crate::units::{Quantity, Unit};

    fn volts(rig: &Rig, air: Option<i64>) -> Result<String, NotKnown> {
        let facts = air.map_or_else(Facts::default, |air| {
            Facts::default().with(Fact::AirTemperature, Quantity::whole(air, Unit::Fahrenheit))
        });
        let found = Figure::BatteryRestLeast.of(Today { rig, facts: &facts }, None)?;
        Ok(found.quantity.to_string())
    }

    /// 5.8 of 12 Ah is 48 % and rests, glass mat, at 12.28 V; 7.3 of 12 Ah, in frost, is 61 % and
    /// rests at 12.43 V.
    #[test]
    fn a_battery_has_to_rest_higher_in_the_cold() {
        let rig = Rig::read(JUNIPER).unwrap();
        assert_eq!(volts(&rig, None).unwrap(), "12.3 V");
        assert_eq!(volts(&rig, Some(32)).unwrap(), "12.45 V");
    }

    #[test]
    fn of_a_battery_too_small_for_its_magnets_no_volts_are_enough() {
        let small = JUNIPER.replace("{ is: 12 Ah", "{ is: 5 Ah");
        let no = volts(&Rig::read(&small).unwrap(), None).unwrap_err();
        assert!(no.to_string().contains("fit a larger one"), "{no}");
    }
}
