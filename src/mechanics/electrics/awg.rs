//! # A wire by its gauge

use crate::mechanics::constants::{FOOT_IN, INCH_M};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure awg` tells of it.
pub const PAGE: Page = Page {
    name: "awg",
    title: "A wire by its gauge",
    situation: "American wire gauges count how often a wire was drawn, so a larger number is a \
                thinner wire. Three numbers more halve its copper and double what it loses.",
    formula: "d = 0.005 in x 92^((36 - n) / 39); R = 1.7241e-8 ohm m x length / area",
    symbols: &[
        ("n", "gauge, a whole number"),
        ("d", "diameter of the copper, in"),
        ("R", "resistance, ohm to 1000 ft, one way"),
    ],
    holds: "gauges 0 to 40",
    assumes: "Solid copper at 20 C (68 F). Stranded wire has about 2 % more, and every 10 C warmer \
              4 % more.",
    never: "For aluminium wire, or for plugs and splices: corroded ones lose more than the wire.",
    source: "ASTM B258 for the diameters; IEC 60028 for annealed copper; both from memory",
};

/// Gauge 36, from which the others are reckoned, and its diameter, in.
const THIN_GAUGE: f64 = 36.0;
const THIN_IN: f64 = 0.005;

/// The ratio of diameters over the steps it is divided into.
const RATIO: f64 = 92.0;
const STEPS: f64 = 39.0;

/// Resistivity of annealed copper at 20 C, ohm m.
const COPPER_OHM_M: f64 = 1.7241e-8;

/// A gauge.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gauge {
    /// Its number.
    pub gauge: f64,
}

/// The wire.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Wire {
    /// Diameter of the copper, in.
    pub diameter_in: f64,
    /// Area of the copper, mm².
    pub area_mm2: f64,
    /// Resistance, ohm to 1000 ft.
    pub ohm_per_1000ft: f64,
}

/// Looks at a gauge.
pub(super) fn look_at_gauge(ranges: &mut Ranges, what: &str, gauge: f64) {
    ranges.within(what, gauge, 0.0, 40.0).holds(
        gauge.fract().abs() < f64::EPSILON,
        what,
        gauge,
        "a whole number",
    );
}

/// Copper and resistance of a wire by its gauge.
///
/// # Errors
/// [`NoNumber`] for what is no gauge.
pub fn awg(inputs: &Gauge) -> Result<Wire, NoNumber> {
    let mut ranges = Ranges::new();
    look_at_gauge(&mut ranges, "gauge", inputs.gauge);
    ranges.checked()?;
    let diameter_in = THIN_IN * libm::pow(RATIO, (THIN_GAUGE - inputs.gauge) / STEPS);
    let metres = diameter_in * INCH_M;
    let area_m2 = std::f64::consts::FRAC_PI_4 * metres * metres;
    let length_m = 1000.0 * FOOT_IN * INCH_M;
    Ok(Wire {
        diameter_in: finite("the diameter", diameter_in)?,
        area_mm2: finite("the area", area_m2 * 1e6)?,
        ohm_per_1000ft: finite("the resistance", COPPER_OHM_M * length_m / area_m2)?,
    })
}

/// Resistance of a length of wire there and back, ohm. Looks at nothing: callers have.
pub(super) fn there_and_back_ohm(
    one_way_ft: f64,
    gauge: f64,
    return_gauge: Option<f64>,
) -> Result<f64, NoNumber> {
    let along = |gauge| awg(&Gauge { gauge }).map(|wire| wire.ohm_per_1000ft * one_way_ft / 1000.0);
    Ok(along(gauge)? + along(return_gauge.unwrap_or(gauge))?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_gauges_thinner_is_half_the_copper() {
        let area = |gauge| awg(&Gauge { gauge }).unwrap().area_mm2;
        assert!((area(10.0) / area(13.0) - 2.0).abs() < 0.01);
    }

    #[test]
    fn half_a_gauge_is_none() {
        for gauge in [12.5, -1.0, 41.0, f64::NAN, f64::INFINITY] {
            assert!(awg(&Gauge { gauge }).is_err(), "{gauge}");
        }
    }
}
