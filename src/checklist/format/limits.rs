//! Limits and what bounds them.

use crate::checklist::format::words;
use crate::document::{Key, Rule, Shape, Takes, Then};

const AUTHORITY: Key = Key::must(
    "authority",
    Takes::Word(&words::AUTHORITY),
    "Whose word it is; a plate or manual comes before the law, then the barn, then the default.",
);
const SOURCE: Key = Key::must(
    "source",
    Takes::Sentence,
    "Where it is written, or that it has no source.",
);
const SHARE: Key = Key::may(
    "share",
    Takes::Quantity,
    "Which share of the figure, such as 95 %; all of it where nothing is said.",
);
const PLUS: Key = Key::may(
    "plus",
    Takes::Quantity,
    "What is added, with its unit; below nothing with a minus.",
);
/// A rule of thumb may have one of its own behind it, so this cannot be a constant.
macro_rules! or {
    () => {
        Key::may(
            "or",
            Takes::Map(&THUMB),
            "What stands where it is not known: a rule of thumb by its own authority.",
        )
    };
}

/// What a target is, or one side of a limit.
pub(super) const TAKES_BOUND: Takes = Takes::QuantityOr(&Takes::ByKey(
    &[("step", &READ_BOUND), ("siblings", &SIBLINGS)],
    &BOUND,
));

/// The verdict of a fix or stop leads somewhere, that of an ok or note nowhere.
pub(super) const LEADS: [Rule; 2] = [
    Rule::When("verdict", &["fix", "stop"], Then::With("branch")),
    Rule::When("verdict", &["ok", "note"], Then::Without("branch")),
];

pub(super) const BRANCH_OF: Key = Key::may(
    "branch",
    Takes::Name,
    "The branch that says what to do now: for fix and stop.",
);
pub(super) const LEAVES: Key = Key::may(
    "leaves",
    Takes::Word(&words::CARRIED),
    "What this answer leaves to later walks.",
);
pub(super) const FIGURE_OF: Key = Key::must(
    "figure",
    Takes::Word(&words::FIGURE),
    "The figure of the rig; of one part, the step is repeated for each.",
);
pub(super) const BASIS: [Key; 2] = [AUTHORITY, SOURCE];

pub(crate) static LIMIT: Shape = Shape {
    name: "limit",
    about: "A verdict beyond a bound, by somebody's word.",
    keys: &[
        Key::must(
            "verdict",
            Takes::Word(&words::BAD_VERDICT),
            "What a reading beyond the bound means.",
        ),
        Key::may("below", TAKES_BOUND, "It decides for readings below this."),
        Key::may(
            "at-or-below",
            TAKES_BOUND,
            "It decides for readings at this or below.",
        ),
        Key::may("above", TAKES_BOUND, "It decides for readings above this."),
        Key::may(
            "at-or-above",
            TAKES_BOUND,
            "It decides for readings at this or above.",
        ),
        AUTHORITY,
        SOURCE,
        BRANCH_OF,
        LEAVES,
    ],
    rules: &[
        Rule::OneOf(&["below", "at-or-below", "above", "at-or-above"]),
        LEADS[0],
        LEADS[1],
    ],
};

pub(crate) static BOUND: Shape = Shape {
    name: "by-figure",
    about: "A value that follows the rig.",
    keys: &[FIGURE_OF, SHARE, PLUS, or!()],
    rules: &[],
};

pub(crate) static READ_BOUND: Shape = Shape {
    name: "by-step",
    about: "A value that was read at an earlier step of this walk.",
    keys: &[
        Key::must(
            "step",
            Takes::Name,
            "The earlier step: read once, or for the same parts as this one.",
        ),
        PLUS,
        or!(),
    ],
    rules: &[],
};

pub(crate) static SIBLINGS: Shape = Shape {
    name: "by-siblings",
    about: "The middle one of what this repeated step read so far on the other parts, and this more.",
    keys: &[
        Key::must(
            "siblings",
            Takes::Quantity,
            "What is added to the middle reading of the other parts; below nothing with a minus.",
        ),
        or!(),
    ],
    rules: &[],
};

pub(crate) static THUMB: Shape = Shape {
    name: "rule-of-thumb",
    about: "What stands where a figure or reading is not known.",
    keys: &[
        Key::may("value", Takes::Quantity, "The value."),
        Key::may(
            "figure",
            Takes::Word(&words::FIGURE),
            "Another figure of the rig.",
        ),
        SHARE,
        PLUS,
        or!(),
        AUTHORITY,
        SOURCE,
    ],
    rules: &[
        Rule::OneOf(&["value", "figure"]),
        Rule::Beside("share", "figure"),
        Rule::Beside("plus", "figure"),
        Rule::Beside("or", "figure"),
    ],
};
