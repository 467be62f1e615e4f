//! One axle of the trailer with its brakes, tires and wheels.

use crate::rig::describe::ask::Ask::{self, Given, Word};
use crate::rig::describe::ask::Like;
use crate::rig::describe::choices::SUSPENSION;
use crate::rig::describe::field::{Field, Section, When};
use crate::rig::describe::fields::{section, wheel};
use crate::units::Dimension::{Angle, Current, Length, Mass, SpringRate, Torque};

const SETTLES: &str = "pitch, axle loads and level tolerance";
const HALF_DEGREE: &str = "These are not reckoned; the trade's half degree stands.";

static FRONT: Like = Like {
    from: "trailer.axles[0]",
    except: &["behind-ball"],
};

pub(super) const SECTIONS: &[Section] = &[
    Section {
        when: &[When::Later],
        ..section("trailer.axles[]", "An axle", BUILT)
    },
    section("trailer.axles[]", "An axle", AXLE),
    Section {
        when: &[When::Lacks("trailer.axles[].spring.arm")],
        ..section("trailer.axles[].spring", "The axle's spring", RATE)
    },
    Section {
        when: &[
            When::Is("trailer.axles[].suspension", "torsion"),
            When::Lacks("trailer.axles[].spring.rate"),
        ],
        without: Some(HALF_DEGREE),
        ..section("trailer.axles[].spring", "The axle's arm", ARM)
    },
    Section {
        without: Some(
            "The axle counts as without brakes. At least one axle needs them where the law asks \
             for brakes.",
        ),
        ..section("trailer.axles[].brake", "The axle's brakes", BRAKE)
    },
    section("trailer.axles[].tire", "The axle's tires", wheel::TIRE),
    section("trailer.axles[].fit", "The axle's wheels", wheel::FIT),
    section("trailer.axles[]", "The axle's wheels", OFF),
];

const AXLE: &[Field] = &[
    Field::must("gawr", Given(Mass), "What is the most this axle may carry?")
        .look(
            "The trailer's plate: GAWR; or the tag on the axle's tube.",
            "3500 lb",
        )
        .used("the load on each axle"),
    Field::must(
        "behind-ball",
        Given(Length),
        "How far behind the ball does it stand?",
    )
    .look(
        "A tape along the ground from below the coupler's socket to the hub's middle.",
        "150 in",
    )
    .used("axle loads and tongue weight"),
    Field::must(
        "track",
        Given(Length),
        "How far is it from left tire to right tire?",
    )
    .look(
        "From the middle of one tread to the middle of the other.",
        "80 in",
    )
    .used("the load on each tire of the axle"),
    Field::must("suspension", Word(SUSPENSION), "How is it sprung?")
        .look("Look under the trailer beside the wheel.", "1")
        .used("how the axles share the load"),
];

const RATE: &[Field] = &[Field::may(
    "rate",
    Given(SpringRate),
    "How much weight presses the axle's springs down an inch, both sides together?",
)
.look(
    "The axle's data sheet, its tires left out. Type skip where only the arm is known.",
    "1520 lb/in",
)
.used(SETTLES)
.without(
    "On a torsion axle it can be reckoned from the arm; else the trade's half degree stands.",
)];

const ARM: &[Field] = &[
    Field::must("arm", Given(Length), "How long is the torsion arm?")
        .look(
            "From the middle of the square tube to the middle of the spindle.",
            "6 in",
        )
        .used(SETTLES),
    Field::must(
        "start-angle",
        Given(Angle),
        "How far does the arm hang below level with no weight on it?",
    )
    .look(
        "The tag on the tube or the axle's data sheet: 22.5 deg down is 22.5 deg, up is \
             negative.",
        "22.5 deg",
    )
    .used(SETTLES),
    Field::may(
        "pivot-height",
        Given(Length),
        "How high is the middle of the tube, loaded?",
    )
    .look(
        "From level ground to the middle of the square tube.",
        "14 in",
    )
    .used("which axle slides first in braking")
    .without("What braking asks of each axle is not reckoned."),
];

const BRAKE: &[Field] = &[
    Field::must("drum", Given(Length), "What diameter are its brake drums?")
        .look(
            "Cast into the back of the drum. Type skip where the axle has no brakes.",
            "10 in",
        )
        .used("the current of the magnets"),
    Field::must(
        "magnet-current",
        Given(Current),
        "How much current does one magnet draw?",
    )
    .look("The axle's manual, the magnet table, at full lever.", "3 A")
    .used("the current when the lever is pulled, and how long the battery holds"),
    Field::may(
        "torque",
        Given(Torque),
        "What is the torque of one wheel's brake, lever full on?",
    )
    .look("The axle's manual, the brake table.", "900 ft-lb")
    .used("the pull test, and what the brakes hold when the trailer breaks loose")
    .without("The pull test is judged by its time alone."),
];

const OFF: &[Field] = &[Field::may(
    "wheel-off-at",
    Given(Length),
    "What did the truck's odometer show when a wheel of this axle was last off?",
)
.look("The wheel book, or the shop's bill.", "61240 mi")
.used("when the nuts are to be checked again")
.without("Nuts are checked at every hitch-up, as after any wheel was off.")];

const BUILT: &[Field] = &[Field::may(
    "",
    Ask::Like(&FRONT),
    "Is this axle built like the front one?",
)
.look(
    "Rating, track, springs, brakes, tires and wheels; where it stands is asked.",
    "1",
)
.used("everything about the axle but its place")
.without("Then each of its values is asked.")];
