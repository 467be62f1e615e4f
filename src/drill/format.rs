//! The format of scenario and sight files as data: every map, every key, what it takes, what for.

use crate::document::{Key, Many, Rule, Shape, Takes, Word, Words};
use crate::drill::{Family, Grading, Vantage};
use crate::rules::{Carry, Verdict};

/// What the first key of a scenario file says.
pub(super) const FORMAT: &str = "hames-drill/1";

/// What the first key of a file of sights says.
pub(super) const SIGHTS_FORMAT: &str = "hames-sights/1";

static FAMILY: Words = Words {
    name: "family",
    all: || Word::bare(&Family::WORDS),
};

static FROM: Words = Words {
    name: "from",
    all: || Word::bare(&Vantage::WORDS),
};

static GRADED: Words = Words {
    name: "graded",
    all: || Word::bare(&Grading::WORDS),
};

static VERDICT: Words = Words {
    name: "verdict",
    all: || Word::bare(&Verdict::WORDS),
};

static SOME_PATCH: Many = Many::some(Takes::Map(&PATCH));
static SOME_TRULY: Many = Many::some(Takes::Map(&TRULY));
static SOME_STATE_AT: Many = Many::some(Takes::Map(&STATE_AT));
static CARRY: Words = Words {
    name: "carried",
    all: || Word::bare(&Carry::WORDS),
};

static NAMES: Many = Many::some(Takes::Name);

/// A file of scenarios.
pub static SCENARIOS_FILE: Shape = Shape {
    name: "drill",
    about: "Scenarios of a drill: what a learner is told, what may be wrong, and the right call.",
    keys: &[
        Key::must(
            "format",
            Takes::Exactly(FORMAT),
            "How this file is to be read.",
        ),
        Key::must(
            "scenarios",
            Takes::List(&Many::some(Takes::Map(&SCENARIO))),
            "The scenarios.",
        ),
    ],
    rules: &[],
};

pub(super) static SCENARIO: Shape = Shape {
    name: "scenario",
    about: "A passage of a checklist, a rig, and what may be wrong with it.",
    keys: &[
        Key::must("id", Takes::Name, "Its name in records."),
        Key::must(
            "title",
            Takes::Sentence,
            "Its title; it gives nothing away.",
        ),
        Key::must(
            "family",
            Takes::Word(&FAMILY),
            "What kind of fault it is about.",
        ),
        Key::must(
            "list",
            Takes::Name,
            "The checklist a passage of which is walked.",
        ),
        Key::must(
            "sections",
            Takes::List(&NAMES),
            "Its sections that are walked.",
        ),
        Key::must("rig", Takes::Name, "The rig."),
        Key::must(
            "tale",
            Takes::Sentence,
            "What the learner is told before it begins.",
        ),
        Key::may(
            "air",
            Takes::Quantity,
            "The air of that day; 70 F where nothing is said.",
        ),
        Key::may(
            "always",
            Takes::Map(&DIFFERS),
            "What differs from the rig file whether or not there is a fault.",
        ),
        Key::may(
            "carries",
            Takes::List(&Many::some(Takes::Map(&CARRIES))),
            "What earlier walks of the rig had left open.",
        ),
        Key::may(
            "faults",
            Takes::List(&Many::some(Takes::Map(&FAULT))),
            "What may be wrong: one of these, or nothing.",
        ),
        Key::must(
            "good",
            Takes::Map(&GOOD),
            "The right call where nothing is wrong.",
        ),
        Key::may("between", Takes::Map(&BETWEEN), "What comes between."),
        Key::may(
            "hurry",
            Takes::Sentence,
            "Why time presses, as somebody says it.",
        ),
        Key::may(
            "hint",
            Takes::Map(&HINT),
            "What the program itself says wrongly.",
        ),
        Key::may(
            "graded",
            Takes::Word(&GRADED),
            "In a check ride, by which rules it is graded; the program writes it.",
        ),
        Key::must(
            "source",
            Takes::Sentence,
            "Where it stands written, or common practice.",
        ),
    ],
    rules: &[],
};

pub(super) static DIFFERS: Shape = Shape {
    name: "differs",
    about: "How a rig differs from its file, and what is seen and read there.",
    keys: &[RIG, READ, SEEN],
    rules: &[],
};

const RIG: Key = Key::may(
    "rig",
    Takes::List(&SOME_PATCH),
    "Values of the rig file as they truly are.",
);
const READ: Key = Key::may(
    "read",
    Takes::List(&SOME_TRULY),
    "What truly is, at steps whose reading no formula gives.",
);
const SEEN: Key = Key::may(
    "seen",
    Takes::List(&SOME_STATE_AT),
    "The state that truly is, at steps that ask for one.",
);

