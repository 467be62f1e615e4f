//! Values with one spelling, as JSON strings: read strictly, written as they show themselves.

use crate::record::{Digest, Id, Mode, PrintedName, Role, Wall, strict};
use crate::walk::{Ended, Words};
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

macro_rules! spelt {
    ($($value:ty, $what:literal, $read:expr, $write:expr;)*) => {$(
        impl Serialize for $value {
            fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                to.collect_str(&$write(self))
            }
        }

        impl<'de> Deserialize<'de> for $value {
            fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                let text = String::deserialize(from)?;
                $read(text.as_str()).ok_or_else(|| {
                    let found: String = text.chars().take(80).collect();
                    D::Error::custom(format_args!("“{}” is no {}", found.escape_debug(), $what))
                })
            }
        }
    )*};
}

spelt! {
    Id, "id", |text| Self::read(text).ok(), Self::as_str;
    Digest, "hash", |text| Self::read(text).ok(), Self::to_string;
    Wall, "time", Self::read, Self::to_string;
    PrintedName, "name", |text| Self::read(text).ok(), Self::as_str;
    Mode, "mode", Self::read, |mode: &Self| mode.word();
    Role, "role", Self::read, |role: &Self| role.word();
    Words, "words", strict::words, Self::as_str;
    Ended, "outcome", |text| named(text, &Self::WORDS), |ended: &Self| ended.word();
}

fn named<T: Copy>(text: &str, table: &[(&'static str, T)]) -> Option<T> {
    let known = table.iter().find(|(word, _)| *word == text);
    known.map(|(_, value)| *value)
}
