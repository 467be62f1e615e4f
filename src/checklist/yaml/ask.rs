//! What a step asks, as the file writes it: units, bounds, limits and states.

use crate::checklist::yaml::names::Names;
use crate::checklist::yaml::words;
use crate::checklist::{ReadingAsk, SightingAsk, State};
use crate::document::{Map, Node, Read};
use crate::mechanics::{Each, Figure};
use crate::rig::InstrumentKind;
use crate::rules::{Authority, Basis, Bound, Rung, Side, Verdict};
use crate::units::{Dimension, Exact, Quantity, Unit};
use std::cmp::Ordering;

/// What a bound is about: what is measured, and the part the step is repeated for. Either may
/// have been told as a fault already, and then nothing is built on it.
#[derive(Clone, Copy)]
struct Subject {
    dimension: Read<Dimension>,
    each: Read<Option<Each>>,
}

pub(super) fn reading<'d>(
    node: Node<'d>,
    each: Read<Option<Each>>,
    names: &mut Names<'d>,
) -> Read<ReadingAsk> {
    let map = node.map(&[
        "dimension",
        "unit",
        "instrument",
        "target",
        "plausible",
        "limits",
    ])?;
    let dimension = map.required("dimension").and_then(dimension);
    let subject = Subject { dimension, each };
    let unit = unit(map, dimension);
    let instrument = map
        .required("instrument")
        .and_then(|node| instrument(node, dimension));
    let plausible = map
        .required("plausible")
        .and_then(|node| plausible(node, dimension));
    let target = map
        .optional("target")
        .map(|node| within(node, bound(node, subject)?, &plausible))
        .transpose();
    let limits = map.optional("limits").map_or(Ok(Vec::new()), |node| {
        node.each(|node| rung(node, subject, &plausible, names))
    });
    Ok(ReadingAsk {
        dimension: dimension?,
        unit: unit?,
        instrument: instrument?,
        target: target?,
        limits: limits?,
        plausible: plausible?,
    })
}

pub(super) fn sighting<'d>(node: Node<'d>, names: &mut Names<'d>) -> Read<SightingAsk> {
    let map = node.map(&["states", "authority", "source"])?;
    let basis = basis(map);
    let states = map.required("states").and_then(|node| {
        let states = node.each(|node| state(node, names))?;
        whole(node, &states)?;
        Ok(states)
    });
    Ok(SightingAsk {
        states: states?,
        basis: basis?,
    })
}

pub(super) fn figure(node: Node<'_>) -> Read<Figure> {
    let words = Figure::ALL.map(|figure| (figure.word(), figure));
    node.choice(&words)
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
    let map = node.map(&["from", "to"])?;
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

fn rung<'d>(
    node: Node<'d>,
    subject: Subject,
    plausible: &Read<(Quantity, Quantity)>,
    names: &mut Names<'d>,
) -> Read<Rung> {
    let map = node.map(&[
        "verdict",
        "below",
        "at-or-below",
        "above",
        "at-or-above",
        "authority",
        "source",
        "branch",
    ])?;
    let verdict = map.required("verdict").and_then(|node| {
        let verdict = node.choice(&Verdict::WORDS)?;
        if verdict == Verdict::Ok {
            return Err(node.fault(
                "a limit cannot give ok: what no limit takes is ok",
                "write note, fix or stop",
            ));
        }
        Ok(verdict)
    });
    let side = map.only_one_of(&Side::WORDS);
    let bound = side.and_then(|(_, node)| within(node, bound(node, subject)?, plausible));
    let basis = basis(map);
    let branch = opened(map, verdict, names);
    Ok(Rung {
        verdict: verdict?,
        side: side?.0,
        bound: bound?,
        basis: basis?,
        branch: branch?,
    })
}

fn bound(node: Node<'_>, subject: Subject) -> Read<Bound> {
    if !node.is_map() {
        return Ok(Bound::Fixed(node.quantity(subject.dimension?)?));
    }
    let map = node.map(&["figure", "share", "plus"])?;
    let figure = map
        .required("figure")
        .and_then(|node| suited(node, figure(node)?, subject));
    let share = map.optional("share").map_or(Ok(Exact::whole(1)), share);
    let plus = map
        .optional("plus")
        .map(|node| node.quantity(subject.dimension?))
        .transpose();
    Ok(Bound::Of {
        figure: figure?,
        share: share?,
        plus: plus?,
    })
}

