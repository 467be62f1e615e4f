//! What is taken where nothing is given: common practice, no source.

/// A full jackknife, deg.
pub const FULL_TURN_DEG: f64 = 90.0;

/// What must hang loose of a chain in the sharpest turn, in.
pub const CHAIN_MARGIN_IN: f64 = 2.0;

/// What must hang loose of a lanyard or cord in the sharpest turn, in.
pub const CORD_MARGIN_IN: f64 = 3.0;

/// What the lanyard must still draw to open the switch, in.
pub const PIN_TRAVEL_IN: f64 = 1.0;

/// The most a coupler drops, in.
pub const DROP_LIMIT_IN: f64 = 12.0;

/// What slack chain or lanyard must clear the road by, in.
pub const CLEARANCE_IN: f64 = 3.0;

pub(super) fn full_turn() -> f64 {
    FULL_TURN_DEG
}

pub(super) fn chain_margin() -> f64 {
    CHAIN_MARGIN_IN
}

pub(super) fn cord_margin() -> f64 {
    CORD_MARGIN_IN
}

pub(super) fn pin_travel() -> f64 {
    PIN_TRAVEL_IN
}

pub(super) fn drop_limit() -> f64 {
    DROP_LIMIT_IN
}

pub(super) fn clearance() -> f64 {
    CLEARANCE_IN
}

/// Safety chains are crossed unless it is said otherwise.
pub(super) fn crossed() -> bool {
    true
}
