//! # The heat sum

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure heat_sum` tells of it.
pub const PAGE: Page = Page {
    name: "heat_sum",
    title: "The heat sum",
    situation: "A horse cools by sweat, and sweat dries badly in damp air, so heat and damp are \
                added up. Inside a trailer it can be some 20 F hotter than outside, more when it \
                stands in the sun.",
    formula: "H = F + RH; one variant takes the wind off: H = F + RH - w",
    symbols: &[
        ("F", "air temperature, Fahrenheit"),
        ("RH", "relative humidity, %"),
        ("w", "wind, mph"),
        (
            "comfort index",
            "under 130 fine unless RH is over 75; 130 to 150 cool them; over 150 cooling is \
             impaired; over 180 they hardly cool",
        ),
        (
            "early index",
            "under 120 fine; 120 to 150 cool them; over 150 cooling is impaired, above all when RH \
             is more than half the sum; over 180 no work",
        ),
        (
            "wind index",
            "under 130 fine; 130 to below 180 cool them; 180 and over they hardly cool",
        ),
    ],
    holds: "air of 0 to 130 F, humidity of 0 to 100 %, wind of up to 60 mph",
    assumes: "The air where the horses stand. Where only the air outside is known, it is hotter \
              inside.",
    never: "With a temperature in Celsius, which gives a small sum that looks harmless; as leave to \
            haul a horse that is old, heavy, ill or not used to heat.",
    source: "comfort index: extension service heat comfort index, as quoted in a trade magazine; \
             early index: trade press and county posts; wind index: a Texas county extension agent, \
             July 2009, as quoted",
};

/// Humidity above which the comfort index calls no sum fine, %.
const DAMP_PCT: f64 = 75.0;

/// Sum above which a horse's cooling is impaired, by the comfort and the early index.
pub const IMPAIRED_ABOVE: i16 = 150;

/// Sum above which it hardly cools, by the same.
pub const HARDLY_COOLS_ABOVE: i16 = 180;

/// The air where the horses stand.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Weather {
    /// Temperature, Fahrenheit.
    pub temp_f: f64,
    /// Relative humidity, %.
    pub humidity_pct: f64,
    /// Wind, mph; none unless given.
    #[serde(default)]
    pub wind_mph: f64,
}

/// The sum, and what three published variants make of it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HeatSum {
    /// Temperature and humidity.
    pub sum: f64,
    /// The same less the wind.
    pub sum_less_wind: f64,
    /// Each variant's band.
    pub variants: [VariantTold; 3],
    /// The worst of the three.
    pub worst: Band,
}

/// What one variant makes of the weather.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct VariantTold {
    /// Which.
    pub variant: HeatVariant,
    /// Its band.
    pub band: Band,
    /// Whether its clause on damp air holds, where it has one.
    pub damp: bool,
}

/// The published variants.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum HeatVariant {
    /// Bounds 130, 150 and 180, with a clause on humidity.
    ComfortIndex,
    /// Bounds 120, 150 and 180.
    EarlyIndex,
    /// Wind taken off; bounds 130 and 180, the last one taken in.
    WindIndex,
}

/// How well a horse cools.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Band {
    /// As usual.
    Fine,
    /// With help: water, shade, air.
    Care,
    /// Impaired.
    Impaired,
    /// Hardly at all.
    HardlyCools,
}

/// The heat sum of the air where horses stand, by three published variants.
///
/// # Errors
/// [`NoNumber`] for weather outside the ranges.
pub fn heat_sum(inputs: &Weather) -> Result<HeatSum, NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .within("temp_f", inputs.temp_f, 0.0, 130.0)
        .within("humidity_pct", inputs.humidity_pct, 0.0, 100.0)
        .within("wind_mph", inputs.wind_mph, 0.0, 60.0)
        .checked()?;
    let sum = finite("the sum", inputs.temp_f + inputs.humidity_pct)?;
    let sum_less_wind = finite("the sum", sum - inputs.wind_mph)?;
    let variants = [
        comfort(sum, inputs.humidity_pct),
        early(sum, inputs.humidity_pct),
        wind(sum_less_wind),
    ];
    let worst = variants
        .into_iter()
        .map(|told| told.band)
        .max()
        .unwrap_or(Band::HardlyCools);
    Ok(HeatSum {
        sum,
        sum_less_wind,
        variants,
        worst,
    })
}

fn comfort(sum: f64, humidity: f64) -> VariantTold {
    let damp = humidity > DAMP_PCT;
    let band = if sum > f64::from(HARDLY_COOLS_ABOVE) {
        Band::HardlyCools
    } else if sum > f64::from(IMPAIRED_ABOVE) {
        Band::Impaired
    } else if sum >= 130.0 || damp {
        Band::Care
    } else {
        Band::Fine
    };
    VariantTold {
        variant: HeatVariant::ComfortIndex,
        band,
        damp,
    }
}

fn early(sum: f64, humidity: f64) -> VariantTold {
    let band = if sum > f64::from(HARDLY_COOLS_ABOVE) {
        Band::HardlyCools
    } else if sum > f64::from(IMPAIRED_ABOVE) {
        Band::Impaired
    } else if sum >= 120.0 {
        Band::Care
    } else {
        Band::Fine
    };
    VariantTold {
        variant: HeatVariant::EarlyIndex,
        band,
        damp: band >= Band::Impaired && humidity > sum / 2.0,
    }
}

fn wind(sum: f64) -> VariantTold {
    let band = if sum >= 180.0 {
        Band::HardlyCools
    } else if sum >= 130.0 {
        Band::Care
    } else {
        Band::Fine
    };
    VariantTold {
        variant: HeatVariant::WindIndex,
        band,
        damp: false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bands(temp_f: f64, humidity_pct: f64, wind_mph: f64) -> [Band; 3] {
        let weather = Weather {
            temp_f,
            humidity_pct,
            wind_mph,
        };
        heat_sum(&weather).unwrap().variants.map(|told| told.band)
    }

    #[test]
    fn at_180_one_variant_says_they_hardly_cool_and_two_do_not_yet() {
        assert_eq!(
            bands(100.0, 80.0, 0.0),
            [Band::Impaired, Band::Impaired, Band::HardlyCools]
        );
        assert_eq!(bands(101.0, 80.0, 0.0), [Band::HardlyCools; 3]);
    }

    #[test]
    fn damp_air_is_not_called_fine_below_130() {
        assert_eq!(bands(48.0, 76.0, 0.0), [Band::Care, Band::Care, Band::Fine]);
        assert_eq!(bands(44.0, 75.0, 0.0), [Band::Fine; 3]);
    }

    #[test]
    fn frost_is_refused_since_the_sum_tells_nothing_of_it() {
        let frost = Weather {
            temp_f: -1.0,
            humidity_pct: 50.0,
            wind_mph: 0.0,
        };
        assert!(heat_sum(&frost).is_err());
    }
}
