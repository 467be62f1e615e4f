//! What a step would find, by the rig as it truly is. What the model does not know is left to what
//! is well.

use crate::checklist::{PlannedAsk, PlannedStep};
use crate::rig::InstrumentKind;
use crate::shown::Dice;
use crate::units::{Dimension, Unit};
use crate::year::truth::Truth;
use crate::year::weather::Weather;

/// A rig at a moment of the year.
#[derive(Debug)]
pub(super) struct Scene<'y> {
    pub(super) truth: &'y Truth,
    pub(super) weather: &'y Weather,
    /// The day of the year and the part of it.
    pub(super) time: f64,
    /// Hours since the haul began.
    pub(super) hours: f64,
    /// Miles driven since the last stop.
    pub(super) driven: f64,
}

/// What is truly there to be read, where the model knows it.
pub(super) fn truly(
    planned: &PlannedStep,
    scene: &Scene<'_>,
    dice: &mut Dice,
) -> Option<(f64, Unit)> {
    let PlannedAsk::Reading { ask, .. } = &planned.ask else {
        return None;
    };
    let step = planned.step.id.as_str();
    let part = planned.item.as_ref().map(|item| item.id.as_str());
    match ask.dimension {
        Dimension::Pressure => Some((pressure(step, part, scene)?, Unit::Psi)),
        Dimension::Torque => Some((
            torque(part, scene.truth, scene.truth.odometer)?,
            Unit::FootPound,
        )),
        Dimension::Temperature => Some((temperature(step, part, scene, dice)?, Unit::Fahrenheit)),
        Dimension::Voltage => Some((volts(step, scene.truth)?, Unit::Volt)),
        Dimension::Time => time(planned, scene, dice),
        _ if ask.instrument == InstrumentKind::Odometer => Some((scene.truth.odometer, Unit::Mile)),
        _ if ask.instrument == InstrumentKind::TreadGauge => {
            Some((scene.truth.wheel(part)?.tread, Unit::Inch))
        }
        _ => None,
    }
}

fn pressure(step: &str, part: Option<&str>, scene: &Scene<'_>) -> Option<f64> {
    let air_f = scene.weather.air_f(scene.time);
    if step.starts_with("truck-tire") {
        let [front, rear] = &scene.truth.truck;
        let tire = if part == Some("front") { front } else { rear };
        return Some(tire.shows(air_f));
    }
    if step.starts_with("spare") {
        return Some(scene.truth.spare.shows(air_f));
    }
    Some(scene.truth.wheel(part)?.shows(air_f))
}

/// A click wrench proves at least what it is set to; what had settled is felt and put down.
fn torque(part: Option<&str>, truth: &Truth, odometer: f64) -> Option<f64> {
    let has = truth.wheel(part)?.has(odometer);
    Some(if has >= 0.97 * truth.torque {
        truth.torque
    } else {
        has
    })
}

fn temperature(step: &str, part: Option<&str>, scene: &Scene<'_>, dice: &mut Dice) -> Option<f64> {
    let air_f = scene.weather.air_f(scene.time);
    match step {
        "air" => Some(air_f),
        "air-forecast" => Some(scene.weather.warmest_f(scene.time) + dice.around(2.0)),
        "horse-temperature" => Some(100.1 + dice.around(0.35)),
        "hub-temp" => {
            let wheel = scene.truth.wheel(part)?;
            // Some miles until it is as warm as it gets.
            let warm = 1.0 - libm::exp(-scene.driven / 20.0);
            Some(air_f + warm * (34.0 + wheel.hub_f) + dice.around(1.5))
        }
        _ => None,
    }
}

fn volts(step: &str, truth: &Truth) -> Option<f64> {
    match step {
        "battery-rest" | "battery-parked" | "battery-stored" => Some(truth.battery),
        "battery-load" => Some(truth.battery - 0.78),
        "battery-five" => Some(truth.battery - 1.1),
        _ => None,
    }
}

fn time(planned: &PlannedStep, scene: &Scene<'_>, dice: &mut Dice) -> Option<(f64, Unit)> {
    let PlannedAsk::Reading { limits, .. } = &planned.ask else {
        return None;
    };
    match planned.step.id.as_str() {
        // Worn brakes take longer, up to what is noted.
        "pull-time" => {
            let noted = limits
                .first()?
                .bound
                .in_unit(Unit::Second)?
                .value
                .to_f64()?;
            let worn = 0.68 + 0.22 * scene.truth.brakes;
            Some((noted * worn + dice.around(0.02), Unit::Second))
        }
        "standing" => Some((1.0 + 2.0 * dice.share(), Unit::Minute)),
        "hours-aboard" | "hours-driven" => Some((scene.hours, Unit::Hour)),
        "next-stop" => Some((1.0 + 2.0 * dice.share(), Unit::Hour)),
        "next-stop-heat" => Some((1.0 + 0.5 * dice.share(), Unit::Hour)),
        _ => None,
    }
}
