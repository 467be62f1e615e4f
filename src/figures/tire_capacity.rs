//! What a trailer tire may carry at the cold pressure asked of it: by its maker's table where the
//! rig file has one, else by its sidewall.

use crate::figures::gather::{Gather, amount};
use crate::mechanics::NoNumber;
use crate::mechanics::tires::{
    AtPressure, LT_EXPONENT, POWER_LAW_OVER_PCT, PassengerTire, ST_EXPONENT, TableRow,
    p_metric_on_trailer, tire_capacity, tire_capacity_table,
};
use crate::rig::{LoadTable, Tire};
use crate::units::Unit::{Pound, Psi};

/// Capacity of one tire, lb.
pub(crate) fn capacity(gather: &mut Gather, tire: &Tire) -> f64 {
    let cold = Some(&tire.cold);
    let cold = gather.number("cold pressure", "trailer.axles.tire.cold", cold, Psi);
    let found = match &tire.table {
        Some(table) => {
            let rows = table.rows.iter();
            let rows: Vec<String> = rows
                .map(|row| format!("{} at {}", row.load, row.pressure))
                .collect();
            gather.note("load table", rows.join(", "), &table.source.told());
            by_table(table, cold)
        }
        None => by_sidewall(gather, tire, cold),
    };
    let on_trailer = found.and_then(|load| for_trailer(tire, load));
    gather.reckoned(on_trailer).unwrap_or(1.0)
}

fn by_table(table: &LoadTable, pressure_psi: f64) -> Result<f64, NoNumber> {
    let entry = |row: &crate::rig::TableRow| (amount(&row.pressure, Psi), amount(&row.load, Pound));
    let found = tire_capacity_table(&TableRow {
        pressure_psi,
        row: table.rows.iter().map(entry).collect(),
    })?;
    found.capacity_lb.ok_or_else(|| {
        NoNumber::because(
            "the tire's load table ends above the cold pressure asked of it; look at both again",
        )
    })
}

fn by_sidewall(gather: &mut Gather, tire: &Tire, pressure_psi: f64) -> Result<f64, NoNumber> {
    let load = Some(&tire.max_load);
    let load = gather.number(
        "load on the sidewall",
        "trailer.axles.tire.max-load",
        load,
        Pound,
    );
    let most = Some(&tire.max_pressure);
    let most = gather.number("its pressure", "trailer.axles.tire.max-pressure", most, Psi);
    if pressure_psi >= most {
        return Ok(load);
    }
    let light_truck = tire.size.trim_start().starts_with("LT");
    let found = tire_capacity(&AtPressure {
        pressure_psi,
        ref_psi: most,
        ref_load_lb: load,
        exponent: if light_truck {
            LT_EXPONENT
        } else {
            ST_EXPONENT
        },
    })?;
    Ok(found.capacity_lb * (1.0 - POWER_LAW_OVER_PCT / 100.0))
}

/// A passenger tire carries less on a trailer than its sidewall says.
fn for_trailer(tire: &Tire, max_load_lb: f64) -> Result<f64, NoNumber> {
    if !tire.size.trim_start().starts_with('P') {
        return Ok(max_load_lb);
    }
    let found = p_metric_on_trailer(&PassengerTire { max_load_lb })?;
    Ok(found.trailer_load_lb)
}
