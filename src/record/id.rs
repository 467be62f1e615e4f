//! Ids: of people, devices, trips, boots and kinds of line.

use std::fmt;

/// A short lower-case name with one spelling, good as a file name on every system.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Id(String);

/// A text that is not an [`Id`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotAnId(pub String);

impl Id {
    /// Most characters an id has.
    pub const LONGEST: usize = 64;

    /// Reads an id: `a` to `z`, `0` to `9`, and between them single points or hyphens.
    ///
    /// # Errors
    /// [`NotAnId`] for any other text.
    pub fn read(text: &str) -> Result<Self, NotAnId> {
        let whole = |part: &str| {
            !part.is_empty()
                && part
                    .bytes()
                    .all(|letter| letter.is_ascii_lowercase() || letter.is_ascii_digit())
        };
        if text.len() <= Self::LONGEST && text.split(['.', '-']).all(whole) {
            Ok(Self(text.to_owned()))
        } else {
            Err(NotAnId(text.chars().take(Self::LONGEST + 1).collect()))
        }
    }

    /// The id as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Display for NotAnId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "“{}” is not an id; write small letters and digits, with single points or hyphens between, such as wren.ashdown",
            self.0.escape_debug()
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_id_has_one_spelling() {
        for right in [
            "wren.ashdown",
            "laptop-7f3a",
            "a",
            "9f0c-11.b",
            &"x".repeat(64),
        ] {
            assert_eq!(Id::read(right).unwrap().as_str(), right);
        }
        for wrong in [
            "",
            "Wren",
            "wren ashdown",
            "role:driver",
            ".wren",
            "wren.",
            "a..b",
            "a.-b",
            "é",
            "a*",
            "a/b",
            &"x".repeat(65),
        ] {
            assert!(Id::read(wrong).is_err(), "{wrong}");
        }
    }
}
