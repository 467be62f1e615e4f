//! The instruments a step could be measured with: those that suit it, and why the others of their
//! kind do not.

use crate::checklist::{PlannedAsk, PlannedStep};
use crate::rig::{Instrument, Rig};
use crate::rules::{Unsuitable, suits};

/// An instrument of the kind a step asks for.
#[derive(Clone, Debug)]
pub struct Tool<'a> {
    /// The instrument.
    pub instrument: &'a Instrument,
    /// Why it is refused for this step, where it is.
    pub unfit: Option<Unsuitable>,
}

impl PlannedStep {
    /// Every instrument of the kind this step asks for, in the order of the rig. The unfit ones are
    /// among them, so that who holds one sees it refused and does not take it for another.
    pub fn tools<'a>(&self, rig: &'a Rig) -> Vec<Tool<'a>> {
        let PlannedAsk::Reading { ask, .. } = &self.ask else {
            return Vec::new();
        };
        let of_kind = rig.instruments.iter();
        of_kind
            .filter(|instrument| instrument.kind == ask.instrument)
            .map(|instrument| Tool {
                instrument,
                unfit: self.suits(instrument).err(),
            })
            .collect()
    }

    /// Whether this instrument may be used. Of a blind step the refusal does not tell the value
    /// aimed at.
    ///
    /// # Errors
    /// [`Unsuitable`] with the range it is good for.
    pub fn suits(&self, instrument: &Instrument) -> Result<(), Unsuitable> {
        let PlannedAsk::Reading { ask, target, .. } = &self.ask else {
            return Ok(());
        };
        let suits = suits(instrument, ask.instrument, ask.dimension, target.as_ref());
        suits.map_err(|unfit| {
            if self.step.blind {
                unfit.blind()
            } else {
                unfit
            }
        })
    }
}

/// The instrument there is no choice about: it suits, and no other of its kind lies in the box.
pub fn only_tool<'a>(tools: &[Tool<'a>]) -> Option<&'a Instrument> {
    match tools {
        [
            Tool {
                instrument,
                unfit: None,
            },
        ] => Some(instrument),
        _ => None,
    }
}
