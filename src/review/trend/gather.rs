//! Trips brought down to their readings, one after the other.

use crate::barn::TireYears;
use crate::due::Day;
use crate::logbook::{Reading, readings_in};
use crate::record::{Id, Verified};
use crate::review::trend::course::{Look, error, looks};
use crate::review::trend::line::LimitLine;
use crate::review::trend::{Kind, NotCompared, RigTrends, assemble, line, normal, table};
use crate::rig::Rig;
use crate::rules::Carry;
use crate::units::{Exact, Quantity};
use crate::walk::{Entry, Walk};
use chrono::{DateTime, FixedOffset, NaiveDate};
use std::collections::BTreeMap;

/// The readings of every rig, as far as trips were taken in.
#[derive(Clone, Debug, Default)]
pub struct Trends {
    rigs: BTreeMap<String, Tracks>,
}

/// Which part of what kind.
pub(super) type Which = (Kind, Option<String>);

/// The readings of one rig.
#[derive(Clone, Debug, Default)]
pub(super) struct Tracks {
    pub(super) tracks: BTreeMap<Which, Track>,
    /// The rig as its newest trip had it, with when that was.
    pub(super) newest: Option<(DateTime<FixedOffset>, Rig)>,
}

/// The readings of one part.
#[derive(Clone, Debug, Default)]
pub(super) struct Track {
    pub(super) kept: Vec<Kept>,
    /// The limits it was ever held to.
    pub(super) limits: Vec<LimitLine>,
    /// What could not be made to compare, and why.
    pub(super) left_out: Vec<(DateTime<FixedOffset>, NotCompared)>,
    /// Where something was put right: before this reading, whether or not it counts.
    pub(super) renewed: Vec<(DateTime<FixedOffset>, usize)>,
}

/// One reading.
#[derive(Clone, Debug)]
pub(super) struct Kept {
    /// When the walk was, and the line in its journal.
    pub(super) at: DateTime<FixedOffset>,
    pub(super) line: usize,
    pub(super) trip: Id,
    pub(super) read: Quantity,
    pub(super) value: Quantity,
    /// How wrong it may be, in the unit of the value.
    pub(super) error: Exact,
    /// Its limit among those of the track.
    pub(super) limit: Option<usize>,
    /// Whether the wheel had been off, so that its nuts were to settle.
    pub(super) after_off: bool,
}

impl Trends {
    /// Takes in a trip, in whatever order they come.
    pub fn take(&mut self, (trip, walk): (&Verified, &Walk)) {
        self.take_walk(&trip.begun().trip, walk, trip.entries());
    }

    /// The same of a walk that is no record, such as one that was invented.
    pub fn take_walk(&mut self, trip: &Id, walk: &Walk, entries: &[Entry]) {
        let rig = walk.plan().rig();
        let at = walk.paper().copied().unwrap_or(walk.began().wall);
        let tracks = self.rigs.entry(rig.id.clone()).or_default();
        tracks.keep_rig(at, rig);
        let read: Vec<Reading<'_>> = readings_in(walk, entries).collect();
        let air = read
            .iter()
            .rfind(|one| !one.replaced && table::tells_air(one.planned));
        let air = air.map(|one| one.typed.quantity());
        let mut parts: BTreeMap<Which, Vec<Reading<'_>>> = BTreeMap::new();
        for one in &read {
            if let Some(kind) = table::kind(one.planned) {
                let part = one.planned.item.as_ref().map(|item| item.id.clone());
                parts.entry((kind, part)).or_default().push(*one);
            }
        }
        let parts: BTreeMap<_, _> = parts
            .into_iter()
            .map(|(which, read)| (which, looks(&read)))
            .collect();
        for (which, looks) in &parts {
            for look in looks {
                let value = value(which, &look.reading, (walk, air), &parts);
                let came = (at, trip, walk);
                tracks.track(which).keep(which, look, came, value);
            }
        }
    }

