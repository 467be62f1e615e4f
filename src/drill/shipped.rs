//! The scenarios and sights that come with the program.

use crate::barn::Policies;
use crate::checklist::{Shared, Shipped, Together, put_together};
use crate::drill::{Scenario, Sights};
use std::sync::{Arc, LazyLock};

macro_rules! files {
    ($folder:literal: $($name:literal),* $(,)?) => {
        [$(include_str!(concat!("../../checklists/drills/", $folder, $name, ".yaml"))),*]
    };
}

/// The files of scenarios, as they stand in `checklists/drills/`.
pub const SCENARIO_FILES: [&str; 10] = files!["":
    "backups", "carried", "gooseneck", "hitch", "horses", "power", "records", "road", "weights",
    "wheels",
];

/// The files of sights, as they stand in `checklists/drills/sights/`.
pub const SIGHT_FILES: [&str; 9] = files!["sights/":
    "backups", "gooseneck", "hitch", "horses", "power", "records", "road", "weights", "wheels",
];

/// Checklists that are there for drills alone, as they stand in `checklists/drills/lists/`.
pub const LIST_FILES: [&str; 1] = files!["lists/": "handed-in"];

/// Read once: nothing of it changes while the program runs. Each file reads; a test says so.
static ALL: LazyLock<Vec<Arc<Scenario>>> = LazyLock::new(|| {
    let read = SCENARIO_FILES
        .iter()
        .filter_map(|text| Scenario::read_all(text).ok());
    read.flatten().map(Arc::new).collect()
});

static SEEN: LazyLock<Arc<Sights>> = LazyLock::new(|| {
    let mut all = Sights::default();
    for read in SIGHT_FILES
        .iter()
        .filter_map(|text| Sights::read(text).ok())
    {
        all.extend(read);
    }
    Arc::new(all)
});

static LISTS: LazyLock<Vec<Together>> = LazyLock::new(|| {
    let put = |text: &&str| put_together(text, Shared::shipped(), &Policies::default()).ok();
    LIST_FILES.iter().filter_map(put).collect()
});

/// The checklist a scenario names: one that comes with the program, or one for drills alone.
pub fn list(id: &str) -> Option<&'static Together> {
    let own = LISTS.iter().find(|list| list.checklist.id == id);
    own.or_else(|| Shipped::named(id)?.by_default())
}

/// Every checklist that is there for drills alone.
pub(super) fn own_lists() -> impl Iterator<Item = &'static Together> {
    LISTS.iter()
}

/// Every scenario that comes with the program.
pub fn scenarios() -> &'static [Arc<Scenario>] {
    &ALL
}

impl Sights {
    /// The sights that come with the program.
    pub fn shipped() -> Arc<Self> {
        Arc::clone(&SEEN)
    }
}
