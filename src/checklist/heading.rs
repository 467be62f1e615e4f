//! What a checklist is chosen by, which is read without its steps.

use crate::checklist::Haul;
use crate::rig::HitchKind;

/// The head of a checklist file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Heading {
    /// Id in records, such as `hitch-bumper`.
    pub id: String,
    /// Title on screens.
    pub title: String,
    /// Counts up with every change.
    pub revision: u32,
    /// The kinds of rig it is for.
    pub rigs: Vec<HitchKind>,
    /// How the walk belongs to the day's haul.
    pub haul: Haul,
}
