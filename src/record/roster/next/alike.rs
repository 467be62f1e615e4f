//! Names that read the same: whoever reads a record sees the look of a name, not its letters.

use unicode_security::confusable_detection::skeleton;

/// Whether two names or ids differ in nothing that a reader would see at a glance: in letters that
/// look alike, in great and small letters, in blanks, points and hyphens; or not at all.
pub(super) fn reads_like(one: &str, other: &str) -> bool {
    let looks = looks(other);
    self::looks(one).iter().any(|look| looks.contains(look))
}

/// The looks of a name as it is written, and in small letters: a great I is like an l, a small one
/// is not.
fn looks(name: &str) -> [String; 2] {
    [look(name), look(&name.to_lowercase())]
}

fn look(name: &str) -> String {
    let letters: String = skeleton(name)
        .filter(|letter| !letter.is_whitespace() && !letter.is_ascii_punctuation())
        .collect();
    letters.to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_reader_cannot_tell_apart_reads_the_same_and_an_accent_does_not() {
        for (one, other) in [
            ("Wren Ashdown", "Wren Ashdown"),
            ("Wren Ashdown", "WREN ashdown"),
            ("Wren Ashdown", "WrenAshdown"),
            ("Wren Ashdown", "Wren\u{2009}Ashdown"),
            ("wren.ashdown", "wren-ashdown"),
            // Cyrillic е and о, Greek ο.
            ("Wren Ashdown", "Wr\u{435}n Ashd\u{43e}wn"),
            ("Wren Ashdown", "Wren Ashd\u{3bf}wn"),
            ("Bill Marsh", "BiII Marsh"),
            ("bill", "bi11"),
            ("Odile", "0dile"),
            ("Marsh", "Rnarsh"),
        ] {
            assert!(reads_like(one, other), "{one} {other}");
            assert!(reads_like(other, one), "{one} {other}");
        }
        for (one, other) in [
            ("Wren Ashdown", "Bryn Ashdown"),
            ("Wren Ashdown", "Linnet Ashdown"),
            ("Åsa Marsh", "Asa Marsh"),
            ("Laptop 7f3a", "Laptop 7f3d"),
            ("tobias.fenn", "tobias.fenn2"),
        ] {
            assert!(!reads_like(one, other), "{one} {other}");
        }
    }
}