pub(super) static CARRIES: Shape = Shape {
    name: "carries",
    about: "Something an earlier walk left open.",
    keys: &[
        Key::must("what", Takes::Word(&CARRY), "What."),
        Key::may(
            "part",
            Takes::Name,
            "At which part of the rig, as left-front.",
        ),
    ],
    rules: &[],
};

pub(super) static PATCH: Shape = Shape {
    name: "patch",
    about: "One value of the rig file as it truly is.",
    keys: &[
        Key::must(
            "at",
            Takes::Sentence,
            "Its path, as trailer.axles[0].tire.set.pressure.",
        ),
        Key::must("is", Takes::Quantity, "What it truly is."),
    ],
    rules: &[],
};

pub(super) static TRULY: Shape = Shape {
    name: "truly",
    about: "What truly is at a step that asks for a reading.",
    keys: &[STEP, Key::must("is", Takes::Quantity, "What it truly is.")],
    rules: &[],
};

pub(super) static STATE_AT: Shape = Shape {
    name: "state-at",
    about: "A state of a step.",
    keys: &[STEP, Key::must("state", Takes::Name, "The state.")],
    rules: &[],
};

const STEP: Key = Key::must(
    "step",
    Takes::Sentence,
    "The step, with its part where it is asked at several: tire-cold/left-front.",
);

pub(super) static FAULT: Shape = Shape {
    name: "fault",
    about: "One thing that may be wrong.",
    keys: &[
        Key::must("id", Takes::Name, "Its name among those of the scenario."),
        RIG,
        READ,
        SEEN,
        Key::must("call", Takes::Map(&CALL), "The right call."),
        Key::must(
            "slip",
            Takes::Map(&SLIP),
            "What is called most often instead.",
        ),
        Key::must("why", Takes::Sentence, "Why it is the right call."),
        Key::must("would", Takes::Sentence, "What would have happened."),
    ],
    rules: &[],
};

pub(super) static GOOD: Shape = Shape {
    name: "good",
    about: "The right call where nothing is wrong.",
    keys: &[
        Key::may(
            "slip",
            Takes::Map(&CALL),
            "What is called wrong most often.",
        ),
        Key::must("why", Takes::Sentence, "Why all is well."),
    ],
    rules: &[],
};

pub(super) static CALL: Shape = Shape {
    name: "call",
    about: "What a step comes to.",
    keys: &[
        STEP,
        Key::must("verdict", Takes::Word(&VERDICT), "ok, note, fix or stop."),
    ],
    rules: &[],
};

pub(super) static SLIP: Shape = Shape {
    name: "slip",
    about: "A wrong call: a state that is not there, or a wrong word for a reading.",
    keys: &[
        STEP,
        Key::may("state", Takes::Name, "The state that is named."),
        Key::may(
            "verdict",
            Takes::Word(&VERDICT),
            "What the reading is called.",
        ),
    ],
    rules: &[Rule::OneOf(&["state", "verdict"])],
};

pub(super) static BETWEEN: Shape = Shape {
    name: "between",
    about: "What comes between.",
    keys: &[
        STEP,
        Key::must("what", Takes::Sentence, "What it is, in a sentence."),
    ],
    rules: &[],
};

pub(super) static HINT: Shape = Shape {
    name: "hint",
    about: "What the program itself says wrongly; it is told at once after the step.",
    keys: &[STEP, Key::must("says", Takes::Sentence, "What it says.")],
    rules: &[],
};

/// A file of sights.
pub static SIGHTS_FILE: Shape = Shape {
    name: "sights",
    about: "What is seen at a step from each place, in each of its states.",
    keys: &[
        Key::must(
            "format",
            Takes::Exactly(SIGHTS_FORMAT),
            "How this file is to be read.",
        ),
        Key::must(
            "sights",
            Takes::List(&Many::some(Takes::Map(&SIGHT))),
            "The steps, each with what is seen there.",
        ),
    ],
    rules: &[],
};

pub(super) static SIGHT: Shape = Shape {
    name: "sight",
    about: "What is seen at one step.",
    keys: &[
        Key::must("step", Takes::Name, "The step."),
        Key::must(
            "looks",
            Takes::List(&Many::some(Takes::Map(&LOOK))),
            "Where it can be looked at from.",
        ),
    ],
    rules: &[],
};

pub(super) static LOOK: Shape = Shape {
    name: "look",
    about: "What is seen from one place.",
    keys: &[
        Key::must("from", Takes::Word(&FROM), "Where from."),
        Key::must(
            "sees",
            Takes::List(&Many::some(Takes::Map(&SEES))),
            "What is seen, in each state but those that say it cannot be seen.",
        ),
    ],
    rules: &[],
};

pub(super) static SEES: Shape = Shape {
    name: "sees",
    about: "What is seen in these states. States told by one sentence look alike from here.",
    keys: &[
        Key::must("in", Takes::List(&NAMES), "The states."),
        Key::must("is", Takes::Sentence, "What is seen."),
    ],
    rules: &[],
};
