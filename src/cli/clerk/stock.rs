//! The rigs and checklists on offer, those inside the program and files a person named; and what
//! the barn has set.

use crate::barn::Settings;
use crate::checklist::{Checklist, Together};
use crate::cli::clerk::listed::{DEMO, Listed};
use crate::desk::{Approval, ChecklistCard, RigCard};
use crate::rig::Rig;
use crate::rig::demo::{JUNIPER, MESQUITE};

/// A rig or a checklist, read, with the text records bind themselves to.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer<T> {
    /// As read.
    pub read: T,
    /// The text, byte for byte.
    pub text: String,
}

/// What can be walked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stock {
    /// Rigs.
    pub rigs: Vec<Offer<Rig>>,
    /// Checklists.
    pub checklists: Vec<Listed>,
    /// What the barn has set.
    pub settings: Settings,
    /// What to know about them, such as a file that cannot be read.
    pub notices: Vec<String>,
}

impl From<Together> for Offer<Checklist> {
    fn from(put: Together) -> Self {
        Self {
            read: put.checklist,
            text: put.text,
        }
    }
}

impl Stock {
    /// The checklists that come with the program, where no barn has set anything.
    pub fn shipped() -> Self {
        Self {
            checklists: Listed::shipped(),
            ..Self::default()
        }
    }

    /// The demo barn: its rigs, its settings, and the checklists as they make them.
    pub fn demo() -> Self {
        let read = [JUNIPER, MESQUITE].into_iter().filter_map(|text| {
            Some(Offer {
                read: Rig::read(text).ok()?,
                text: text.to_owned(),
            })
        });
        Self {
            rigs: read.collect(),
            checklists: DEMO.1.clone(),
            settings: DEMO.0.clone(),
            ..Self::default()
        }
    }

    /// The rig with this id.
    pub(super) fn rig(&self, id: &str) -> Option<&Offer<Rig>> {
        self.rigs.iter().find(|offer| offer.read.id == id)
    }

    /// The checklist with this id.
    pub(super) fn checklist(&self, id: &str) -> Option<Offer<Checklist>> {
        let mut lists = self.checklists.iter();
        let listed = lists.find(|list| list.heading.id == id)?;
        self.whole(listed)
    }

    /// The whole of a checklist on offer.
    pub fn whole(&self, listed: &Listed) -> Option<Offer<Checklist>> {
        listed.whole(&self.settings.policies)
    }

    pub(super) fn rig_cards(&self) -> Vec<RigCard> {
        let card = |offer: &Offer<Rig>| RigCard {
            id: offer.read.id.clone(),
            name: offer.read.name.clone(),
            kind: offer.read.kind(),
            open: Vec::new(),
            defects: Vec::new(),
            due: Vec::new(),
            haul: None,
        };
        self.rigs.iter().map(card).collect()
    }

    pub(super) fn checklist_cards(
        &self,
        standing: impl Fn(&Listed) -> Approval,
    ) -> Vec<ChecklistCard> {
        let card = |listed: &Listed| ChecklistCard {
            id: listed.heading.id.clone(),
            title: listed.heading.title.clone(),
            revision: listed.heading.revision,
            rigs: listed.heading.rigs.clone(),
            haul: listed.heading.haul,
            standing: standing(listed),
        };
        self.checklists.iter().map(card).collect()
    }
}
