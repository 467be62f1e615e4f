//! A reading as the file writes it: what is measured, in which unit, with what, held to what.

use crate::checklist::ReadingAsk;
use crate::checklist::format::{PLAUSIBLE, READING};
use crate::checklist::yaml::limit::{self, Subject};
use crate::checklist::yaml::names::Names;
use crate::document::{Map, Node, Read};
use crate::figures::{Each, Fact};
use crate::rig::InstrumentKind;
use crate::units::{Dimension, Quantity, Unit};
use std::cmp::Ordering;

/// A reading; a second one where `second` says so.
pub(super) fn reading<'d>(
    node: Node<'d>,
    second: bool,
    each: Read<Option<Each>>,
    names: &mut Names<'d>,
) -> Read<ReadingAsk> {
    let map = node.shaped(&READING)?;
    let dimension = map.required("dimension").and_then(dimension);
    if let Ok(dimension) = dimension {
        names.reads(dimension);
    }
    let plausible = map
        .required("plausible")
        .and_then(|node| plausible(node, dimension));
    let subject = Subject {
        dimension,
        each,
        plausible: &plausible,
    };
    let unit = unit(map, dimension);
    let instrument = map
        .required("instrument")
        .and_then(|node| instrument(node, dimension));
    let target = map
        .optional("target")
        .map(|node| limit::bound(node, subject, names))
        .transpose();
    let tells = map
        .optional("tells")
        .map(|node| tells(node, subject, names))
        .transpose();
    let limits = map.optional("limits").map_or(Ok(Vec::new()), |node| {
        node.each(|node| limit::rung(node, subject, names))
    });
    Ok(ReadingAsk {
        dimension: dimension?,
        unit: unit?,
        instrument: instrument?,
        target: target?,
        tells: tells?,
        limits: limits?,
        plausible: plausible?,
        second,
    })
}

/// The fact this reading tells to the steps behind it.
fn tells<'d>(node: Node<'d>, subject: Subject<'_>, names: &mut Names<'d>) -> Read<Fact> {
    let fact = node.choice(&Fact::WORDS)?;
    names.told(node, fact)?;
    let dimension = subject.dimension?;
    if fact.dimension() != dimension {
        return Err(node.fault(
            format!(
                "{} is a {}, and this step reads a {}",
                fact.word(),
                fact.dimension().word(),
                dimension.word()
            ),
            format!("tell it where a {} is read", fact.dimension().word()),
        ));
    }
    match subject.each? {
        Some(each) => Err(node.fault(
            format!(
                "this step is answered once for each {}, and a fact is one value",
                each.word()
            ),
            "tell it at a step that is answered once",
        )),
        None => Ok(fact),
    }
}

fn dimension(node: Node<'_>) -> Read<Dimension> {
    node.choice(&Dimension::ALL.map(|dimension| (dimension.word(), dimension)))
}

/// The unit beside the field. A count has none.
fn unit(map: Map<'_>, dimension: Read<Dimension>) -> Read<Unit> {
    if dimension == Ok(Dimension::Count) && map.optional("unit").is_none() {
        return Ok(Unit::Piece);
    }
    let node = map.required("unit")?;
    let (symbol, dimension) = (node.text()?, dimension?);
    Unit::named(symbol, dimension).ok_or_else(|| {
        let units: Vec<&str> = dimension.units().map(Unit::symbol).collect();
        node.fault(
            format!("this is not a unit of {}", dimension.word()),
            format!("write one of {}", units.join(", ")),
        )
    })
}

fn instrument(node: Node<'_>, dimension: Read<Dimension>) -> Read<InstrumentKind> {
    let kind = node.choice(&InstrumentKind::WORDS)?;
    let dimension = dimension?;
    if kind.measures().contains(&dimension) {
        return Ok(kind);
    }
    let fitting: Vec<&str> = InstrumentKind::WORDS
        .iter()
        .filter(|(_, kind)| kind.measures().contains(&dimension))
        .map(|(word, _)| *word)
        .collect();
    let fix = if fitting.is_empty() {
        "no instrument known here does; ask for a sighting instead".to_owned()
    } else {
        format!(
            "{} is measured with: {}",
            dimension.word(),
            fitting.join(", ")
        )
    };
    Err(node.fault(
        format!("a {} does not measure {}", kind.word(), dimension.word()),
        fix,
    ))
}

fn plausible(node: Node<'_>, dimension: Read<Dimension>) -> Read<(Quantity, Quantity)> {
    let map = node.shaped(&PLAUSIBLE)?;
    let (from, to) = (map.required("from"), map.required("to"));
    let dimension = dimension?;
    let from = from.and_then(|node| node.quantity(dimension));
    let to = to.and_then(|node| node.quantity(dimension));
    let (from, to) = (from?, to?);
    if from.compare(&to) == Some(Ordering::Less) {
        return Ok((from, to));
    }
    Err(node.fault(
        format!("plausible values run from {from} up to {to}, which is upside down"),
        "write the lower value behind `from`",
    ))
}
