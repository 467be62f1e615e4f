//! The trailer's plate and frame, what stands behind the axles, and its stalls.

use crate::rig::describe::ask::Ask::{self, Given, Id, Point, Words};
use crate::rig::describe::ask::List;
use crate::rig::describe::field::{Field, Section, When};
use crate::rig::describe::fields::{section, wheel};
use crate::units::Dimension::{Length, Mass};

pub(super) const PLATE: &[Section] = &[section("trailer", "The trailer", TRAILER)];

const TRAILER: &[Field] = &[
    Field::must("name", Words, "What do people call the trailer?")
        .look("The name said in the yard.", "Juniper")
        .used("the screens and the reports"),
    Field::must("gvwr", Given(Mass), "What is the most the trailer may weigh, loaded?")
        .look("Its plate, on the left wall near the front: GVWR.", "7000 lb")
        .used("every rating of the hitch, and the chains"),
    Field::must("empty", Given(Mass), "What does it weigh empty?")
        .look(
            "A scale ticket of the empty trailer, tongue included; the plate's own figure leaves \
             out what was built in later.",
            "3050 lb",
        )
        .used("the trailer's weight as loaded"),
    Field::may("empty-middle", Point, "Where does the empty trailer balance?")
        .look(
            "Weigh it empty on its wheels and on its coupler. The coupler's share of the whole, \
             times how far the axles lie behind the ball, is how far the middle lies ahead of them. \
             Its height is near the floor plus a foot: say estimate.",
            "144 in, 0 in, 34 in",
        )
        .used("axle loads, tongue weight, pitch and level tolerance")
        .without(
            "None of these is reckoned; level is judged by half a degree, the trade's rule, and \
             tongue weight by a scale.",
        ),
    Field::must("level-coupler-height", Given(Length), "How high is the coupler when the frame is level?")
        .look(
            "Level ground, a bubble on the frame, the jack turned until it is level: from the \
             ground to the middle of the coupler's socket.",
            "18 in",
        )
        .used("the height the ball should have"),
    Field::may("level-axle-load", Given(Mass), "What did each axle carry when that height was taken?")
        .look("Wheel pads under one axle; empty, it is the ticket's wheels shared by the axles.", "1400 lb")
        .used("how far the trailer's own springs settle from there")
        .without("Pitch and level tolerance are not reckoned; the trade's half degree stands."),
    Field::must("frame-base", Given(Length), "How far apart are the two frame marks where level is read?")
        .look(
            "Two marks on the lower edge of the frame, one near the front and one near the rear. \
             Make them where there are none.",
            "150 in",
        )
        .used("pitch from two heights"),
    Field::must("axles", Ask::Axles, "How many axles has it?")
        .look("Count them: one, two or three.", "2")
        .used("every wheel, tire and brake"),
];

pub(super) const BEHIND_THE_AXLES: &[Section] = &[
    Section {
        when: &[
            When::Has("trailer.axles[1]"),
            When::Is("trailer.axles[0].suspension", "equalized-leaf"),
        ],
        without: Some("The load an equalizer moves between the axles in braking is not reckoned."),
        ..section("trailer.equalizer", "The equalizer", EQUALIZER)
    },
    wheel::SPARE,
];

const EQUALIZER: &[Field] = &[
    Field::must(
        "eye-height",
        Given(Length),
        "How high are the eyes of the springs?",
    )
    .look(
        "From level ground to the middle of a bolt that holds a spring's end.",
        "19 in",
    )
    .used("the load moved between the axles in braking"),
    Field::must(
        "half-spring",
        Given(Length),
        "How far is it from a spring's eye to the axle?",
    )
    .look(
        "Along one spring, from the middle of the eye's bolt to the middle of the axle.",
        "12-3/4 in",
    )
    .used("the load moved between the axles in braking"),
    Field::may(
        "travel",
        Given(Length),
        "How far can the equalizer's end move before it meets its stop?",
    )
    .look(
        "Jacked at one wheel until the rocker touches, the way of its end.",
        "1-1/2 in",
    )
    .used("the pitch at which the axles no longer share the load")
    .without("The equalizer counts as free at any pitch."),
];

/// The trailer's stalls.
pub(super) static STALLS: List = List {
    at: "trailer.stalls",
    key: "id",
    always: false,
};

pub(super) const STALL: &[Section] = &[
    Section {
        without: Some("The stall is taken out."),
        ..section(
            "trailer.stalls[]",
            "A stall",
            &[Field::must("id", Id, "A short name for the stall?")
                .look("Small letters, digits and hyphens.", "left")
                .used("saying which horse stands where")],
        )
    },
    section(
        "trailer.stalls[]",
        "A stall",
        &[
            Field::must("name", Words, "What do people call it?")
                .look("The name said in the yard.", "left stall")
                .used("the screens"),
            Field::must("at", Point, "Where is the middle of a horse in it?")
                .look(
                    "A little behind the withers and a hand above the elbow, as it stands in the \
                     stall.",
                    "158 in, -17 in, 60 in",
                )
                .used("axle loads and tongue weight with this horse or another"),
        ],
    ),
];

pub(super) const MORE_STALLS: &[Section] = &[section("trailer", "The stalls", NEXT)];

const NEXT: &[Field] = &[
    Field::may("stalls", Ask::More(&STALLS), "Is there a stall to name?")
        .look(
            "A stall is a place a horse can stand in; with names, a horse is moved from one to \
             another in a word.",
            "left",
        )
        .used("axle loads with the horses in other stalls")
        .without("Each horse's place is asked with the horse."),
];
