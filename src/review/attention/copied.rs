//! Readings that are those of an earlier trip.
//!
//! What lives, such as the air in a tire, a battery or a temperature, is hardly ever the same to
//! the digit in many places at once; and the air in a tire moves with the air around it.

use crate::checklist::StepKey;
use crate::figures::Fact;
use crate::mechanics::tires::{AirChange, tire_pressure_shift};
use crate::review::Trace;
use crate::review::attention::{Brief, Signal};
use crate::review::trace::{Measured, Named};
use crate::rig::InstrumentKind;
use crate::units::{Exact, Quantity, Unit};
use std::collections::{BTreeMap, HashMap, VecDeque};

/// How many earlier trips of a rig are compared with.
const BACK: usize = 12;

/// So many readings are the same, the air left out, and so many of them are no pressures: on two
/// days of like weather a rig's tires may well show the same.
const SAME: usize = 6;
const NOT_PRESSURES: usize = 2;

/// By so much the air has to move to be told, Fahrenheit.
const AIR_MOVED_F: i64 = 5;

/// So many tires as they were left, while the air moved each by so many marks of the gauge.
const TIRES: usize = 4;
const MARKS: f64 = 1.5;

/// What has been read on each rig.
#[derive(Debug, Default)]
pub(super) struct Copies {
    rigs: HashMap<String, VecDeque<(Named, Lived)>>,
}

/// What lives, as one trip found it and left it.
#[derive(Clone, Debug, Default)]
pub(super) struct Lived {
    air: Option<Quantity>,
    found: BTreeMap<StepKey, Measured>,
    left: BTreeMap<StepKey, Measured>,
}

impl Copies {
    /// What a trip asks for, after those before it.
    pub(super) fn take(&mut self, brief: &Brief) -> Option<Signal> {
        let now = &brief.lived;
        let before = self.rigs.entry(brief.rig.clone()).or_default();
        let back = || before.iter().rev();
        let same = back()
            .find_map(|(of, earlier)| now.same_as(of, earlier))
            .or_else(|| {
                let (of, earlier) = back().find(|(_, one)| one.has_tires(now))?;
                now.as_left(of, earlier)
            });
        if !now.found.is_empty() {
            before.push_back((brief.of.clone(), now.clone()));
        }
        if before.len() > BACK {
            before.pop_front();
        }
        same
    }
}

impl Lived {
    pub(super) fn of(trace: &Trace) -> Self {
        let mut lived = Self {
            air: trace.air().cloned(),
            ..Self::default()
        };
        for act in &trace.acts {
            let Some(read) = act.read().filter(|read| lives(read)) else {
                continue;
            };
            let read = Measured {
                limits: Vec::new(),
                ..read.clone()
            };
            if act.first {
                let found = lived.found.entry(act.key.clone());
                found.or_insert_with(|| read.clone());
            }
            lived.left.insert(act.key.clone(), read);
        }
        lived
    }

    /// Every reading that both have is the same, the air left out.
    fn same_as(&self, of: &Named, earlier: &Self) -> Option<Signal> {
        let is_air = |read: &Measured| read.tells == Some(Fact::AirTemperature);
        let found = self.found.iter().filter(|(_, read)| !is_air(read));
        let shared = found.filter_map(|(key, now)| Some((now, earlier.found.get(key)?)));
        let shared: Vec<(&Measured, &Measured)> = shared.collect();
        let others = shared.iter().filter(|(now, _)| !is_pressure(now)).count();
        if shared.len() < SAME || others < NOT_PRESSURES {
            return None;
        }
        let same = shared.iter().all(|(now, then)| now.value == then.value);
        same.then(|| signal(shared.len(), of, self.air_moved(earlier)))
    }

    /// The air then and now, where it moved.
    fn air_moved(&self, earlier: &Self) -> Option<(Quantity, Quantity)> {
        let (then, now) = earlier.air.as_ref().zip(self.air.as_ref())?;
        let (before, after) = (in_fahrenheit(then)?, in_fahrenheit(now)?);
        let moved = (&after - &before).magnitude();
        (moved >= Exact::whole(AIR_MOVED_F)).then(|| (then.clone(), now.clone()))
    }

    /// Whether it read the tires that `later` reads.
    fn has_tires(&self, later: &Self) -> bool {
        let tires = later.found.iter().filter(|(_, read)| is_pressure(read));
        tires
            .filter(|(key, _)| self.left.contains_key(*key))
            .count()
            >= TIRES
    }

    /// Every tire shows what it was left at, though the air has moved.
    fn as_left(&self, of: &Named, earlier: &Self) -> Option<Signal> {
        let (then, now) = earlier.air.as_ref().zip(self.air.as_ref())?;
        let (then_f, now_f) = (
            in_fahrenheit(then)?.to_f64()?,
            in_fahrenheit(now)?.to_f64()?,
        );
        let tires = self.found.iter().filter(|(_, read)| is_pressure(read));
        let tires: Vec<_> = tires
            .filter_map(|(key, read)| Some((read, earlier.left.get(key)?)))
            .collect();
        let stuck = |(read, left): &(&Measured, &Measured)| {
            let moves = moved_marks(left, then_f, now_f);
            read.value == left.value && moves.is_some_and(|marks| marks >= MARKS)
        };
        (tires.len() >= TIRES && tires.iter().all(stuck))
            .then(|| signal(tires.len(), of, Some((then.clone(), now.clone()))))
    }
}

fn signal(readings: usize, earlier: &Named, air: Option<(Quantity, Quantity)>) -> Signal {
    Signal::SameReadings {
        readings,
        earlier: earlier.clone(),
        air,
    }
}

fn lives(read: &Measured) -> bool {
    matches!(
        read.kind,
        InstrumentKind::PressureGauge
            | InstrumentKind::Multimeter
            | InstrumentKind::ClampMeter
            | InstrumentKind::Thermometer
            | InstrumentKind::Stopwatch
            | InstrumentKind::Scale
    )
}

fn is_pressure(read: &Measured) -> bool {
    read.kind == InstrumentKind::PressureGauge
}

fn in_fahrenheit(air: &Quantity) -> Option<Exact> {
    Some(air.in_unit(Unit::Fahrenheit)?.value)
}

/// By how many marks of its gauge a tire's pressure moves with the air.
fn moved_marks(read: &Measured, then_f: f64, now_f: f64) -> Option<f64> {
    let psi = read.value.in_unit(Unit::Psi)?.value.to_f64()?;
    let mark = read
        .mark
        .as_ref()
        .and_then(|mark| mark.difference_in(Unit::Psi));
    let mark = mark
        .map_or_else(|| Exact::whole(1), |mark| mark.value)
        .to_f64()?;
    let change = AirChange {
        gauge_psi: psi,
        temp_f: then_f,
        new_temp_f: now_f,
        altitude_ft: 0.0,
        new_altitude_ft: None,
    };
    let shown = tire_pressure_shift(&change).ok()?.gauge_psi;
    Some((shown - psi).abs() / mark)
}
