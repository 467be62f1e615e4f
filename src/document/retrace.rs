//! Later passes over the text, which look again at values already counted.
//!
//! The parser tells a place only with an error. So to find a place the text is read again, up to
//! the value in question, where the reading is made to fail.

use crate::document::grow::Item;
use crate::document::{Place, Spot, syntax};
use serde::de::{
    Deserialize, DeserializeSeed, Deserializer, IgnoredAny, MapAccess, SeqAccess, Visitor,
};
use std::fmt;
use std::ops::Range;

/// The place of `spot` in `text`, which holds `items`.
pub(crate) fn place(text: &str, items: &[Item], spot: Spot) -> Place {
    let task = |within: &Range<usize>| match within {
        _ if within.start == spot.0 => Task::Stop,
        _ if within.contains(&spot.0) => Task::Enter,
        _ => Task::Pass,
    };
    match retrace(text, items, &task) {
        Err(error) => place_of(&error),
        Ok(_) => Place::START,
    }
}

/// The characters of these values of a text that holds `items`. They stand in the text's order.
pub(crate) fn texts(
    text: &str,
    items: &[Item],
    wanted: &[Spot],
) -> Result<Vec<(Spot, String)>, serde_yaml::Error> {
    let first = |within: &Range<usize>| {
        let before = wanted.partition_point(|spot| spot.0 < within.start);
        wanted.get(before).filter(|spot| within.contains(&spot.0))
    };
    retrace(text, items, &|within| match first(within) {
        Some(spot) if spot.0 == within.start => Task::Copy,
        Some(_) => Task::Enter,
        None => Task::Pass,
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
    /// Leave it, and all that stands within it, unread.
    Pass,
    /// Go on with what stands within it.
    Enter,
    Copy,
    Stop,
}

fn retrace(
    text: &str,
    items: &[Item],
    task: &dyn Fn(&Range<usize>) -> Task,
) -> Result<Vec<(Spot, String)>, serde_yaml::Error> {
    let mut pass = Pass {
        next: 0,
        ends: ends(items),
        task,
        copied: Vec::new(),
    };
    pass.deserialize(serde_yaml::Deserializer::from_str(text))?;
    Ok(pass.copied)
}

/// Behind each item, the first that does not stand within it.
fn ends(items: &[Item]) -> Vec<usize> {
    let mut ends: Vec<usize> = (1..=items.len()).collect();
    for (at, item) in items.iter().enumerate().rev() {
        let end = ends.get(at).copied().unwrap_or_default();
        if let Some(around) = item.parent.and_then(|parent| ends.get_mut(parent.0)) {
            *around = end.max(*around);
        }
    }
    ends
}

struct Pass<'t> {
    next: usize,
    ends: Vec<usize>,
    task: &'t dyn Fn(&Range<usize>) -> Task,
    copied: Vec<(Spot, String)>,
}

impl<'de> DeserializeSeed<'de> for &mut Pass<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        let at = self.next;
        let end = self.ends.get(at).copied().unwrap_or(at + 1);
        self.next = at + 1;
        match (self.task)(&(at..end)) {
            Task::Pass => {
                self.next = end;
                IgnoredAny::deserialize(deserializer).map(drop)
            }
            Task::Enter => deserializer.deserialize_any(self),
            Task::Copy => {
                let text = String::deserialize(deserializer)?;
                self.copied.push((Spot(at), text));
                Ok(())
            }
            Task::Stop => deserializer.deserialize_any(Stop),
        }
    }
}

impl<'de> Visitor<'de> for &mut Pass<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list or a map")
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
