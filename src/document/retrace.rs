//! Later passes over the text, which look again at values already counted.
//!
//! The parser tells a place only with an error. So to find a place the text is read again, up to
//! the value in question, where the reading is made to fail.

use crate::document::{Place, Spot, syntax};
use serde::de::{Deserialize, DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use std::fmt;

/// The place of `spot` in `text`.
pub(crate) fn place(text: &str, spot: Spot) -> Place {
    let task = |next| if next == spot { Task::Stop } else { Task::Pass };
    match retrace(text, &task) {
        Err(error) => place_of(&error),
        Ok(_) => Place::START,
    }
}

/// The characters of each value for which `wanted` holds.
pub(crate) fn texts(
    text: &str,
    wanted: &dyn Fn(Spot) -> bool,
) -> Result<Vec<(Spot, String)>, serde_yaml::Error> {
    retrace(text, &|spot| {
        if wanted(spot) { Task::Copy } else { Task::Pass }
    })
}

/// Reads the one document of a text. A second one is an error.
pub(crate) fn only<'t>(
    text: &'t str,
    read: impl FnOnce(serde_yaml::Deserializer<'t>) -> Result<(), serde_yaml::Error>,
) -> Result<(), serde_yaml::Error> {
    let mut documents = serde_yaml::Deserializer::from_str(text);
    documents.next().map_or(Ok(()), read)?;
    documents
        .next()
        .map_or(Ok(()), |second| second.deserialize_any(Stop))
}

/// The place an error tells, or the file's start when it tells none.
pub(crate) fn place_of(error: &serde_yaml::Error) -> Place {
    error.location().map_or(Place::START, |location| Place {
        line: location.line(),
        column: location.column(),
    })
}

/// What to do at a value.
enum Task {
    Pass,
    Copy,
    Stop,
}

fn retrace(
    text: &str,
    task: &dyn Fn(Spot) -> Task,
) -> Result<Vec<(Spot, String)>, serde_yaml::Error> {
    let mut pass = Pass {
        next: 0,
        task,
        copied: Vec::new(),
    };
    pass.deserialize(serde_yaml::Deserializer::from_str(text))?;
    Ok(pass.copied)
}

struct Pass<'t> {
    next: usize,
    task: &'t dyn Fn(Spot) -> Task,
    copied: Vec<(Spot, String)>,
}

impl<'de> DeserializeSeed<'de> for &mut Pass<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        let spot = Spot(self.next);
        self.next += 1;
        match (self.task)(spot) {
            Task::Pass => deserializer.deserialize_any(self),
            Task::Copy => {
                let text = String::deserialize(deserializer)?;
                self.copied.push((spot, text));
                Ok(())
            }
            Task::Stop => deserializer.deserialize_any(Stop),
        }
    }
}

impl<'de> Visitor<'de> for &mut Pass<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    fn visit_str<E: Error>(self, _: &str) -> Result<(), E> {
        Ok(())
    }

    fn visit_bool<E: Error>(self, _: bool) -> Result<(), E> {
        Ok(())
    }

    fn visit_unit<E: Error>(self) -> Result<(), E> {
        Ok(())
    }

    fn visit_i64<E: Error>(self, _: i64) -> Result<(), E> {
        Ok(())
    }

    fn visit_u64<E: Error>(self, _: u64) -> Result<(), E> {
        Ok(())
    }

    fn visit_i128<E: Error>(self, _: i128) -> Result<(), E> {
        Ok(())
    }

    fn visit_u128<E: Error>(self, _: u128) -> Result<(), E> {
        Ok(())
    }

    fn visit_f64<E: Error>(self, _: f64) -> Result<(), E> {
        Ok(())
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        while list.next_element_seed(&mut *self)?.is_some() {}
        Ok(())
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        while map.next_key_seed(&mut *self)?.is_some() {
            map.next_value_seed(&mut *self)?;
        }
        Ok(())
    }
}

/// Takes nothing, so that the parser answers with an error and its place.
struct Stop;

impl Visitor<'_> for Stop {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(syntax::NOTHING_MORE)
    }
}
