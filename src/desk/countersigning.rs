//! Countersigning from the screens: what a manager thinks of a trip that was laid out.

use crate::record::Opinion;
use crate::walk::Words;

/// What a manager says to a trip.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Countersigning {
    /// The name of the trip's folder.
    pub trip: String,
    /// The manager's id in the crew file.
    pub manager: String,
    /// What they think of it.
    pub opinion: Opinion,
    /// What was opened, by name.
    pub opened: Vec<Words>,
    /// Remarks, or the question.
    pub remarks: Option<Words>,
    /// Milliseconds from when it was laid out to the opinion.
    pub took_ms: u64,
}
