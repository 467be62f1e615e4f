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

/// What a further reading of a part is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Next {
    /// It stands in the place of the one before.
    Instead,
    /// It says nothing new.
    Same,
    /// A look of its own.
    Look {
        /// Whether something was put right before it.
        afresh: bool,
    },
}

/// The looks among the readings of one part, in order.
pub(super) fn looks<'r>(readings: &[Reading<'r>]) -> Vec<Look<'r>> {
    let mut looks: Vec<Look<'r>> = Vec::new();
    for reading in readings {
        let next = looks.last().map_or(Next::Look { afresh: false }, |last| {
            next(
                reading.round,
                &Taken::of(&last.reading),
                &Taken::of(reading),
            )
        });
        match (next, looks.last_mut()) {
            (Next::Instead, Some(last)) => last.reading = *reading,
            (Next::Look { afresh }, _) => looks.push(Look {
                reading: *reading,
                afresh,
            }),
            (Next::Same | Next::Instead, _) => {}
        }
    }
    looks
}

/// What is held against what.
struct Taken<'r> {
    read: &'r Quantity,
    band: &'r Band,
    with: &'r str,
}

impl<'r> Taken<'r> {
    fn of(reading: &Reading<'r>) -> Self {
        Self {
            read: reading.typed.quantity(),
            band: &reading.judgement.band,
            with: reading.instrument,
        }
    }
}

fn next(round: Round, before: &Taken<'_>, after: &Taken<'_>) -> Next {
    match round {
        // What was taken back never was.
        Round::Correction => Next::Instead,
        // A finer instrument says what the same air is; the same one again says that it is no
        // longer the same, or that somebody misread, and then nothing is lost by beginning anew.
        Round::MeasuredAgain if before.with != after.with && meet(before.band, after.band) => {
            Next::Instead
        }
        Round::MeasuredAgain if before.read == after.read => Next::Same,
        Round::MeasuredAgain | Round::PutRight => Next::Look { afresh: true },
        Round::First | Round::ReLook => Next::Look { afresh: false },
    }
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

/// Whether both may stand for one value.
fn meet(one: &Band, other: &Band) -> bool {
    let reaches = |end: &Quantity, band: &Band| end.within(&band.low, &band.high);
    reaches(&one.low, other) || reaches(&one.high, other) || reaches(&other.low, one)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Unit;

    #[test]
    fn what_was_put_right_begins_anew_and_a_finer_instrument_only_says_it_better() {
        let psi = |value| Quantity::whole(value, Unit::Psi);
        let anew = Next::Look { afresh: true };
        let on = Next::Look { afresh: false };
        let rows = [
            // Read and its error, read again and its error, with another gauge, in which round.
            ((57, 2), (65, 2), false, Round::PutRight, anew),
            ((60, 2), (65, 2), false, Round::MeasuredAgain, anew),
            ((60, 2), (61, 2), false, Round::MeasuredAgain, anew),
            ((60, 2), (60, 2), false, Round::MeasuredAgain, Next::Same),
            ((60, 2), (61, 1), true, Round::MeasuredAgain, Next::Instead),
            // It contradicts the other: air went in.
            ((60, 2), (65, 1), true, Round::MeasuredAgain, anew),
            ((60, 2), (65, 2), false, Round::Correction, Next::Instead),
            ((60, 2), (59, 2), false, Round::ReLook, on),
        ];
        for ((was, may), (is, might), other, round, wanted) in rows {
            let band = |value: i64, error: i64| Band {
                low: psi(value - error),
                high: psi(value + error),
            };
            let (read, again) = (psi(was), psi(is));
            let (one, two) = (band(was, may), band(is, might));
            let before = Taken {
                read: &read,
                band: &one,
                with: "gauge",
            };
            let with = if other { "better" } else { "gauge" };
            let after = Taken {
                read: &again,
                band: &two,
                with,
            };
            assert_eq!(next(round, &before, &after), wanted, "{was} {is} {round:?}");
        }
    }
}
