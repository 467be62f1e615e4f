//! What the trailer carries.

use crate::rig::describe::ask::Ask::{self, Given, Point, Stall, Word, Words};
use crate::rig::describe::ask::List;
use crate::rig::describe::choices::HORSE;
use crate::rig::describe::field::{Field, Section, When};
use crate::rig::describe::fields::section;
use crate::units::Dimension::{Length, Mass};

const GROSS: &str = "the trailer's weight as loaded";

/// What is carried.
pub(super) static LOAD: List = List {
    at: "load",
    key: "name",
    always: true,
};

pub(super) const CARRIED: &[Section] = &[
    Section {
        without: Some("It is taken out of the load."),
        ..section(
            "load[]",
            "The load",
            &[Field::must("name", Words, "What is carried?")
                .look(
                    "A horse by its name, or tack, water, hay.",
                    "Bramble, 16 hands",
                )
                .used("the screens and the reports")],
        )
    },
    Section {
        when: &[When::Lacks("load[].horse")],
        ..section(
            "load[]",
            "The load",
            &[Field::may("weight", Given(Mass), "What does it weigh?")
                .look(
                    "A scale; water is 8.34 lb a gallon. Type skip for a horse that stood on no \
                     scale.",
                    "1100 lb",
                )
                .used(GROSS)
                .without("Then its girth and length are asked, which tell a horse's weight.")],
        )
    },
    Section {
        when: &[When::Lacks("load[].weight")],
        without: Some(
            "Nothing says what it weighs now, and the file cannot be walked until something does.",
        ),
        ..section("load[].horse", "A horse by the tape", TAPE)
    },
    section(
        "load[]",
        "The load",
        &[
            Field::may("in", Stall, "In which stall does it stand?")
                .look(
                    "The stalls named before. Type skip for what stands in none.",
                    "1",
                )
                .used("axle loads and tongue weight")
                .when(&[When::Has("trailer.stalls[0]"), When::Lacks("load[].at")])
                .without("Then its place is asked."),
            Field::must("at", Point, "Where is its middle?")
                .look(
                    "From the middle of the ball, as loaded.",
                    "75 in, 0 in, 45 in",
                )
                .used("axle loads and tongue weight")
                .when(&[When::Lacks("load[].in")]),
        ],
    ),
];

const TAPE: &[Field] = &[
    Field::must("girth", Given(Length), "How far is it round the barrel?")
        .look(
            "Behind the withers and the elbow, when the horse has breathed out.",
            "72 in",
        )
        .used(GROSS),
    Field::must("length", Given(Length), "How long is the body?")
        .look(
            "From the point of the shoulder to the point of the buttock, one side.",
            "68 in",
        )
        .used(GROSS),
    Field::must("kind", Word(HORSE), "How is it built?")
        .look("Look at the horse.", "1")
        .used(GROSS),
];

pub(super) const MORE: &[Section] = &[section("", "The load", NEXT)];

const NEXT: &[Field] = &[
    Field::must("load", Ask::More(&LOAD), "Is something else carried?")
        .look(
            "Each horse, then tack, water and hay, one after another.",
            "Bramble, 16 hands",
        )
        .used(GROSS),
];
