//! What people do to a rig: what was found bad is put right, a wheel comes off, a season is served.

use crate::mechanics::tires::TOLD_AT_F;
use crate::year::truth::{NEW_BATTERY, Truth};
use crate::year::wheel::Wheel;

impl Truth {
    /// What a step found bad, or could not tell, is put right on the rig.
    pub(super) fn put_right(&mut self, step: &str, part: Option<&str>, air_f: f64) {
        let (filled_to, torque, odometer) = (self.filled_to, self.torque, self.odometer);
        if step.starts_with("tire-") {
            if let Some(wheel) = self.wheel_mut(part) {
                wheel.fill(filled_to, air_f);
            }
        } else if step.starts_with("spare") {
            self.spare.fill(filled_to + 1.0, air_f);
        } else if step.starts_with("truck-tire") {
            let placard = |wheel: &Wheel| wheel.shows(TOLD_AT_F).round();
            let [front, rear] = &mut self.truck;
            let tire = if part == Some("front") { front } else { rear };
            let psi = placard(tire) + 2.0;
            tire.fill(psi, air_f);
        } else if step.starts_with("battery") {
            self.battery = NEW_BATTERY;
        } else if step.starts_with("pull") {
            self.brakes = 0.0;
        } else if step.starts_with("hub-temp") {
            if let Some(wheel) = self.wheel_mut(part) {
                wheel.hub_f *= 0.6;
            }
        } else if let Some(wheel) = self.wheel_mut(part) {
            wheel.tighten(torque, odometer);
        }
    }

    /// A wheel was off; its nuts will settle.
    pub(super) fn wheel_off(&mut self, part: Option<&str>, loses: f64) {
        let (torque, odometer) = (self.torque, self.odometer);
        if let Some(wheel) = self.wheel_mut(part) {
            wheel.was_off(torque, loses, odometer);
        }
    }

    /// The season's service: hubs packed, brakes adjusted.
    pub(super) fn serviced(&mut self) {
        self.brakes = 0.0;
        for wheel in &mut self.wheels {
            wheel.hub_f = 0.0;
        }
    }
}
