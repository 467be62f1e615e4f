//! Breakaway, jack and plug; how far the rig turns; spring bars.

use crate::rig::describe::ask::Ask::{Given, Point, Word, Words};
use crate::rig::describe::choices::{ANCHOR, BATTERY, PULLS};
use crate::rig::describe::field::{Field, Section, When};
use crate::rig::describe::fields::section;
use crate::units::Dimension::{Angle, Charge, Count, Length, Torque};

const LANYARD: &str = "a lanyard longer than any turn needs and shorter than parting allows";
const HOLD: &str = "how long the battery can hold the brakes on";

pub(super) const SECTIONS: &[Section] = &[
    section("hitch.breakaway", "The breakaway switch", SWITCH),
    section("hitch.breakaway.anchor", "The lanyard's anchor", ANCHORED),
    section("hitch.breakaway.battery", "The breakaway battery", CELLS),
    section("hitch.breakaway", "The breakaway switch", PULL),
    section("hitch.jack", "The jack", JACK),
    section("hitch.plug", "The plug and its cord", PLUG),
    Section {
        without: Some("The volts lost on the way to the brakes are not reckoned."),
        ..section("hitch.plug.brake-wire", "The wire to the brakes", WIRE)
    },
    section("hitch", "The rig in a turn", TURN),
    Section {
        when: &[When::Has("hitch.joint.bumper-pull.receiver.distributing")],
        without: Some("The rig is reckoned without spring bars."),
        ..section("hitch.spring-bars", "Spring bars", BARS)
    },
];

const SWITCH: &[Field] = &[
    Field::must("switch", Point, "Where is the breakaway switch?")
        .look(
            "Where its pin goes in, from the middle of the ball.",
            "9 in, 1 in, 21 in",
        )
        .used(LANYARD),
    Field::must("lanyard", Given(Length), "How long is its lanyard?")
        .look("Pulled straight, from the pin to the clip.", "27-1/4 in")
        .used(LANYARD),
];

const ANCHORED: &[Field] = &[
    Field::must(
        "name",
        Words,
        "What is the lanyard clipped to on the truck?",
    )
    .look(
        "As people point at it. It must stay on the truck when every part of the hitch is \
             gone.",
        "eye on the rear frame cross-member",
    )
    .used("the step where the lanyard is clipped"),
    Field::must("kind", Word(ANCHOR), "What kind of point is that?")
        .look(
            "Chain, hook, ball, drawbar, receiver, pin and coupler leave with the trailer and are \
             not offered.",
            "1",
        )
        .used("whether the lanyard pulls when the hitch is gone"),
    Field::must("at", Point, "Where is it?")
        .look(
            "The middle of it, from the middle of the ball.",
            "-14 in, 2 in, 17 in",
        )
        .used(LANYARD),
];

const CELLS: &[Field] = &[
    Field::must("kind", Word(BATTERY), "How is the breakaway battery built?")
        .look("Open its box on the tongue and read the case.", "2")
        .used("what its volts at rest mean"),
    Field::must("capacity", Given(Charge), "What is its capacity?")
        .look("On its case: Ah, at the 20-hour rate.", "12 Ah")
        .used(HOLD),
];

const PULL: &[Field] = &[
    Field::may(
        "pin-travel",
        Given(Length),
        "How far does the pin come out before the brakes are on?",
    )
    .look(
        "Wheels chocked, draw the pin until the magnets hum, measure, and put it back.",
        "3/8 in",
    )
    .used(LANYARD)
    .without("An inch is taken: common practice, no source."),
    Field::may("pulls", Word(PULLS), "When must the lanyard pull?")
        .look("The trade teaches both; the barn decides.", "1")
        .used(LANYARD)
        .without("It is taken that it pulls before the chains come tight."),
];

const JACK: &[Field] = &[Field::must(
    "clearance",
    Given(Length),
    "How far off the road must the jack's foot be when it is up?",
)
.look(
    "The trailer's manual; where it says nothing, 10 in is common practice: say estimate.",
    "10 in",
)
.used("the step where the jack goes up")];

const PLUG: &[Field] = &[
    Field::must("kind", Words, "What kind of plug is it?")
        .look("Look at its face.", "7-way blade")
        .used("the step where it is plugged in"),
    Field::must("cord", Given(Length), "How long is the cord?")
        .look(
            "From its clip on the trailer to the plug's face, pulled straight.",
            "54 in",
        )
        .used("a cord longer than any turn needs"),
    Field::may("truck-end", Point, "Where is its socket on the truck?")
        .look(
            "The socket's face, from the middle of the ball.",
            "-10 in, 12 in, 18 in",
        )
        .used("a cord longer than any turn needs")
        .without("The cord is judged by eye in a turn."),
    Field::may(
        "trailer-end",
        Point,
        "Where is the clip that holds the cord on the trailer?",
    )
    .look(
        "The clip, from the middle of the ball.",
        "16 in, -3 in, 22 in",
    )
    .used("a cord longer than any turn needs")
    .without("The cord is judged by eye in a turn."),
];

const WIRE: &[Field] = &[
    Field::must(
        "gauge",
        Given(Count),
        "What AWG number has the wire to the brakes?",
    )
    .look(
        "Printed on the wire's jacket; it is mostly blue. A larger number is thinner.",
        "12",
    )
    .used("the volts lost on the way to the brakes"),
    Field::must("length", Given(Length), "How long is it, one way?")
        .look(
            "Along the frame from the plug to the farther axle.",
            "30 ft",
        )
        .used("the volts lost on the way to the brakes"),
];

const TURN: &[Field] = &[Field::may(
    "turn",
    Given(Angle),
    "How far can the trailer turn before body meets body?",
)
.look(
    "On an empty lot, someone watching both corners: stop well before they meet, and measure the \
     angle from straight with two chalk lines.",
    "75 deg",
)
.used("the longest way chains, lanyard and cord must reach")
.without("A jackknife of 90 degrees is taken, which asks for the longest of them.")];

const BARS: &[Field] = &[Field::must(
    "couple",
    Given(Torque),
    "How hard do the spring bars lift, both together?",
)
.look(
    "The bars' manual, by rating and chain link; or the height they bring back at the front \
     wheels.",
    "1500 ft-lb",
)
.used("the weight they bring back onto the front axle")];
