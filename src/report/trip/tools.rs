//! The instruments of a trip, and what is known of each.

use crate::logbook::readings;
use crate::record::{Verified, counted};
use crate::walk::Walk;
use serde::Serialize;

/// An instrument.
#[derive(Clone, Debug, Serialize)]
pub(super) struct ToolTold {
    pub(super) id: String,
    pub(super) name: String,
    /// What it is; nothing where the rig file does not say.
    pub(super) kind: Option<&'static str>,
    pub(super) span: Option<String>,
    pub(super) error: Option<String>,
    pub(super) step: Option<String>,
    pub(super) calibrated: Option<String>,
    /// How many readings were taken with it.
    pub(super) readings: usize,
}

/// Each that was read with, in the order they come up.
pub(super) fn tools(trip: &Verified, walk: &Walk) -> Vec<ToolTold> {
    let mut tools: Vec<ToolTold> = Vec::new();
    for read in readings(walk, trip) {
        match tools.iter_mut().find(|tool| tool.id == read.instrument) {
            Some(tool) => tool.readings += 1,
            None => tools.push(ToolTold::of(read.instrument, walk)),
        }
    }
    tools
}

impl ToolTold {
    fn of(id: &str, walk: &Walk) -> Self {
        let tool = walk.plan().rig().instrument(id);
        let span = tool.and_then(|tool| tool.span.as_ref());
        let calibrated = tool.and_then(|tool| tool.calibrated);
        Self {
            id: id.to_owned(),
            name: tool.map_or_else(|| id.to_owned(), |tool| tool.name.clone()),
            kind: tool.map(|tool| tool.kind.word()),
            span: span.map(|(low, high)| format!("{low} to {high}")),
            error: tool.map(|tool| tool.error.to_string()),
            step: tool.map(|tool| tool.step.to_string()),
            calibrated: calibrated.map(|day| day.to_string()),
            readings: 1,
        }
    }

    /// `dial gauge to 100 psi: 0 psi to 100 psi, wrong by grade B, not known to be calibrated; 9
    /// readings`.
    pub(super) fn told(&self) -> String {
        let mut known: Vec<String> = Vec::new();
        known.extend(self.span.clone());
        known.extend(
            self.error
                .as_ref()
                .map(|error| format!("may be wrong by {error}")),
        );
        known.push(match &self.calibrated {
            Some(day) => format!("calibrated {day}"),
            None => "no calibration is told".to_owned(),
        });
        format!(
            "{}: {}; {}",
            self.name,
            known.join(", "),
            counted(self.readings, "reading")
        )
    }
}
