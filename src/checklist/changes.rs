//! What changed from one checklist to another: a list of changes as data, the gravest first.

mod asks;
mod bound;
mod steps;
mod told;

use crate::checklist::{Branch, Checklist, Ending, Section, Style};

/// One change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// How much it matters to who approves the list.
    pub weight: Gravity,
    /// Where.
    pub at: At,
    /// What changed there.
    pub what: What,
}

/// How much a change matters. The gravest comes first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Gravity {
    /// A critical step is no longer asked.
    CriticalGone,
    /// Something passes now that did not before, or is looked at less closely.
    Looser,
    /// What is done or judged is another.
    Other,
    /// The same is said in other words.
    Words,
}

/// A part of a checklist.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum At {
    /// The list as a whole.
    List,
    /// A section, by its id.
    Section(String),
    /// A step, by its id.
    Step(String),
    /// A branch, by its id.
    Branch(String),
}

/// What changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum What {
    /// It is new.
    New,
    /// It is gone.
    Gone,
    /// It stands elsewhere: behind this step now, or first.
    Moved(Option<String>),
    /// A limit, state or caution is new.
    Added {
        /// Which, in words.
        part: String,
    },
    /// A limit, state or caution is gone.
    Removed {
        /// Which, in words.
        part: String,
    },
    /// Something it says is another.
    Changed {
        /// Which of its keys, in words.
        part: String,
        /// What it was.
        before: String,
        /// What it is.
        after: String,
    },
}

/// What stands where a key says nothing.
const NOTHING: &str = "nothing";

/// Every change from `before` to `after`, the gravest first, else in the order of the list.
pub fn changes(before: &Checklist, after: &Checklist) -> Vec<Change> {
    let mut found = Found(Vec::new());
    list(before, after, &mut found);
    steps::steps(before, after, &mut found);
    sections(before, after, &mut found);
    branches(before, after, &mut found);
    found.0.sort_by_key(|change| change.weight);
    found.0
}

/// The changes found so far.
struct Found(Vec<Change>);

impl Found {
    fn push(&mut self, weight: Gravity, at: &At, what: What) {
        let at = at.clone();
        self.0.push(Change { weight, at, what });
    }

    /// Tells a key whose words differ.
    fn differ(&mut self, weight: Gravity, at: &At, part: &str, (before, after): (&str, &str)) {
        if before != after {
            let what = What::Changed {
                part: part.to_owned(),
                before: before.to_owned(),
                after: after.to_owned(),
            };
            self.push(weight, at, what);
        }
    }

    /// Tells a flag that differs; losing it is looser.
    fn flag(&mut self, at: &At, part: &str, (before, after): (bool, bool)) {
        let weight = if after {
            Gravity::Other
        } else {
            Gravity::Looser
        };
        let word = |flag: bool| if flag { "true" } else { "false" };
        self.differ(weight, at, part, (word(before), word(after)));
    }
}

fn list(before: &Checklist, after: &Checklist, found: &mut Found) {
    let at = At::List;
    found.differ(Gravity::Words, &at, "title", (&before.title, &after.title));
    let rigs = |list: &Checklist| {
        let words: Vec<&str> = list.rigs.iter().map(|kind| kind.word()).collect();
        words.join(", ")
    };
    found.differ(Gravity::Other, &at, "rigs", (&rigs(before), &rigs(after)));
    let haul = |list: &Checklist| list.haul.word();
    found.differ(Gravity::Other, &at, "haul", (haul(before), haul(after)));
    found.flag(&at, "road", (before.road, after.road));
    let part = |caution: &String| format!("caution “{caution}”");
    for caution in before
        .cautions
        .iter()
        .filter(|one| !after.cautions.contains(one))
    {
        let part = part(caution);
        found.push(Gravity::Looser, &at, What::Removed { part });
    }
    for caution in after
        .cautions
        .iter()
        .filter(|one| !before.cautions.contains(one))
    {
        let part = part(caution);
        found.push(Gravity::Other, &at, What::Added { part });
    }
}

fn sections(before: &Checklist, after: &Checklist, found: &mut Found) {
    let named = |list: &'_ Checklist, id: &str| -> Option<Section> {
        list.sections
            .iter()
            .find(|section| section.id == id)
            .cloned()
    };
    for was in &before.sections {
        let at = At::Section(was.id.clone());
        let Some(is) = named(after, &was.id) else {
            found.push(Gravity::Other, &at, What::Gone);
            continue;
        };
        found.flag(&at, "pause", (was.pause, is.pause));
        found.differ(Gravity::Words, &at, "title", (&was.title, &is.title));
        found.differ(
            Gravity::Words,
            &at,
            "complete",
            (&was.complete, &is.complete),
        );
        let style = |style: Style| {
            let known = Style::WORDS.into_iter().find(|(_, one)| *one == style);
            known.map_or("", |(word, _)| word)
        };
        found.differ(
            Gravity::Other,
            &at,
            "style",
            (style(was.style), style(is.style)),
        );
    }
    for is in &after.sections {
        if named(before, &is.id).is_none() {
            found.push(Gravity::Other, &At::Section(is.id.clone()), What::New);
        }
    }
}

fn branches(before: &Checklist, after: &Checklist, found: &mut Found) {
    for was in &before.branches {
        let at = At::Branch(was.id.clone());
        let Some(is) = after.branch(&was.id) else {
            found.push(Gravity::Other, &at, What::Gone);
            continue;
        };
        let ends = |branch: &Branch| match branch.ends {
            Ending::AnswerAfresh => "answer afresh",
            Ending::NotFitToGo => "not fit to go",
        };
        let weight = match is.ends {
            Ending::AnswerAfresh => Gravity::Looser,
            Ending::NotFitToGo => Gravity::Other,
        };
        found.differ(weight, &at, "end", (ends(was), ends(is)));
        found.differ(Gravity::Words, &at, "found", (&was.found, &is.found));
        let now = |branch: &Branch| branch.now.join(" ");
        found.differ(Gravity::Other, &at, "now", (&now(was), &now(is)));
        let leaves = |branch: &Branch| branch.leaves.map_or(NOTHING, |carry| carry.word());
        found.differ(Gravity::Other, &at, "leaves", (leaves(was), leaves(is)));
    }
    for is in &after.branches {
        if before.branch(&is.id).is_none() {
            found.push(Gravity::Other, &At::Branch(is.id.clone()), What::New);
        }
    }
}
