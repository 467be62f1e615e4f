//! The barn's own limits in the settings file.

use crate::barn::{OwnLimit, Written};
use crate::document::{Document, Map, Node, Read};
use crate::rules::{Side, Verdict};
use crate::units::{Dimension, parse_quantity};

const KEYS: [&str; 8] = [
    "checklist",
    "step",
    "verdict",
    "below",
    "at-or-below",
    "above",
    "at-or-above",
    "why",
];

/// What a barn's own limit may come to.
const VERDICTS: [(&str, Verdict); 3] = [
    ("note", Verdict::Note),
    ("fix", Verdict::Fix),
    ("stop", Verdict::Stop),
];

pub(super) fn limits(list: Node<'_>, document: &Document) -> Read<Vec<OwnLimit>> {
    let mut known: Vec<OwnLimit> = Vec::new();
    list.each(|node| {
        let limit = limit(node.map(&KEYS)?, document)?;
        if known.iter().any(|earlier| same(earlier, &limit)) {
            return Err(node.fault(
                format!(
                    "an earlier limit says when {} comes to {} too",
                    limit.step.text,
                    limit.verdict.word()
                ),
                "keep the stricter of the two",
            ));
        }
        known.push(limit.clone());
        Ok(limit)
    })
}

/// Whether two limits speak of the same verdict of the same step, on the same side.
fn same(one: &OwnLimit, other: &OwnLimit) -> bool {
    let rises = |limit: &OwnLimit| matches!(limit.side, Side::Above | Side::AtOrAbove);
    one.checklist.text == other.checklist.text
        && one.step.text == other.step.text
        && one.verdict == other.verdict
        && rises(one) == rises(other)
}

fn limit(map: Map<'_>, document: &Document) -> Read<OwnLimit> {
    let id = |key| {
        map.required(key)
            .and_then(|node: Node<'_>| Ok(written(node, node.id()?, document)))
    };
    let (checklist, step) = (id("checklist"), id("step"));
    let verdict = map.required("verdict").and_then(verdict);
    let side = map.only_one_of(&Side::WORDS);
    let bound = side.and_then(|(_, node)| bound(node, document));
    let why = map.required("why").and_then(Node::sentence);
    Ok(OwnLimit {
        checklist: checklist?,
        step: step?,
        verdict: verdict?,
        side: side?.0,
        bound: bound?,
        why: why?.to_owned(),
    })
}

fn verdict(node: Node<'_>) -> Read<Verdict> {
    if node.text()? == Verdict::Ok.word() {
        return Err(node.fault(
            "a limit cannot give ok: what no limit takes is ok",
            "write note, fix or stop",
        ));
    }
    node.choice(&VERDICTS)
}

/// An amount of whatever the step measures: which, is not known here.
fn bound(node: Node<'_>, document: &Document) -> Read<Written> {
    let text = node.figures()?.trim();
    let amount = |dimension| parse_quantity(text, dimension).is_ok();
    if Dimension::ALL.into_iter().any(amount) {
        return Ok(written(node, text, document));
    }
    Err(node.fault(
        "this is no amount with a unit this program knows",
        "write it as it is read off, such as 12 in, 65 psi or 90 ft-lb",
    ))
}

fn written(node: Node<'_>, text: &str, document: &Document) -> Written {
    Written {
        text: text.to_owned(),
        place: document.place_of(node.spot()),
        path: document.path_of(node.spot()),
    }
}
