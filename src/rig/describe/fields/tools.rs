//! The instruments a reading is taken with.

use crate::rig::describe::ask::Ask::{self, Day, Error, Id, Span, Step, Word, Words};
use crate::rig::describe::ask::List;
use crate::rig::describe::choices::INSTRUMENT as KINDS;
use crate::rig::describe::field::{Field, Section, When};
use crate::rig::describe::fields::section;

/// The instruments kept with the rig.
pub(super) static INSTRUMENTS: List = List {
    at: "instruments",
    key: "id",
    always: true,
};

pub(super) const WHICH: &[Section] = &[Section {
    when: &[When::Lacks("instruments")],
    ..section(
        "",
        "The instruments",
        &[Field::must(
            "instruments",
            Ask::Tools,
            "Which instruments is it measured with?",
        )
        .look(
            "The hitch-up reads with a pressure gauge, a torque wrench, a multimeter, a tape, \
                 a caliper, a scale, a stopwatch, the controller's display and by counting. It \
                 knows how wrong each may be.",
            "1",
        )
        .used("whether a reading proves what it seems to")],
    )
}];

pub(super) const INSTRUMENT: &[Section] = &[
    Section {
        without: Some("The instrument is taken out."),
        ..section(
            "instruments[]",
            "An instrument",
            &[Field::must("id", Id, "A short name for the instrument?")
                .look(
                    "Small letters, digits and hyphens. It stands beside each reading.",
                    "gauge-100",
                )
                .used("every reading taken with it")],
        )
    },
    section("instruments[]", "An instrument", FIELDS),
];

const FIELDS: &[Field] = &[
    Field::must("name", Words, "What do people call it?")
        .look("As it is asked for.", "dial gauge to 100 psi")
        .used("the screens"),
    Field::must("kind", Word(KINDS), "What is it?")
        .look("Look at it.", "1")
        .used("which steps it may be used for"),
    Field::must("step", Step, "What is the smallest mark or digit?")
        .look("On its scale or display, with the unit.", "1 psi")
        .used("how fine a reading can be"),
    Field::may("span", Span, "From which mark to which does it reach?")
        .look("The ends of its scale.", "0 psi, 100 psi")
        .used("the part of the scale it is trusted over")
        .without(
            "It is trusted over all of its scale. A pressure gauge and a torque wrench need one.",
        ),
    Field::must("error", Error, "How wrong may it be?")
        .look(
            "The dial or the leaflet. An ordinary dial gauge is grade B; a torque wrench 4 % of \
             the reading; a steel tape 1/16 in.",
            "B",
        )
        .used("how far a reading must lie inside a limit"),
    Field::may("calibrated", Day, "When was it last calibrated?")
        .look("Its sticker or certificate.", "2026-03-02")
        .used("trust in its readings")
        .without("It counts as never calibrated."),
];

pub(super) const MORE: &[Section] = &[Section {
    when: &[When::Has("instruments")],
    ..section("", "The instruments", NEXT)
}];

const NEXT: &[Field] = &[Field::may(
    "instruments",
    Ask::More(&INSTRUMENTS),
    "Is there another instrument?",
)
.look("By a short name in small letters.", "tongue-scale")
.used("the readings it can take")
.without("")];
