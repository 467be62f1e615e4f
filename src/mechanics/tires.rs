//! What a tire may carry, at which pressure, and what its sidewall says.

mod dot_age;
mod hot_reading;
mod isa_pressure;
#[cfg(test)]
mod laws;
mod load_index;
mod load_range;
mod p_metric;
mod speed_symbol;
mod tire_capacity;
mod tire_capacity_table;
mod tire_pressure_by_table;
mod tire_pressure_for_load;
mod tire_pressure_shift;

pub use dot_age::{CodeStatus, DateCode, PAGE as DOT_AGE, TireAge, dot_age};
pub use hot_reading::{ColdEstimate, HotReading, PAGE as HOT_READING, hot_reading};
pub use isa_pressure::{Altitude, Ambient, PAGE as ISA_PRESSURE_PSI, isa_pressure_psi};
pub use load_index::{LoadIndex, MarkedLoad, PAGE as LOAD_INDEX, load_index};
pub use load_range::{LoadRange, PAGE as LOAD_RANGE_PRESSURE, RangePressure, load_range_pressure};
pub use p_metric::{OnTrailer, PAGE as P_METRIC_ON_TRAILER, PassengerTire, p_metric_on_trailer};
pub use speed_symbol::{MarkedSpeed, PAGE as SPEED_SYMBOL, SpeedSymbol, speed_symbol};
pub use tire_capacity::{
    AtPressure, Capacity, LOWEST_PSI, LT_EXPONENT, PAGE as TIRE_CAPACITY, POWER_LAW_OVER_PCT,
    ST_EXPONENT, tire_capacity,
};
pub use tire_capacity_table::{
    PAGE as TIRE_CAPACITY_TABLE, TableCapacity, TableRow, TableStatus, tire_capacity_table,
};
pub use tire_pressure_by_table::{
    LoadOnRow, PAGE as TIRE_PRESSURE_BY_TABLE, tire_pressure_by_table,
};
pub use tire_pressure_for_load::{
    AtLoad, LoadStatus, PAGE as TIRE_PRESSURE_FOR_LOAD, PressureNeeded, tire_pressure_for_load,
};
pub use tire_pressure_shift::{
    AirChange, PAGE as TIRE_PRESSURE_SHIFT, ShiftedPressure, TOLD_AT_F, tire_pressure_shift,
};
