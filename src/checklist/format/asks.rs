//! What a step asks: readings and sightings.

use crate::checklist::format::limits::{BASIS, BRANCH_OF, LEADS, LEAVES, LIMIT, TAKES_BOUND};
use crate::checklist::format::words;
use crate::document::{Among, Key, Many, Rule, Shape, Takes, Then};

pub(crate) static READING: Shape = Shape {
    name: "reading",
    about: "A value typed with its unit, held to limits.",
    keys: &[
        Key::must(
            "dimension",
            Takes::Word(&words::DIMENSION),
            "What is measured.",
        ),
        Key::may(
            "unit",
            Takes::Word(&words::UNIT),
            "The unit beside the field; any unit of the dimension may be typed. A count has none.",
        ),
        Key::must(
            "instrument",
            Takes::Word(&words::INSTRUMENT),
            "What it is measured with.",
        ),
        Key::may(
            "target",
            TAKES_BOUND,
            "The value aimed at, which the instrument must suit.",
        ),
        Key::must(
            "plausible",
            Takes::Map(&PLAUSIBLE),
            "Lowest and highest value that is no slip of the finger.",
        ),
        Key::may(
            "tells",
            Takes::Word(&words::FACT),
            "The fact this reading tells to the steps behind it.",
        ),
        Key::may(
            "limits",
            Takes::List(&Many::any(Takes::Map(&LIMIT))),
            "The limits; what none of them takes is ok.",
        ),
    ],
    rules: &[
        Rule::Unless("dimension", &["count"], Then::With("unit")),
        Rule::Fitting(words::of_dimension),
    ],
};

pub(crate) static PLAUSIBLE: Shape = Shape {
    name: "plausible",
    about: "Values that are no slip of the finger. Outside of them the reading is asked again.",
    keys: &[
        Key::must("from", Takes::Quantity, "The lowest."),
        Key::must("to", Takes::Quantity, "The highest."),
    ],
    rules: &[],
};

pub(crate) static SIGHTING: Shape = Shape {
    name: "sighting",
    about: "One of three or four things that can be seen.",
    keys: &[
        Key::must(
            "states",
            Takes::List(&STATES),
            "Three or four states: at least one ok, at least one bad, one for what cannot be seen.",
        ),
        BASIS[0],
        BASIS[1],
    ],
    rules: &[],
};

static STATES: Many = Many {
    of: Takes::Map(&STATE),
    least: 3,
    most: Some(4),
    among: &[
        Among {
            key: "verdict",
            is: "ok",
            least: 1,
            most: None,
        },
        Among {
            key: "cannot-see",
            is: "true",
            least: 1,
            most: Some(1),
        },
    ],
};

pub(crate) static STATE: Shape = Shape {
    name: "state",
    about: "One thing that can be seen, and what it means.",
    keys: &[
        Key::must("id", Takes::Name, "Its name in records."),
        Key::must(
            "seen",
            Takes::Sentence,
            "What is seen, in words: never a bare OK.",
        ),
        Key::must("verdict", Takes::Word(&words::VERDICT), "What it means."),
        Key::may(
            "cannot-see",
            Takes::Flag,
            "true for the one state of not being able to see.",
        ),
        BRANCH_OF,
        LEAVES,
    ],
    rules: &[
        LEADS[0],
        LEADS[1],
        Rule::When("cannot-see", &["true"], Then::Not("verdict", "ok")),
    ],
};
