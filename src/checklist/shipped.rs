//! The checklists that come with the program, and the steps they share.

use crate::barn::Policies;
use crate::checklist::{Heading, Shared, Together, put_together};
use std::sync::{LazyLock, OnceLock};

/// A checklist inside the program, as its file stands in `checklists/`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shipped {
    /// The id its text gives.
    pub id: &'static str,
    /// Its text, in the format any checklist file has.
    pub text: &'static str,
}

macro_rules! shipped {
    ($($id:literal),* $(,)?) => {
        [$(Shipped {
            id: $id,
            text: include_str!(concat!("../../checklists/", $id, ".yaml")),
        }),*]
    };
}

macro_rules! shared {
    ($($name:literal),* $(,)?) => {
        [$(include_str!(concat!("../../checklists/shared/", $name, ".yaml"))),*]
    };
}

/// Every checklist that comes with the program: those of a haul in its order, then those of the
/// year.
pub const SHIPPED: [Shipped; 14] = shipped![
    "hitch-bumper",
    "hitch-gooseneck",
    "load-horses",
    "departure",
    "first-stop",
    "stop",
    "arrive",
    "unhitch",
    "wheel-change",
    "days-before",
    "rig-match",
    "season-service",
    "storage-in",
    "storage-out",
];

/// A checklist with comments to start one from, as its file stands in `checklists/`.
pub const PATTERN: &str = include_str!("../../checklists/pattern.yaml");

/// The files of steps they share.
pub const SHARED: [&str; 17] = shared![
    "backups",
    "brakes",
    "branches",
    "gooseneck",
    "ground",
    "hitch",
    "horse-area",
    "horses",
    "jack",
    "lamps",
    "leaving",
    "power",
    "road",
    "service",
    "truck",
    "weights",
    "wheels",
];

/// Read once: nothing of it ever changes while the program runs.
static STEPS: LazyLock<Shared> = LazyLock::new(|| {
    let mut shared = Shared::default();
    for text in SHARED {
        // Each reads without a fault; a test says so.
        drop(shared.add(text));
    }
    shared
});

/// Each list as it is by default, put together when it is first wanted.
static BY_DEFAULT: [OnceLock<Option<Together>>; SHIPPED.len()] =
    [const { OnceLock::new() }; SHIPPED.len()];

impl Shared {
    /// The steps that come with the program.
    pub fn shipped() -> &'static Self {
        &STEPS
    }
}

/// Every checklist that comes with the program, put together where the barn has chosen nothing.
pub fn shipped_by_default() -> impl Iterator<Item = &'static Together> {
    SHIPPED.into_iter().filter_map(Shipped::by_default)
}

impl Shipped {
    /// The checklist with this id.
    pub fn named(id: &str) -> Option<Self> {
        SHIPPED.into_iter().find(|shipped| shipped.id == id)
    }

    /// What stands above its steps, which no barn's choice changes.
    pub fn heading(self) -> Option<Heading> {
        Heading::read(self.text)
    }

    /// The checklist put together where the barn has chosen nothing.
    pub fn by_default(self) -> Option<&'static Together> {
        let place = SHIPPED.iter().position(|one| one.id == self.id)?;
        let put = BY_DEFAULT.get(place)?;
        put.get_or_init(|| self.put(&Policies::default())).as_ref()
    }

    /// The checklist put together by what a barn chose.
    pub fn together(self, policies: &Policies) -> Option<Together> {
        if policies.are_default() {
            return self.by_default().cloned();
        }
        self.put(policies)
    }

    fn put(self, policies: &Policies) -> Option<Together> {
        put_together(self.text, Shared::shipped(), policies).ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_shipped_checklist_reads_without_a_fault_under_its_own_id() {
        let mut shared = Shared::default();
        for text in SHARED {
            assert_eq!(shared.add(text), Ok(()), "{text}");
        }
        for shipped in SHIPPED {
            let read = put_together(shipped.text, &shared, &Policies::default());
            let faults = read.as_ref().err().into_iter().flatten();
            let told: Vec<String> = faults.map(ToString::to_string).collect();
            assert!(told.is_empty(), "{}\n{}", shipped.id, told.join("\n"));
            let read = read.unwrap().checklist;
            assert_eq!(read.id, shipped.id);
            assert_eq!(shipped.heading(), Some(read.heading()), "{}", shipped.id);
        }
    }
}
