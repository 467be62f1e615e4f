//! The checklist: sections, steps, what each asks, and where bad answers lead.
//!
//! A [`Checklist`] in hand is well formed; a [`Plan`] is a checklist laid on one rig, with every
//! limit a number and every step that does not apply left out for a stated reason.

mod ask;
mod branch;
mod changes;
mod condition;
mod format;
mod gap;
mod haul;
mod heading;
mod lint;
mod own_limits;
mod passing;
mod plan;
mod planned;
mod section;
mod shipped;
mod step;
mod together;
mod tool;
mod yaml;

pub use ask::{Ask, ReadingAsk, SightingAsk, State};
pub use branch::{Branch, Ending};
pub use changes::{At, Change, Gravity, What, changes};
pub use condition::{Condition, Test};
pub use format::{LIST_FILE, STEPS_FILE, shapes};
pub use gap::Gap;
pub use haul::Haul;
pub use heading::Heading;
pub use lint::{Example, Finding, Rule, Ruled, Severity, lint};
pub(crate) use lint::{Remark, rules};
pub use own_limits::{for_no_list, held_to, no_stricter_on};
pub use plan::{Left, Plan, PlannedSection};
pub use planned::{PlannedAsk, PlannedStep, StepKey};
pub use section::{Section, Style};
pub use shipped::{PATTERN, SHARED, SHIPPED, Shipped, shipped_by_default};
pub use step::{Deferral, Step};
pub use together::{Shared, Together, lint_together, put_together};
pub use tool::{Tool, only_tool};

use crate::rig::HitchKind;

/// A procedure: what is done, in order, and how each step is judged.
#[derive(Clone, Debug, PartialEq)]
pub struct Checklist {
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
    /// Whether the rig goes on the road once the list is complete.
    pub road: bool,
    /// The cautions shown before the walk.
    pub cautions: Vec<String>,
    /// Sections in order.
    pub sections: Vec<Section>,
    /// What bad answers lead to, by id.
    pub branches: Vec<Branch>,
}

impl Checklist {
    /// What stands above its sections, to choose it by.
    pub fn heading(&self) -> Heading {
        Heading {
            id: self.id.clone(),
            title: self.title.clone(),
            revision: self.revision,
            rigs: self.rigs.clone(),
            haul: self.haul,
        }
    }

    /// The branch with this id.
    pub fn branch(&self, id: &str) -> Option<&Branch> {
        self.branches.iter().find(|branch| branch.id == id)
    }

    /// Every step in order.
    pub fn steps(&self) -> impl Iterator<Item = &Step> {
        self.sections.iter().flat_map(|section| &section.steps)
    }
}
