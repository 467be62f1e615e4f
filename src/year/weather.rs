//! The air of the year, by day and hour: a cold winter, a hot summer, and days of their own.

use crate::shown::Dice;
use std::f64::consts::TAU;

/// Days a year has, and one more.
const DAYS: usize = 367;

/// Middle of the year, in Fahrenheit, and how far summer and winter are from it.
const MIDDLE_F: f64 = 55.0;
const SEASON_F: f64 = 24.0;

/// How far the afternoon is from the middle of the day.
const HOURS_F: f64 = 9.0;

/// The warmest day, counted from the first of the year's days, which is late in November.
const WARMEST_DAY: f64 = 242.0;

/// The warmest hour.
const WARMEST_HOUR: f64 = 15.0;

/// The air of each day.
#[derive(Clone, Debug)]
pub(super) struct Weather {
    /// How much each day is warmer than its season.
    warmer: Vec<f64>,
}

impl Weather {
    pub(super) fn thrown(dice: &mut Dice) -> Self {
        let mut last = 0.0;
        let day = |_| {
            // Warm days follow warm ones.
            last = 0.7 * last + dice.around(4.5);
            last
        };
        let warmer = (0..DAYS).map(day).collect();
        Self { warmer }
    }

    /// The air in the shade, in Fahrenheit, at this day and part of it.
    pub(super) fn air_f(&self, time: f64) -> f64 {
        let day = time.floor();
        let hour = (time - day) * 24.0;
        let season = SEASON_F * libm::cos((day - WARMEST_DAY) / 365.0 * TAU);
        let hours = HOURS_F * libm::cos((hour - WARMEST_HOUR) / 24.0 * TAU);
        let of_day = self
            .warmer
            .iter()
            .zip(0_u16..)
            .find(|(_, at)| f64::from(*at) >= day)
            .map_or(0.0, |(warmer, _)| *warmer);
        MIDDLE_F + season + hours + of_day
    }

    /// The warmest of that day.
    pub(super) fn warmest_f(&self, time: f64) -> f64 {
        self.air_f(time.floor() + WARMEST_HOUR / 24.0)
    }
}
