//! What readings of many days tell together: how fast something moves, and when it is where.

#[cfg(test)]
mod laws;
mod limit_day;
mod theil_sen;

pub use limit_day::{BadSide, Comes, Course, LimitDay, PAGE as LIMIT_DAY, limit_day};
pub use theil_sen::{
    LineRead, MOST_READINGS, PAGE as THEIL_SEN, ReadOn, Slope, is_enough, median, theil_sen,
};

/// How many days a month of a rate has.
pub const MONTH_DAYS: f64 = 30.0;
