//! A trip, brought down to what the way of its truck is told by.

use crate::checklist::Haul;
use crate::logbook::TruckKey;
use crate::record::{Digest, Id, Statements, Verified};
use crate::rig::InstrumentKind;
use crate::units::Typed;
use crate::walk::{Ended, Event, Given, Moment, Walk};
use chrono::{DateTime, FixedOffset};
use std::collections::BTreeMap;

/// A trip as one leg of the way of its truck.
#[derive(Clone, Debug, PartialEq)]
pub struct Leg {
    /// The trip.
    pub trip: Id,
    /// The device that kept its record.
    pub device: Id,
    /// Its number there.
    pub seq: u64,
    /// The rig.
    pub rig: String,
    /// Its truck.
    pub truck: TruckKey,
    /// What the rig file calls the truck.
    pub truck_name: String,
    /// How the walk belongs to a haul.
    pub haul: Haul,
    /// The trip that began that haul, where it belongs to one.
    pub haul_of: Option<Id>,
    /// Trips it says came before it: the one that began its haul, and those that left something
    /// open.
    pub after: Vec<Id>,
    /// The newest trip of each laptop that was known to the manager's statement it quotes: it came
    /// after those, whatever any clock says.
    pub seen: Vec<(Id, u64)>,
    /// Who signed, or who read where nobody has signed yet.
    pub who: String,
    /// When it was walked, by the clock of its device or by the paper it was entered from.
    pub claimed: DateTime<FixedOffset>,
    /// Whether it was entered from paper, so that its place among its device's trips tells nothing
    /// of when it was walked.
    pub from_paper: bool,
    /// Whether it was walked to its end and signed.
    pub complete: bool,
    /// Every reading of the odometer, in order.
    pub mileages: Vec<Mileage>,
}

/// One reading of an odometer.
#[derive(Clone, Debug, PartialEq)]
pub struct Mileage {
    /// When, as far as anybody says.
    pub at: Moment,
    /// As typed.
    pub read: Typed,
}

impl Leg {
    /// What the way of a truck is told by, of a trip that can be relied on and its walk.
    pub fn of(walk: &Walk, trip: &Verified, statements: &Statements) -> Self {
        let begun = trip.begun();
        let truck = &walk.plan().rig().truck;
        let sealed = trip.sealed();
        let left = begun.carried.iter().map(|left| left.since.clone());
        let mut after: Vec<Id> = begun.haul.iter().cloned().chain(left).collect();
        after.retain(|earlier| *earlier != begun.trip);
        Self {
            trip: begun.trip.clone(),
            device: begun.device.clone(),
            seq: begun.seq,
            rig: begun.rig.id.clone(),
            truck: TruckKey::of(truck),
            truck_name: truck.name.clone(),
            haul: walk.plan().checklist().haul,
            haul_of: begun.haul.clone(),
            after,
            seen: seen(begun.manager.as_ref(), statements),
            who: sealed.map_or_else(
                || begun.reader.to_string(),
                |sealed| sealed.seal.name.to_string(),
            ),
            claimed: walk.paper().copied().unwrap_or(trip.at().wall),
            from_paper: begun.paper.is_some(),
            complete: sealed.is_some_and(|sealed| sealed.seal.outcome == Ended::Complete),
            mileages: mileages(walk, trip),
        }
    }
}

/// The heads of a statement and of all it stands on, the newest of each laptop.
fn seen(quoted: Option<&Digest>, statements: &Statements) -> Vec<(Id, u64)> {
    let mut newest: BTreeMap<Id, u64> = BTreeMap::new();
    let behind = quoted.map(|quoted| (*quoted, statements.behind(quoted)));
    let behind = behind.into_iter().flat_map(|(quoted, mut behind)| {
        behind.insert(quoted);
        behind
    });
    for head in behind
        .filter_map(|hash| statements.find(&hash))
        .flat_map(|stated| &stated.statement().heads)
    {
        let seq = newest.entry(head.device.clone()).or_default();
        *seq = head.seq.max(*seq);
    }
    newest.into_iter().collect()
}

/// The odometer as typed at the beginning, and as read at steps.
fn mileages(walk: &Walk, trip: &Verified) -> Vec<Mileage> {
    let at = |moment: &Moment| Moment {
        wall: walk.paper().copied().unwrap_or(moment.wall),
        ..moment.clone()
    };
    let is_odometer = |id: &str| {
        let instrument = walk.plan().rig().instrument(id);
        instrument.is_some_and(|one| one.kind == InstrumentKind::Odometer)
    };
    let typed = trip.begun().odometer.iter().map(|read| Mileage {
        at: at(trip.at()),
        read: read.clone(),
    });
    let read = trip
        .entries()
        .iter()
        .filter_map(|entry| match &entry.event {
            Event::Answered {
                given: Given::Read {
                    typed, instrument, ..
                },
                ..
            } if is_odometer(instrument) => Some(Mileage {
                at: at(&entry.at),
                read: typed.clone(),
            }),
            _ => None,
        });
    typed.chain(read).collect()
}

/// Legs written in a line each, for the tests of this layer.
#[cfg(test)]
pub(super) mod bench {
    use super::*;
    use crate::rig::Rig;
    use crate::rig::demo::JUNIPER;
    use crate::units::Dimension;
    use std::sync::OnceLock;

    static RIG: OnceLock<Rig> = OnceLock::new();

    /// `device seq day[.hour] [paper] [seen DEVICE:SEQ] [trips before] [begins|during|ends] [of TRIP] [MILEAGE…]`.
    pub(in crate::logbook) fn leg(row: &str) -> Leg {
        let mut words = row.split_whitespace();
        let device = words.next().unwrap();
        let seq: u64 = words.next().unwrap().parse().unwrap();
        let when = words.next().unwrap();
        let (day, hour) = when.split_once('.').unwrap_or((when, "12"));
        let claimed = format!("2026-11-{day:0>2}T{hour:0>2}:00:00-05:00")
            .parse()
            .unwrap();
        let rig = RIG.get_or_init(|| Rig::read(JUNIPER).unwrap());
        let mut leg = Leg {
            trip: Id::read(&format!("{device}{seq}")).unwrap(),
            device: Id::read(device).unwrap(),
            seq,
            rig: rig.id.clone(),
            truck: TruckKey::of(&rig.truck),
            truck_name: rig.truck.name.clone(),
            haul: Haul::Apart,
            haul_of: None,
            after: Vec::new(),
            seen: Vec::new(),
            who: if device == "a" {
                "Wren Ashdown"
            } else {
                "Tobias Fenn"
            }
            .to_owned(),
            claimed,
            from_paper: false,
            complete: true,
            mileages: Vec::new(),
        };
        while let Some(word) = words.next() {
            if let Some((_, haul)) = Haul::WORDS.iter().find(|(known, _)| *known == word) {
                leg.haul = *haul;
            } else if word == "seen" {
                let (device, seq) = words.next().unwrap().split_once(':').unwrap();
                leg.seen
                    .push((Id::read(device).unwrap(), seq.parse().unwrap()));
            } else if word == "paper" {
                leg.from_paper = true;
            } else if word == "of" {
                leg.haul_of = Some(Id::read(words.next().unwrap()).unwrap());
            } else if let Ok(read) = Typed::read(word, Dimension::Length) {
                let at = Moment {
                    wall: claimed,
                    boot: format!("boot-{device}{day}"),
                    mono_ms: 3_600_000 * hour.parse::<u64>().unwrap(),
                };
                leg.mileages.push(Mileage { at, read });
            } else {
                leg.after.push(Id::read(word).unwrap());
            }
        }
        leg
    }
}
