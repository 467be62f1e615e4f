//! A section: steps that belong together, ended by a line that names what is now true.

use crate::checklist::Step;

/// A part of a checklist.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Id in records.
    pub id: String,
    /// Title on screens.
    pub title: String,
    /// How it is worked.
    pub style: Style,
    /// Whether everything else stops while it is open.
    pub pause: bool,
    /// What is true when it is complete, as a sentence.
    pub complete: String,
    /// Its steps, in order.
    pub steps: Vec<Step>,
}

/// How a section is worked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// Read a step, then do it: one step at a time, the next one dim.
    ReadDo,
    /// Do from memory, then confirm: all steps shown, confirmed one by one.
    DoConfirm,
}

impl Style {
    /// Both styles with their words.
    pub const WORDS: [(&'static str, Self); 2] =
        [("read-do", Self::ReadDo), ("do-confirm", Self::DoConfirm)];
}
