//! Readings made to compare: the air in a tire at one temperature, the time of a pull as the
//! deceleration it is, a hub by how much it is warmer than the others.

use crate::mechanics::braking::{LeverPull, PULL_MPH, pull_stop_time};
use crate::mechanics::tires::{AirChange, TOLD_AT_F, tire_pressure_shift};
use crate::review::trend::Kind;
use crate::units::{Exact, Quantity, Unit};

/// What this pressure, read in this air, would be at the temperature pressures are told at. Taken
/// as read at the sea: on a mountain it moves a little less.
pub(super) fn pressure(read: &Quantity, air: &Quantity) -> Option<Quantity> {
    let shifted = tire_pressure_shift(&AirChange {
        gauge_psi: number(read, Unit::Psi)?,
        temp_f: number(air, Unit::Fahrenheit)?,
        new_temp_f: TOLD_AT_F,
        altitude_ft: 0.0,
        new_altitude_ft: None,
    });
    nearest(
        shifted.ok()?.gauge_psi,
        Kind::TirePressure.step(),
        Unit::Psi,
    )
}

/// The deceleration of a pull that took so long.
pub(super) fn deceleration(took: &Quantity) -> Option<Quantity> {
    let pulled = pull_stop_time(&LeverPull {
        speed_mph: PULL_MPH,
        time_s: Some(number(took, Unit::Second)?),
        decel_g: None,
        brake_force_lb: None,
        combined_lb: None,
    });
    let unit = Kind::BrakePull.unit();
    nearest(pulled.ok()?.decel_g, Kind::BrakePull.step(), unit)
}

/// How much more it is than the middle of the others; nothing where no other was read.
pub(super) fn against<'q>(
    read: &Quantity,
    others: impl IntoIterator<Item = &'q Quantity>,
) -> Option<Quantity> {
    let middle = Quantity::middle(others)?;
    let unit = Kind::HubTemperature.unit();
    read.in_unit(unit)?.minus(&middle.in_unit(unit)?)
}

/// The share that was lost from one torque to the next, in percent; below 0 where it was tighter.
pub(super) fn lost(from: &Quantity, to: &Quantity) -> Option<Quantity> {
    let lost = from.minus(to)?.value;
    let share = (&lost * &Exact::whole(100)).over(&from.value)?;
    Some(Quantity::new(share, Unit::Percent))
}

/// A reading as physics reckons with it.
pub(super) fn number(quantity: &Quantity, unit: Unit) -> Option<f64> {
    quantity.in_unit(unit)?.value.to_f64()
}

/// What physics reckoned, to the nearest step of what it is.
pub(super) fn nearest(value: f64, (upper, lower): (i128, i128), unit: Unit) -> Option<Quantity> {
    let step = Exact::ratio(upper, lower)?;
    Some(Quantity::new(Exact::nearest(value, &step)?, unit))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 58.5 psi in 30 F is 64.48 psi at 70 F: (58.5 + 14.696) x 529.67 / 489.67 - 14.696 by hand.
    #[test]
    fn the_same_air_is_the_same_pressure_in_frost_and_in_the_sun() {
        let psi = |value| Quantity::new(Exact::ratio(value, 10).unwrap(), Unit::Psi);
        let air = |value| Quantity::whole(value, Unit::Fahrenheit);
        assert_eq!(pressure(&psi(585), &air(30)), Some(psi(645)));
        assert_eq!(pressure(&psi(650), &air(70)), Some(psi(650)));
        let celsius = Quantity::new(Exact::ratio(-10, 9).unwrap(), Unit::Celsius);
        assert_eq!(pressure(&psi(585), &celsius), Some(psi(645)));
        assert_eq!(pressure(&psi(585), &psi(585)), None);
    }

    /// 5 mph is 2.2352 m/s; over 1.2 s that is 0.190 of 9.80665 m/s2.
    #[test]
    fn a_pull_is_told_by_its_deceleration() {
        let took = Quantity::new(Exact::ratio(12, 10).unwrap(), Unit::Second);
        let told = deceleration(&took).unwrap();
        assert_eq!(told.to_string(), "0.19 g");
        assert_eq!(deceleration(&Quantity::whole(0, Unit::Second)), None);
    }

    #[test]
    fn a_hub_is_told_against_the_middle_of_the_others() {
        let hub = |value| Quantity::whole(value, Unit::Fahrenheit);
        let others = [hub(120), hub(118), hub(122)];
        assert_eq!(against(&hub(205), &others), Some(hub(85)));
        assert_eq!(against(&hub(205), []), None);
    }

    #[test]
    fn what_nuts_lost_is_a_share_of_what_they_held() {
        let torque = |value| Quantity::whole(value, Unit::FootPound);
        let told = lost(&torque(110), &torque(88)).unwrap();
        assert_eq!(told, Quantity::whole(20, Unit::Percent));
        assert_eq!(lost(&torque(0), &torque(88)), None);
    }
}
