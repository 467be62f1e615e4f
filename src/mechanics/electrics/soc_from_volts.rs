//! # The charge behind resting volts

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure soc_from_volts` tells of it.
pub const PAGE: Page = Page {
    name: "soc_from_volts",
    title: "The charge behind resting volts",
    situation: "A battery that neither charges nor feeds anything for hours shows its charge by \
                its volts. Glass-mat cells rest higher than flooded ones, so one reading means two \
                things.",
    formula: "linear between the entries of a table, one for each kind of battery",
    symbols: &[
        (
            "volts",
            "at rest, six hours or more after charging or load, V",
        ),
        ("kind", "agm (glass mat) or flooded"),
        ("charge", "of a full battery, %"),
    ],
    holds: "agm from 12.0 to 12.8 V, flooded from 11.51 to 12.73 V. Above, the battery is full or \
            not at rest; below, it is nearly empty or has a bad cell, and no charge is told",
    assumes: "12 V lead-acid near room temperature. Makers' tables differ by a tenth of a volt, and \
              a meter true to 1 % tells the charge to some 15 points only.",
    never: "As proof that the brakes will hold: volts at rest screen, volts under the magnets' load \
            prove.",
    source: "glass mat from a battery maker's manual, read in a copy; flooded from memory of a \
             battery maker's table",
};

/// Glass mat: volts and charge.
const AGM: [(f64, f64); 4] = [(12.0, 25.0), (12.3, 50.0), (12.6, 75.0), (12.8, 100.0)];

/// Flooded: volts and charge.
const FLOODED: [(f64, f64); 10] = [
    (11.51, 10.0),
    (11.66, 20.0),
    (11.81, 30.0),
    (11.96, 40.0),
    (12.10, 50.0),
    (12.24, 60.0),
    (12.37, 70.0),
    (12.50, 80.0),
    (12.62, 90.0),
    (12.73, 100.0),
];

/// Above these no lead-acid battery is at rest, V.
const NOT_AT_REST_V: f64 = 13.2;

/// How a lead-acid battery is built.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Chemistry {
    /// Absorbed glass mat.
    Agm,
    /// Flooded cells.
    Flooded,
}

/// Volts of a battery at rest.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RestingVolts {
    /// The volts, V.
    pub volts: f64,
    /// How it is built.
    pub kind: Chemistry,
}

/// The charge they show.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Charge {
    /// Of a full battery, %; nothing where the volts tell none.
    pub soc_pct: Option<f64>,
    /// What the volts tell.
    pub status: ChargeStatus,
}

/// What resting volts tell.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ChargeStatus {
    /// A charge.
    Ok,
    /// Full.
    Full,
    /// Nothing: it was charged or loaded too lately.
    NotAtRest,
    /// Nothing: nearly empty, or a bad cell.
    BelowTable,
}

/// The charge of a lead-acid battery by its volts at rest.
///
/// # Errors
/// [`NoNumber`] for volts no 12 V battery has.
pub fn soc_from_volts(inputs: &RestingVolts) -> Result<Charge, NoNumber> {
    let mut ranges = Ranges::new();
    ranges.within("volts", inputs.volts, 0.0, 20.0).checked()?;
    let table: &[(f64, f64)] = match inputs.kind {
        Chemistry::Agm => &AGM,
        Chemistry::Flooded => &FLOODED,
    };
    let volts = inputs.volts;
    let full = table.last().map_or(f64::INFINITY, |(volts, _)| *volts);
    let (soc_pct, status) = match on_table(table, volts) {
        Some(charge) => (Some(finite("the charge", charge)?), ChargeStatus::Ok),
        None if volts > NOT_AT_REST_V => (None, ChargeStatus::NotAtRest),
        None if volts >= full => (Some(100.0), ChargeStatus::Full),
        None => (None, ChargeStatus::BelowTable),
    };
    Ok(Charge { soc_pct, status })
}

/// The charge between two entries; nothing outside of the table, and nothing at its full end.
fn on_table(table: &[(f64, f64)], volts: f64) -> Option<f64> {
    table
        .iter()
        .zip(table.iter().skip(1))
        .find(|(below, above)| volts >= below.0 && volts < above.0)
        .map(|(below, above)| {
            below.1 + (above.1 - below.1) * (volts - below.0) / (above.0 - below.0)
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn beyond_the_table_the_volts_tell_what_they_are_and_no_charge_is_made_up() {
        for (volts, kind, soc_pct, status) in [
            (12.8, Chemistry::Agm, Some(100.0), ChargeStatus::Full),
            (13.0, Chemistry::Agm, Some(100.0), ChargeStatus::Full),
            (13.8, Chemistry::Agm, None, ChargeStatus::NotAtRest),
            (12.0, Chemistry::Agm, Some(25.0), ChargeStatus::Ok),
            (11.9, Chemistry::Agm, None, ChargeStatus::BelowTable),
            (10.5, Chemistry::Flooded, None, ChargeStatus::BelowTable),
            (12.24, Chemistry::Flooded, Some(60.0), ChargeStatus::Ok),
        ] {
            let told = soc_from_volts(&RestingVolts { volts, kind }).unwrap();
            assert_eq!(
                (told.soc_pct, told.status),
                (soc_pct, status),
                "{volts} {kind:?}"
            );
        }
    }

    #[test]
    fn the_same_volts_mean_less_charge_in_glass_mat() {
        let at = |kind| soc_from_volts(&RestingVolts { volts: 12.45, kind });
        let apart = at(Chemistry::Flooded).unwrap().soc_pct.unwrap()
            - at(Chemistry::Agm).unwrap().soc_pct.unwrap();
        assert!((apart - 14.0).abs() < 0.5, "{apart}");
    }
}
