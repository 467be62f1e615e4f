//! The instruments in the rig file: what each measures, over what span, how wrong it may be.

use crate::document::{Node, Read};
use crate::rig::yaml::day::day;
use crate::rig::yaml::part::Part;
use crate::rig::{ErrorRule, GaugeGrade, Instrument, InstrumentKind};
use crate::units::{Dimension, Quantity, Unit};
use std::cmp::Ordering;

const KEYS: &[&str] = &["id", "name", "kind", "span", "error", "step", "calibrated"];

pub(super) fn instruments(list: Node<'_>) -> Read<Vec<Instrument>> {
    let mut seen: Vec<&str> = Vec::new();
    list.each(|node| {
        let part = Part::open(node, KEYS)?;
        let id = part.required("id").and_then(Node::id);
        if id.is_ok_and(|id| seen.contains(&id)) {
            part.tell(
                "id",
                "two instruments have this id, and a record names an instrument by it",
                "give each instrument an id of its own",
            );
        }
        seen.extend(id.ok());
        instrument(part, id)
    })
    .map(with_what_every_rig_has)
}

/// Every truck has an odometer, every rig its plates and every driver a clock, which nobody lists
/// among the tools. An odometer shows whole miles and is wrong by no more than one, a clock minutes
/// and by no more than five, both from memory.
fn with_what_every_rig_has(mut instruments: Vec<Instrument>) -> Vec<Instrument> {
    let (mile, pound) = (
        Quantity::whole(1, Unit::Mile),
        Quantity::whole(1, Unit::Pound),
    );
    let nothing = Quantity::whole(0, Unit::Pound);
    for (kind, id, name, error, step) in [
        (
            InstrumentKind::Odometer,
            "odometer",
            "odometer of the truck",
            mile.clone(),
            mile,
        ),
        (
            InstrumentKind::Clock,
            "clock",
            "clock",
            Quantity::whole(5, Unit::Minute),
            Quantity::whole(1, Unit::Minute),
        ),
        (
            InstrumentKind::Plate,
            "plate",
            "label, plate or stamp",
            nothing,
            pound,
        ),
    ] {
        let is_there = |one: &Instrument| one.kind == kind;
        if instruments.iter().any(is_there) {
            continue;
        }
        let taken = instruments.iter().any(|one| one.id == id);
        instruments.push(Instrument {
            id: if taken {
                format!("{id}-read")
            } else {
                id.to_owned()
            },
            name: name.to_owned(),
            kind,
            span: None,
            error: ErrorRule::Fixed(error),
            step,
            calibrated: None,
        });
    }
    instruments
}

fn instrument(part: Part<'_>, id: Read<&str>) -> Read<Instrument> {
    let name = part.words("name");
    let kind = part.choice("kind", &InstrumentKind::WORDS);
    let step = kind.and_then(|kind| step(part, kind));
    // The smallest mark says in which dimension the whole scale is.
    let scale = match (&kind, &step) {
        (Ok(kind), Ok(step)) => Ok((*kind, step.dimension())),
        (Err(told), _) | (_, Err(told)) => Err(*told),
    };
    let span = scale.and_then(|(kind, dimension)| span(part, kind, dimension));
    let error = scale.and_then(|(kind, dimension)| error(part, kind, dimension));
    let calibrated = part.optional("calibrated").map(day).transpose();
    Ok(Instrument {
        id: id?.to_owned(),
        name: name?,
        kind: kind?,
        span: span?,
        error: error?,
        step: step?,
        calibrated: calibrated?,
    })
}

fn step(part: Part<'_>, kind: InstrumentKind) -> Read<Quantity> {
    let node = part.required("step")?;
    let step = node.quantity_in(kind.measures())?;
    more_than_nothing(node, &step, "the smallest mark")?;
    Ok(step)
}

/// Lowest and highest value of the scale. Gauges and wrenches are trusted over a part of it, so
/// theirs must be known.
fn span(
    part: Part<'_>,
    kind: InstrumentKind,
    dimension: Dimension,
) -> Read<Option<(Quantity, Quantity)>> {
    let Some(node) = part.optional("span") else {
        if matches!(
            kind,
            InstrumentKind::PressureGauge | InstrumentKind::TorqueWrench
        ) {
            return Err(part.lack(
                format!(
                    "a {} is trusted over a part of its span, and none is given",
                    kind.word()
                ),
                "add `span: { low: …, high: … }`, the lowest and highest mark on it",
            ));
        }
        return Ok(None);
    };
    let ends = Part::open(node, &["low", "high"])?;
    let low = ends.required("low").and_then(|low| low.quantity(dimension));
    let high = ends
        .required("high")
        .and_then(|high| high.quantity(dimension));
    let (low, high) = (low?, high?);
    if low.compare(&high) != Some(Ordering::Less) {
        return Err(node.fault(
            format!("the span runs from {low} to {high}"),
            "write the lowest mark as `low` and the highest as `high`",
        ));
    }
    Ok(Some((low, high)))
}

/// The ways to say how wrong an instrument may be.
#[derive(Clone, Copy)]
enum Rule {
    Grade,
    OfReading,
    Fixed,
}

const RULES: [(&str, Rule); 3] = [
    ("grade", Rule::Grade),
    ("of-reading", Rule::OfReading),
    ("fixed", Rule::Fixed),
];

fn error(part: Part<'_>, kind: InstrumentKind, dimension: Dimension) -> Read<ErrorRule> {
    let (rule, node) = part
        .part("error", &RULES.map(|(word, _)| word))?
        .only_one_of(&RULES)?;
    match rule {
        Rule::Grade if kind == InstrumentKind::PressureGauge => {
            node.choice(&GaugeGrade::WORDS).map(ErrorRule::Grade)
        }
        Rule::Grade => Err(node.fault(
            format!(
                "accuracy grades are for dial gauges (ASME B40.100), and this is a {}",
                kind.word()
            ),
            "say the error as `fixed: …` or `of-reading: … %`",
        )),
        Rule::OfReading if dimension == Dimension::Temperature => Err(node.fault(
            "a share of a temperature depends on the scale it is told in",
            "say the error as `fixed: …`, such as 3 F",
        )),
        Rule::OfReading => share(node),
        Rule::Fixed => fixed(node, kind, dimension),
    }
}

/// A share of the reading: more than nothing and less than all of it.
fn share(node: Node<'_>) -> Read<ErrorRule> {
    let percent = node.quantity(Dimension::Share)?;
    let all = Quantity::whole(100, Unit::Percent);
    more_than_nothing(node, &percent, "the error")?;
    if percent.compare(&all) != Some(Ordering::Less) {
        return Err(node.fault(
            format!("an error of {percent} leaves nothing of the reading"),
            "write the tool's tolerance, such as 4 %",
        ));
    }
    Ok(ErrorRule::OfReading(&percent.value * &percent.unit.size()))
}

/// The same error everywhere. Only counting is free of any.
fn fixed(node: Node<'_>, kind: InstrumentKind, dimension: Dimension) -> Read<ErrorRule> {
    let error = node.quantity(dimension)?;
    let exact = kind == InstrumentKind::Count && error.value.is_zero();
    if !exact {
        more_than_nothing(node, &error, "the error")?;
    }
    Ok(ErrorRule::Fixed(error))
}

fn more_than_nothing(node: Node<'_>, quantity: &Quantity, what: &str) -> Read<()> {
    if quantity.value.is_negative() || quantity.value.is_zero() {
        return Err(node.fault(
            format!("{what} is {quantity}, and no tool is as fine as that"),
            "read it off the tool or its leaflet; write it without a sign",
        ));
    }
    Ok(())
}
