//! The breakaway battery, the brake magnets, and the wire between.

mod awg;
mod battery_cold;
mod battery_hold;
#[cfg(test)]
mod laws;
mod magnet_volts;
mod soc_from_volts;
mod wire_drop;

pub use awg::{Gauge, PAGE as AWG, Wire, awg};
pub use battery_cold::{BatteryInCold, ColdCapacity, PAGE as BATTERY_COLD, battery_cold};
pub use battery_hold::{BatteryLoaded, Hold, PAGE as BATTERY_HOLD, PEUKERT, battery_hold};
pub(crate) use magnet_volts::magnet_ohm;
pub use magnet_volts::{AtMagnets, MagnetCircuit, PAGE as MAGNET_VOLTS, magnet_volts};
pub use soc_from_volts::{
    Charge, ChargeStatus, Chemistry, PAGE as SOC_FROM_VOLTS, RestingVolts, soc_from_volts,
};
pub use wire_drop::{PAGE as WIRE_DROP, WireDrop, WireLoaded, wire_drop};
