//! # The pressure a load asks for

use crate::mechanics::tires::tire_capacity::{LOWEST_PSI, look_at_sidewall, st_exponent};
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure tire_pressure_for_load` tells of it.
pub const PAGE: Page = Page {
    name: "tire_pressure_for_load",
    title: "The pressure a load asks for",
    situation: "A tire that carries a load needs at least the cold pressure at which it may carry \
                that load. It is the law of what a tire carries at a pressure, read the other way.",
    formula: "P = P_max (L / C_max)^(1/n)",
    symbols: &[
        ("L", "load on the tire, lb"),
        (
            "C_max, P_max",
            "load and cold pressure on the sidewall, lb, psi",
        ),
        (
            "n",
            "0.585 for special trailer (ST) tires, 0.70 for light truck (LT) tires",
        ),
        ("P", "least cold pressure, by gauge, psi"),
    ],
    holds: "loads up to the sidewall's, and pressures of 15 psi and more. Above the sidewall's \
            load no pressure is enough; below 15 psi none is told",
    assumes: "The load is that of the heaviest side of the axle, not half the axle's load.",
    never: "To go below the placard's pressure. It tells only that a load asks for more.",
    source: "fitted to makers' load tables, read in copies; powers from memory",
};

/// A tire with a load on it.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AtLoad {
    /// Load on the tire, lb.
    pub load_lb: f64,
    /// Cold pressure on the sidewall, psi.
    pub ref_psi: f64,
    /// Load on the sidewall, lb.
    pub ref_load_lb: f64,
    /// Power of the pressure; that of ST tires unless given.
    #[serde(default = "st_exponent", alias = "n")]
    pub exponent: f64,
}

/// The pressure the load asks for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PressureNeeded {
    /// Least cold pressure by gauge, psi; nothing where none is told.
    pub pressure_psi: Option<f64>,
    /// Whether there is one.
    pub status: LoadStatus,
}

/// Whether a pressure is enough for a load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LoadStatus {
    /// There is one.
    Ok,
    /// The load is more than the tire may carry at any pressure.
    AboveCapacity,
    /// So light a load that the law would give a pressure below every printed row.
    BelowPublishedPressures,
}

/// The least cold pressure at which a tire may carry a load.
///
/// # Errors
/// [`NoNumber`] for a load below nothing, or when the sidewall's numbers are none.
pub fn tire_pressure_for_load(inputs: &AtLoad) -> Result<PressureNeeded, NoNumber> {
    let AtLoad {
        load_lb,
        ref_psi,
        ref_load_lb,
        exponent,
    } = *inputs;
    let mut ranges = Ranges::new();
    look_at_sidewall(&mut ranges, ref_psi, ref_load_lb, exponent);
    ranges.not_negative("load_lb", load_lb).checked()?;
    let psi = finite(
        "the pressure",
        ref_psi * libm::pow(load_lb / ref_load_lb, 1.0 / exponent),
    )?;
    let (pressure_psi, status) = if load_lb > ref_load_lb {
        (None, LoadStatus::AboveCapacity)
    } else if psi < LOWEST_PSI {
        (None, LoadStatus::BelowPublishedPressures)
    } else {
        (Some(psi), LoadStatus::Ok)
    };
    Ok(PressureNeeded {
        pressure_psi,
        status,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::tires::ST_EXPONENT;

    fn needed(load_lb: f64) -> PressureNeeded {
        tire_pressure_for_load(&AtLoad {
            load_lb,
            ref_psi: 80.0,
            ref_load_lb: 2830.0,
            exponent: ST_EXPONENT,
        })
        .unwrap()
    }

    #[test]
    fn a_load_above_the_sidewalls_has_no_pressure() {
        assert_eq!(needed(2830.0).pressure_psi, Some(80.0));
        let over = needed(2831.0);
        assert_eq!(
            (over.pressure_psi, over.status),
            (None, LoadStatus::AboveCapacity)
        );
    }

    #[test]
    fn a_light_load_is_given_no_pressure_below_every_printed_row() {
        let light = needed(500.0);
        assert_eq!(light.pressure_psi, None);
        assert_eq!(light.status, LoadStatus::BelowPublishedPressures);
    }
}