    /// The trends of each rig, from this day on or as far back as each kind is looked at; its tires
    /// by these years, on this day.
    pub fn told(&self, since: Option<NaiveDate>, years: TireYears, day: Day) -> Vec<RigTrends> {
        let rigs = self.rigs.iter();
        rigs.map(|(id, tracks)| assemble::told(id, tracks, since, years, day))
            .collect()
    }
}

/// A value to compare, or why it has none.
type Value = Result<Quantity, NotCompared>;

fn value(
    (kind, part): &Which,
    reading: &Reading<'_>,
    (walk, air): (&Walk, Option<&Quantity>),
    parts: &BTreeMap<Which, Vec<Look<'_>>>,
) -> Value {
    let read = reading.typed.quantity();
    let value = match kind {
        Kind::TirePressure | Kind::TruckTirePressure | Kind::SparePressure => {
            let is_driven = *kind != Kind::SparePressure;
            if is_driven && !table::is_cold(walk.plan().checklist().haul) {
                return Err(NotCompared::Warm);
            }
            let Some(air) = air else {
                return Err(NotCompared::NoAir);
            };
            normal::pressure(read, air)
        }
        Kind::HubTemperature => {
            let others = parts.iter();
            let others = others.filter(|((one, other), _)| one == kind && other != part);
            let found =
                others.filter_map(|(_, looks)| Some(looks.first()?.reading.typed.quantity()));
            let Some(value) = normal::against(read, found) else {
                return Err(NotCompared::Alone);
            };
            Some(value)
        }
        Kind::BrakePull => normal::deceleration(read),
        Kind::TorqueLoss => Some(read.clone()),
        _ => read.in_unit(kind.unit()),
    };
    value.ok_or(NotCompared::NoNumber)
}

impl Tracks {
    fn keep_rig(&mut self, at: DateTime<FixedOffset>, rig: &Rig) {
        match &mut self.newest {
            Some((newest, kept)) if *newest <= at => {
                *newest = at;
                if kept != rig {
                    *kept = rig.clone();
                }
            }
            Some(_) => {}
            None => self.newest = Some((at, rig.clone())),
        }
    }

    fn track(&mut self, which: &Which) -> &mut Track {
        self.tracks.entry(which.clone()).or_default()
    }
}

impl Track {
    fn keep(
        &mut self,
        (kind, part): &Which,
        look: &Look<'_>,
        (at, trip, walk): (DateTime<FixedOffset>, &Id, &Walk),
        value: Value,
    ) {
        if look.afresh {
            self.renewed.push((at, look.reading.line));
        }
        let value = match value {
            Ok(value) => value,
            Err(why) => {
                self.left_out.push((at, why));
                return;
            }
        };
        let read = look.reading.typed.quantity();
        let limit = line::of(*kind, &look.reading).map(|line| self.limit(line));
        let carried = walk.plan().carried().iter();
        let mut off = carried.filter(|left| left.what == Carry::WheelOff);
        self.kept.push(Kept {
            at,
            line: look.reading.line,
            trip: trip.clone(),
            error: scaled(error(&look.reading), read, &value),
            read: read.clone(),
            value,
            limit,
            after_off: off.any(|left| left.part == *part),
        });
    }

    /// The place of this limit among those of the track.
    fn limit(&mut self, line: LimitLine) -> usize {
        // The newest is the likeliest.
        if let Some(at) = self.limits.iter().rposition(|known| *known == line) {
            return at;
        }
        self.limits.push(line);
        self.limits.len().saturating_sub(1)
    }
}

/// An error of what was read as one of the value it came to: of a deceleration the same share, and
/// else as it is.
fn scaled(error: Exact, read: &Quantity, value: &Quantity) -> Exact {
    if value.dimension() == read.dimension() {
        let error = Quantity::new(error, read.unit).difference_in(value.unit);
        return error.map_or_else(Exact::zero, |error| error.value);
    }
    let share = error.over(&read.value);
    share.map_or_else(Exact::zero, |share| (&share * &value.value).magnitude())
}
