//! A manager's question, put to whoever had a hand in the trip when they begin another walk.

use crate::record::Digest;

/// A question that is put.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PutQuestion {
    /// The statement that asks.
    pub question: Digest,
    /// To whom it is put, by printed name.
    pub to: String,
    /// Who asks.
    pub by: String,
    /// The day it was asked.
    pub at: String,
    /// About which trip.
    pub about: String,
    /// Its words.
    pub words: String,
}

impl PutQuestion {
    /// The question in a sentence.
    pub fn told(&self) -> String {
        format!(
            "{} asked on {}, about {}: “{}”",
            self.by, self.at, self.about, self.words
        )
    }

    /// What is asked of them.
    pub fn prompt(&self) -> String {
        format!(
            "{}, an answer for {}? It is recorded in this walk. Enter alone leaves it for later.",
            self.to, self.by
        )
    }
}
