//! A checklist on offer: its heading is at hand, and its steps are read when somebody wants them.
//!
//! The lists that come with the program take longer to read than all else at the start, and of
//! fourteen one is walked.

use crate::barn::{self, OwnLimit, Policies, Settings};
use crate::checklist::{Checklist, Heading, SHIPPED, Shipped, Together, held_to};
use crate::cli::clerk::stock::Offer;
use crate::document::Fault;
use crate::record::Mode;
use std::sync::LazyLock;

/// A checklist on offer.
#[derive(Clone, Debug, PartialEq)]
pub struct Listed {
    /// What it is chosen by.
    pub heading: Heading,
    rest: Rest,
}

#[derive(Clone, Debug, PartialEq)]
enum Rest {
    Read(Box<Offer<Checklist>>),
    /// One of the program's, put together by what the barn chose.
    Shipped(Shipped),
}

impl From<Offer<Checklist>> for Listed {
    fn from(offer: Offer<Checklist>) -> Self {
        Self {
            heading: offer.read.heading(),
            rest: Rest::Read(Box::new(offer)),
        }
    }
}

impl From<Together> for Listed {
    fn from(put: Together) -> Self {
        Offer::from(put).into()
    }
}

impl Listed {
    /// The lists that come with the program.
    pub(in crate::cli) fn shipped() -> Vec<Self> {
        let listed = |shipped: Shipped| {
            Some(Self {
                heading: shipped.heading()?,
                rest: Rest::Shipped(shipped),
            })
        };
        SHIPPED.into_iter().filter_map(listed).collect()
    }

    /// The whole of it, where the barn chose these.
    pub fn whole(&self, policies: &Policies) -> Option<Offer<Checklist>> {
        match &self.rest {
            Rest::Read(offer) => Some((**offer).clone()),
            Rest::Shipped(shipped) => shipped.together(policies).map(Offer::from),
        }
    }

    /// The whole of it, where that is read already.
    pub(super) fn at_hand(&self) -> Option<&Offer<Checklist>> {
        match &self.rest {
            Rest::Read(offer) => Some(offer),
            Rest::Shipped(_) => None,
        }
    }

    /// Whether it is as it comes with the program, which takes no reading to say.
    pub(super) fn is_as_shipped(&self, policies: &Policies) -> bool {
        matches!(self.rest, Rest::Shipped(_)) && policies.are_default()
    }

    /// The list with the barn's own limits for it, and each that is refused, with why.
    pub(in crate::cli) fn held_to(self, settings: &Settings) -> (Self, Vec<Fault>) {
        let is_own = |own: &OwnLimit| own.checklist.text == self.heading.id;
        if !settings.limits.iter().any(is_own) {
            return (self, Vec::new());
        }
        let Some(whole) = self.whole(&settings.policies) else {
            return (self, Vec::new());
        };
        let put = Together {
            checklist: whole.read,
            text: whole.text,
        };
        let (held, refused) = held_to(put, &settings.limits);
        (held.into(), refused)
    }
}

/// The demo barn's settings, and the checklists as they make them.
pub(super) static DEMO: LazyLock<(Settings, Vec<Listed>)> = LazyLock::new(|| {
    let settings = Settings::read(barn::DEMO).unwrap_or_default();
    let lists = Listed::shipped().into_iter();
    let held = lists.map(|list| list.held_to(&settings).0).collect();
    (settings, held)
});

/// Whether a checklist is, to the byte, one that comes with this program: as it is by default, or
/// in the demo barn as its settings make it.
pub(in crate::cli) fn is_shipped(id: &str, text: &[u8], mode: Mode) -> bool {
    let of_demo = || {
        let (settings, lists) = &*DEMO;
        let list = lists.iter().find(|list| list.heading.id == id);
        let whole = list.and_then(|list| list.whole(&settings.policies));
        whole.is_some_and(|whole| whole.text.as_bytes() == text)
    };
    let by_default = Shipped::named(id).and_then(Shipped::by_default);
    by_default.is_some_and(|put| put.text.as_bytes() == text) || mode == Mode::Demo && of_demo()
}
