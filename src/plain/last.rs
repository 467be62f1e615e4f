//! The last questions before a walk begins: what managers asked, and the odometer. `back` goes one
//! back, and what was typed to a question stays.

use crate::desk::NO_ODOMETER;
use crate::plain::going::Session;
use crate::plain::stop::Stop;
use crate::record::Answered;
use crate::units::{Dimension, Typed};

/// What leads back.
const BACK: [&str; 2] = ["back", "b"];

impl Session<'_> {
    /// The answers to what managers asked, and the odometer; nothing when the person went back
    /// behind the first of these questions.
    pub(super) fn last_questions(&mut self) -> Result<Option<(Vec<Answered>, String)>, Stop> {
        loop {
            let typed = if self.asked.now().is_some() {
                self.answer_to()?
            } else {
                self.odometer()?
            };
            match typed {
                Some(odometer) if self.asked.now().is_none() => {
                    return Ok(Some((self.asked.answers(), odometer)));
                }
                Some(answer) => {
                    if let Err(fault) = self.asked.take(&answer) {
                        let fault = format!("Not taken: {fault}. Type it again.");
                        self.talk.say(&fault)?;
                    }
                }
                None if !self.asked.back() => return Ok(None),
                None => {}
            }
        }
    }

    /// What is answered to the question that is put; nothing where the person goes back.
    fn answer_to(&mut self) -> Result<Option<String>, Stop> {
        let Some(put) = self.asked.now().cloned() else {
            return Ok(None);
        };
        self.foretell(&[put.told()])?;
        let before = self.asked.typed().to_owned();
        let prompt = if before.is_empty() {
            put.prompt()
        } else {
            format!(
                "{}, you typed “{before}”. Enter alone keeps it; other words take its place; later \
                 leaves the question for another walk.",
                put.to
            )
        };
        let typed = match self.talk.ask(&prompt)?.as_str() {
            "" => before,
            "later" => String::new(),
            other => other.to_owned(),
        };
        Ok(Some(typed).filter(|typed| !BACK.contains(&typed.as_str())))
    }

    /// The odometer; nothing where the person goes back.
    fn odometer(&mut self) -> Result<Option<String>, Stop> {
        loop {
            let typed = self
                .talk
                .ask("Odometer of the truck, such as 48210 mi; Enter alone leaves it out.")?;
            if BACK.contains(&typed.as_str()) {
                return Ok(None);
            }
            match Typed::read(&typed, Dimension::Length) {
                Err(_) if !typed.is_empty() => self.talk.say(NO_ODOMETER)?,
                _ => return Ok(Some(typed)),
            }
        }
    }
}
