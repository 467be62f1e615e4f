//! Which readings are of which kind: by what a step measures, with what and of which part; and
//! where that alone does not tell, by its id or by a figure its limits are drawn from. So a step of
//! a barn's own list counts where it reads the same thing.

use crate::checklist::{Ask, Haul, PlannedStep, ReadingAsk};
use crate::figures::{Each, Fact, Figure};
use crate::review::trend::Kind;
use crate::rig::InstrumentKind;
use crate::rules::Bound;

/// Readings of a kind.
struct Row {
    kind: Kind,
    with: InstrumentKind,
    each: Option<Each>,
    /// Ids of steps, and figures of their limits; where neither is told, every such step.
    ids: &'static [&'static str],
    figures: &'static [Figure],
}

/// The one table.
const ROWS: [Row; 9] = [
    Row {
        kind: Kind::TirePressure,
        with: InstrumentKind::PressureGauge,
        each: Some(Each::TrailerWheel),
        ids: &[],
        figures: &[],
    },
    Row {
        kind: Kind::TruckTirePressure,
        with: InstrumentKind::PressureGauge,
        each: Some(Each::TruckAxle),
        ids: &[],
        figures: &[],
    },
    Row {
        kind: Kind::SparePressure,
        with: InstrumentKind::PressureGauge,
        each: None,
        ids: &["spare-tire", "spare-air"],
        figures: &[Figure::SpareCold],
    },
    // Off the charge cable a battery reads high at first, so what is read as the rig is parked is
    // not of this kind.
    Row {
        kind: Kind::BatteryRest,
        with: InstrumentKind::Multimeter,
        each: None,
        ids: &["battery-rest", "battery-stored"],
        figures: &[Figure::BatteryRestLeast],
    },
    Row {
        kind: Kind::BatteryLoad,
        with: InstrumentKind::Multimeter,
        each: None,
        ids: &["battery-load"],
        figures: &[],
    },
    Row {
        kind: Kind::TorqueLoss,
        with: InstrumentKind::TorqueWrench,
        each: Some(Each::TrailerWheel),
        ids: &[],
        figures: &[],
    },
    Row {
        kind: Kind::HubTemperature,
        with: InstrumentKind::Thermometer,
        each: Some(Each::TrailerWheel),
        ids: &[],
        figures: &[],
    },
    Row {
        kind: Kind::BrakePull,
        with: InstrumentKind::Stopwatch,
        each: None,
        ids: &["pull-time"],
        figures: &[Figure::PullStopTime],
    },
    Row {
        kind: Kind::Tread,
        with: InstrumentKind::TreadGauge,
        each: Some(Each::TrailerWheel),
        ids: &[],
        figures: &[],
    },
];

/// A step that reads the air to come and not the air there is.
const FORECAST: &str = "air-forecast";

/// Of which kind the readings of a step are.
pub(super) fn kind(planned: &PlannedStep) -> Option<Kind> {
    let Ask::Reading(ask) = &planned.step.ask else {
        return None;
    };
    let each = planned.item.as_ref().map(|item| item.each);
    let is_it = |row: &&Row| {
        let any = row.ids.is_empty() && row.figures.is_empty();
        ask.instrument == row.with
            && Some(ask.dimension) == row.with.measures().first().copied()
            && each == row.each
            && (any || row.ids.contains(&planned.step.id.as_str()) || names(ask, row.figures))
    };
    ROWS.iter().find(is_it).map(|row| row.kind)
}

/// Whether a step reads the air in the shade as it is then.
pub(super) fn tells_air(planned: &PlannedStep) -> bool {
    planned.step.tells() == Some(Fact::AirTemperature) && planned.step.id != FORECAST
}

/// Whether a tire that runs is cold on such a walk: not on the way, and not just come home.
pub(super) fn is_cold(haul: Haul) -> bool {
    matches!(haul, Haul::Begins | Haul::Apart)
}

fn names(ask: &ReadingAsk, figures: &[Figure]) -> bool {
    ask.bounds()
        .any(|bound| matches!(bound, Bound::Of { figure, .. } if figures.contains(figure)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::barn::Policies;
    use crate::checklist::{PATTERN, Plan, Shared, put_together, shipped_by_default};
    use crate::rig::Rig;
    use crate::rig::demo::{JUNIPER, MESQUITE};
    use crate::rules::{Carried, Carry};
    use std::collections::BTreeSet;

    /// `kind: ids of its steps`, over every list that comes with the program.
    fn shipped() -> Vec<String> {
        let rigs = [JUNIPER, MESQUITE].map(|text| Rig::read(text).unwrap());
        let mut found: BTreeSet<(Kind, String)> = BTreeSet::new();
        let left = |what| Carried {
            what,
            part: Some("left-front".to_owned()),
        };
        let carried = [Carry::WheelOff, Carry::TorqueLoose].map(|what| vec![left(what)]);
        for list in shipped_by_default() {
            for (rig, carried) in rigs
                .iter()
                .flat_map(|rig| carried.iter().map(move |one| (rig, one)))
            {
                let laid = Plan::lay_for(list.checklist.clone(), rig.clone(), carried.clone());
                let Ok(plan) = laid else { continue };
                let steps = plan.steps().iter();
                found.extend(steps.filter_map(|one| Some((kind(one)?, one.step.id.clone()))));
            }
        }
        let of = |kind: Kind| {
            let ids = found.iter().filter(|(one, _)| *one == kind);
            let ids: Vec<&str> = ids.map(|(_, id)| id.as_str()).collect();
            format!("{}: {}", kind.key(), ids.join(" "))
        };
        Kind::ALL.into_iter().map(of).collect()
    }

    #[test]
    fn each_kind_is_read_by_these_steps_of_the_program_and_no_others() {
        assert_eq!(
            shipped(),
            [
                "tire-pressure: tire-before tire-cold",
                "truck-tire-pressure: truck-tire",
                "spare-pressure: spare-air spare-tire",
                "battery-rest: battery-rest battery-stored",
                "battery-load: battery-load",
                "torque-loss: lug-torque nuts-again nuts-twice pass-third",
                "hub-temperature: hub-temp",
                "brake-pull: pull-time",
                "tread: tread-depth",
            ]
        );
    }

    #[test]
    fn a_step_of_a_barns_own_list_counts_where_it_reads_the_same_thing() {
        let own = put_together(PATTERN, Shared::shipped(), &Policies::default()).unwrap();
        let plan = Plan::lay(own.checklist, Rig::read(JUNIPER).unwrap()).unwrap();
        let mut tires = plan.steps().iter().filter(|one| one.step.id == "tire-air");
        assert!(tires.all(|one| kind(one) == Some(Kind::TirePressure)));
        assert!(plan.steps().iter().any(|one| one.step.id == "tire-air"));
    }
}
