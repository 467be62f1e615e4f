//! What a cold gauge should show today, and which pressure the load asks for.

use crate::figures::fineness::Fineness;
use crate::figures::gather::Gather;
use crate::figures::tire_capacity::{entries, exponent, for_trailer, note_table, sidewall};
use crate::figures::{Fact, Found, Item, Lacking, Today, Working, attitude};
use crate::mechanics::NoNumber;
use crate::mechanics::tires::{
    AirChange, AtLoad, LOWEST_PSI, LoadOnRow, LoadStatus, POWER_LAW_OVER_PCT, PressureNeeded,
    TIRE_PRESSURE_BY_TABLE, TIRE_PRESSURE_FOR_LOAD, TIRE_PRESSURE_SHIFT, tire_pressure_by_table,
    tire_pressure_for_load, tire_pressure_shift,
};
use crate::rig::Tire;
use crate::units::Unit::{Fahrenheit, Foot, Pound, Psi};

/// How much heavier than reckoned a tire is taken: horses lean and stand to one side. Common
/// practice, no source.
const HEAVIER: f64 = 1.1;

/// A pressure as a gauge is read.
const PSI: Fineness = Fineness::new(Psi, (1, 1));

/// The least cold pressure at which a tire may carry its load and a tenth more, up to a whole psi.
///
/// It can be less than the placard asks for, and then the placard counts.
pub(crate) fn needed(today: &Today<'_>, wheel: &Item) -> Result<Found, Lacking> {
    let rig = today.rig;
    let axle = rig.trailer.axles.get(wheel.index).ok_or(Lacking::Absent)?;
    let load = attitude::tire_load(rig, wheel)?;
    let mut gather = Gather::new();
    let load_lb = gather.value("load of the tire", &load.quantity, &load.from, Pound);
    gather.note(
        "taken heavier",
        format!("{HEAVIER} times"),
        "common practice, no source",
    );
    let needed = pressure(&mut gather, &axle.tire, load_lb * HEAVIER);
    let inputs = gather.done()?;
    let needed = needed?;
    let psi = match needed.status {
        LoadStatus::Ok => needed.pressure_psi.ok_or(Lacking::Absent)?,
        LoadStatus::BelowPublishedPressures => LOWEST_PSI,
        LoadStatus::AboveCapacity => {
            return Err(Lacking::NoNumber(format!(
                "{}, and a tenth more, is above what this tire may carry at any pressure; it \
                 must carry less",
                load.quantity
            )));
        }
    };
    let page = match &axle.tire.table {
        Some(_) => &TIRE_PRESSURE_BY_TABLE,
        None => &TIRE_PRESSURE_FOR_LOAD,
    };
    Ok(Found {
        quantity: PSI.up(psi)?,
        from: format!("for {} and a tenth more", load.quantity),
        by_maker: false,
        working: Some(Working { page, inputs }),
    })
}

fn pressure(gather: &mut Gather, tire: &Tire, load_lb: f64) -> Result<PressureNeeded, NoNumber> {
    // What one pound on the sidewall is worth on a trailer.
    let load_lb = load_lb / for_trailer(tire, 1.0)?;
    if let Some(table) = &tire.table {
        note_table(gather, table);
        let row = entries(table);
        return tire_pressure_by_table(&LoadOnRow { load_lb, row });
    }
    let (ref_load_lb, ref_psi) = sidewall(gather, tire);
    let strict = load_lb / (1.0 - POWER_LAW_OVER_PCT / 100.0);
    // At its own pressure a tire carries its own load: nothing is taken off there.
    let load_lb = if load_lb <= ref_load_lb {
        strict.min(ref_load_lb)
    } else {
        load_lb
    };
    tire_pressure_for_load(&AtLoad {
        load_lb,
        ref_psi,
        ref_load_lb,
        exponent: exponent(tire),
    })
}

