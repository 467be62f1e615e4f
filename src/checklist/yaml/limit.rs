//! Limits as the file writes them: a verdict beyond a bound, by somebody's word.

use crate::checklist::format::{BOUND, LIMIT, READ_BOUND, SIBLINGS, THUMB};
use crate::checklist::yaml::names::Names;
use crate::checklist::yaml::words;
use crate::document::{Map, Node, Read, nearest};
use crate::figures::{Each, Figure};
use crate::rules::{Authority, Basis, Bound, Carry, Earlier, RuleOfThumb, Rung, Side, Verdict};
use crate::units::{Dimension, Exact, Quantity};

/// What a bound is about: what is measured, the part the step is repeated for, and the values that
/// are no slip. Each may have been told as a fault already, and then nothing is built on it.
#[derive(Clone, Copy)]
pub(super) struct Subject<'p> {
    pub(super) dimension: Read<Dimension>,
    pub(super) each: Read<Option<Each>>,
    pub(super) plausible: &'p Read<(Quantity, Quantity)>,
}

pub(super) fn rung<'d>(node: Node<'d>, subject: Subject<'_>, names: &mut Names<'d>) -> Read<Rung> {
    let map = node.shaped(&LIMIT)?;
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
    let bound = side.and_then(|(_, node)| bound(node, subject, names));
    let basis = basis(map);
    let branch = opened(map, verdict, names);
    let leaves = leaves(map);
    Ok(Rung {
        verdict: verdict?,
        side: side?.0,
        bound: bound?,
        basis: basis?,
        branch: branch?,
        leaves: leaves?,
    })
}

/// What an answer or branch leaves to later walks.
pub(super) fn leaves(map: Map<'_>) -> Read<Option<Carry>> {
    map.optional("leaves")
        .map(|node| node.choice(&Carry::WORDS))
        .transpose()
}

pub(super) fn bound<'d>(node: Node<'d>, subject: Subject<'_>, names: &Names<'d>) -> Read<Bound> {
    if !node.is_map() {
        return stated(node, subject);
    }
    if node.holds("step") {
        let map = node.shaped(&READ_BOUND)?;
        let step = map
            .required("step")
            .and_then(|node| names.read_earlier(node, subject));
        return read(map, step.map(Earlier::Step), "plus", subject, names);
    }
    if node.holds("siblings") {
        let map = node.shaped(&SIBLINGS)?;
        let own = match subject.each? {
            Some(_) => names.own().ok_or_else(|| {
                node.fault("this step has no name yet", "write `id` as its first key")
            }),
            None => Err(node.fault(
                "siblings are the other parts of a repeated step, and this step is read once",
                "repeat it with `each`, or name a value",
            )),
        };
        let own = own.map(|own| Earlier::Siblings(own.to_owned()));
        return read(map, own, "siblings", subject, names);
    }
    of_figure(node.shaped(&BOUND)?, subject, names)
}

/// What was read on the walk, and what is added to it under this key.
fn read<'d>(
    map: Map<'d>,
    at: Read<Earlier>,
    more: &str,
    subject: Subject<'_>,
    names: &Names<'d>,
) -> Read<Bound> {
    let (plus, or) = (plus(map, more, subject), or(map, subject, names));
    Ok(Bound::Read {
        at: at?,
        plus: plus?,
        or: or?,
    })
}

/// A value the file states, if a plausible reading can reach it.
fn stated(node: Node<'_>, subject: Subject<'_>) -> Read<Bound> {
    let value = node.quantity(subject.dimension?)?;
    match subject.plausible {
        Ok((from, to)) if !value.within(from, to) => Err(node.fault(
            format!("{value} is outside the plausible values, {from} to {to}"),
            "move the limit, or widen `plausible`",
        )),
        _ => Ok(Bound::Fixed(value)),
    }
}

