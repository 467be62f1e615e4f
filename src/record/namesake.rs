//! Whether two names could be one person's, as somebody would take them who knows only one.

use unicode_security::confusable_detection::skeleton;

/// Fewest letters of a part that tells who somebody is.
const FEWEST_LETTERS: usize = 2;

/// Fewest such parts of a whole name.
const FEWEST_PARTS: usize = 2;

/// One part of a name, folded to what it looks like.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Part {
    look: String,
    initial: bool,
}

/// Whether the name is whole: a first and a last name, neither of them only a letter.
pub fn is_whole(name: &str) -> bool {
    let letters = |part: &&str| {
        let letters = part.chars().filter(|letter| letter.is_alphabetic());
        letters.count() >= FEWEST_LETTERS
    };
    parts_of(name).filter(letters).count() >= FEWEST_PARTS
}

/// Whether two names could be the same person's: a part of it alone, initials, a name more or
/// less, accents and letters of the same look tell nobody apart.
pub fn could_be(one: &str, other: &str) -> bool {
    is_either(one, other, |one, other| {
        let (few, many) = if one.len() <= other.len() {
            (one, other)
        } else {
            (other, one)
        };
        is_among(few, many)
    })
}

/// Whether two names have the same parts, in whatever order and between whatever separators;
/// accents and letters of the same look make no other part.
pub fn has_same_parts(one: &str, other: &str) -> bool {
    is_either(one, other, |one, other| {
        let sorted = |parts: &[Part]| {
            let mut looks: Vec<String> = parts.iter().map(|part| part.look.clone()).collect();
            looks.sort();
            looks
        };
        sorted(one) == sorted(other)
    })
}

/// As they are written, or in small letters: a great I is like an l, a small one is not.
fn is_either(one: &str, other: &str, same: impl Fn(&[Part], &[Part]) -> bool) -> bool {
    let cases = |name: &str| [parts(name), parts(&name.to_lowercase())];
    let others = cases(other);
    let mut ones = cases(one).into_iter();
    ones.any(|one| {
        let joined = |parts: &[Part]| {
            parts
                .iter()
                .map(|part| part.look.as_str())
                .collect::<String>()
        };
        let mut others = others.iter();
        others.any(|other| {
            let none = one.is_empty() || other.is_empty();
            !none && (joined(&one) == joined(other) || same(&one, other))
        })
    })
}

/// Whether each of the few is one of the many, no two of them the same one.
fn is_among(few: &[Part], many: &[Part]) -> bool {
    let Some((first, rest)) = few.split_first() else {
        return true;
    };
    many.iter().enumerate().any(|(at, part)| {
        first.could_be(part) && {
            let mut left = many.to_vec();
            left.remove(at);
            is_among(rest, &left)
        }
    })
}

impl Part {
    fn could_be(&self, other: &Self) -> bool {
        self.look == other.look
            || (self.initial && other.look.starts_with(&self.look))
            || (other.initial && self.look.starts_with(&other.look))
    }
}

fn parts(name: &str) -> Vec<Part> {
    let part = |text: &str| Part {
        look: look(text),
        initial: text.chars().filter(|letter| !is_accent(*letter)).count() == 1,
    };
    parts_of(name).map(part).collect()
}

fn parts_of(name: &str) -> impl Iterator<Item = &str> {
    let parts = name.split(|letter: char| !letter.is_alphanumeric() && !is_accent(letter));
    parts.filter(|part| part.chars().any(char::is_alphanumeric))
}

fn look(text: &str) -> String {
    let letters: String = skeleton(text)
        .filter(|letter| !is_accent(*letter))
        .collect();
    letters.to_lowercase()
}

/// The marks that a letter with an accent comes apart into.
const fn is_accent(letter: char) -> bool {
    matches!(letter, '\u{300}'..='\u{36f}')
}

#[cfg(test)]
mod tests {
    use super::*;

    const TOBIAS: &str = "Tobias Fenn";

    #[test]
    fn an_everyday_name_of_somebody_could_be_theirs() {
        for same in [
            "Tobias",
            "Fenn",
            "T. Fenn",
            "T Fenn",
            "F., Tobias",
            "Tobías Fenn",
            "Tobi\u{301}as Fenn",
            "Tobias J. Fenn",
            "Fenn, Tobias",
            "tobias.fenn",
            "TOBIAS·FENN",
            "TobiasFenn",
            // Cyrillic о and а.
            "T\u{43e}bi\u{430}s Fenn",
        ] {
            assert!(could_be(same, TOBIAS), "{same}");
            assert!(could_be(TOBIAS, same), "{same}");
        }
        assert!(could_be("M. Fenn", "Marsh Fenn"));
        for other in [
            "Odile Marsh",
            "Wren Ashdown",
            "Linnet Fenn",
            "O. Fenn",
            "?",
            "",
        ] {
            assert!(!could_be(other, TOBIAS), "{other}");
        }
        assert!(!could_be("Wren Ashdown", "June Ashdown"));
    }

    #[test]
    fn the_same_parts_in_another_order_are_the_same_name_and_initials_are_not() {
        for same in ["Fenn Tobias", "Fenn, Tobias", "Tobías Fenn", "Tobias·Fenn"] {
            assert!(has_same_parts(same, TOBIAS), "{same}");
        }
        for other in ["T. Fenn", "Tobias", "Tobias J. Fenn", "Linnet Fenn"] {
            assert!(!has_same_parts(other, TOBIAS), "{other}");
        }
    }

    #[test]
    fn a_whole_name_has_two_parts_of_two_letters() {
        for whole in ["Odile Marsh", "Marsh, Odile", "Bo Li", "O. Marsh Fenn"] {
            assert!(is_whole(whole), "{whole}");
        }
        for part in ["1", "x", "Nobody", "O. Marsh", "12 34", "O M", "?", ""] {
            assert!(!is_whole(part), "{part}");
        }
    }
}