/// What a gauge should show today, cold, if no air was lost since the tire was set: in the air of
/// today, at the place it was set.
///
/// It tells a leak from a cold morning, and is no target: the placard's pressure is asked for cold
/// at any temperature, so a tire that reads below it is filled, leak or not.
pub(crate) fn cold_today(today: &Today<'_>, tire: &Tire) -> Result<Found, Lacking> {
    let mut gather = Gather::new();
    let set = tire.set.as_ref();
    let gauge_psi = gather.number(
        "pressure it was set to",
        "trailer.axles.tire.set.pressure",
        set.map(|set| &set.pressure),
        Psi,
    );
    let temp_f = gather.number(
        "air when it was set",
        "trailer.axles.tire.set.air",
        set.map(|set| &set.air),
        Fahrenheit,
    );
    let place = set.and_then(|set| set.altitude.as_ref());
    let altitude_ft = place.map_or(0.0, |place| {
        let field = "trailer.axles.tire.set.altitude";
        gather.number("height of the place", field, Some(place), Foot)
    });
    let new_temp_f = gather.fact(today, Fact::AirTemperature, Fahrenheit);
    let inputs = gather.done()?;
    let shifted = tire_pressure_shift(&AirChange {
        gauge_psi,
        temp_f,
        new_temp_f,
        altitude_ft,
        new_altitude_ft: None,
    })?;
    Ok(Found {
        quantity: PSI.nearest(shifted.gauge_psi)?,
        from: "as it was set, in the air of today, no air lost".to_owned(),
        by_maker: false,
        working: Some(Working {
            page: &TIRE_PRESSURE_SHIFT,
            inputs,
        }),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::{Each, Facts, Figure, NotKnown};
    use crate::rig::Rig;
    use crate::rig::demo::JUNIPER;
    use crate::units::Quantity;

    fn of(rig: &Rig, figure: Figure, air: Option<i64>) -> Result<String, NotKnown> {
        let facts = air.map_or_else(Facts::default, |degrees| {
            let air = Quantity::whole(degrees, Fahrenheit);
            Facts::default().with(Fact::AirTemperature, air)
        });
        let item = Each::TrailerWheel.items(rig).remove(0);
        let today = Today { rig, facts: &facts };
        Ok(figure.of(today, Some(&item))?.quantity.to_string())
    }

    /// 65 psi set at 70 F and 1,200 ft: (65 + 14.07) x 489.67 / 529.67 - 14.07 is 59.0 psi at 30 F.
    #[test]
    fn a_tire_that_lost_nothing_reads_less_on_a_cold_morning() {
        let juniper = Rig::read(JUNIPER).unwrap();
        let at = |air| of(&juniper, Figure::TireColdToday, Some(air)).unwrap();
        assert_eq!(
            (at(30), at(70), at(95)),
            ("59 psi".into(), "65 psi".into(), "69 psi".into())
        );
        let unread = of(&juniper, Figure::TireColdToday, None);
        assert!(matches!(
            unread,
            Err(NotKnown::Unread(_, Fact::AirTemperature))
        ));
    }

    #[test]
    fn a_heavier_load_asks_for_more_pressure_and_too_heavy_a_one_for_less_load() {
        let juniper = Rig::read(JUNIPER).unwrap();
        let light = of(&juniper, Figure::TireNeededPressure, None);
        assert_eq!(light.unwrap(), "35 psi");
        let mut bare = juniper.clone();
        for axle in &mut bare.trailer.axles {
            axle.tire.table = None;
        }
        assert_eq!(
            of(&bare, Figure::TireNeededPressure, None).unwrap(),
            "22 psi"
        );
        let mut heavy = juniper.clone();
        for axle in &mut heavy.trailer.axles {
            axle.tire.max_load.quantity = Quantity::whole(1200, Pound);
            axle.tire.table = None;
        }
        let over = of(&heavy, Figure::TireNeededPressure, None);
        assert!(matches!(over, Err(NotKnown::NoNumber(..))), "{over:?}");
    }
}
