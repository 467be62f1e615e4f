//! What verification finds: a closed set of words, each with an exit status.

use std::fmt;

/// What is found of a trip, or of the order of trips. Ordered from the lightest to the gravest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Finding {
    /// Every byte is as signed, by people and devices of the crew.
    Intact,
    /// The same, and no manager has countersigned it yet.
    NotCountersigned,
    /// Nothing is wrong with the lines there are, and no one has signed for them.
    Unsealed,
    /// A demo or drill among real trips, or the other way about.
    OtherMode,
    /// Numbers of a device are missing.
    Gap,
    /// Signed by someone the crew in force does not know so.
    UnknownSigner,
    /// Signed with a key that had left the crew, as far as witnesses can tell.
    OutsideBracket,
    /// The same, with a key that may be in other hands.
    RevokedSigner,
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
    pub const TABLE: [(&'static str, u8, Self); 13] = [
        ("intact", 0, Self::Intact),
        ("not-countersigned", 9, Self::NotCountersigned),
        ("unsealed", 10, Self::Unsealed),
        ("other-mode", 11, Self::OtherMode),
        ("gap", 12, Self::Gap),
        ("unknown-signer", 13, Self::UnknownSigner),
        ("outside-bracket", 19, Self::OutsideBracket),
        ("revoked-signer", 20, Self::RevokedSigner),
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

    /// What it means, in words.
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Intact => "every byte is as signed, by people and laptops of the crew",
            Self::NotCountersigned => {
                "every byte is as signed, and no manager has countersigned it yet"
            }
            Self::Unsealed => {
                "nothing is wrong with what there is, and not everyone has signed for it"
            }
            Self::OtherMode => "a demo or a drill among real trips, or the other way about",
            Self::Gap => "numbers are missing, or their trips cannot be relied on",
            Self::UnknownSigner => "signed by someone the crew file does not know so",
            Self::OutsideBracket => "signed with a key that has left the crew, perhaps after that",
            Self::RevokedSigner => "signed with a key that may be in other hands by then",
            Self::Truncated => "the end is missing",
            Self::Fork => "two histories with the same number",
            Self::Altered => "bytes were changed after they were written",
            Self::Unreadable => "not a record it can read",
            Self::AgainstTheRules => {
                "signed as it is, and no walk by its checklist and rig comes to that"
            }
        }
    }

    /// The word, and what it means: for whoever reads it the first time.
    pub fn told(self) -> String {
        format!("{}: {}", self.word(), self.meaning())
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
    use std::collections::HashSet;

    #[test]
    fn the_table_goes_from_the_lightest_to_the_gravest_and_each_has_its_own_status() {
        let ordered = Finding::TABLE.is_sorted_by(|(.., lighter), (.., graver)| lighter < graver);
        assert!(ordered);
        let statuses: HashSet<u8> = Finding::TABLE
            .iter()
            .map(|(_, status, _)| *status)
            .collect();
        assert_eq!(statuses.len(), Finding::TABLE.len());
        assert_eq!(Finding::Intact.status(), 0);
        assert_eq!(Finding::Truncated.word(), "truncated");
    }
}
