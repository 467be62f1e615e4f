//! The least time an act takes whoever truly does it: what the list says of the step, else by what
//! kind of act it is.
//!
//! The times by kind are judged by people who do it, no source: a pressure takes twelve seconds to twenty with its cap
//! off and on, a wheel of six nuts forty to sixty. Everything here is taken low.

use crate::review::trace::{Act, What};
use crate::rig::InstrumentKind;

/// The share of it that two people need, one at the keys and one at the rig, in percent.
const HELPED_PCT: u64 = 60;

/// Milliseconds an act takes at the least.
pub(super) fn least_ms(act: &Act) -> u64 {
    let ms = act.least_ms.unwrap_or_else(|| 1000 * of_kind(&act.what));
    if act.is_helped() {
        ms * HELPED_PCT / 100
    } else {
        ms
    }
}

const fn of_kind(what: &What) -> u64 {
    match what {
        What::Seen => 2,
        What::SeenBySecond => 4,
        What::Read(read) => of_reading(read.kind),
    }
}

const fn of_reading(kind: InstrumentKind) -> u64 {
    match kind {
        InstrumentKind::TorqueWrench => 40,
        InstrumentKind::Multimeter | InstrumentKind::ClampMeter | InstrumentKind::Scale => 15,
        InstrumentKind::PressureGauge => 12,
        InstrumentKind::TreadGauge
        | InstrumentKind::DialIndicator
        | InstrumentKind::Caliper
        | InstrumentKind::Stopwatch => 10,
        InstrumentKind::Tape => 8,
        InstrumentKind::Thermometer => 4,
        InstrumentKind::ControllerDisplay
        | InstrumentKind::Clock
        | InstrumentKind::Count
        | InstrumentKind::Hygrometer
        | InstrumentKind::Odometer
        | InstrumentKind::Plate => 3,
    }
}
