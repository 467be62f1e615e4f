//! # Volts at the brake magnets

use crate::mechanics::electrics::awg::{look_at_gauge, there_and_back_ohm};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure magnet_volts` tells of it.
pub const PAGE: Page = Page {
    name: "magnet_volts",
    title: "Volts at the brake magnets",
    situation: "The magnets hang side by side on one wire, so each more draws more current through \
                it. The wire out, the wire back and the battery itself keep some of the volts that \
                should pull the magnets.",
    formula: "I = V / (R_m / n + R_out + R_back + R_s); V_m = I R_m / n",
    symbols: &[
        ("V", "volts of the source, V"),
        (
            "R_m",
            "one magnet: 3.9 ohm for 7 in drums, 3.35 ohm for 10 and 12 in, or as measured",
        ),
        ("n", "how many magnets"),
        ("R_out, R_back", "the wire out and back, ohm"),
        ("R_s", "inside the source, ohm"),
        ("I, V_m", "current of all magnets, A, and volts at them, V"),
    ],
    holds: "drums of 7, 10 and 12 in and magnets of 1 to 20 ohm, up to 12 of them, sources of up to 30 V",
    assumes: "All magnets alike, at one end of one wire, cold. A hot magnet draws less.",
    never: "In place of an ammeter: one magnet missing shows in the current, not here.",
    source: "Ohm's law, any textbook of electricity; magnet resistances from a maker's magnet test \
             page, read in a copy",
};

/// Resistance of one magnet by the size of its drum, in and ohm.
const MAGNETS_OHM: [(f64, f64); 3] = [(7.0, 3.9), (10.0, 3.35), (12.0, 3.35)];

/// Magnets, their wire and what feeds them.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MagnetCircuit {
    /// Volts of the source without load, V.
    pub source_v: f64,
    /// How many magnets.
    pub n_magnets: u32,
    /// Diameter of the drums, in.
    pub drum_in: f64,
    /// Resistance of one magnet, ohm; by the drum unless given.
    #[serde(default)]
    pub magnet_ohm: Option<f64>,
    /// Length of the wire one way, ft.
    pub one_way_ft: f64,
    /// Gauge of the wire out.
    pub gauge: f64,
    /// Gauge of the wire back; the same unless given.
    #[serde(default)]
    pub return_gauge: Option<f64>,
    /// Resistance inside the source, ohm.
    #[serde(default)]
    pub source_ohm: f64,
}

/// What reaches the magnets.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct AtMagnets {
    /// Current of all magnets, A.
    pub current_a: f64,
    /// Volts at the magnets, V.
    pub magnet_v: f64,
    /// Volts lost on the way, V.
    pub drop_v: f64,
    /// The same as a share of the source's, %.
    pub drop_pct: f64,
}

/// Resistance of one magnet by the drum it stands in, ohm, where the table has the drum.
pub(crate) fn magnet_ohm(drum_in: f64) -> Option<f64> {
    MAGNETS_OHM
        .into_iter()
        .find(|(drum, _)| (drum - drum_in).abs() < f64::EPSILON)
        .map(|(_, ohm)| ohm)
}

/// Current and volts of brake magnets at the end of their wire.
///
/// # Errors
/// [`NoNumber`] for drums of other sizes and outside the ranges.
pub fn magnet_volts(inputs: &MagnetCircuit) -> Result<AtMagnets, NoNumber> {
    let one_ohm = inputs.magnet_ohm.or_else(|| magnet_ohm(inputs.drum_in));
    let count = f64::from(inputs.n_magnets);
    let mut ranges = Ranges::new();
    ranges
        .within("source_v", inputs.source_v, 0.0, 30.0)
        .holds(
            inputs.source_v > 0.0,
            "source_v",
            inputs.source_v,
            "more than 0",
        )
        .within("n_magnets", count, 1.0, 12.0)
        .holds(
            one_ohm.is_some(),
            "drum_in",
            inputs.drum_in,
            "7, 10 or 12; for other drums measure a magnet",
        )
        .not_negative("one_way_ft", inputs.one_way_ft)
        .not_negative("source_ohm", inputs.source_ohm);
    if let Some(ohm) = inputs.magnet_ohm {
        ranges.within("magnet_ohm", ohm, 1.0, 20.0);
    }
    look_at_gauge(&mut ranges, "gauge", inputs.gauge);
    if let Some(gauge) = inputs.return_gauge {
        look_at_gauge(&mut ranges, "return_gauge", gauge);
    }
    ranges.checked()?;
    let magnets_ohm = one_ohm.map_or(f64::NAN, |ohm| ohm / count);
    let wire_ohm = there_and_back_ohm(inputs.one_way_ft, inputs.gauge, inputs.return_gauge)?;
    let current_a = finite(
        "the current",
        inputs.source_v / (magnets_ohm + wire_ohm + inputs.source_ohm),
    )?;
    let magnet_v = current_a * magnets_ohm;
    let drop_v = inputs.source_v - magnet_v;
    Ok(AtMagnets {
        current_a,
        magnet_v: finite("the volts at the magnets", magnet_v)?,
        drop_v: finite("the volts lost", drop_v)?,
        drop_pct: finite("the share lost", 100.0 * drop_v / inputs.source_v)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drum_of_another_size_has_no_magnet_in_the_table() {
        let circuit = |drum_in| MagnetCircuit {
            source_v: 12.6,
            n_magnets: 2,
            drum_in,
            magnet_ohm: None,
            one_way_ft: 20.0,
            gauge: 12.0,
            return_gauge: None,
            source_ohm: 0.0,
        };
        assert!(magnet_volts(&circuit(12.25)).is_err());
        assert!(magnet_volts(&circuit(10.0)).is_ok());
        let measured = MagnetCircuit {
            magnet_ohm: Some(4.0),
            ..circuit(12.25)
        };
        assert!(magnet_volts(&measured).is_ok());
    }
}
