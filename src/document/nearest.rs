//! The word somebody most likely meant.

/// The one of `known` nearest to `word`, if it is near enough to be meant.
///
/// Near enough is one slip for every three letters, at least one, and never the whole word: a
/// letter wrong, missing, too many, or two changed over. Case and the choice between `-`, `_` and
/// a blank do not count.
pub fn nearest<'k>(word: &str, known: impl IntoIterator<Item = &'k str>) -> Option<&'k str> {
    let word = plain(word);
    let slips_allowed = (word.len() / 3).max(1).min(word.len().saturating_sub(1));
    known
        .into_iter()
        .map(|candidate| (slips(&word, &plain(candidate)), candidate))
        .filter(|(slips, _)| *slips <= slips_allowed)
        .min_by_key(|(slips, _)| *slips)
        .map(|(_, candidate)| candidate)
}

/// Letters compared. A word in a file has no such length; a pasted page has.
const LONGEST: usize = 40;

fn plain(word: &str) -> Vec<char> {
    word.chars()
        .take(LONGEST)
        .flat_map(char::to_lowercase)
        .map(|letter| {
            if matches!(letter, '_' | ' ') {
                '-'
            } else {
                letter
            }
        })
        .collect()
}

/// How many slips make one word of the other (optimal string alignment distance).
fn slips(from: &[char], to: &[char]) -> usize {
    let mut before: Vec<usize> = Vec::new();
    let mut above: Vec<usize> = (0..=to.len()).collect();
    let mut last = None;
    for (row, letter) in from.iter().enumerate() {
        let mut here = vec![row + 1];
        for (column, wanted) in to.iter().enumerate() {
            let at =
                |line: &[usize], column: usize| line.get(column).copied().unwrap_or(usize::MAX);
            let changed = at(&above, column) + usize::from(letter != wanted);
            let missed = at(&above, column + 1) + 1;
            let added = at(&here, column) + 1;
            let mut fewest = changed.min(missed).min(added);
            let crossed = column
                .checked_sub(1)
                .filter(|&left| last == Some(wanted) && to.get(left) == Some(letter));
            if let Some(left) = crossed {
                fewest = fewest.min(at(&before, left) + 1);
            }
            here.push(fewest);
        }
        before = std::mem::replace(&mut above, here);
        last = Some(letter);
    }
    above.last().copied().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_pen_finds_the_word_meant() {
        let known = ["section", "steps", "advice", "cold-pressure"];
        for (word, meant) in [
            ("stpes", Some("steps")),
            ("step", Some("steps")),
            ("Steps", Some("steps")),
            ("advise", Some("advice")),
            ("cold_pressure", Some("cold-pressure")),
            ("coldpresure", Some("cold-pressure")),
            ("torque", None),
            ("", None),
        ] {
            assert_eq!(nearest(word, known), meant, "{word}");
        }
    }

    #[test]
    fn of_two_near_words_the_nearer_is_meant() {
        assert_eq!(nearest("stepps", ["stops", "steps"]), Some("steps"));
        assert_eq!(nearest("amx", ["min", "max"]), Some("max"));
    }

    #[test]
    fn one_letter_is_not_near_another() {
        assert_eq!(nearest("C", ["A", "B", "1A"]), None);
        assert_eq!(nearest("a", ["A", "B", "1A"]), Some("A"));
    }
}
