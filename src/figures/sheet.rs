//! Every figure of a rig at once, with its answer.

use crate::figures::{Each, Figure, Found, Item, NotKnown, Today};

/// One figure of a rig, or of one of its wheels, axles or chains.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The figure.
    pub figure: Figure,
    /// What it belongs to, where it is one of several.
    pub item: Option<Item>,
    /// Its value, or why there is none.
    pub answer: Result<Found, NotKnown>,
}

/// Every figure of this rig, today, in the order of [`Figure::ALL`].
pub fn sheet<'r>(today: impl Into<Today<'r>>) -> Vec<Entry> {
    let today = today.into();
    let entries = Figure::ALL
        .into_iter()
        .flat_map(|figure| entries(figure, today));
    entries.collect()
}

/// One figure, for each item it belongs to.
pub fn entries(figure: Figure, today: Today<'_>) -> Vec<Entry> {
    let entry = |item: Option<Item>| Entry {
        figure,
        answer: figure.of(today, item.as_ref()),
        item,
    };
    let items = figure.each().map(|each: Each| each.items(today.rig));
    match items {
        None => vec![entry(None)],
        Some(items) => items.into_iter().map(|item| entry(Some(item))).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::Rig;
    use crate::rig::demo::{JUNIPER, MESQUITE};

    #[test]
    fn every_figure_of_every_item_is_answered_once_and_in_its_dimension() {
        for text in [JUNIPER, MESQUITE] {
            let rig = Rig::read(text).unwrap();
            let sheet = sheet(&rig);
            for figure in Figure::ALL {
                let times = figure.each().map_or(1, |each| each.items(&rig).len());
                let mine = sheet.iter().filter(|entry| entry.figure == figure);
                assert_eq!(mine.count(), times, "{}", figure.word());
            }
            for entry in &sheet {
                match &entry.answer {
                    Ok(found) => assert_eq!(
                        found.quantity.dimension(),
                        entry.figure.dimension(),
                        "{}",
                        entry.figure.word()
                    ),
                    Err(NotKnown::NeedsItem(..)) => panic!("{}", entry.figure.word()),
                    Err(_) => {}
                }
            }
        }
    }
}
