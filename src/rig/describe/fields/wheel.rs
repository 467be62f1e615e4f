//! Tires and how wheels are fastened.

use crate::rig::describe::ask::Ask::{self, Figures, Filled, Given, Table, Whole, Word, Words};
use crate::rig::describe::ask::Like;
use crate::rig::describe::choices::SEAT;
use crate::rig::describe::field::{Field, Section};
use crate::rig::describe::fields::section;
use crate::units::Dimension::{Count, Length, Mass, Pressure, SpringRate, Torque};

const CARRIES: &str = "what the tire carries at the pressure in it";

const KEPT: &str = "knowing what is fitted; no limit is reckoned from it yet";

const NOTHING_LOST: &str = "No limit changes.";

/// The tires of an axle.
pub(super) const TIRE: &[Field] = &TIRES;

const TIRES: [Field; 12] = [
    Field::must("size", Words, "What size is the tire?")
        .look("The sidewall, the large figures.", "ST225/75R15")
        .used("the drawing and the reports"),
    Field::must("load-range", Words, "Which load range letter?")
        .look("The sidewall: LOAD RANGE.", "D")
        .used("the reports"),
    Field::must("max-load", Given(Mass), "How much does it carry at most?")
        .look("The sidewall: MAX LOAD SINGLE.", "2540 lb")
        .used(CARRIES),
    Field::must("max-pressure", Given(Pressure), "At which cold pressure?")
        .look("The sidewall, behind the load: AT … PSI COLD.", "65 psi")
        .used("the most a reading may be"),
    Field::must(
        "cold",
        Given(Pressure),
        "Which cold pressure does the trailer ask for?",
    )
    .look("The trailer's plate or tire label.", "65 psi")
    .used("the reading asked of every tire"),
    Field::may(
        "table",
        Table,
        "What does the maker's table say it carries at lower pressures?",
    )
    .look(
        "The tire maker's load and inflation table, the row of this size.",
        "1760 lb at 35 psi, 2150 lb at 50 psi, 2540 lb at 65 psi",
    )
    .used(CARRIES)
    .without("Between pressures it is reckoned from the sidewall, with two per cent taken off."),
    Field::may("set", Filled, "How was it last filled?")
        .look(
            "Before any driving, in the shade: what the gauge showed, the air's temperature, and \
             how high the place lies.",
            "65 psi, 70 F, 1200 ft",
        )
        .used("the pressure it should show cold today")
        .without("It should show the pressure the plate asks for, at any temperature."),
    Field::may("made", Figures, "When was it made?")
        .look(
            "The oval behind DOT on one sidewall, its last figures: week and year.",
            "3419",
        )
        .used(KEPT)
        .without(NOTHING_LOST),
    Field::may("load-index", Whole, "Which load index?")
        .look(
            "The figures behind the size on the sidewall, before the letter.",
            "113",
        )
        .used(KEPT)
        .without(NOTHING_LOST),
    Field::may("speed", Words, "Which speed letter?")
        .look("The capital letter behind the load index.", "M")
        .used(KEPT)
        .without(NOTHING_LOST),
    Field::may(
        "radius",
        Given(Length),
        "How high is the middle of the wheel, loaded?",
    )
    .look(
        "From level ground to the middle of the hub, on the loaded trailer.",
        "13.6 in",
    )
    .used("the brake force at the road")
    .without("Brake force is not reckoned."),
    Field::may(
        "spring-rate",
        Given(SpringRate),
        "How much weight presses the tire down an inch?",
    )
    .look(
        "No plate has it. Trailer tires are near 1900 lb/in to 2300 lb/in: say estimate.",
        "1900 lb/in",
    )
    .used("pitch, axle loads and level tolerance")
    .without("These are not reckoned; the trade's half degree stands."),
];

static FRONT_TIRE: Like = Like {
    from: "trailer.axles[0].tire",
    except: &["set", "made", "radius", "spring-rate"],
};

const SPARE_FIELDS: &[Field] = &{
    const OWN: Field = Field::may(
        "",
        Ask::Like(&FRONT_TIRE),
        "Is there a spare, and is it like the tires of the front axle?",
    )
    .look("Read its sidewall. Type skip where there is no spare.", "1")
    .used("the spare's pressure");
    let [a, b, c, d, e, f, g, h, i, j, k, l] = TIRES;
    [OWN, a, b, c, d, e, f, g, h, i, j, k, l]
};

/// The spare.
pub(super) const SPARE: Section = Section {
    without: Some("The trailer counts as without a spare."),
    ..section("trailer.spare", "The spare", SPARE_FIELDS)
};

pub(super) const FIT: &[Field] = &[
    Field::must("studs", Given(Count), "How many studs has a wheel?")
        .look("Count them.", "6")
        .used("the order in which the nuts are tightened"),
    Field::must("stud", Given(Length), "How thick is a stud?")
        .look("The axle's manual, or a caliper over the thread.", "1/2 in")
        .used("what the torque clamps with"),
    Field::may("thread", Given(Count), "How many threads to the inch?")
        .look("A thread gauge, or count them along an inch.", "20")
        .used(KEPT)
        .without(NOTHING_LOST),
    Field::may(
        "proof",
        Given(Pressure),
        "What is the stud's proof strength?",
    )
    .look(
        "The axle's manual; or by the grade mark on the stud's end.",
        "120000 psi",
    )
    .used(KEPT)
    .without(NOTHING_LOST),
    Field::may("seat", Word(SEAT), "What shape is the nut's seat?")
        .look("Take one nut off: the face that presses on the wheel.", "1")
        .used(KEPT)
        .without(NOTHING_LOST),
    Field::must("torque", Given(Torque), "Which torque do the nuts want?")
        .look(
            "The trailer's manual, or the label by the wheel.",
            "105 ft-lb",
        )
        .used("every nut that is checked"),
    Field::must(
        "torque-low",
        Given(Torque),
        "What is the least torque the maker allows?",
    )
    .look("The axle's manual, the wheel table.", "90 ft-lb")
    .used("every nut that is checked"),
    Field::must(
        "torque-high",
        Given(Torque),
        "What is the most torque the maker allows?",
    )
    .look("The same table.", "120 ft-lb")
    .used("every nut that is checked"),
];
