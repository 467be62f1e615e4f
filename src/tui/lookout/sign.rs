//! A trip countersigned from the screen: words, who signs, the passphrase; then that it is kept.

mod update;
mod view;

pub(super) use update::{Done, act, begin, kept, may};
pub(super) use view::{body, heading};

use crate::record::Opinion;
use crate::tui::Context;
use crate::tui::field::Field;
use crate::tui::seal::Signs;
use crate::walk::{Moment, Words};

/// A trip being countersigned.
#[derive(Clone, Debug)]
pub(super) struct Signing {
    pub(super) opinion: Opinion,
    /// Milliseconds it took from the laying out to the opinion.
    took_ms: u64,
    /// The remarks, or the question, while they are typed.
    words: Field,
    stage: Stage,
}

/// What is asked next.
#[derive(Clone, Debug)]
enum Stage {
    /// Remarks, or the question.
    Words,
    /// Which manager signs, with what was typed before.
    Manager(Option<Words>),
    /// Their passphrase, or yes.
    Key {
        remarks: Option<Words>,
        signs: Signs,
        /// What has to be signed before it.
        first: Option<String>,
        typed: Field,
    },
    /// Nothing: it is signed and on the disk.
    Kept {
        by: String,
        at: Moment,
        folder: String,
    },
}

impl Signing {
    pub(super) fn context(&self) -> Context {
        match self.stage {
            Stage::Words => Context::Remarks,
            Stage::Manager(_) => Context::Countersigner,
            Stage::Key { .. } => Context::Countersigning,
            Stage::Kept { .. } => Context::Countersigned,
        }
    }

    pub(super) fn paste(&mut self, text: &str) {
        if let Some(field) = self.field() {
            field.paste(text);
        }
    }

    /// What is typed into.
    fn field(&mut self) -> Option<&mut Field> {
        match &mut self.stage {
            Stage::Words => Some(&mut self.words),
            Stage::Key { typed, .. } => Some(typed),
            Stage::Manager(_) | Stage::Kept { .. } => None,
        }
    }
}

/// What was said, behind “Countersigned: ”.
const fn told(opinion: Opinion) -> &'static str {
    match opinion {
        Opinion::Agreed => "agreed",
        Opinion::Asked => "asked, with a question",
    }
}
