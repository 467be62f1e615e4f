//! The parts of a rig a step is repeated for.

use crate::rig::Rig;

/// What a step is repeated for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Each {
    /// Each wheel of the trailer.
    TrailerWheel,
    /// Each axle of the trailer.
    TrailerAxle,
    /// Each axle of the truck.
    TruckAxle,
    /// Each safety chain.
    Chain,
    /// Each horse that stands in a stall.
    Horse,
}

impl Each {
    /// Every kind with its word.
    pub const WORDS: [(&'static str, Self); 5] = [
        ("trailer-wheel", Self::TrailerWheel),
        ("trailer-axle", Self::TrailerAxle),
        ("truck-axle", Self::TruckAxle),
        ("chain", Self::Chain),
        ("horse", Self::Horse),
    ];

    /// The word used in checklists.
    pub fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, each)| *each == self)
            .map_or("", |(word, _)| word)
    }

    /// The items of this rig, in the order a person meets them.
    pub fn items(self, rig: &Rig) -> Vec<Item> {
        match self {
            Self::TrailerWheel => rig
                .trailer
                .wheels()
                .into_iter()
                .map(|wheel| Item {
                    each: self,
                    index: wheel.axle,
                    id: wheel.id,
                    called: None,
                })
                .collect(),
            Self::TrailerAxle => Self::named(
                self,
                match rig.trailer.axles.len() {
                    1 => &["only"],
                    2 => &["front", "rear"],
                    _ => &["front", "middle", "rear"],
                },
            ),
            Self::TruckAxle => Self::named(self, &["front", "rear"]),
            Self::Chain => Self::named(self, &["left", "right"]),
            Self::Horse => horses(rig),
        }
    }

    fn named(self, ids: &[&str]) -> Vec<Item> {
        ids.iter()
            .enumerate()
            .map(|(index, id)| Item {
                each: self,
                index,
                id: (*id).to_owned(),
                called: None,
            })
            .collect()
    }
}

/// One of the parts a step is repeated for.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Item {
    /// What kind of part.
    pub each: Each,
    /// Which axle or chain, from the front or from the left; which load, as the file lists them.
    pub index: usize,
    /// Id in records, such as `left-front`; a horse's is its stall's.
    pub id: String,
    /// What it is called where its id does not say it: a horse's name.
    pub called: Option<String>,
}

impl Item {
    /// The name on screens: `left front`, or `Bramble, left stall`.
    pub fn name(&self) -> String {
        match &self.called {
            Some(called) => called.clone(),
            None => self.id.replace('-', " "),
        }
    }
}

/// The horses in their stalls, as the file lists them. Of two in one stall, such as a mare and her
/// foal, the second has a number behind the stall's id.
fn horses(rig: &Rig) -> Vec<Item> {
    let mut items: Vec<Item> = Vec::new();
    for (index, load) in rig.load.iter().enumerate() {
        let Some(stall) = load.stall.as_deref() else {
            continue;
        };
        let beside = |id: &str| items.iter().filter(|item| item.id == id).count();
        let free =
            |id: &String| beside(id) == 0 && rig.trailer.stalls.iter().all(|one| one.id != *id);
        let id = match beside(stall) {
            0 => stall.to_owned(),
            _ => (2..=rig
                .load
                .len()
                .saturating_add(rig.trailer.stalls.len())
                .saturating_add(1))
                .map(|number: usize| format!("{stall}-{number}"))
                .find(free)
                .unwrap_or_default(),
        };
        let place = rig.trailer.stalls.iter().find(|one| one.id == stall);
        let place = place.map_or(stall, |one| one.name.as_str());
        items.push(Item {
            each: Each::Horse,
            index,
            id,
            called: Some(format!("{}, {place}", load.name)),
        });
    }
    items
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::demo::{JUNIPER, MESQUITE};

    fn horses_of(text: &str) -> Vec<(String, String)> {
        let items = Each::Horse.items(&Rig::read(text).unwrap()).into_iter();
        items.map(|item| (item.id.clone(), item.name())).collect()
    }

    #[test]
    fn a_horse_goes_by_its_stall_in_records_and_by_its_name_on_screens() {
        let told = |id: &str, name: &str| (id.to_owned(), name.to_owned());
        assert_eq!(
            horses_of(JUNIPER),
            [
                told("left", "Bramble, 16 hands, left stall"),
                told("right", "Thistle, 15.2 hands, right stall"),
            ]
        );
        let ids = horses_of(MESQUITE).into_iter().map(|(id, _)| id);
        assert_eq!(
            ids.collect::<Vec<_>>(),
            ["first", "second", "third", "fourth"]
        );
    }

    #[test]
    fn a_trailer_that_carries_no_horse_has_no_horses() {
        let empty = JUNIPER
            .replace(
                "    in: left\n",
                "    at: { behind: 158 in, right: -17 in, above: 60 in, by: estimate, at: barn }\n",
            )
            .replace(
                "    in: right\n",
                "    at: { behind: 158 in, right: 17 in, above: 60 in, by: estimate, at: barn }\n",
            );
        assert_eq!(horses_of(&empty), []);
    }

    #[test]
    fn two_in_one_stall_are_two_and_told_apart() {
        let both = JUNIPER.replace("    in: right\n", "    in: left\n");
        let ids = horses_of(&both).into_iter().map(|(id, _)| id);
        assert_eq!(ids.collect::<Vec<_>>(), ["left", "left-2"]);
    }
}
