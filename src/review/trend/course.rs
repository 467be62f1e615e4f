//! The looks of one walk at one part: what was found, and what was left where something was put
//! right.
//!
//! A tire is found at 57 and left at 65. The next walk tells what was lost since it was left, and
//! nobody may take the air that was put in for air that was never lost. So the second look begins a
//! new stretch; what another, finer instrument says of the same air does not.

use crate::logbook::Reading;
use crate::rules::Band;
use crate::units::{Exact, Quantity};
use crate::walk::Round;

/// One look.
#[derive(Clone, Debug)]
pub(super) struct Look<'r> {
    /// The reading that stands for it.
    pub(super) reading: Reading<'r>,
    /// Whether something was put right since the look before.
    pub(super) afresh: bool,
}

/// The looks among the readings of one part, in order.
pub(super) fn looks<'r>(readings: &[Reading<'r>]) -> Vec<Look<'r>> {
    let mut looks: Vec<Look<'r>> = Vec::new();
    for reading in readings {
        let Some(last) = looks.last_mut() else {
            looks.push(Look {
                reading: *reading,
                afresh: false,
            });
            continue;
        };
        let afresh = match reading.round {
            // What was taken back never was.
            Round::Correction => {
                last.reading = *reading;
                continue;
            }
            Round::MeasuredAgain if is_finer(reading, &last.reading) => {
                last.reading = *reading;
                continue;
            }
            Round::MeasuredAgain => {
                if reading.typed.quantity() == last.reading.typed.quantity() {
                    continue;
                }
                true
            }
            Round::PutRight => true,
            Round::First | Round::ReLook => false,
        };
        looks.push(Look {
            reading: *reading,
            afresh,
        });
    }
    looks
}

/// By how much it may be wrong either way, in the unit it was typed in.
pub(super) fn error(reading: &Reading<'_>) -> Exact {
    let Band { low, high } = &reading.judgement.band;
    let wide = high.minus(low).and_then(|wide| {
        let wide = wide.difference_in(reading.typed.quantity().unit)?;
        wide.value.over(&Exact::whole(2))
    });
    wide.unwrap_or_else(Exact::zero)
}

/// Whether another instrument says the same of the same thing, as far as both are known.
fn is_finer(reading: &Reading<'_>, before: &Reading<'_>) -> bool {
    let (one, other) = (&reading.judgement.band, &before.judgement.band);
    let reaches = |end: &Quantity, band: &Band| end.within(&band.low, &band.high);
    let meet = reaches(&one.low, other) || reaches(&one.high, other) || reaches(&other.low, one);
    reading.instrument != before.instrument && meet
}
