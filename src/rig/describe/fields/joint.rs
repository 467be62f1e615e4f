//! From the truck to the ball and the coupler on it.

use crate::rig::describe::ask::Ask::{self, Given, Joint};
use crate::rig::describe::field::{Field, Section, When};
use crate::rig::describe::fields::section;
use crate::units::Dimension::{Length, Mass};

const WEIGHT: Ask = Given(Mass);

const BUMPER_PULL: &[When] = &[When::Has("hitch.joint.bumper-pull")];
const GOOSENECK: &[When] = &[When::Has("hitch.joint.gooseneck")];

pub(super) const SECTIONS: &[Section] = &[
    section("hitch", "The hitch", KIND),
    Section {
        when: BUMPER_PULL,
        ..section(
            "hitch.joint.bumper-pull.receiver.carrying",
            "The receiver, carrying the tongue alone",
            RECEIVER,
        )
    },
    Section {
        when: BUMPER_PULL,
        without: Some("The receiver is judged by its ratings without spring bars."),
        ..section(
            "hitch.joint.bumper-pull.receiver.distributing",
            "The receiver with spring bars",
            DISTRIBUTING,
        )
    },
    Section {
        when: BUMPER_PULL,
        ..section(
            "hitch.joint.bumper-pull.receiver",
            "The receiver's height",
            RECEIVER_HEIGHT,
        )
    },
    Section {
        when: BUMPER_PULL,
        ..section(
            "hitch.joint.bumper-pull.drawbar.ratings",
            "The drawbar",
            DRAWBAR_RATINGS,
        )
    },
    Section {
        when: BUMPER_PULL,
        ..section("hitch.joint.bumper-pull.drawbar", "The drawbar", DRAWBAR)
    },
    Section {
        when: BUMPER_PULL,
        ..section("hitch.joint.bumper-pull.pin", "The hitch pin", PIN)
    },
    Section {
        when: GOOSENECK,
        ..section("hitch.joint.gooseneck.bed", "The bed hitch", BED)
    },
    Section {
        when: GOOSENECK,
        ..section("hitch.joint.gooseneck", "The bed", BED_HEIGHTS)
    },
    section("hitch.ball", "The ball", BALL),
    section("hitch.coupler", "The coupler", COUPLER_SIZE),
    section("hitch.coupler.ratings", "The coupler", COUPLER),
    section("hitch.coupler", "The coupler", COUPLER_BOTTOM),
];

const KIND: &[Field] = &[Field::must("joint", Joint, "How is the ball carried?")
    .look("Look at the truck.", "1")
    .used("every step of the hitch-up")];

const HITCH_TOTAL: &str = "the weakest part of the hitch against the loaded trailer";
const HITCH_DOWN: &str = "the weakest part of the hitch against the tongue weight";

const RECEIVER: &[Field] = &[
    Field::must(
        "total",
        WEIGHT,
        "How much trailer may it pull without spring bars?",
    )
    .look(
        "The plate on the receiver's tube, the line weight carrying, trailer weight.",
        "8000 lb",
    )
    .used(HITCH_TOTAL),
    Field::must(
        "downward",
        WEIGHT,
        "How much may press down on it without spring bars?",
    )
    .look("The same line of the plate, tongue weight.", "800 lb")
    .used(HITCH_DOWN),
];

const DISTRIBUTING: &[Field] = &[
    Field::must(
        "total",
        WEIGHT,
        "How much trailer may it pull with spring bars?",
    )
    .look(
        "The plate on the receiver's tube, the line weight distributing, trailer weight. Many \
             have no such line.",
        "12000 lb",
    )
    .used(HITCH_TOTAL),
    Field::must(
        "downward",
        WEIGHT,
        "How much may press down on it with spring bars?",
    )
    .look("The same line of the plate, tongue weight.", "1200 lb")
    .used(HITCH_DOWN),
];

