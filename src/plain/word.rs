//! The words that can be typed at any prompt of a walk: one table for taking and for telling them.

use crate::walk::{Now, Status, Walk};

/// What a word asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Word {
    /// List the words.
    Help,
    /// Say the block once more.
    Again,
    /// Tell why the step matters and what stands behind its limits.
    Why,
    /// Tell the same of the answer given last.
    Last,
    /// List the steps.
    List,
    /// Write something down.
    Note,
    /// Stop: something is not clear.
    Unsure,
    /// Leave for a while.
    Hold,
    /// Put the step off.
    Later,
    /// Take back an answer.
    Correct,
    /// Give the walk to others.
    HandOver,
    /// Read the record so far.
    Show,
    /// End the walk before it is complete.
    End,
    /// Leave the program.
    Quit,
}

/// Each word, a shorter form, and what it does.
const WORDS: [(Word, &str, &str, &str); 14] = [
    (
        Word::Unsure,
        "unsure",
        "u",
        "stop here, something is not clear",
    ),
    (Word::Hold, "hold", "h", "leave the walk for a while"),
    (Word::Note, "note", "n", "write something down"),
    (Word::Later, "later", "l", "put this step off"),
    (
        Word::Correct,
        "correct",
        "c",
        "take back an answer and give another",
    ),
    (
        Word::HandOver,
        "handover",
        "o",
        "give the walk to other people",
    ),
    (
        Word::Why,
        "why",
        "w",
        "why this step matters and what stands behind each limit",
    ),
    (Word::Last, "last", "t", "the same of the answer given last"),
    (Word::Again, "again", "a", "say this once more"),
    (Word::List, "list", "s", "every step with how it stands"),
    (Word::Show, "show", "r", "read the record so far"),
    (Word::End, "end", "e", "end the walk before it is complete"),
    (
        Word::Quit,
        "quit",
        "q",
        "leave the program; the walk stays as it is",
    ),
    (Word::Help, "help", "?", "this list"),
];

impl Word {
    /// The word that was typed.
    pub(super) fn read(typed: &str) -> Option<Self> {
        let lower = typed.to_lowercase();
        let row = WORDS
            .iter()
            .find(|(_, word, short, _)| *word == lower || *short == lower)?;
        Some(row.0)
    }

    /// Whether it does anything now.
    pub(super) fn is_open(self, walk: &Walk) -> bool {
        let now = walk.now();
        let standing = matches!(now, Now::Held | Now::Unsure);
        let at_step = matches!(now, Now::Next(_) | Now::Open(_));
        match self {
            Self::Hold => !standing,
            Self::Unsure => now != Now::Unsure,
            Self::Later => at_step && deferrable(walk, &now),
            Self::Correct => {
                !standing
                    && !matches!(now, Now::Branch(_) | Now::Remark(_))
                    && walk.last_done().is_some()
            }
            Self::Why => matches!(now, Now::Open(_) | Now::Branch(_) | Now::Remark(_)),
            Self::Last => walk.last_done().is_some(),
            _ => true,
        }
    }

    /// A line for each word that does something now.
    pub(super) fn told(walk: &Walk) -> Vec<String> {
        let open = WORDS.iter().filter(|(word, ..)| word.is_open(walk));
        open.map(|(_, word, short, effect)| format!("{word} or {short}: {effect}"))
            .collect()
    }
}

fn deferrable(walk: &Walk, now: &Now) -> bool {
    let (Now::Next(index) | Now::Open(index)) = now else {
        return false;
    };
    walk.step(*index).is_some_and(|(planned, state)| {
        planned.step.deferrable.is_some()
            && state.answers.is_empty()
            && !matches!(state.status, Status::Deferred { .. })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn no_two_words_are_typed_alike() {
        let typed: HashSet<&str> = WORDS
            .iter()
            .flat_map(|(_, word, short, _)| [*word, *short])
            .collect();
        assert_eq!(typed.len(), 2 * WORDS.len());
        assert_eq!(Word::read("HOLD"), Some(Word::Hold));
        assert_eq!(Word::read("65 psi"), None);
    }
}
