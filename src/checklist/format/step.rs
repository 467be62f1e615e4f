//! A step, written whole or taken by name, and when it stands.

use crate::checklist::format::limits::FIGURE_OF;
use crate::checklist::format::{READING, SIGHTING, words};
use crate::document::{Key, Many, Rule, Shape, Takes, Then};

const ID: Key = Key::must("id", Takes::Name, "Its name in records.");
const NAME: Key = Key::must(
    "name",
    Takes::Sentence,
    "The object, in two or three words.",
);
const ACT: Key = Key::must(
    "act",
    Takes::Sentence,
    "What to do: one act, at most twenty words.",
);
const WHY: Key = Key::must("why", Takes::Sentence, "Why it matters, in one line.");
const SKIPPED: Key = Key::must(
    "skipped",
    Takes::Sentence,
    "What happens when it is skipped.",
);
const WARNING: Key = Key::may(
    "warning",
    Takes::Sentence,
    "A danger that stands before the act and asks for nothing itself.",
);
const CRITICAL: Key = Key::may(
    "critical",
    Takes::Flag,
    "true if it can neither be put off nor left out.",
);
const VOLATILE: Key = Key::may(
    "volatile",
    Takes::Flag,
    "true if it can change unseen, so that it is looked at again after an absence.",
);
const LEAST: Key = Key::may(
    "least",
    Takes::Quantity,
    "The time one person who does it takes at the least, such as 40 s; of each part, where it is \
     repeated.",
);
const PUT_OFF: Key = Key::may(
    "deferrable",
    Takes::Map(&DEFERRABLE),
    "Until which later section it may be put off.",
);
const STANDS: Key = Key::may(
    "when",
    Takes::Map(&WHEN),
    "When it stands; always, where nothing is said.",
);
const POLICY: Key = Key::may(
    "policy",
    Takes::WordOf(words::policies),
    "It stands only where the barn's settings choose so, as { tie: bar-first }.",
)
.early();
const SERVES: Key = Key::may(
    "serves",
    Takes::Word(&words::SERVICE),
    "The service an ok answer counts as, done today.",
);
static CLOSED: Many = Many::any(Takes::Word(&words::CARRIED));
const CLOSES: Key = Key::may(
    "closes",
    Takes::List(&CLOSED),
    "What an earlier walk left that an ok answer closes.",
);

pub(crate) static STEP: Shape = Shape {
    name: "step",
    about: "One act on one part of the rig, and the answer that proves it.",
    keys: &[
        ID,
        NAME,
        ACT,
        WHY,
        SKIPPED,
        WARNING,
        Key::must("place", Takes::Word(&words::PLACE), "Where on the rig."),
        CRITICAL,
        VOLATILE,
        Key::may(
            "blind",
            Takes::Flag,
            "true if no expected value shows until the answer is given.",
        ),
        LEAST,
        PUT_OFF,
        Key::may(
            "each",
            Takes::Word(&words::EACH),
            "It is repeated for each of these parts.",
        ),
        STANDS,
        POLICY,
        SERVES,
        CLOSES,
        Key::may("reading", Takes::Map(&READING), "It asks for a value."),
        Key::may("sighting", Takes::Map(&SIGHTING), "It asks what is seen."),
        Key::may(
            "independent",
            Takes::Map(&SIGHTING),
            "It asks a named person who did none of the work what is seen.",
        ),
        Key::may(
            "second-reading",
            Takes::Map(&READING),
            "It asks a named person who did none of the work for a value, the first reading unseen.",
        ),
    ],
    rules: &[
        Rule::OneOf(&["reading", "sighting", "independent", "second-reading"]),
        CRITICAL_STAYS,
    ],
};

const CRITICAL_STAYS: Rule = Rule::When("critical", &["true"], Then::Without("deferrable"));

pub(crate) static INCLUDED: Shape = Shape {
    name: "included-step",
    about: "A shared step, taken by name. Keys beside the name stand in the place of its own.",
    keys: &[
        Key::must("include", Takes::Name, "The name of the shared step.").early(),
        ID.left_free(),
        NAME.left_free(),
        ACT.left_free(),
        WHY.left_free(),
        SKIPPED.left_free(),
        WARNING,
        CRITICAL,
        VOLATILE,
        LEAST,
        PUT_OFF,
        STANDS,
        POLICY,
        SERVES,
        CLOSES,
    ],
    rules: &[CRITICAL_STAYS],
};

pub(crate) static DEFERRABLE: Shape = Shape {
    name: "deferrable",
    about: "Until when a step may be put off.",
    keys: &[Key::must(
        "before",
        Takes::Name,
        "A later section, which cannot be begun while the step is open.",
    )],
    rules: &[],
};

pub(crate) static WHEN: Shape = Shape {
    name: "when",
    about: "When a step stands, and why.",
    keys: &[
        Key::may(
            "rig",
            Takes::Map(&RIG_TEST),
            "Where a figure of the rig lies so.",
        ),
        Key::may(
            "answered",
            Takes::Map(&ANSWERED),
            "Where an earlier step was answered so.",
        ),
        Key::may(
            "carried",
            Takes::Word(&words::CARRIED),
            "Where an earlier walk left this open; a repeated step, for the parts it was left for.",
        ),
        Key::may(
            "unless",
            Takes::Word(&words::CARRIED),
            "Not where this was left too.",
        ),
        Key::must(
            "because",
            Takes::Sentence,
            "The reason, shown whenever the step is left out.",
        ),
    ],
    rules: &[
        Rule::OneOf(&["rig", "answered", "carried"]),
        Rule::Beside("unless", "carried"),
    ],
};

pub(crate) static RIG_TEST: Shape = Shape {
    name: "rig-test",
    about: "A figure of the whole rig lies on this side of a value.",
    keys: &[
        FIGURE_OF,
        Key::may("below", Takes::Quantity, "It lies below this."),
        Key::may("at-or-below", Takes::Quantity, "It is this or lies below."),
        Key::may("above", Takes::Quantity, "It lies above this."),
        Key::may("at-or-above", Takes::Quantity, "It is this or lies above."),
    ],
    rules: &[Rule::OneOf(&[
        "below",
        "at-or-below",
        "above",
        "at-or-above",
    ])],
};

pub(crate) static ANSWERED: Shape = Shape {
    name: "answered",
    about: "An earlier step was answered with this state.",
    keys: &[
        Key::must("step", Takes::Name, "The earlier step, answered once."),
        Key::must("state", Takes::Name, "The state."),
    ],
    rules: &[],
};
