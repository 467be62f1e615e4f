//! What an instrument shows of what truly is: it is wrong by a little, always the same way and
//! each time by something more, and shows nothing finer than its marks.

use crate::checklist::PlannedStep;
use crate::rig::{Instrument, InstrumentKind, Rig};
use crate::rules::{Limit, Outcome, Verdict, judge, scale};
use crate::shown::Dice;
use crate::units::{Exact, Quantity, Unit};

/// What an instrument shows of a true value.
pub fn shows((value, unit): (f64, Unit), tool: &Instrument, dice: &mut Dice) -> Option<Quantity> {
    let step = tool.step.difference_in(unit)?.value;
    let near = Quantity::new(Exact::nearest(value, &step)?, unit);
    let exact = matches!(
        tool.kind,
        InstrumentKind::Count
            | InstrumentKind::Plate
            | InstrumentKind::Odometer
            | InstrumentKind::Clock
            // It clicks at what it is set to.
            | InstrumentKind::TorqueWrench
    );
    if exact {
        return Some(near);
    }
    // So much it may be wrong by, as the rules reckon it.
    let band = judge(&near, Some(tool), &[]).band;
    let wrong = band.high.minus(&near)?.value.to_f64()?;
    let off = wrong * (bias_of(tool) + dice.around(0.12));
    Some(Quantity::new(Exact::nearest(value + off, &step)?, unit))
}

/// Whether such a reading is well.
pub fn is_ok(value: &Quantity, tool: &Instrument, limits: &[Limit]) -> bool {
    judge(value, Some(tool), limits).outcome == Outcome::Judged(Verdict::Ok)
}

/// The instrument a person takes: the first of its kind that suits and reaches so far. Of a horse,
/// the veterinary one.
pub fn tool_for<'r>(
    planned: &PlannedStep,
    rig: &'r Rig,
    about: (f64, Unit),
) -> Option<&'r Instrument> {
    let fit = tools_for(planned, rig, about);
    let of_horse = planned.step.id.starts_with("horse-temperature");
    let last = fit.last().copied().filter(|_| of_horse);
    last.or_else(|| fit.first().copied())
}

/// Every instrument of a step whose scale has the value.
pub fn tools_for<'r>(
    planned: &PlannedStep,
    rig: &'r Rig,
    (value, unit): (f64, Unit),
) -> Vec<&'r Instrument> {
    let reaches = |tool: &Instrument| {
        let about = Exact::nearest(value, &Exact::ratio(1, 1000)?)?;
        let about = Quantity::new(about, unit);
        scale(tool).map(|(low, high)| about.within(&low, &high))
    };
    let tools = planned.tools(rig).into_iter();
    let fit = tools.filter(|tool| tool.unfit.is_none());
    let fit = fit.map(|tool| tool.instrument);
    fit.filter(|tool| reaches(tool).unwrap_or(true)).collect()
}

/// An instrument's own error, as a share of what it may be wrong by: the same for its life.
fn bias_of(tool: &Instrument) -> f64 {
    let seed = tool.id.bytes().fold(7_u64, |sum, byte| {
        sum.wrapping_mul(31).wrapping_add(u64::from(byte))
    });
    0.7 * (Dice::new(seed).share() - 0.5)
}
