//! The six people of the year, all of them invented, and their habits.

/// One of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Person {
    /// Id in records.
    pub id: &'static str,
    /// Printed name.
    pub name: &'static str,
    /// What they do.
    pub work: Work,
    /// What sets them apart.
    pub habit: Habit,
    /// The rigs the manager has signed them off for; nothing means every one.
    pub rigs: Option<&'static [&'static str]>,
}

/// What a person does in the barn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Work {
    /// Drives.
    Driver,
    /// Goes round and holds horses.
    Groom,
    /// Looks at what the others wrote.
    Manager,
}

/// What sets a person apart from the others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Habit {
    /// Nothing.
    Steady,
    /// Reads a dial to the nearest five.
    RoundsToFives,
    /// Is quick, and now and then has typed a list from the seat of the truck.
    Quick,
    /// Signs now and then on the laptop of another truck.
    OtherLaptop,
}

/// Everybody.
pub const PEOPLE: [Person; 6] = [
    Person {
        id: "wren.ashdown",
        name: "Wren Ashdown",
        work: Work::Driver,
        habit: Habit::Steady,
        rigs: None,
    },
    Person {
        id: "tobias.fenn",
        name: "Tobias Fenn",
        work: Work::Groom,
        habit: Habit::Steady,
        rigs: None,
    },
    Person {
        id: "odile.marsh",
        name: "Odile Marsh",
        work: Work::Manager,
        habit: Habit::Steady,
        rigs: None,
    },
    Person {
        id: "perrin.quill",
        name: "Perrin Quill",
        work: Work::Driver,
        habit: Habit::RoundsToFives,
        rigs: None,
    },
    Person {
        id: "hazel.brack",
        name: "Hazel Brack",
        work: Work::Groom,
        habit: Habit::Quick,
        rigs: None,
    },
    Person {
        id: "ansel.dunmore",
        name: "Ansel Dunmore",
        work: Work::Driver,
        habit: Habit::OtherLaptop,
        rigs: Some(&["juniper", "sumac"]),
    },
];

impl Person {
    /// Stands where nobody does this work.
    pub(super) const fn first() -> &'static Self {
        let [first, ..] = &PEOPLE;
        first
    }

    /// Everybody who does this.
    pub(super) fn doing(work: Work) -> Vec<&'static Self> {
        PEOPLE.iter().filter(|one| one.work == work).collect()
    }
}
