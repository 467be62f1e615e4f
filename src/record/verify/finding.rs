//! What verification finds: a closed set of words, each with an exit status.

use std::fmt;

/// What is found of a trip, or of the order of trips. Ordered from the lightest to the gravest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Finding {
    /// Every byte is as signed, by people and devices of the crew.
    Intact,
    /// Nothing is wrong with the lines there are, and no one has signed for them.
    Unsealed,
    /// A demo or drill among real trips, or the other way about.
    OtherMode,
    /// Numbers of a device are missing.
    Gap,
    /// Signed by someone the crew in force does not know so.
    UnknownSigner,
    /// The end is missing.
    Truncated,
    /// Two histories with the same number.
    Fork,
    /// Bytes were changed after they were written.
    Altered,
    /// Not a record this program can read.
    Unreadable,
    /// Signed as it is, and no walk by its checklist and rig comes to that.
    AgainstTheRules,
}

impl Finding {
    /// Every finding with its word and exit status.
    pub const TABLE: [(&'static str, u8, Self); 10] = [
        ("intact", 0, Self::Intact),
        ("unsealed", 10, Self::Unsealed),
        ("other-mode", 11, Self::OtherMode),
        ("gap", 12, Self::Gap),
        ("unknown-signer", 13, Self::UnknownSigner),
        ("truncated", 14, Self::Truncated),
        ("fork", 15, Self::Fork),
        ("altered", 16, Self::Altered),
        ("unreadable", 17, Self::Unreadable),
        ("against-the-rules", 18, Self::AgainstTheRules),
    ];

    /// The word.
    pub fn word(self) -> &'static str {
        let row = Self::TABLE.iter().find(|(_, _, one)| *one == self);
        row.map_or("", |(word, _, _)| word)
    }

    /// The exit status of a program that found this and nothing graver.
    pub fn status(self) -> u8 {
        let row = Self::TABLE.iter().find(|(_, _, one)| *one == self);
        row.map_or(u8::MAX, |(_, status, _)| *status)
    }
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_graver_finding_has_a_higher_status() {
        let ordered = Finding::TABLE
            .is_sorted_by(|(_, low, lighter), (_, high, graver)| low < high && lighter < graver);
        assert!(ordered);
        assert_eq!(Finding::Intact.status(), 0);
        assert_eq!(Finding::Truncated.word(), "truncated");
    }
}
