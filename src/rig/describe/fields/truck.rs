//! The truck: its label, its manual, a scale and a tape.

use crate::rig::describe::ask::Ask::{self, Given, Words};
use crate::rig::describe::field::{Field, Section};
use crate::rig::describe::fields::section;
use crate::units::Dimension::{Length, Mass, Pressure, SpringRate};

const WEIGHT: Ask = Given(Mass);

pub(super) const SECTIONS: &[Section] = &[
    section("truck", "The truck", TRUCK),
    section("truck.tires", "The truck's tires", TIRES),
    Section {
        without: Some(
            "The load on the steering axle and on the truck's rear axle is not reckoned. The \
             hitch-up goes by what it reads at the wheel arches.",
        ),
        ..section("truck.weighed", "The truck on a scale", WEIGHED)
    },
    Section {
        without: Some(
            "How far the truck settles is not reckoned, so the loaded ball height and the axle \
             loads are not either. Level is judged by half a degree, the trade's rule.",
        ),
        ..section("truck.springs", "The truck's springs", SPRINGS)
    },
    section("truck", "The truck as it brakes", MIDDLE),
];

const TRUCK: &[Field] = &[
    Field::must("name", Words, "What do people call the truck?")
        .look("The name said in the yard.", "Larkspur half-ton")
        .used("the screens and the reports"),
    Field::must(
        "gvwr",
        WEIGHT,
        "What is the most the truck may weigh, loaded?",
    )
    .look(
        "The label on the driver's door post, the line GVWR.",
        "7150 lb",
    )
    .used("the truck's weight with the tongue on it"),
    Field::must(
        "gawr-front",
        WEIGHT,
        "What is the most its front axle may carry?",
    )
    .look("The same label, the line GAWR FRONT.", "3900 lb")
    .used("the load on the steering axle"),
    Field::must(
        "gawr-rear",
        WEIGHT,
        "What is the most its rear axle may carry?",
    )
    .look("The same label, the line GAWR REAR.", "4100 lb")
    .used("the rear axle with the tongue on it"),
    Field::must(
        "gcwr",
        WEIGHT,
        "What is the most truck and trailer together may weigh?",
    )
    .look(
        "The towing pages of the truck's manual, by engine and axle: GCWR. It is seldom on a \
             label.",
        "15000 lb",
    )
    .used("the whole rig's weight"),
    Field::must(
        "payload",
        WEIGHT,
        "How much may people, goods and tongue weigh together?",
    )
    .look(
        "The tire label on the driver's door post, behind the words combined weight of \
             occupants and cargo.",
        "1450 lb",
    )
    .used("what is left for people and goods"),
    Field::must(
        "wheelbase",
        Given(Length),
        "How far is it from front axle to rear axle?",
    )
    .look(
        "The dimensions page of the manual; or a tape on the ground from hub to hub.",
        "145 in",
    )
    .used("how tongue weight is shared between the axles"),
    Field::must(
        "ball-behind-rear-axle",
        Given(Length),
        "How far does the ball stand behind the rear axle?",
    )
    .look(
        "A tape along the ground from the hub's middle to below the ball, the drawbar in the hole \
         it is towed in. A gooseneck's ball ahead of the axle is negative.",
        "50 in",
    )
    .used("how far tongue weight lifts the front axle"),
];

const TIRES: &[Field] = &[
    Field::must("size", Words, "What size are the truck's tires?")
        .look("The sidewall, the large figures.", "P265/70R17")
        .used("the drawing and the reports"),
    Field::must(
        "front-cold",
        Given(Pressure),
        "What cold pressure do the front tires want when towing?",
    )
    .look(LABEL_OR_TOWING_PAGES, "35 psi")
    .used("the truck's front tires"),
    Field::must(
        "rear-cold",
        Given(Pressure),
        "What cold pressure do the rear tires want when towing?",
    )
    .look(LABEL_OR_TOWING_PAGES, "40 psi")
    .used("the truck's rear tires"),
];

const LABEL_OR_TOWING_PAGES: &str = "The tire label on the driver's door post; where the manual's towing pages ask for more, those.";

const WEIGHED: &[Field] = &[
    Field::must(
        "front",
        WEIGHT,
        "What does the front axle weigh as the truck is driven?",
    )
    .look(
        "A scale ticket: people and fuel in, no trailer, the front axle alone on its plate.",
        "3440 lb",
    )
    .used("the load on the steering axle"),
    Field::must("rear", WEIGHT, "What does the rear axle weigh?")
        .look(
            "The same ticket, the rear axle alone on its plate.",
            "2860 lb",
        )
        .used("the load on the rear axle"),
];

const SPRINGS: &[Field] = &[
    Field::must(
        "front",
        Given(SpringRate),
        "How much weight does it take to press the front down an inch?",
    )
    .look(
        "Put a known weight over the front axle, measure from wheel arch to ground before and \
             after on both sides, and divide. The tires are part of it.",
        "430 lb/in",
    )
    .used("ball height, pitch and axle loads of the coupled rig"),
    Field::must(
        "rear",
        Given(SpringRate),
        "How much weight does it take to press the rear down an inch?",
    )
    .look(
        "The same over the rear axle: 260 lb that press it down half an inch are 520 lb/in.",
        "520 lb/in",
    )
    .used("ball height, pitch and axle loads of the coupled rig"),
];

const MIDDLE: &[Field] = &[Field::may(
    "middle-height",
    Given(Length),
    "How high does the truck's centre of gravity lie?",
)
.look(
    "No tape finds it. Half-ton trucks are near 28 in; say estimate.",
    "28 in",
)
.used("which wheels slide first in hard braking")
.without("What braking asks of each axle is not reckoned.")];
