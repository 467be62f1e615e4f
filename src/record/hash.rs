//! SHA-256, plain or under a domain tag, shown as lower-case hexadecimal.

use sha2::{Digest as _, Sha256};
use std::collections::VecDeque;
use std::fmt;

/// A SHA-256 value.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Digest([u8; 32]);

/// What kind of bytes a tagged hash covers, so that no line can stand in for a seal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tag {
    /// A journal line, without its line end.
    Line,
    /// A seal file, whole.
    Seal,
    /// A manager's statement, whole.
    Statement,
}

/// Files that were hashed, for whoever meets the same bytes again and again: to compare them is
/// quicker than to hash them.
#[derive(Clone, Debug, Default)]
pub struct Hashed {
    /// The last one asked for first.
    files: VecDeque<(Vec<u8>, Digest)>,
}

/// A text that is not 64 lower-case hexadecimal digits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotADigest(pub String);

impl Tag {
    /// The bytes hashed before the content; the final zero ends them.
    const fn bytes(self) -> &'static [u8] {
        match self {
            Self::Line => b"hames-line/1\0",
            Self::Seal => b"hames-seal/1\0",
            Self::Statement => b"hames-statement/1\0",
        }
    }
}

impl Digest {
    /// What line 0 names as the line before it.
    pub const ZERO: Self = Self([0; 32]);

    /// The plain hash of `bytes`, as `sha256sum` gives it.
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// The hash of `bytes` under `tag`.
    pub fn tagged(tag: Tag, bytes: &[u8]) -> Self {
        let hash = Sha256::new().chain_update(tag.bytes());
        Self(hash.chain_update(bytes).finalize().into())
    }

    /// Reads 64 lower-case hexadecimal digits.
    ///
    /// # Errors
    /// [`NotADigest`] for any other text, capital letters included: a hash has one spelling.
    pub fn read(text: &str) -> Result<Self, NotADigest> {
        let refused = || NotADigest(text.chars().take(80).collect());
        let mut bytes = [0; 32];
        let (pairs, rest) = text.as_bytes().as_chunks::<2>();
        if pairs.len() != bytes.len() || !rest.is_empty() {
            return Err(refused());
        }
        for (byte, &[high, low]) in bytes.iter_mut().zip(pairs) {
            let (high, low) = (nibble(high), nibble(low));
            *byte = high.zip(low).map(|(h, l)| h << 4 | l).ok_or_else(refused)?;
        }
        Ok(Self(bytes))
    }

    /// The 32 bytes.
    pub const fn bytes(&self) -> &[u8; 32] {
        &self.0
    }
}

impl Hashed {
    /// How many files are kept. A barn has a handful of rigs and a dozen lists.
    const MOST: usize = 32;

    /// The plain hash of `bytes`.
    pub fn of(&mut self, bytes: &[u8]) -> Digest {
        let known = self.files.iter().position(|(file, _)| file == bytes);
        let file = match known.and_then(|at| self.files.remove(at)) {
            Some(file) => file,
            None => (bytes.to_vec(), Digest::of(bytes)),
        };
        let hash = file.1;
        self.files.push_front(file);
        self.files.truncate(Self::MOST);
        hash
    }
}

fn nibble(digit: u8) -> Option<u8> {
    match digit {
        b'0'..=b'9' => Some(digit - b'0'),
        b'a'..=b'f' => Some(digit - b'a' + 10),
        _ => None,
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl fmt::Debug for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Digest({self})")
    }
}

impl fmt::Display for NotADigest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "“{}” is not 64 lower-case hexadecimal digits", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_plain_hash_is_the_published_one() {
        // FIPS 180-4 example: the three bytes "abc".
        assert_eq!(
            Digest::of(b"abc").to_string(),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
    }

    #[test]
    fn a_tag_is_hashed_in_front_of_the_bytes() {
        assert_eq!(
            Digest::tagged(Tag::Line, b"{}"),
            Digest::of(b"hames-line/1\0{}")
        );
        assert_ne!(
            Digest::tagged(Tag::Line, b"{}"),
            Digest::tagged(Tag::Seal, b"{}")
        );
    }

    #[test]
    fn a_hash_has_one_spelling() {
        let shown = Digest::of(b"abc").to_string();
        for wrong in [
            shown.to_uppercase(),
            format!(" {shown}"),
            format!("{shown}0"),
            shown.chars().skip(1).collect(),
            shown.replace('b', "g"),
            String::new(),
            "é".repeat(32),
        ] {
            assert!(Digest::read(&wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn a_file_met_again_has_the_hash_of_its_own_bytes() {
        let mut hashed = Hashed::default();
        for round in 0..3 {
            for file in 0..2 * Hashed::MOST {
                let bytes = format!("{round}{}", file % (Hashed::MOST + 1));
                for bytes in [bytes.as_bytes(), b"often"] {
                    assert_eq!(hashed.of(bytes), Digest::of(bytes));
                }
                assert!(hashed.files.len() <= Hashed::MOST);
            }
        }
        assert_eq!(hashed.files[0].0, b"often");
    }

    proptest! {
        #[test]
        fn a_shown_hash_reads_back_the_same(bytes: [u8; 32]) {
            prop_assert_eq!(Digest::read(&Digest(bytes).to_string()), Ok(Digest(bytes)));
        }

        #[test]
        fn whatever_the_text_reading_it_does_not_panic(text in "\\PC{0,70}") {
            let _ = Digest::read(&text);
        }
    }
}
