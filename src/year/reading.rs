//! How a person of the barn types what an instrument shows.

use crate::rig::{Instrument, InstrumentKind};
use crate::rules::Limit;
use crate::shown;
use crate::units::{Exact, Quantity};
use crate::year::people::{Habit, Person};

/// How a person puts it down.
pub(super) fn put_down(
    shown: Quantity,
    person: &Person,
    tool: &Instrument,
    limits: &[Limit],
) -> Quantity {
    let dial = matches!(
        tool.kind,
        InstrumentKind::PressureGauge | InstrumentKind::TorqueWrench | InstrumentKind::Thermometer
    );
    if person.habit != Habit::RoundsToFives || !dial {
        return shown;
    }
    let five = shown.value.to_f64();
    let five = five.and_then(|value| Exact::nearest(value, &Exact::whole(5)));
    let rounded = five.map(|value| Quantity::new(value, shown.unit));
    let is_ok = |value: &Quantity| shown::is_ok(value, tool, limits);
    rounded.filter(is_ok).unwrap_or(shown)
}
