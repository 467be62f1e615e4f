//! The format of checklist files as data: every map, every key, what it takes and what it is for.
//!
//! The reader below `yaml` takes its lists of known keys from here; the JSON Schema that editors
//! complete and check with is made of it.

mod asks;
mod limits;
mod step;
mod words;

pub(crate) use asks::{PLAUSIBLE, READING, SIGHTING, STATE};
pub(crate) use limits::{BOUND, LIMIT, READ_BOUND, SIBLINGS, THUMB};
pub(crate) use step::{ANSWERED, DEFERRABLE, INCLUDED, RIG_TEST, STEP, WHEN};

use crate::document::{Key, Many, Shape, Takes};

/// What the first key of a checklist file says.
pub(crate) const FORMAT: &str = "hames-checklist/1";

/// What the first key of a file of shared steps says.
pub(crate) const STEPS_FORMAT: &str = "hames-steps/1";

/// A checklist file.
pub static LIST_FILE: Shape = Shape {
    name: "checklist",
    about: "A checklist: sections of steps, and the branches bad answers lead to.",
    keys: &[
        Key::must(
            "format",
            Takes::Exactly(FORMAT),
            "How this file is to be read.",
        ),
        Key::must(
            "id",
            Takes::Name,
            "Its name in records: small letters, digits and hyphens. It never changes.",
        ),
        Key::must("title", Takes::Sentence, "Its title on screens."),
        Key::must(
            "revision",
            Takes::Count,
            "A whole number, one more with every change.",
        ),
        Key::must(
            "rigs",
            Takes::List(&Many::some(Takes::Word(&words::RIGS))),
            "The kinds of rig it is for.",
        ),
        Key::may(
            "haul",
            Takes::Word(&words::HAUL),
            "How the walk belongs to the day's haul; apart from it where nothing is said.",
        ),
        Key::may(
            "road",
            Takes::Flag,
            "true if the rig goes on the road once the list is complete.",
        ),
        Key::must(
            "cautions",
            Takes::List(&Many::some(Takes::Sentence)),
            "Sentences shown before the walk.",
        ),
        Key::must(
            "sections",
            Takes::List(&Many::some(Takes::Map(&SECTION))),
            "The sections, in the order they are walked.",
        ),
        Key::may(
            "branches",
            Takes::List(&Many::any(Takes::Map(&BRANCH))),
            "Where bad answers lead. Branches of shared steps come along by themselves.",
        ),
    ],
    rules: &[],
};

/// A file of shared steps.
pub static STEPS_FILE: Shape = Shape {
    name: "steps",
    about: "Steps that stand once and are taken by name, with the branches they open.",
    keys: &[
        Key::must(
            "format",
            Takes::Exactly(STEPS_FORMAT),
            "How this file is to be read.",
        ),
        Key::may(
            "steps",
            Takes::List(&Many::any(Takes::Map(&STEP))),
            "The steps, each whole, as in a checklist.",
        ),
        Key::may(
            "branches",
            Takes::List(&Many::any(Takes::Map(&BRANCH))),
            "The branches they open.",
        ),
    ],
    rules: &[],
};

pub(crate) static SECTION: Shape = Shape {
    name: "section",
    about: "Steps that belong together, ended by a line that names what is now true.",
    keys: &[
        Key::must("id", Takes::Name, "Its name in records."),
        Key::must("title", Takes::Sentence, "Its title on screens."),
        Key::must("style", Takes::Word(&words::STYLE), "How it is worked."),
        Key::may(
            "pause",
            Takes::Flag,
            "true if everything else stops while it is open.",
        ),
        Key::must(
            "complete",
            Takes::Sentence,
            "What is true once it is complete, as a sentence.",
        ),
        Key::must(
            "steps",
            Takes::List(&Many::some(Takes::ByKey(&[("include", &INCLUDED)], &STEP))),
            "The steps, in order: five to nine of them. A shared one is taken by name, as `include: seat`.",
        ),
    ],
    rules: &[],
};

pub(crate) static BRANCH: Shape = Shape {
    name: "branch",
    about: "A short way from a bad answer to its end.",
    keys: &[
        Key::must(
            "id",
            Takes::Name,
            "The name that limits and states lead to it by.",
        ),
        Key::must("found", Takes::Sentence, "What was found."),
        Key::must(
            "now",
            Takes::List(&Many::some(Takes::Sentence)),
            "What to do now, one act a line, at most five.",
        ),
        Key::must("ends", Takes::Word(&words::ENDS), "How it ends."),
        Key::may(
            "leaves",
            Takes::Word(&words::CARRIED),
            "What working through it leaves to later walks.",
        ),
    ],
    rules: &[],
};

/// Every shape that can stand in a file of this shape, with the file itself.
pub fn shapes(file: &'static Shape) -> Vec<&'static Shape> {
    let mut found: Vec<&'static Shape> = vec![file];
    let mut at = 0;
    while let Some(shape) = found.get(at) {
        let mut within = Vec::new();
        shape
            .keys
            .iter()
            .for_each(|key| inside(key.takes, &mut within));
        for shape in within {
            if !found.iter().any(|known| known.name == shape.name) {
                found.push(shape);
            }
        }
        at += 1;
    }
    found
}

fn inside(takes: Takes, into: &mut Vec<&'static Shape>) {
    match takes {
        Takes::List(many) => inside(many.of, into),
        Takes::Map(shape) => into.push(shape),
        Takes::ByKey(by, shape) => {
            into.extend(by.iter().map(|(_, shape)| *shape));
            into.push(shape);
        }
        Takes::QuantityOr(other) => inside(*other, into),
        Takes::Exactly(_)
        | Takes::Name
        | Takes::Sentence
        | Takes::Flag
        | Takes::Count
        | Takes::Quantity
        | Takes::Word(_)
        | Takes::WordOf(_) => {}
    }
}
