//! # Whether a wrench and its setting suit a torque

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure wrench_ok` tells of it.
pub const PAGE: Page = Page {
    name: "wrench_ok",
    title: "Whether a wrench and its setting suit a torque",
    situation: "A torque wrench is true only over part of its scale, and there within a few \
                percent. Set on the edge of the maker's band it may in truth stand outside.",
    formula: "in range: max / 5 <= S <= max, or from the lowest mark. In band: low / (1 - a) <= S \
              <= high / (1 + a)",
    symbols: &[
        ("S", "setting, lb ft"),
        ("low, high", "the maker's band, lb ft"),
        ("max", "end of the wrench's scale, lb ft"),
        (
            "a",
            "how wrong the wrench may be, as a share of its setting; 0.04 unless given",
        ),
    ],
    holds: "a band of some width, a wrench wrong by less than 20 %",
    assumes: "The wrench was checked within its time and did not fall since.",
    never: "To prove what was on a nut: a click proves at least.",
    source: "ISO 6789-1:2017: 4 % above 10 N m, range from the lowest mark; ISO 6789:2003: range \
             from 20 % of the maximum; both read in secondary pages",
};

/// How wrong a wrench may be, as a share of its setting.
const ACCURACY: f64 = 0.04;

/// The part of its maximum below which a wrench is not held to that: one in so many.
const LEAST_PART: f64 = 5.0;

/// A wrench, its setting and the band it is to hit.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WrenchAsked {
    /// Least torque of the band, lb ft.
    pub target_low_lbft: f64,
    /// Most torque of the band, lb ft.
    pub target_high_lbft: f64,
    /// What the wrench is set to, lb ft.
    pub setting_lbft: f64,
    /// End of its scale, lb ft.
    pub wrench_max_lbft: f64,
    /// Lowest mark of its scale, lb ft; a fifth of the end unless given.
    #[serde(default)]
    pub wrench_low_mark_lbft: Option<f64>,
    /// How wrong it may be, as a share of its setting.
    #[serde(default = "accuracy")]
    pub accuracy: f64,
}

/// What is to be said of them.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WrenchTold {
    /// Whether the setting lies where the wrench is true.
    pub in_range: bool,
    /// Least setting that is in the band whatever the wrench's error, lb ft.
    pub setting_low_lbft: f64,
    /// Most such setting, lb ft; below the least where the band is narrower than the error.
    pub setting_high_lbft: f64,
    /// Whether the setting is in the band whatever the wrench's error.
    pub in_band: bool,
}

fn accuracy() -> f64 {
    ACCURACY
}

/// Whether a wrench can set a torque, and whether this setting does.
///
/// # Errors
/// [`NoNumber`] for a band or a scale that is none.
pub fn wrench_ok(inputs: &WrenchAsked) -> Result<WrenchTold, NoNumber> {
    let WrenchAsked {
        target_low_lbft: low,
        target_high_lbft: high,
        setting_lbft: setting,
        wrench_max_lbft: end,
        wrench_low_mark_lbft: mark,
        accuracy: wrong,
    } = *inputs;
    let mut ranges = Ranges::new();
    ranges
        .positive("target_low_lbft", low)
        .finite("target_high_lbft", high)
        .holds(
            high >= low,
            "target_high_lbft",
            high,
            "target_low_lbft or more",
        )
        .positive("setting_lbft", setting)
        .positive("wrench_max_lbft", end)
        .within("accuracy", wrong, 0.0, 0.2);
    if let Some(mark) = mark {
        ranges.positive("wrench_low_mark_lbft", mark).holds(
            mark < end,
            "wrench_low_mark_lbft",
            mark,
            "less than wrench_max_lbft",
        );
    }
    ranges.checked()?;
    let setting_low_lbft = finite("the least setting", low / (1.0 - wrong))?;
    let setting_high_lbft = finite("the most setting", high / (1.0 + wrong))?;
    Ok(WrenchTold {
        in_range: setting >= mark.unwrap_or(end / LEAST_PART) && setting <= end,
        setting_low_lbft,
        setting_high_lbft,
        in_band: setting >= setting_low_lbft && setting <= setting_high_lbft,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(setting_lbft: f64, mark: Option<f64>) -> WrenchTold {
        wrench_ok(&WrenchAsked {
            target_low_lbft: 20.0,
            target_high_lbft: 25.0,
            setting_lbft,
            wrench_max_lbft: 150.0,
            wrench_low_mark_lbft: mark,
            accuracy: 0.04,
        })
        .unwrap()
    }

    #[test]
    fn a_wrench_is_true_from_a_fifth_of_its_scale_or_from_its_lowest_mark() {
        assert!(!told(25.0, None).in_range);
        assert!(told(30.0, None).in_range);
        assert!(told(25.0, Some(20.0)).in_range);
        assert!(!told(151.0, None).in_range);
    }

    #[test]
    fn a_band_narrower_than_the_error_has_no_setting_in_it() {
        let narrow = wrench_ok(&WrenchAsked {
            target_low_lbft: 100.0,
            target_high_lbft: 102.0,
            setting_lbft: 101.0,
            wrench_max_lbft: 150.0,
            wrench_low_mark_lbft: None,
            accuracy: 0.04,
        })
        .unwrap();
        assert!(!narrow.in_band && narrow.setting_low_lbft > narrow.setting_high_lbft);
    }
}
