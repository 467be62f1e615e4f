//! What a trailer tire may carry at the cold pressure asked of it: by its maker's table where the
//! rig file has one, else by its sidewall.

use crate::figures::fineness::Fineness;
use crate::figures::gather::{Gather, amount};
use crate::figures::{Found, Lacking, Working};
use crate::mechanics::NoNumber;
use crate::mechanics::tires::{
    AtPressure, LT_EXPONENT, POWER_LAW_OVER_PCT, PassengerTire, ST_EXPONENT, TIRE_CAPACITY,
    TIRE_CAPACITY_TABLE, TableRow, p_metric_on_trailer, tire_capacity, tire_capacity_table,
};
use crate::rig::{LoadTable, Tire};
use crate::units::Unit::{Pound, Psi};

/// What one tire may carry at the cold pressure asked of it, down to ten pounds.
pub(crate) fn found(tire: &Tire) -> Result<Found, Lacking> {
    let mut gather = Gather::new();
    let capacity = capacity(&mut gather, tire);
    let inputs = gather.done()?;
    let (page, from) = match &tire.table {
        Some(table) => (&TIRE_CAPACITY_TABLE, table.source.told()),
        None => (&TIRE_CAPACITY, "reckoned from the sidewall".to_owned()),
    };
    Ok(Found {
        quantity: Fineness::TEN_POUNDS.down(capacity)?,
        from,
        by_maker: false,
        working: Some(Working { page, inputs }),
    })
}

/// Capacity of one tire, lb.
pub(crate) fn capacity(gather: &mut Gather, tire: &Tire) -> f64 {
    let cold = Some(&tire.cold);
    let cold = gather.number("cold pressure", "trailer.axles.tire.cold", cold, Psi);
    let found = match &tire.table {
        Some(table) => {
            note_table(gather, table);
            by_table(table, cold)
        }
        None => by_sidewall(gather, tire, cold),
    };
    let on_trailer = found.and_then(|load| for_trailer(tire, load));
    gather.reckoned(on_trailer).unwrap_or(1.0)
}

fn by_table(table: &LoadTable, pressure_psi: f64) -> Result<f64, NoNumber> {
    let row = entries(table);
    let found = tire_capacity_table(&TableRow { pressure_psi, row })?;
    found.capacity_lb.ok_or_else(|| {
        NoNumber::because(
            "the tire's load table ends above the cold pressure asked of it; look at both again",
        )
    })
}

fn by_sidewall(gather: &mut Gather, tire: &Tire, pressure_psi: f64) -> Result<f64, NoNumber> {
    let (load, most) = sidewall(gather, tire);
    if pressure_psi >= most {
        return Ok(load);
    }
    let found = tire_capacity(&AtPressure {
        pressure_psi,
        ref_psi: most,
        ref_load_lb: load,
        exponent: exponent(tire),
    })?;
    Ok(found.capacity_lb * (1.0 - POWER_LAW_OVER_PCT / 100.0))
}

/// The entries of a maker's table, psi and lb.
pub(super) fn entries(table: &LoadTable) -> Vec<(f64, f64)> {
    let entry = |row: &crate::rig::TableRow| (amount(&row.pressure, Psi), amount(&row.load, Pound));
    table.rows.iter().map(entry).collect()
}

/// Tells of a maker's table.
pub(super) fn note_table(gather: &mut Gather, table: &LoadTable) {
    let rows = table.rows.iter();
    let rows: Vec<String> = rows
        .map(|row| format!("{} at {}", row.load, row.pressure))
        .collect();
    gather.note("load table", rows.join(", "), &table.source.told());
}

/// Load and pressure on the sidewall, lb and psi.
pub(super) fn sidewall(gather: &mut Gather, tire: &Tire) -> (f64, f64) {
    let field = "trailer.axles.tire.max-load";
    let load = gather.number("load on the sidewall", field, Some(&tire.max_load), Pound);
    let field = "trailer.axles.tire.max-pressure";
    let most = gather.number("its pressure", field, Some(&tire.max_pressure), Psi);
    (load, most)
}

/// The power of the pressure that a tire's loads follow.
pub(super) fn exponent(tire: &Tire) -> f64 {
    if tire.size.trim_start().starts_with("LT") {
        LT_EXPONENT
    } else {
        ST_EXPONENT
    }
}

/// A passenger tire carries less on a trailer than its sidewall says.
pub(super) fn for_trailer(tire: &Tire, max_load_lb: f64) -> Result<f64, NoNumber> {
    if !tire.size.trim_start().starts_with('P') {
        return Ok(max_load_lb);
    }
    let found = p_metric_on_trailer(&PassengerTire { max_load_lb })?;
    Ok(found.trailer_load_lb)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::Rig;
    use crate::rig::demo::JUNIPER;
    use crate::units::Quantity;

    fn carries(change: impl Fn(&mut Tire)) -> Result<String, Lacking> {
        let mut tire = Rig::read(JUNIPER).unwrap().trailer.axles[0].tire.clone();
        change(&mut tire);
        found(&tire).map(|found| found.quantity.to_string())
    }

    fn asked(tire: &mut Tire, psi: i64) {
        tire.cold.quantity = Quantity::whole(psi, Psi);
    }

    /// The printed row has 2,540 lb at 65 psi and 2,150 lb at 50 psi.
    #[test]
    fn a_tire_carries_what_its_makers_table_says_and_nothing_below_the_table() {
        assert_eq!(carries(|_| ()).unwrap(), "2540 lb");
        assert_eq!(carries(|tire| asked(tire, 50)).unwrap(), "2150 lb");
        assert!(carries(|tire| asked(tire, 30)).is_err());
    }

    /// By the sidewall alone 2,540 (50/65)^0.585 is 2,179 lb, and 2 % less 2,135 lb.
    #[test]
    fn without_a_table_a_tire_is_given_less_than_the_power_law_makes() {
        let bare = |psi| {
            carries(move |tire| {
                tire.table = None;
                asked(tire, psi);
            })
        };
        assert_eq!(bare(65).unwrap(), "2540 lb");
        assert_eq!(bare(50).unwrap(), "2130 lb");
    }
}
