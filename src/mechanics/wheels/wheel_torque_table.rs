//! # The torque of a wheel

use crate::mechanics::{NoNumber, Page, Ranges};
use serde::{Deserialize, Serialize};

/// What `hames figure wheel_torque_table` tells of it.
pub const PAGE: Page = Page {
    name: "wheel_torque_table",
    title: "The torque of a wheel",
    situation: "The wheel's seat decides how hard its nuts may pull, not the stud alone: a small \
                steel wheel on the same stud takes half. The plate or the wheel maker's word comes \
                first; axle makers' manuals are for where there is none.",
    formula: "the plate's band where given; else the band that all manuals with this stud, wheel \
              and seat share",
    symbols: &[
        ("stud", "diameter of the stud, in"),
        ("wheel", "diameter of the wheel, in"),
        ("seat", "cone, flange or demountable"),
        ("low, high", "the torque's band, lb ft"),
        ("passes", "bands of the passes before the last, lb ft"),
    ],
    holds: "studs of 1/2, 9/16 and 5/8 in, on the wheels and seats of the manuals read",
    assumes: "Steel wheels, dry threads free of oil and paint, no air gun for the last pass.",
    never: "By the stud alone, for wheels that are not in the table, or against the plate.",
    source: "axle makers' manuals, one of 18 March 2014 among them, and a trailer owner's manual, \
             read in copies",
};

/// How a nut seats in its wheel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Seat {
    /// A cone nut in a coned hole.
    Cone,
    /// A nut with a flange on a flat face.
    Flange,
    /// Clamps that hold a rim without a disc.
    Demountable,
}

/// One row of a manual.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ManualRow {
    /// Diameter of the stud, in.
    pub stud_in: f64,
    /// Smallest wheel it is for, in.
    pub wheel_from_in: f64,
    /// Largest wheel it is for, in.
    pub wheel_to_in: f64,
    /// How the nut seats.
    pub seat: Seat,
    /// Bands of the passes before the last, lb ft.
    pub passes_lbft: &'static [(f64, f64)],
    /// Least torque, lb ft.
    pub low_lbft: f64,
    /// Most torque, lb ft.
    pub high_lbft: f64,
    /// Which manual.
    pub source: &'static str,
}

const AXLE_MANUAL: &str = "axle maker's manual of 18 March 2014";
const SMALL_WHEELS: &str = "another axle maker's manual";
const EQUIPMENT: &str = "an equipment maker's manual";
const OWNERS: &str = "a trailer owner's manual";

#[rustfmt::skip]
const ROWS: [ManualRow; 9] = [
    row(0.5, (12.0, 13.0), Seat::Cone, &[(20.0, 25.0), (35.0, 40.0)], (50.0, 60.0), SMALL_WHEELS),
    row(0.5, (12.0, 13.0), Seat::Cone, &[], (50.0, 65.0), EQUIPMENT),
    row(0.5, (12.0, 13.0), Seat::Cone, &[], (50.0, 75.0), OWNERS),
    row(0.5, (14.0, 16.0), Seat::Cone, &[(20.0, 25.0), (50.0, 60.0)], (90.0, 120.0), AXLE_MANUAL),
    row(0.5625, (16.0, 16.0), Seat::Cone, &[(20.0, 25.0), (60.0, 70.0)], (120.0, 130.0), AXLE_MANUAL),
    row(0.5625, (16.0, 16.0), Seat::Cone, &[], (90.0, 120.0), OWNERS),
    row(0.625, (17.5, 17.5), Seat::Cone, &[(50.0, 60.0), (100.0, 120.0)], (190.0, 210.0), AXLE_MANUAL),
    row(0.625, (17.5, 17.5), Seat::Flange, &[(50.0, 60.0), (150.0, 200.0)], (275.0, 325.0), AXLE_MANUAL),
    row(0.625, (14.5, 14.5), Seat::Demountable, &[], (85.0, 95.0), AXLE_MANUAL),
];

const fn row(
    stud_in: f64,
    wheel_in: (f64, f64),
    seat: Seat,
    passes_lbft: &'static [(f64, f64)],
    band: (f64, f64),
    source: &'static str,
) -> ManualRow {
    ManualRow {
        stud_in,
        wheel_from_in: wheel_in.0,
        wheel_to_in: wheel_in.1,
        seat,
        passes_lbft,
        low_lbft: band.0,
        high_lbft: band.1,
        source,
    }
}

/// A wheel and how it is fastened.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WheelAndStud {
    /// Diameter of the stud, in.
    pub stud_in: f64,
    /// Diameter of the wheel, in.
    pub wheel_in: f64,
    /// How the nut seats.
    pub seat: Seat,
    /// The band on plate or wheel, least and most, lb ft.
    #[serde(default)]
    pub plate_lbft: Option<(f64, f64)>,
}