/// The figure, if it measures what the step does and belongs to what the step is repeated for.
fn suited(node: Node<'_>, figure: Figure, subject: Subject) -> Read<Figure> {
    let wanted = subject.dimension?;
    if figure.dimension() != wanted {
        return Err(node.fault(
            format!(
                "{} is a {}, and this step reads a {}",
                figure.word(),
                figure.dimension().word(),
                wanted.word()
            ),
            format!("name a figure that is a {}", wanted.word()),
        ));
    }
    match figure.each() {
        Some(each) if subject.each? != Some(each) => Err(node.fault(
            format!("{} belongs to one {}", figure.word(), each.word()),
            format!("repeat the step with `each: {}`", each.word()),
        )),
        _ => Ok(figure),
    }
}

fn share(node: Node<'_>) -> Read<Exact> {
    let percent = node.quantity(Dimension::Share)?.value;
    if percent.is_negative() || percent.is_zero() {
        return Err(node.fault("a share is above 0 %", "write it as 95 %"));
    }
    Ok(percent.over(&Exact::whole(100)).unwrap_or_else(Exact::zero))
}

/// The bound, if it can be reached by a plausible reading. A figure's value is known on a rig only.
fn within(node: Node<'_>, bound: Bound, plausible: &Read<(Quantity, Quantity)>) -> Read<Bound> {
    let (Bound::Fixed(value), Ok((from, to))) = (&bound, plausible) else {
        return Ok(bound);
    };
    let outside =
        value.compare(from) == Some(Ordering::Less) || value.compare(to) == Some(Ordering::Greater);
    if outside {
        return Err(node.fault(
            format!("{value} is outside the plausible values, {from} to {to}"),
            "move the limit, or widen `plausible`",
        ));
    }
    Ok(bound)
}

fn basis(map: Map<'_>) -> Read<Basis> {
    let authority = map
        .required("authority")
        .and_then(|node| node.choice(&Authority::WORDS));
    let source = words(map, "source");
    Ok(Basis {
        authority: authority?,
        source: source?,
    })
}

fn state<'d>(node: Node<'d>, names: &mut Names<'d>) -> Read<State> {
    let map = node.map(&["id", "seen", "verdict", "cannot-see", "branch"])?;
    let id = map.required("id").and_then(|node| names.state(node));
    let seen = words(map, "seen");
    let verdict = map
        .required("verdict")
        .and_then(|node| node.choice(&Verdict::WORDS));
    let cannot_see = super::flag(map, "cannot-see");
    if (cannot_see, verdict) == (Ok(true), Ok(Verdict::Ok)) {
        node.fault(
            "what cannot be seen is not ok",
            "write note, fix or stop as its verdict",
        );
    }
    let branch = opened(map, verdict, names);
    Ok(State {
        id: id?.to_owned(),
        seen: seen?,
        verdict: verdict?,
        cannot_see: cannot_see?,
        branch: branch?,
    })
}

/// The branch a state or limit opens: a must for fix and stop, a may for note, nothing for ok.
fn opened<'d>(map: Map<'d>, verdict: Read<Verdict>, names: &mut Names<'d>) -> Read<Option<String>> {
    let node = map.optional("branch");
    let branch = node.map(|node| names.opened(node)).transpose()?;
    let verdict = verdict?;
    match (node, verdict) {
        (None, Verdict::Fix | Verdict::Stop) => Err(map.node().fault(
            format!("this {} leads nowhere", verdict.word()),
            "name the branch that says what to do now, as `branch: …`",
        )),
        (Some(node), Verdict::Ok) => Err(node.fault(
            "what is ok opens no branch",
            "take `branch` away, or change the verdict",
        )),
        _ => Ok(branch.map(str::to_owned)),
    }
}

/// Whether the states together leave no way but to look: three or four of them, one ok at least,
/// one bad at least, and one for not being able to see.
fn whole(node: Node<'_>, states: &[State]) -> Read<()> {
    let count = |wanted: fn(&State) -> bool| states.iter().filter(|state| wanted(state)).count();
    let good = count(|state| state.verdict == Verdict::Ok);
    let bad = count(|state| state.verdict > Verdict::Ok && !state.cannot_see);
    let blind = count(|state| state.cannot_see);
    let told = [
        (!(3..=4).contains(&states.len())).then(|| {
            node.fault(
                format!("{} states are given", states.len()),
                "give three or four, each a thing that can be seen",
            )
        }),
        (good == 0).then(|| node.fault("no state is ok", "add the state that should be seen")),
        (bad == 0).then(|| node.fault("no state is bad", "add a bad state that can be seen")),
        (blind != 1).then(|| {
            node.fault(
                format!("{blind} states are for not being able to see"),
                "mark exactly one with `cannot-see: true`",
            )
        }),
    ];
    told.into_iter().flatten().next().map_or(Ok(()), Err)
}
