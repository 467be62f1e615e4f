//! One walk of the year: what line 0 binds, what happened, who signed, and what the manager said.

use crate::checklist::Plan;
use crate::rules::Carried;
use crate::walk::{Entry, Moment, Walk, Words};
use crate::year::people::Person;
use std::sync::Arc;

/// A walk of the year.
#[derive(Clone, Debug)]
pub struct Trip {
    /// Its id: sixteen letters and digits.
    pub id: String,
    /// The laptop it was written on, from 0.
    pub laptop: usize,
    /// The rig, by its place in the barn.
    pub rig: usize,
    /// The checklist, by its place in the barn.
    pub list: usize,
    /// The checklist laid on the rig.
    pub plan: Arc<Plan>,
    /// The odometer as it was typed when it began, where it was.
    pub odometer: Option<String>,
    /// Who read and typed.
    pub reader: Words,
    /// Who did the work.
    pub doer: Words,
    /// The trip that began the haul it belongs to, where it belongs to one.
    pub haul: Option<String>,
    /// What stood open when it began.
    pub carried: Vec<Left>,
    /// When it began.
    pub began: Moment,
    /// What happened, in order.
    pub entries: Vec<Entry>,
    /// The walk at its end.
    pub walk: Walk,
    /// Who signed it, and when; nothing where nobody did.
    pub signed: Option<(&'static Person, Moment)>,
    /// What the manager said of it.
    pub look: Look,
    /// Whether it was typed up from the seat of the truck, with what was read the time before.
    pub typed_up: bool,
}

/// Something that an earlier trip left open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Left {
    /// What, and at which part.
    pub carried: Carried,
    /// The trip that left it.
    pub since: String,
}

/// What the manager said of a trip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// Nothing yet.
    NotYet,
    /// Agreed.
    Agreed,
    /// Asked this.
    Asked(&'static str),
}