/// The torque of its nuts.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TorqueBand {
    /// Where the band comes from.
    pub status: TorqueFrom,
    /// Least torque, lb ft; nothing where the manuals share none.
    pub low_lbft: Option<f64>,
    /// Most torque, lb ft.
    pub high_lbft: Option<f64>,
    /// Every row of the manuals for this wheel.
    pub rows: Vec<ManualRow>,
}

/// Where a band of torque comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum TorqueFrom {
    /// The plate or the wheel.
    Plate,
    /// One manual, or the band all of several share.
    Manuals,
    /// The manuals share no band: ask the maker of this axle.
    ManualsDiffer,
}

/// The band of torque for a wheel, the plate's first.
///
/// # Errors
/// [`NoNumber`] when neither plate nor manual gives one.
pub fn wheel_torque_table(inputs: &WheelAndStud) -> Result<TorqueBand, NoNumber> {
    look(inputs)?;
    let rows: Vec<ManualRow> = ROWS.into_iter().filter(|row| row.is_for(inputs)).collect();
    if let Some((low, high)) = inputs.plate_lbft {
        return Ok(TorqueBand {
            status: TorqueFrom::Plate,
            low_lbft: Some(low),
            high_lbft: Some(high),
            rows,
        });
    }
    if rows.is_empty() {
        return Err(NoNumber::because(
            "no manual read here names this stud, wheel and seat together; look on the plate, on \
             the wheel, or in the axle maker's manual",
        ));
    }
    let low = rows.iter().map(|row| row.low_lbft).fold(0.0, f64::max);
    let high = rows
        .iter()
        .map(|row| row.high_lbft)
        .fold(f64::INFINITY, f64::min);
    let shared = low < high;
    Ok(TorqueBand {
        status: if shared {
            TorqueFrom::Manuals
        } else {
            TorqueFrom::ManualsDiffer
        },
        low_lbft: shared.then_some(low),
        high_lbft: shared.then_some(high),
        rows,
    })
}

fn look(inputs: &WheelAndStud) -> Result<(), NoNumber> {
    let mut ranges = Ranges::new();
    ranges
        .positive("stud_in", inputs.stud_in)
        .positive("wheel_in", inputs.wheel_in);
    if let Some((low, high)) = inputs.plate_lbft {
        ranges
            .positive("plate_lbft low", low)
            .finite("plate_lbft high", high)
            .holds(high >= low, "plate_lbft high", high, "the low one or more");
    }
    ranges.checked()
}

impl ManualRow {
    fn is_for(&self, asked: &WheelAndStud) -> bool {
        (self.stud_in - asked.stud_in).abs() < f64::EPSILON
            && asked.wheel_in >= self.wheel_from_in
            && asked.wheel_in <= self.wheel_to_in
            && self.seat == asked.seat
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(stud_in: f64, wheel_in: f64, seat: Seat) -> Result<TorqueBand, NoNumber> {
        wheel_torque_table(&WheelAndStud {
            stud_in,
            wheel_in,
            seat,
            plate_lbft: None,
        })
    }

    #[test]
    fn one_stud_takes_half_on_a_small_wheel_and_three_times_as_much_by_its_seat() {
        let high = |stud, wheel, seat| told(stud, wheel, seat).unwrap().high_lbft;
        assert_eq!(high(0.5, 13.0, Seat::Cone), Some(60.0));
        assert_eq!(high(0.5, 15.0, Seat::Cone), Some(120.0));
        assert_eq!(high(0.625, 14.5, Seat::Demountable), Some(95.0));
        assert_eq!(high(0.625, 17.5, Seat::Flange), Some(325.0));
    }

    #[test]
    fn where_the_manuals_share_no_band_none_is_told_but_the_plate_decides() {
        let differ = told(0.5625, 16.0, Seat::Cone).unwrap();
        assert_eq!(differ.status, TorqueFrom::ManualsDiffer);
        assert_eq!((differ.low_lbft, differ.rows.len()), (None, 2));
        let plate = wheel_torque_table(&WheelAndStud {
            stud_in: 0.5625,
            wheel_in: 16.0,
            seat: Seat::Cone,
            plate_lbft: Some((130.0, 150.0)),
        })
        .unwrap();
        assert_eq!(
            (plate.status, plate.low_lbft),
            (TorqueFrom::Plate, Some(130.0))
        );
    }

    #[test]
    fn a_wheel_of_no_manual_is_told_none() {
        assert!(told(0.5, 17.0, Seat::Cone).is_err());
        assert!(told(0.5, 15.0, Seat::Flange).is_err());
        assert!(told(0.4375, 14.0, Seat::Cone).is_err());
    }
}
