//! Where a bad answer leads: what was found, what to do now, how it ends.

use crate::rules::Carry;

/// A short way from a bad answer to its end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Branch {
    /// Id, referred to by states and limits.
    pub id: String,
    /// What was found.
    pub found: String,
    /// What to do now, one action a line.
    pub now: Vec<String>,
    /// How it ends.
    pub ends: Ending,
    /// What working through it leaves to later walks.
    pub leaves: Option<Carry>,
}

/// How a branch ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// Put right; the step is answered afresh.
    AnswerAfresh,
    /// It cannot be put right here; the trip ends as not fit to go.
    NotFitToGo,
}

impl Ending {
    /// Both endings with their words.
    pub const WORDS: [(&'static str, Self); 2] = [
        ("answer-afresh", Self::AnswerAfresh),
        ("not-fit-to-go", Self::NotFitToGo),
    ];
}
