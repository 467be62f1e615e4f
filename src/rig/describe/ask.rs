//! The kinds of answers, and what is typed for each.

use crate::units::Dimension;

/// What kind of answer a question wants.
#[derive(Clone, Copy, Debug)]
pub enum Ask {
    /// A value with its evidence.
    Given(Dimension),
    /// A point measured from the ball, with its evidence.
    Point,
    /// A line of text.
    Words,
    /// A short name of small letters, digits and hyphens.
    Id,
    /// Figures that are a mark: `3419`.
    Figures,
    /// A whole number that is a mark.
    Whole,
    /// One word of a closed list.
    Word(&'static [Choice]),
    /// How a tire was filled, with its evidence.
    Filled,
    /// The rows of a maker's load table, with its evidence.
    Table,
    /// A bare quantity.
    Step,
    /// The lowest and the highest mark.
    Span,
    /// How wrong an instrument may be.
    Error,
    /// A day.
    Day,
    /// Bumper pull or gooseneck, which is a key of the file.
    Joint,
    /// How many axles.
    Axles,
    /// Whether a part is built like another, whose values are then copied.
    Like(&'static Like),
    /// A stall by its id.
    Stall,
    /// The next thing of a list, by its first value, or that there is none.
    More(&'static List),
    /// Which instruments: one's own, or the standard set of the demo rig.
    Tools,
}

/// A word of the file and what it means.
pub type Choice = (&'static str, &'static str);

/// A part that may be built like another.
#[derive(Debug)]
pub struct Like {
    /// The other part's path.
    pub from: &'static str,
    /// Keys whose values are a part's own.
    pub except: &'static [&'static str],
}

/// A list that grows.
#[derive(Debug)]
pub struct List {
    /// Its path.
    pub at: &'static str,
    /// The key a new thing begins with.
    pub key: &'static str,
    /// Whether the file has the list even when it is empty.
    pub always: bool,
}

/// One thing typed, of those an answer is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Slot {
    /// Its key in the file, empty for an answer that is one scalar.
    pub key: &'static str,
    /// What is asked for it.
    pub ask: &'static str,
    /// Whether `none` is an answer.
    pub none: bool,
}

const fn slot(key: &'static str, ask: &'static str) -> Slot {
    Slot {
        key,
        ask,
        none: false,
    }
}

const ALONE: &[Slot] = &[slot("", "Your answer?")];
const NUMBER: &[Slot] = &[slot("", "Its number?")];
const NAMED: &[Slot] = &[slot("", "Its name, or done when there is no more?")];
const VALUE: &[Slot] = &[slot("is", "How much, with its unit?")];
const POINT: &[Slot] = &[
    slot(
        "behind",
        "How far behind the middle of the ball? Ahead of it, toward the cab, is negative.",
    ),
    slot(
        "right",
        "How far to the right of the middle? Left is negative, facing forward.",
    ),
    slot("above", "How high above the ground?"),
];
const FILLED: &[Slot] = &[
    slot("pressure", "To which pressure, cold?"),
    slot("air", "At which air temperature, in the shade?"),
    Slot {
        key: "altitude",
        ask: "How high above the sea? Type none where it is not known.",
        none: true,
    },
];
const TABLE: &[Slot] = &[slot(
    "rows",
    "The rows, as load at pressure, parted by commas?",
)];
const SPAN: &[Slot] = &[
    slot("low", "The lowest mark?"),
    slot("high", "The highest mark?"),
];
const ERROR: &[Slot] = &[slot(
    "",
    "How wrong may it be? As an amount, as a share in %, or as grade A, B or 1A of a dial.",
)];

impl Ask {
    /// What is typed, one after another, before any evidence.
    pub fn slots(self) -> &'static [Slot] {
        match self {
            Self::Given(_) => VALUE,
            Self::Point => POINT,
            Self::Filled => FILLED,
            Self::Table => TABLE,
            Self::Span => SPAN,
            Self::Error => ERROR,
            Self::More(_) => NAMED,
            Self::Word(_) | Self::Joint | Self::Like(_) | Self::Stall | Self::Tools => NUMBER,
            Self::Words
            | Self::Id
            | Self::Figures
            | Self::Whole
            | Self::Step
            | Self::Day
            | Self::Axles => ALONE,
        }
    }

    /// Whether it is asked by which evidence the value is known, and where that stands.
    pub fn has_evidence(self) -> bool {
        matches!(
            self,
            Self::Given(_) | Self::Point | Self::Filled | Self::Table
        )
    }

    /// Keys without which a value of this kind is not whole.
    pub(super) fn keys(self) -> Vec<&'static str> {
        let slots = self.slots().iter().filter(|slot| !slot.none);
        let own = slots.map(|slot| slot.key).filter(|key| !key.is_empty());
        let evidence: &[&str] = if self.has_evidence() {
            &["by", "at"]
        } else {
            &[]
        };
        own.chain(evidence.iter().copied()).collect()
    }
}
