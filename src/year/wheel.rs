//! A trailer wheel as it truly is: the air in its tire, its nuts, its hub, its tread.

use crate::mechanics::tires::{AirChange, TOLD_AT_F, tire_pressure_shift};
use crate::mechanics::trends::MONTH_DAYS;

/// The miles in which nuts settle to a third of what they have to settle.
const SETTLES_IN_MI: f64 = 15.0;

/// One wheel.
#[derive(Clone, Debug)]
pub(super) struct Wheel {
    /// Its id, such as `left-front`.
    pub(super) id: String,
    /// What the tire would show at 70 F, psi.
    air: f64,
    /// What it loses in a month, psi.
    pub(super) leak: f64,
    /// The torque the nuts were brought to, ft-lb, and the share they will lose as they settle.
    torque: f64,
    settles: f64,
    since_mi: f64,
    /// How much warmer its hub runs than the others.
    pub(super) hub_f: f64,
    /// Depth of the tread, in.
    pub(super) tread: f64,
}

impl Wheel {
    pub(super) fn new(id: &str, air: f64, leak: f64, torque: f64) -> Self {
        Self {
            id: id.to_owned(),
            air,
            leak,
            torque,
            settles: 0.0,
            since_mi: 0.0,
            hub_f: 0.0,
            tread: 0.28,
        }
    }

    /// So many days go by.
    pub(super) fn loses(&mut self, days: f64) {
        self.air -= self.leak * days / MONTH_DAYS;
    }

    /// What a gauge without an error shows in this air, psi.
    pub(super) fn shows(&self, air_f: f64) -> f64 {
        shifted(self.air, TOLD_AT_F, air_f)
    }

    /// The tire is brought to this pressure in this air.
    pub(super) fn fill(&mut self, psi: f64, air_f: f64) {
        self.air = shifted(psi, air_f, TOLD_AT_F);
    }

    /// The wheel was off, and its nuts were brought to their torque.
    pub(super) fn was_off(&mut self, torque: f64, loses: f64, odometer: f64) {
        self.torque = torque;
        self.settles = loses;
        self.since_mi = odometer;
    }

    /// Its nuts are brought to their torque, and have settled by now.
    pub(super) fn tighten(&mut self, torque: f64, odometer: f64) {
        self.torque = torque;
        self.settles = 0.0;
        self.since_mi = odometer;
    }

    /// What the nuts have now, ft-lb.
    pub(super) fn has(&self, odometer: f64) -> f64 {
        let miles = (odometer - self.since_mi).max(0.0);
        let settled = 1.0 - libm::exp(-miles / SETTLES_IN_MI);
        self.torque * (1.0 - self.settles * settled)
    }
}

/// What the same air shows at another temperature; where the formula gives none, what it showed.
fn shifted(psi: f64, from_f: f64, to_f: f64) -> f64 {
    let change = AirChange {
        gauge_psi: psi,
        temp_f: from_f,
        new_temp_f: to_f,
        altitude_ft: 0.0,
        new_altitude_ft: None,
    };
    tire_pressure_shift(&change).map_or(psi, |shown| shown.gauge_psi)
}