/// A figure, or a share of it. Its value is known on a rig only.
fn of_figure<'d>(map: Map<'d>, subject: Subject<'_>, names: &Names<'d>) -> Read<Bound> {
    let figure = map
        .required("figure")
        .and_then(|node| suited(node, figure(node)?, subject));
    let share = map.optional("share").map_or(Ok(Exact::whole(1)), share);
    let (plus, or) = (plus(map, "plus", subject), or(map, subject, names));
    Ok(Bound::Of {
        figure: figure?,
        share: share?,
        plus: plus?,
        or: or?,
    })
}

/// What is added, under this key.
fn plus(map: Map<'_>, key: &str, subject: Subject<'_>) -> Read<Option<Quantity>> {
    map.optional(key)
        .map(|node| node.quantity(subject.dimension?))
        .transpose()
}

/// What stands where the bound is not known.
fn or<'d>(map: Map<'d>, subject: Subject<'_>, names: &Names<'d>) -> Read<Option<Box<RuleOfThumb>>> {
    map.optional("or")
        .map(|node| rule_of_thumb(node, subject, names).map(Box::new))
        .transpose()
}

/// What stands where the figure is not known: a bound with an authority and source of its own.
fn rule_of_thumb<'d>(node: Node<'d>, subject: Subject<'_>, names: &Names<'d>) -> Read<RuleOfThumb> {
    let map = node.shaped(&THUMB)?;
    let either = map.only_one_of(&[("value", true), ("figure", false)]);
    let bound = either.and_then(|(is_stated, node)| {
        if is_stated {
            alone(map)?;
            stated(node, subject)
        } else {
            of_figure(map, subject, names)
        }
    });
    let basis = basis(map);
    Ok(RuleOfThumb {
        bound: bound?,
        basis: basis?,
    })
}

/// A value takes nothing a figure does: it is what it is, and is never missing.
fn alone(map: Map<'_>) -> Read<()> {
    let mut alone = Ok(());
    for key in ["share", "plus", "or"] {
        if let Some(node) = map.optional(key) {
            alone = Err(node.fault(
                format!("`{key}` belongs to a figure, and here stands a value"),
                format!("take `{key}` away"),
            ));
        }
    }
    alone
}

pub(super) fn figure(node: Node<'_>) -> Read<Figure> {
    let word = node.text()?;
    Figure::from_word(word).ok_or_else(|| {
        let words = Figure::ALL.map(Figure::word);
        let fix = match nearest(word, words) {
            Some(meant) => format!("did you mean `{meant}`?"),
            None => format!("the figures are {}", words.join(", ")),
        };
        node.fault("no figure of a rig has this name", fix)
    })
}

/// The figure, if it measures what the step does and belongs to what the step is repeated for.
fn suited(node: Node<'_>, figure: Figure, subject: Subject<'_>) -> Read<Figure> {
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

pub(super) fn basis(map: Map<'_>) -> Read<Basis> {
    let authority = map
        .required("authority")
        .and_then(|node| node.choice(&Authority::WORDS));
    let source = words(map, "source");
    Ok(Basis {
        authority: authority?,
        source: source?,
    })
}

/// The branch a state or limit opens: a must for fix and stop. A note is closed by a remark, and an
/// ok by itself.
pub(super) fn opened<'d>(
    map: Map<'d>,
    verdict: Read<Verdict>,
    names: &mut Names<'d>,
) -> Read<Option<String>> {
    let node = map.optional("branch");
    let branch = node.map(|node| names.opened(node)).transpose()?;
    let verdict = verdict?;
    match (node, verdict) {
        (None, Verdict::Fix | Verdict::Stop) => Err(map.node().fault(
            format!("this {} leads nowhere", verdict.word()),
            "name the branch that says what to do now, as `branch: …`",
        )),
        (Some(node), Verdict::Ok | Verdict::Note) => Err(node.fault(
            format!("a verdict of {} opens no branch", verdict.word()),
            "take `branch` away, or make the verdict fix or stop",
        )),
        _ => Ok(branch.map(str::to_owned)),
    }
}
