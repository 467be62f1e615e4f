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
}

impl Each {
    /// Every kind with its word.
    pub const WORDS: [(&'static str, Self); 4] = [
        ("trailer-wheel", Self::TrailerWheel),
        ("trailer-axle", Self::TrailerAxle),
        ("truck-axle", Self::TruckAxle),
        ("chain", Self::Chain),
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
        }
    }

    fn named(self, ids: &[&str]) -> Vec<Item> {
        ids.iter()
            .enumerate()
            .map(|(index, id)| Item {
                each: self,
                index,
                id: (*id).to_owned(),
            })
            .collect()
    }
}

/// One of the parts a step is repeated for.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Item {
    /// What kind of part.
    pub each: Each,
    /// Which axle or chain, from the front or from the left.
    pub index: usize,
    /// Id in records, such as `left-front`.
    pub id: String,
}

impl Item {
    /// The name on screens: `left front`.
    pub fn name(&self) -> String {
        self.id.replace('-', " ")
    }
}
