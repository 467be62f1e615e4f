//! A logbook looked over: its trips at a glance, and those that cannot be looked at.

use crate::record::{Finding, Mode};
use crate::review::Glance;

/// What there is to look over.
#[derive(Clone, Debug, PartialEq)]
pub struct Lookout {
    /// Real, demo or drill.
    pub mode: Mode,
    /// The trips that can be walked again.
    pub trips: Vec<SeenTrip>,
    /// The others.
    pub closed: Vec<ClosedTrip>,
    /// How many more there are that nobody has read yet. Till none is left the newest are here, each
    /// as it stands by itself.
    pub unread: usize,
}

/// A trip, and what it is called where it is to be opened.
#[derive(Clone, Debug, PartialEq)]
pub struct SeenTrip {
    /// The trip.
    pub glance: Glance,
    /// The name of its folder, which no other trip has.
    pub folder: String,
}

/// A trip that cannot be looked at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClosedTrip {
    /// What verification finds.
    pub finding: Finding,
    /// The command that shows why.
    pub why: String,
}
