//! The rigs and checklists on offer, those inside the program and files a person named; and what
//! the barn has set.

use crate::barn::{self, Settings};
use crate::checklist::{Checklist, Together, held_to, shipped_by_default, shipped_for};
use crate::desk::{Approval, ChecklistCard, RigCard};
use crate::record::Mode;
use crate::rig::Rig;
use crate::rig::demo::{JUNIPER, MESQUITE};
use std::sync::LazyLock;

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
    pub checklists: Vec<Offer<Checklist>>,
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

/// The demo barn's settings, and the checklists as they make them.
static DEMO: LazyLock<(Settings, Vec<Together>)> = LazyLock::new(|| {
    let settings = Settings::read(barn::DEMO).unwrap_or_default();
    let lists = shipped_for(&settings.policies).into_iter();
    let held = lists.map(|put| held_to(put, &settings.limits).0).collect();
    (settings, held)
});

impl Stock {
    /// The checklists that come with the program, where no barn has set anything.
    pub fn shipped() -> Self {
        let lists = shipped_by_default().cloned();
        Self {
            checklists: lists.map(Offer::from).collect(),
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
            checklists: DEMO.1.iter().cloned().map(Offer::from).collect(),
            settings: DEMO.0.clone(),
            ..Self::default()
        }
    }

    /// The rig with this id.
    pub(super) fn rig(&self, id: &str) -> Option<&Offer<Rig>> {
        self.rigs.iter().find(|offer| offer.read.id == id)
    }

    /// The checklist with this id.
    pub(super) fn checklist(&self, id: &str) -> Option<&Offer<Checklist>> {
        self.checklists.iter().find(|offer| offer.read.id == id)
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
        standing: impl Fn(&Offer<Checklist>) -> Approval,
    ) -> Vec<ChecklistCard> {
        let card = |offer: &Offer<Checklist>| ChecklistCard {
            id: offer.read.id.clone(),
            title: offer.read.title.clone(),
            revision: offer.read.revision,
            rigs: offer.read.rigs.clone(),
            haul: offer.read.haul,
            standing: standing(offer),
        };
        self.checklists.iter().map(card).collect()
    }
}

/// Whether a checklist is, to the byte, one that comes with this program: as it is by default, or
/// in the demo barn as its settings make it.
pub(in crate::cli) fn is_shipped(text: &[u8], mode: Mode) -> bool {
    let of_demo: &[Together] = if mode == Mode::Demo { &DEMO.1 } else { &[] };
    let mut shipped = shipped_by_default().chain(of_demo);
    shipped.any(|put| put.text.as_bytes() == text)
}
