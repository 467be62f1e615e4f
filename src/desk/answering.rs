//! Managers' questions put one after the other, with the way back: what was typed to one is kept.

use crate::desk::PutQuestion;
use crate::record::{Answered, Digest};
use crate::walk::{NotWords, Words};

/// Questions that are being answered.
#[derive(Clone, Debug, Default)]
pub struct Answering {
    put: Vec<PutQuestion>,
    /// How many of them are answered or left for later.
    passed: usize,
    /// What was typed to each question so far, whether or not it is put now.
    typed: Vec<(Digest, String)>,
}

impl Answering {
    /// Puts these questions, from the first. What was typed to any of them before is still there.
    pub fn put(&mut self, questions: Vec<PutQuestion>) {
        (self.put, self.passed) = (questions, 0);
    }

    /// The question that is put now; none once all were answered or left.
    pub fn now(&self) -> Option<&PutQuestion> {
        self.put.get(self.passed)
    }

    /// How many come after it.
    pub fn left(&self) -> usize {
        self.put.len().saturating_sub(self.passed + 1)
    }

    /// What was typed to it before.
    pub fn typed(&self) -> &str {
        self.now().map_or("", |put| self.typed_to(put))
    }

    fn typed_to(&self, put: &PutQuestion) -> &str {
        let mut typed = self.typed.iter();
        let found = typed.find(|(question, _)| *question == put.question);
        found.map_or("", |(_, text)| text.as_str())
    }

    /// Keeps what is typed to it so far.
    pub fn keep(&mut self, text: &str) {
        if let Some(question) = self.now().map(|put| put.question) {
            self.typed.retain(|(other, _)| *other != question);
            self.typed.push((question, text.to_owned()));
        }
    }

    /// Takes an answer to it and goes on; nothing typed leaves it for later.
    ///
    /// # Errors
    /// [`NotWords`], where these are no words: it is still put then.
    pub fn take(&mut self, text: &str) -> Result<(), NotWords> {
        match Words::read(text) {
            Ok(_) | Err(NotWords::Empty) => {}
            Err(fault) => return Err(fault),
        }
        self.keep(text);
        self.passed = self.put.len().min(self.passed + 1);
        Ok(())
    }

    /// Goes back to the question before; whether there was one.
    pub fn back(&mut self) -> bool {
        let before = self.passed.checked_sub(1);
        self.passed = before.unwrap_or(0);
        before.is_some()
    }

    /// The answers to what was put so far.
    pub fn answers(&self) -> Vec<Answered> {
        let passed = self.put.iter().take(self.passed);
        let answers = passed.filter_map(|put| {
            Some(Answered {
                question: put.question,
                by: Words::read(&put.to).ok()?,
                words: Words::read(self.typed_to(put)).ok()?,
            })
        });
        answers.collect()
    }
}
