//! What every report begins and ends with: what it is, of which barn, made when and by what.

use crate::record::Mode;
use crate::report::Page;
use chrono::{DateTime, FixedOffset};
use serde::Serialize;

/// The form of the JSON.
const SCHEMA: &str = "hames-report/1";

/// What a report shows, and what none can.
const SHOWS: &str = "What was looked at and read, by whom, when, with what, and who signed: this \
     report says no more than that. A signature shows who signed what was typed, never that it was \
     done. A verdict is of that day and that rig, by the limits that stand beside it; it takes the \
     place of no inspection, licence or law. Where the law of the place or a licensed judge of the \
     vehicle says otherwise, that counts.";

/// How a report came about.
#[derive(Clone, Debug)]
pub struct Made {
    /// The barn, by its name.
    pub barn: String,
    /// Whether what is told counts.
    pub mode: Mode,
    /// When.
    pub at: DateTime<FixedOffset>,
    /// By which version of the program.
    pub program: String,
}

/// What every report begins with.
#[derive(Clone, Debug, Serialize)]
pub struct Cover {
    schema: &'static str,
    /// What it is of: a trip, a rig, a month.
    of: &'static str,
    mode: &'static str,
    barn: String,
    made_at: String,
    program: String,
    #[serde(skip)]
    made: DateTime<FixedOffset>,
    #[serde(skip)]
    counts: Mode,
}

impl Cover {
    /// The cover of a report of this kind.
    pub(super) fn new(of: &'static str, made: &Made) -> Self {
        Self {
            schema: SCHEMA,
            of,
            mode: made.mode.word(),
            barn: made.barn.clone(),
            made_at: made.at.to_rfc3339(),
            program: made.program.clone(),
            made: made.at,
            counts: made.mode,
        }
    }

    /// A page with this title, still without a part.
    pub(super) fn page(&self, title: String, cover: Vec<String>) -> Page {
        let warning = match self.counts {
            Mode::Real => None,
            Mode::Demo => Some("DEMO: an invented barn. Nothing here counts."),
            Mode::Drill => Some("DRILL: training runs. Nothing here counts."),
        };
        let barn = (!self.barn.is_empty()).then(|| self.barn.clone());
        Page {
            title,
            warning: warning.map(str::to_owned),
            cover: barn.into_iter().chain(cover).collect(),
            picture: None,
            parts: Vec::new(),
            foot: vec![
                SHOWS.to_owned(),
                format!(
                    "Made by {} on {}. It is no record itself: the record is the signed \
                     files it was made from.",
                    self.program,
                    self.made.format("%Y-%m-%d %H:%M %:z")
                ),
            ],
        }
    }
}
