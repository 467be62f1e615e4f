//! JSON whose keys keep the order they were given in.

use serde::ser::{SerializeMap, SerializeSeq};
use serde::{Serialize, Serializer};

/// A value.
#[derive(Clone, Debug)]
pub(super) enum Json {
    Flag(bool),
    Whole(usize),
    Text(String),
    List(Vec<Json>),
    Map(Vec<(String, Json)>),
}

impl Json {
    pub(super) fn text(text: &str) -> Self {
        Self::Text(text.to_owned())
    }

    pub(super) fn texts<'t>(texts: impl IntoIterator<Item = &'t str>) -> Self {
        Self::List(texts.into_iter().map(Self::text).collect())
    }

    pub(super) fn map(entries: Vec<(&'static str, Self)>) -> Self {
        let entries = entries.into_iter();
        Self::Map(
            entries
                .map(|(key, value)| (key.to_owned(), value))
                .collect(),
        )
    }

    /// As a page of text, ended by a line end.
    pub(super) fn page(&self) -> String {
        let page = serde_json::to_string_pretty(self).unwrap_or_default();
        page + "\n"
    }
}

impl Serialize for Json {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Flag(flag) => to.serialize_bool(*flag),
            Self::Whole(number) => number.serialize(to),
            Self::Text(text) => to.serialize_str(text),
            Self::List(values) => {
                let mut list = to.serialize_seq(Some(values.len()))?;
                for value in values {
                    list.serialize_element(value)?;
                }
                list.end()
            }
            Self::Map(entries) => {
                let mut map = to.serialize_map(Some(entries.len()))?;
                for (key, value) in entries {
                    map.serialize_entry(key, value)?;
                }
                map.end()
            }
        }
    }
}