const RECEIVER_HEIGHT: &[Field] = &[Field::must(
    "height",
    Given(Length),
    "How high is the inside top of the receiver's tube?",
)
.look(
    "A tape from level ground to the inside top of the square tube, people and fuel in, no \
     trailer.",
    "20 in",
)
.used("the height of the ball, and the drawbar that makes the trailer level")];

const DRAWBAR_RATINGS: &[Field] = &[
    Field::must("total", WEIGHT, "How much trailer may the drawbar pull?")
        .look("Stamped on the side of its shank.", "8000 lb")
        .used(HITCH_TOTAL),
    Field::must(
        "downward",
        WEIGHT,
        "How much may press down on the drawbar?",
    )
    .look("Stamped beside it: tongue weight.", "800 lb")
    .used(HITCH_DOWN),
];

const DRAWBAR: &[Field] = &[Field::must(
    "rise",
    Given(Length),
    "How far does the drawbar lift the ball's platform above the receiver?",
)
.look(
    "From the top of the shank up to the platform the ball stands on. A drop is negative.",
    "-2 in",
)
.used("the height of the ball")];

const PIN: &[Field] = &[
    Field::must("diameter", Given(Length), "How thick is the hitch pin?")
        .look("A caliper across the middle of the pin.", "5/8 in")
        .used("the pin that belongs in the receiver"),
];

const BED: &[Field] = &[
    Field::must("total", WEIGHT, "How much trailer may the bed hitch pull?")
        .look("The plate at the underside of the bed hitch.", "25000 lb")
        .used(HITCH_TOTAL),
    Field::must(
        "downward",
        WEIGHT,
        "How much may press down on the bed hitch?",
    )
    .look("The same plate, vertical load.", "6250 lb")
    .used(HITCH_DOWN),
];

const BED_HEIGHTS: &[Field] = &[
    Field::must("bed-height", Given(Length), "How high is the bed's floor?")
        .look(
            "A tape from level ground to the floor beside the ball, people and fuel in, no \
             trailer.",
            "34-1/2 in",
        )
        .used("the height of the ball"),
    Field::must("rail-height", Given(Length), "How high is the bed's rail?")
        .look(
            "A tape from level ground to the top of the bed's wall.",
            "54 in",
        )
        .used("room between the trailer's nose and the rail"),
];

const BALL: &[Field] = &[
    Field::must("diameter", Given(Length), "What diameter is the ball?")
        .look("Stamped on the flat on top of the ball.", "2-5/16 in")
        .used("whether ball and coupler belong together"),
    Field::must("total", WEIGHT, "How much trailer may the ball pull?")
        .look("Stamped beside the diameter.", "10000 lb")
        .used(HITCH_TOTAL),
    Field::must(
        "height",
        Given(Length),
        "How high is the middle of the ball above what it stands on?",
    )
    .look(
        "A rule from the platform, or from the bed's floor, to the widest part of the ball.",
        "2-3/4 in",
    )
    .used("the height of the ball"),
];

const COUPLER_SIZE: &[Field] =
    &[
        Field::must("diameter", Given(Length), "For which ball is the coupler?")
            .look("Stamped on the coupler's top or side.", "2-5/16 in")
            .used("whether ball and coupler belong together"),
    ];

const COUPLER: &[Field] = &[
    Field::must("total", WEIGHT, "How much trailer may the coupler pull?")
        .look("Stamped beside the size.", "7000 lb")
        .used(HITCH_TOTAL),
    Field::must(
        "downward",
        WEIGHT,
        "How much may press down on the coupler?",
    )
    .look(
        "Stamped beside it, or the coupler maker's data sheet.",
        "1050 lb",
    )
    .used(HITCH_DOWN),
];

const COUPLER_BOTTOM: &[Field] = &[Field::may(
    "below-chain-eye",
    Given(Length),
    "How far below the chains' eyes on the trailer does the coupler reach?",
)
.look(
    "A straightedge under the coupler's lowest point, and a rule from it up to the middle of an \
     eye.",
    "2 in",
)
.used("whether the crossed chains hold a dropped coupler off the road")
.without("Chains are judged by eye: crossed, and no lower than they need be.")];
