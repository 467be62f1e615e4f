//! A value of the rig file as a person is asked for it.

use crate::rig::describe::{Ask, List};

/// What is asked about one thing, in the order a person meets it.
#[derive(Debug)]
pub struct Chapter {
    /// How often the chapter is gone through.
    pub over: Over,
    /// Its parts.
    pub sections: &'static [Section],
}

/// How often a chapter is gone through.
#[derive(Clone, Copy, Debug)]
pub enum Over {
    /// Once.
    One,
    /// For the left chain and for the right one. `*` in a path stands for the side.
    Sides,
    /// For each axle, of which a question before told the number. `[]` in a path stands for it.
    Axles,
    /// For each thing of a list that grows until the person says it is done.
    Each(&'static List),
}

/// Values that stand together in the file and on the rig.
#[derive(Debug)]
pub struct Section {
    /// The path of the part they stand in, empty for the file itself.
    pub at: &'static str,
    /// What the part is, as a heading.
    pub title: &'static str,
    /// When the part may be left out as a whole: what follows from that.
    pub without: Option<&'static str>,
    /// When it is asked at all.
    pub when: &'static [When],
    /// Its values. The first opens the part: where that is left out, so is the part.
    pub fields: &'static [Field],
}

/// One value.
#[derive(Clone, Copy, Debug)]
pub struct Field {
    /// Its key in the section's part.
    pub key: &'static str,
    /// The question, in plain words.
    pub question: &'static str,
    /// Where the plate is found or the tape is put.
    pub look: &'static str,
    /// An answer, as it is typed.
    pub example: &'static str,
    /// What the value is used for.
    pub used: &'static str,
    /// What kind of answer it wants.
    pub ask: Ask,
    /// Whether the file can do without it.
    pub need: Need,
    /// When it is asked at all.
    pub when: &'static [When],
}

/// Whether a file can do without a value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// Without it the file cannot be walked, or the part it stands in makes no sense.
    Must,
    /// It may be left out; this follows.
    May(&'static str),
}

/// A condition on what was answered before. Paths are written as in sections.
#[derive(Clone, Copy, Debug)]
pub enum When {
    /// The value is there.
    Has(&'static str),
    /// The value is not there.
    Lacks(&'static str),
    /// The value is this word.
    Is(&'static str, &'static str),
    /// It is not the first axle, and not the left chain.
    Later,
}

impl Field {
    /// A value the file cannot do without.
    pub(super) const fn must(key: &'static str, ask: Ask, question: &'static str) -> Self {
        Self {
            key,
            question,
            look: "",
            example: "",
            used: "",
            ask,
            need: Need::Must,
            when: &[],
        }
    }

    /// A value that may be left out.
    pub(super) const fn may(key: &'static str, ask: Ask, question: &'static str) -> Self {
        Self {
            need: Need::May(""),
            ..Self::must(key, ask, question)
        }
    }

    /// Where it is found, and an answer.
    pub(super) const fn look(self, look: &'static str, example: &'static str) -> Self {
        Self {
            look,
            example,
            ..self
        }
    }

    /// What it is used for.
    pub(super) const fn used(self, used: &'static str) -> Self {
        Self { used, ..self }
    }

    /// What follows when it is left out.
    pub(super) const fn without(self, follows: &'static str) -> Self {
        Self {
            need: Need::May(follows),
            ..self
        }
    }

    /// When it is asked.
    pub(super) const fn when(self, when: &'static [When]) -> Self {
        Self { when, ..self }
    }
}

impl Section {
    /// The path of a value, with `[]` and `*` where a place is still to be named.
    pub fn path(&self, field: &Field) -> String {
        if self.at.is_empty() {
            field.key.to_owned()
        } else if field.key.is_empty() {
            self.at.to_owned()
        } else {
            format!("{}.{}", self.at, field.key)
        }
    }

    /// Whether this value opens a part that may be left out.
    pub fn is_opened_by(&self, field: &Field) -> bool {
        self.without.is_some()
            && self
                .fields
                .first()
                .is_some_and(|first| first.key == field.key)
    }
}
