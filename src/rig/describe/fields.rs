//! The one list of what is asked about a rig, in the order a person walks round it: the truck from
//! the cab, the hitch from the receiver to the plug, the trailer from its plate to its axles, then
//! what it carries and what is measured with.

mod axle;
mod backups;
mod chain;
mod joint;
mod load;
mod tools;
mod trailer;
mod truck;
mod wheel;

use crate::rig::describe::ask::Ask;
use crate::rig::describe::field::{Chapter, Field, Over, Section};

/// Everything that is asked, in order.
pub const CHAPTERS: &[Chapter] = &[
    one(NAMES),
    one(truck::SECTIONS),
    one(joint::SECTIONS),
    Chapter {
        over: Over::Sides,
        sections: chain::SECTIONS,
    },
    one(backups::SECTIONS),
    one(trailer::PLATE),
    Chapter {
        over: Over::Axles,
        sections: axle::SECTIONS,
    },
    one(trailer::BEHIND_THE_AXLES),
    Chapter {
        over: Over::Each(&trailer::STALLS),
        sections: trailer::STALL,
    },
    one(trailer::MORE_STALLS),
    Chapter {
        over: Over::Each(&load::LOAD),
        sections: load::CARRIED,
    },
    one(load::MORE),
    one(tools::WHICH),
    Chapter {
        over: Over::Each(&tools::INSTRUMENTS),
        sections: tools::INSTRUMENT,
    },
    one(tools::MORE),
];

const fn one(sections: &'static [Section]) -> Chapter {
    Chapter {
        over: Over::One,
        sections,
    }
}

/// A part that is always asked, and never left out as a whole.
const fn section(at: &'static str, title: &'static str, fields: &'static [Field]) -> Section {
    Section {
        at,
        title,
        without: None,
        when: &[],
        fields,
    }
}

const NAMES: &[Section] = &[section(
    "",
    "The rig",
    &[
        Field::must("id", Ask::Id, "A short name for records?")
            .look(
                "You choose it: small letters, digits and hyphens. It stands in every record.",
                "juniper",
            )
            .used("every record of this rig"),
        Field::must("name", Ask::Words, "What do people call this rig?")
            .look(
                "The name said in the yard, and what it is.",
                "Juniper, two-horse bumper pull",
            )
            .used("the screens and the reports"),
    ],
)];
