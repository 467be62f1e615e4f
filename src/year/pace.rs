//! How long an act takes whoever truly does it. Judged by people who do it, no source: a pressure
//! takes twelve seconds to twenty with its cap off and on, a wheel of nuts forty to sixty.

use crate::checklist::{PlannedAsk, PlannedStep};
use crate::rig::InstrumentKind;
use crate::shown::Dice;
use crate::year::people::{Habit, Person};

/// Milliseconds from the opening of a step to its answer.
pub(super) fn needed(planned: &PlannedStep, who: &Person, typed_up: bool, dice: &mut Dice) -> u64 {
    if typed_up {
        return dice.between(700, 1600);
    }
    let seconds = match &planned.ask {
        PlannedAsk::Sighting(_) => sighting(&planned.step.id),
        PlannedAsk::Independent(_) => 22,
        PlannedAsk::Reading { ask, .. } => reading(ask.instrument),
    };
    let hundredths = match who.habit {
        Habit::Quick => dice.between(62, 90),
        _ => dice.between(85, 170),
    };
    seconds * 10 * hundredths + dice.below(900)
}

/// Milliseconds from an answer to the next step: a walk of some feet.
pub(super) fn on_the_way(typed_up: bool, dice: &mut Dice) -> u64 {
    if typed_up {
        dice.between(150, 400)
    } else {
        dice.between(1500, 5200)
    }
}

fn sighting(step: &str) -> u64 {
    match step {
        "floor" | "floor-top" | "floor-under" | "frame-rails" => 60,
        "lift-gap" | "bed-gap" => 25,
        "trailer-drags" | "pull-line" | "pedal-stop" => 40,
        "brake-lamps" | "left-lamp" | "right-lamp" | "running-lamps" => 22,
        "roll" | "truck-view" | "stalls" => 18,
        _ if step.starts_with("hub-") || step.starts_with("brake-") => 35,
        _ => 8,
    }
}

fn reading(instrument: InstrumentKind) -> u64 {
    match instrument {
        InstrumentKind::PressureGauge => 16,
        InstrumentKind::TorqueWrench => 50,
        InstrumentKind::Multimeter | InstrumentKind::ClampMeter => 30,
        InstrumentKind::Tape | InstrumentKind::Caliper => 18,
        InstrumentKind::TreadGauge | InstrumentKind::DialIndicator => 35,
        InstrumentKind::Thermometer => 9,
        InstrumentKind::Stopwatch => 45,
        InstrumentKind::Scale => 25,
        _ => 7,
    }
}
