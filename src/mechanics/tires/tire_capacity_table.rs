//! # What a tire carries by its maker's table

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure tire_capacity_table` tells of it.
pub const PAGE: Page = Page {
    name: "tire_capacity_table",
    title: "What a tire carries by its maker's table",
    situation: "The tire's maker prints a row of loads by cold pressure. Between two entries the \
                load is taken on the straight line; that lies a little below the true curve, on \
                the strict side.",
    formula: "C = C_a + (C_b - C_a) (P - P_a) / (P_b - P_a) between neighbouring entries a and b",
    symbols: &[
        ("P", "cold pressure in the tire, by gauge, psi"),
        (
            "P_a, C_a; P_b, C_b",
            "the printed entries below and above it, psi, lb",
        ),
        ("C", "load the tire may carry, lb"),
    ],
    holds: "from the lowest printed pressure up. Below it there is no load; above the highest it \
            is that of the highest",
    assumes: "The row is that of this very tire: size, construction and load range.",
    never: "With the row of another tire of the same size. Makers and years differ, and bias and \
            radial do; the sidewall wins.",
    source: "makers' load tables are read so: linear between entries and no credit outside is \
             common practice, no source",
};

/// A printed row and a pressure.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TableRow {
    /// Cold pressure in the tire, by gauge, psi.
    pub pressure_psi: f64,
    /// Printed entries, each a pressure in psi and a load in lb, rising.
    pub row: Vec<(f64, f64)>,
}

/// What the tire may carry.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TableCapacity {
    /// Load, lb; nothing below the row.
    pub capacity_lb: Option<f64>,
    /// Where in the row the pressure lies.
    pub status: TableStatus,
}

/// Where in a printed row a pressure lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum TableStatus {
    /// On the row or between two entries.
    Ok,
    /// Below the lowest entry: the maker gives no load.
    BelowTable,
    /// Above the highest entry: more pressure earns no more load.
    AboveTable,
}

/// The load a tire may carry by its maker's row.
///
/// # Errors
/// [`NoNumber`] for a row without entries or one that does not rise.
pub fn tire_capacity_table(inputs: &TableRow) -> Result<TableCapacity, NoNumber> {
    let mut ranges = Ranges::new();
    ranges.not_negative("pressure_psi", inputs.pressure_psi);
    look_at_row(&mut ranges, &inputs.row);
    ranges.checked()?;
    let psi = inputs.pressure_psi;
    let (lowest, _) = TableRow::first(&inputs.row)?;
    let (highest, most) = inputs.row.last().copied().unwrap_or((lowest, 0.0));
    let (capacity_lb, status) = if psi < lowest {
        (None, TableStatus::BelowTable)
    } else if psi > highest {
        (Some(most), TableStatus::AboveTable)
    } else {
        (Some(between(&inputs.row, psi, most)?), TableStatus::Ok)
    };
    Ok(TableCapacity {
        capacity_lb,
        status,
    })
}

/// Looks at the entries of a row.
pub(super) fn look_at_row(ranges: &mut Ranges, row: &[(f64, f64)]) {
    let mut before = (0.0, 0.0);
    for &(psi, load) in row {
        ranges
            .finite("row pressure", psi)
            .finite("row load", load)
            .holds(
                psi > before.0,
                "row pressure",
                psi,
                "more than the entry before it",
            )
            .holds(
                load > before.1,
                "row load",
                load,
                "more than the entry before it",
            );
        before = (psi, load);
    }
}

impl TableRow {
    /// The lowest entry of a row.
    pub(super) fn first(row: &[(f64, f64)]) -> Result<(f64, f64), NoNumber> {
        row.first().copied().ok_or_else(|| {
            NoNumber::because("the row has no entries; copy them from the maker's table")
        })
    }
}

/// On the straight line between the entries on both sides of a pressure; `most` stands at the last.
fn between(row: &[(f64, f64)], psi: f64, most: f64) -> Result<f64, NoNumber> {
    let load = row
        .iter()
        .zip(row.iter().skip(1))
        .find(|(_, above)| psi < above.0)
        .map_or(most, |(below, above)| {
            below.1 + (above.1 - below.1) * (psi - below.0) / (above.0 - below.0)
        });
    finite("the load", load)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(pressure_psi: f64, row: &[(f64, f64)]) -> Result<TableCapacity, NoNumber> {
        tire_capacity_table(&TableRow {
            pressure_psi,
            row: row.to_vec(),
        })
    }

    #[test]
    fn nothing_is_credited_outside_of_the_printed_row() {
        let row = [(35.0, 1760.0), (50.0, 2150.0)];
        let below = at(34.9, &row).unwrap();
        assert_eq!(
            (below.capacity_lb, below.status),
            (None, TableStatus::BelowTable)
        );
        let above = at(60.0, &row).unwrap();
        assert_eq!(
            (above.capacity_lb, above.status),
            (Some(2150.0), TableStatus::AboveTable)
        );
    }

    #[test]
    fn a_row_that_does_not_rise_is_no_row() {
        assert!(at(40.0, &[]).is_err());
        assert!(at(40.0, &[(50.0, 2150.0), (35.0, 1760.0)]).is_err());
        assert!(at(40.0, &[(35.0, 1760.0), (50.0, 1760.0)]).is_err());
        assert!(at(40.0, &[(35.0, f64::INFINITY)]).is_err());
    }
}
