//! What a change may move: the figures a person watches, each beside what it is held to.

use crate::figures::{
    AxleLoad, Entry, Figure, RatedLink, Today, axle_loads, entries, ratings_chain,
};
use crate::units::Quantity;
use std::cmp::Ordering;

/// A rig's figures at one moment of thought.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// What each axle carries.
    pub axles: Vec<AxleLoad>,
    /// Everything else that may move.
    pub lines: Vec<Line>,
    /// The ratings from truck to tires, the weakest first.
    pub links: Vec<RatedLink>,
}

/// One figure that may move.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Its name, in two or three words.
    name: &'static str,
    /// The figure, with its answer.
    pub entry: Entry,
    /// Most it may be, where it is held to anything.
    pub most: Option<Quantity>,
}

/// What is watched, in the order of a person's questions, each with its name and the figure it is
/// held to.
#[rustfmt::skip]
const WATCHED: [(Figure, &str, Option<Figure>); 16] = [
    (Figure::TongueWeight, "tongue weight", Some(Figure::WeakestDownward)),
    (Figure::TongueShare, "tongue share", None),
    (Figure::AttitudePitch, "pitch, nose up", None),
    (Figure::TruckPayloadLeft, "payload left", None),
    (Figure::AttitudeDrawbarChange, "drawbar, to level", None),
    (Figure::LevelLeftNoseHigh, "room, nose up", None),
    (Figure::LevelLeftNoseLow, "room, nose down", None),
    (Figure::AttitudeBallHeight, "ball height", None),
    (Figure::TruckFrontShareLost, "front axle, lighter by", None),
    (Figure::TrailerGross, "trailer weight", Some(Figure::TrailerGvwr)),
    (Figure::TruckGross, "truck weight", Some(Figure::TruckGvwr)),
    (Figure::CombinedGross, "truck and trailer", Some(Figure::TruckGcwr)),
    (Figure::TireLoad, "tire load", Some(Figure::TireCapacity)),
    (Figure::TireCapacity, "tire carries", None),
    (Figure::TireColdToday, "cold tire today", None),
    (Figure::ChainLowPoint, "chain hangs to", None),
];

/// One figure before and after a change.
#[derive(Clone, Debug, PartialEq)]
pub struct Move<'p> {
    /// Its name; with the item where not all items agree.
    pub name: String,
    /// As described.
    pub before: &'p Line,
    /// As changed.
    pub now: &'p Line,
}

impl Picture {
    /// The figures of this rig, today.
    pub fn of<'r>(today: impl Into<Today<'r>>) -> Self {
        let today = today.into();
        let lines = WATCHED.into_iter().flat_map(|(figure, name, rating)| {
            let entries = entries(figure, today).into_iter();
            entries.map(move |entry| Line {
                name,
                most: rating.and_then(|rating| {
                    let found = rating.of(today, entry.item.as_ref());
                    found.ok().map(|found| found.quantity)
                }),
                entry,
            })
        });
        Self {
            lines: lines.collect(),
            axles: axle_loads(today),
            links: ratings_chain(today),
        }
    }

    /// What each figure was in `before` and is here. Both are of one rig, so that the lines of the
    /// one are the lines of the other; items that agree are told once.
    pub fn since<'p>(&'p self, before: &'p Self) -> Vec<Move<'p>> {
        let pairs: Vec<(&Line, &Line)> = before.lines.iter().zip(&self.lines).collect();
        let groups = pairs.chunk_by(|(one, _), (other, _)| one.entry.figure == other.entry.figure);
        let told = groups.flat_map(|group| {
            let agree = group.windows(2).all(|two| match two {
                [(before, now), (other_before, other_now)] => {
                    before.agrees(other_before) && now.agrees(other_now)
                }
                _ => true,
            });
            let count = if agree { 1 } else { group.len() };
            group.iter().take(count).map(move |(before, now)| Move {
                name: now.name_of(!agree),
                before,
                now,
            })
        });
        told.collect()
    }
}

impl Move<'_> {
    /// Whether the change moved it.
    pub fn is_moved(&self) -> bool {
        !self.before.agrees(self.now)
    }
}

impl Line {
    fn name_of(&self, of_one: bool) -> String {
        match self.entry.item.as_ref().filter(|_| of_one) {
            Some(item) => format!("{}, {}", self.name, item.name()),
            None => self.name.to_owned(),
        }
    }

    /// Whether both have the same value, or lack it for the same reason.
    fn agrees(&self, against: &Self) -> bool {
        match (&self.entry.answer, &against.entry.answer) {
            (Ok(one), Ok(other)) => one.quantity == other.quantity && self.most == against.most,
            (one, other) => one == other,
        }
    }

    /// Its value, where it is known.
    pub fn known(&self) -> Option<&Quantity> {
        self.entry.answer.as_ref().ok().map(|found| &found.quantity)
    }

    /// Whether it is more than it may be.
    pub fn is_over(&self) -> bool {
        let order = self
            .known()
            .zip(self.most.as_ref())
            .and_then(|(known, most)| known.compare(most));
        order == Some(Ordering::Greater)
    }
}
