//! # The pressure a load asks for by the maker's table

use crate::mechanics::tires::tire_capacity_table::{TableRow, look_at_row};
use crate::mechanics::tires::{LoadStatus, PressureNeeded};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::Deserialize;

/// What `hames figure tire_pressure_by_table` tells of it.
pub const PAGE: Page = Page {
    name: "tire_pressure_by_table",
    title: "The pressure a load asks for by the maker's table",
    situation: "The printed row of loads by cold pressure, read the other way: the pressure at \
                which the tire may carry a load. Between two entries it is taken on the straight \
                line, a little above the true curve, on the strict side.",
    formula: "P = P_a + (P_b - P_a) (L - C_a) / (C_b - C_a) between neighbouring entries a and b",
    symbols: &[
        ("L", "load on the tire, lb"),
        (
            "P_a, C_a; P_b, C_b",
            "the printed entries with less load and with more, psi, lb",
        ),
        ("P", "least cold pressure, by gauge, psi"),
    ],
    holds: "loads up to the highest entry's. Above it no pressure is enough; below the lowest \
            entry's load the lowest printed pressure is asked for, since the maker prints no lower \
            one",
    assumes: "The row is that of this very tire. The load is that of the heaviest side of the axle.",
    never: "To go below the placard's pressure. It tells only that a load asks for more.",
    source: "makers' load tables are read so: linear between entries and no credit outside is \
             common practice, no source",
};

/// A printed row and a load.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LoadOnRow {
    /// Load on the tire, lb.
    pub load_lb: f64,
    /// Printed entries, each a pressure in psi and a load in lb, rising.
    pub row: Vec<(f64, f64)>,
}

/// The least cold pressure at which a tire may carry a load by its maker's row.
///
/// # Errors
/// [`NoNumber`] for a load below nothing, or a row without entries or one that does not rise.
pub fn tire_pressure_by_table(inputs: &LoadOnRow) -> Result<PressureNeeded, NoNumber> {
    let mut ranges = Ranges::new();
    ranges.not_negative("load_lb", inputs.load_lb);
    look_at_row(&mut ranges, &inputs.row);
    ranges.checked()?;
    let load = inputs.load_lb;
    let lowest = TableRow::first(&inputs.row)?;
    if load <= lowest.1 {
        return Ok(PressureNeeded {
            pressure_psi: Some(lowest.0),
            status: LoadStatus::Ok,
        });
    }
    let between = inputs
        .row
        .iter()
        .zip(inputs.row.iter().skip(1))
        .find(|(_, above)| load <= above.1);
    let Some((below, above)) = between else {
        return Ok(PressureNeeded {
            pressure_psi: None,
            status: LoadStatus::AboveCapacity,
        });
    };
    let psi = below.0 + (above.0 - below.0) * (load - below.1) / (above.1 - below.1);
    Ok(PressureNeeded {
        pressure_psi: Some(finite("the pressure", psi)?),
        status: LoadStatus::Ok,
    })
}
