//! A reading typed in the other system of units comes to the same verdict.

use crate::harness::good;
use crate::year::bad;
use crate::year::bench::{begin, laid, moment};
use hames::rig::InstrumentKind;
use hames::rules::Outcome;
use hames::units::{Dimension, Quantity, Unit, parse_quantity};
use hames::walk::{Act, Given, Now, Walk};

/// The metric unit a person would use in the place of this one; nothing where it is metric.
fn metric(unit: Unit) -> Option<Unit> {
    let symbol = match unit.symbol() {
        "psi" => "kPa",
        "in" | "ft" => "mm",
        "mi" => "km",
        "lb" | "t" => "kg",
        "ft-lb" => "N-m",
        "degF" | "F" => "degC",
        "mph" => "km/h",
        _ => return None,
    };
    Unit::named(symbol, unit.dimension())
}

fn in_metric(act: &Act, dimension: Dimension) -> Option<Act> {
    let metric_text = |typed: &str| -> Option<String> {
        let read: Quantity = parse_quantity(typed, dimension).unwrap();
        let other = read.in_unit(metric(read.unit)?)?;
        Some(format!(
            "{} {}",
            other.value.rounded(4),
            other.unit.symbol()
        ))
    };
    Some(match act {
        Act::Read { typed, instrument } => Act::Read {
            typed: metric_text(typed)?,
            instrument: instrument.clone(),
        },
        Act::ReadAs {
            who,
            typed,
            instrument,
        } => Act::ReadAs {
            who: who.clone(),
            typed: metric_text(typed)?,
            instrument: instrument.clone(),
        },
        _ => return None,
    })
}

fn outcome(walk: &Walk, index: usize, acts: &[Act]) -> Option<Outcome> {
    let mut walk = walk.clone();
    for act in acts {
        good::step(&mut walk, act, &moment()).unwrap_or_else(|no| panic!("{act:?}: {no}"));
    }
    match &walk.steps()[index].answers.last()?.given {
        Given::Read { judgement, .. } => Some(judgement.outcome),
        Given::Seen { .. } => None,
    }
}

#[test]
fn both_unit_systems_give_the_same_verdicts() {
    let (mut compared, mut edges) = (0, 0);
    for laid in laid() {
        let mut walk = begin(&laid, vec![]);
        while let Some((act, _)) = good::next(&walk, "Odile Marsh") {
            if let Now::Open(index) = walk.now() {
                let planned = walk.asked(index).unwrap().into_owned();
                let hames::checklist::PlannedAsk::Reading { ask, .. } = &planned.ask else {
                    good::step(&mut walk, &act, &moment()).unwrap();
                    continue;
                };
                let mut all = bad::answers(&walk, index);
                all.push(vec![act.clone()]);
                for acts in all {
                    let metric: Option<Vec<Act>> = acts
                        .iter()
                        .map(|act| in_metric(act, ask.dimension))
                        .collect();
                    let Some(metric) = metric else { continue };
                    let (us, other) =
                        (outcome(&walk, index, &acts), outcome(&walk, index, &metric));
                    // Rounded to be typed, a reading on the very edge of what its instrument may be
                    // wrong by can be asked again. A plate is exact, so that it can only fall on a
                    // limit itself.
                    let on_edge =
                        other == Some(Outcome::Again) || ask.instrument == InstrumentKind::Plate;
                    assert!(
                        us == other || on_edge,
                        "{laid}: {}: {acts:?} {metric:?}",
                        planned.key
                    );
                    edges += usize::from(us != other);
                    compared += 1;
                }
            }
            good::step(&mut walk, &act, &moment()).unwrap();
        }
    }
    assert!(compared > 500, "only {compared} compared");
    assert!(edges * 20 < compared, "{edges} of {compared} on an edge");
}
