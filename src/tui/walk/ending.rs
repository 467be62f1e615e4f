//! Ending a walk early: a whole word has to be typed, so that no slip of a key ends a trip.

use crate::walk::Ended;

/// The words that end a walk, each with what it ends it as.
pub(super) const WORDS: [(&str, Ended); 3] = [
    ("not fit", Ended::NotFitToGo),
    ("incomplete", Ended::Incomplete),
    ("abandoned", Ended::Abandoned),
];

/// What the typed word ends the walk as.
pub(super) fn end_as(typed: &str) -> Result<Ended, String> {
    let typed = typed.trim().to_lowercase();
    WORDS
        .into_iter()
        .find(|(word, outcome)| typed == *word || typed == outcome.word())
        .map(|(_, outcome)| outcome)
        .ok_or_else(|| "Type one of the words shown, or go back. The walk goes on.".to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_whole_word_ends_a_walk() {
        assert_eq!(end_as(" Not fit "), Ok(Ended::NotFitToGo));
        assert_eq!(end_as("not-fit-to-go"), Ok(Ended::NotFitToGo));
        assert_eq!(end_as("incomplete"), Ok(Ended::Incomplete));
        for slip in ["", "y", "inc", "complete", "not"] {
            assert!(end_as(slip).is_err(), "{slip}");
        }
    }
}
