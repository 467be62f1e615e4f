//! What goes to people who have no program of ours: one trip, the history of a rig, a month.
//!
//! A report is first a value that holds all it says; JSON is that value. For people it is laid out
//! once, as a [`Page`], and the page is written as one HTML file that needs nothing else, or as
//! lines of text. Text is made harmless in those two writers and nowhere else.

mod chart;
mod cover;
mod flagged;
mod html;
mod lines;
mod month;
mod page;
mod rig;
mod standing;
mod trip;
mod trips;

pub use cover::{Cover, Made};
pub use html::html;
pub use lines::text;
pub use month::{MonthReport, MonthSources};
pub use page::{Block, Chart, DayCell, Days, Item, Page, Part, Picture, Row, Table};
pub use rig::{RigReport, RigSources};
pub use trip::{TripReport, TripSources};

use serde::Serialize;

/// A report.
#[derive(Clone, Debug, Serialize)]
#[serde(untagged)]
pub enum Report {
    /// One trip.
    Trip(Box<TripReport>),
    /// The history of one rig.
    Rig(Box<RigReport>),
    /// One month of a barn.
    Month(Box<MonthReport>),
}

impl Report {
    /// Laid out for people.
    pub fn page(&self) -> Page {
        match self {
            Self::Trip(report) => report.page(),
            Self::Rig(report) => report.page(),
            Self::Month(report) => report.page(),
        }
    }
}
