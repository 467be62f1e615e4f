//! A rig as it truly is over the year. Nobody in the barn sees this; they read it off instruments.

use crate::figures::Each;
use crate::rig::{Given, Rig};
use crate::shown::Dice;
use crate::units::Unit;
use crate::year::wheel::Wheel;

/// A tire whose valve begins to leak.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SlowLeak {
    /// The rig, by its id.
    pub rig: &'static str,
    /// The wheel.
    pub wheel: &'static str,
    /// The day of the year it begins, the first being 0.
    pub from_day: f64,
    /// What it loses from then on in 30 days, psi at one temperature.
    pub psi_a_month: f64,
}

/// The one leak of the year that is not as it should be. Sound tires lose about a pound a month.
pub const SLOW_LEAK: SlowLeak = SlowLeak {
    rig: "sumac",
    wheel: "right-rear",
    from_day: 130.0,
    psi_a_month: 2.6,
};

/// A breakaway battery when it is new, V at rest.
pub(super) const NEW_BATTERY: f64 = 12.96;

/// At this it is given up and another is put in, V at rest.
const SPENT_BATTERY: f64 = 12.46;

/// One rig.
#[derive(Clone, Debug)]
pub(super) struct Truth {
    pub(super) id: String,
    pub(super) wheels: Vec<Wheel>,
    /// The truck's tires, front and rear, and the spare: what they show at 70 F.
    pub(super) truck: [Wheel; 2],
    pub(super) spare: Wheel,
    /// What a wheel is tightened to, ft-lb.
    pub(super) torque: f64,
    /// What people fill a tire to, psi.
    pub(super) filled_to: f64,
    pub(super) battery: f64,
    battery_ages: f64,
    /// How far the brakes are worn, from 0 to 1.
    pub(super) brakes: f64,
    brakes_wear: f64,
    pub(super) odometer: f64,
    day: f64,
}

impl Truth {
    /// The rig on the first day of the year.
    pub(super) fn of(rig: &Rig, dice: &mut Dice) -> Self {
        let axle = rig.trailer.axles.first();
        let cold = axle.map_or(60.0, |axle| known(&axle.tire.cold, Unit::Psi));
        let torque = axle.map_or(100.0, |axle| known(&axle.fit.torque, Unit::FootPound));
        // A tire with room above its placard is kept a little above it.
        let filled_to = if rig.id == SLOW_LEAK.rig {
            cold + 3.0
        } else {
            cold
        };
        let items = Each::TrailerWheel.items(rig);
        let wheels = items.iter().map(|item| {
            let leak = 0.35 + 0.45 * dice.share();
            Wheel::new(&item.id, filled_to, leak, torque)
        });
        let tires = &rig.truck.tires;
        let truck = |given| Wheel::new("truck", known(given, Unit::Psi) + 1.0, 0.4, 0.0);
        let (battery_ages, brakes_wear, odometer) = match rig.id.as_str() {
            "juniper" => (0.0019, 0.0022, 42_480.0),
            "mesquite" => (0.0007, 0.0009, 44_050.0),
            _ => (0.0011, 0.0011, 19_228.0),
        };
        Self {
            id: rig.id.clone(),
            wheels: wheels.collect(),
            truck: [truck(&tires.front_cold), truck(&tires.rear_cold)],
            spare: Wheel::new("spare", cold + 2.0, 0.3, torque),
            torque,
            filled_to,
            battery: NEW_BATTERY - 0.05 * dice.share(),
            battery_ages,
            brakes: 0.0,
            brakes_wear,
            odometer,
            day: 0.0,
        }
    }

    /// Time goes by until then, in days of the year.
    pub(super) fn until(&mut self, day: f64) {
        let days = (day - self.day).max(0.0);
        self.day = self.day.max(day);
        let leaks = self.id == SLOW_LEAK.rig && day >= SLOW_LEAK.from_day;
        for wheel in &mut self.wheels {
            if leaks && wheel.id == SLOW_LEAK.wheel {
                wheel.leak = SLOW_LEAK.psi_a_month;
            }
            // One bearing of the gooseneck begins to run warm in the second half of the year.
            if self.id == "mesquite" && wheel.id == "left-rear" && day > 180.0 {
                wheel.hub_f += 0.13 * days;
            }
            wheel.loses(days);
        }
        for tire in self.truck.iter_mut().chain([&mut self.spare]) {
            tire.loses(days);
        }
        self.battery -= self.battery_ages * days;
        if self.battery < SPENT_BATTERY {
            self.battery = NEW_BATTERY;
        }
    }

    /// So many miles go by.
    pub(super) fn drive(&mut self, miles: f64) {
        self.odometer += miles;
        self.brakes = (self.brakes + self.brakes_wear * miles / 40.0).min(1.0);
        for wheel in &mut self.wheels {
            wheel.tread -= miles * 0.000_004;
        }
    }

    pub(super) fn wheel(&self, id: Option<&str>) -> Option<&Wheel> {
        self.wheels
            .iter()
            .find(|wheel| Some(wheel.id.as_str()) == id)
    }

    pub(super) fn wheel_mut(&mut self, id: Option<&str>) -> Option<&mut Wheel> {
        let mut wheels = self.wheels.iter_mut();
        wheels.find(|wheel| Some(wheel.id.as_str()) == id)
    }
}

/// A value of the rig file as a number.
fn known(given: &Given, unit: Unit) -> f64 {
    let value = given.quantity.in_unit(unit);
    value.and_then(|value| value.value.to_f64()).unwrap_or(0.0)
}
