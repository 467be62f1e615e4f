//! What holds, stops or lights the trailer beside ball and chains, in the rig file: breakaway,
//! jack and plug.

use crate::document::{Node, Read};
use crate::rig::yaml::part::Part;
use crate::rig::{
    Anchor, AnchorKind, Battery, BatteryKind, Breakaway, Chain, Jack, Plug, Position,
};
use crate::units::Dimension::{Charge, Length};
use std::cmp::Ordering;

pub(super) const BREAKAWAY_KEYS: &[&str] = &["switch", "lanyard", "anchor", "battery"];

/// What a lanyard is clipped to in error. Each leaves the truck when the hitch comes apart.
///
/// Common practice, no source in federal law; the guidance of the Road Safety Authority of Ireland
/// asks for the towing vehicle's structure.
const LEAVES_WITH_THE_HITCH: [&str; 9] = [
    "chain",
    "hook",
    "ball",
    "ball-mount",
    "drawbar",
    "receiver",
    "pin",
    "coupler",
    "chain-eye",
];

pub(super) fn breakaway(part: Part<'_>, chains: Option<&[Chain; 2]>) -> Read<Breakaway> {
    let switch = part.position("switch");
    let lanyard = part.positive("lanyard", Length);
    let anchor = part
        .part("anchor", &["name", "kind", "at"])
        .and_then(|anchor_part| anchor(anchor_part, chains));
    let battery = part
        .part("battery", &["kind", "capacity"])
        .and_then(|battery| {
            let kind = battery.choice("kind", &BatteryKind::WORDS);
            let capacity = battery.positive("capacity", Charge);
            Ok(Battery {
                kind: kind?,
                capacity: capacity?,
            })
        });
    Ok(Breakaway {
        switch: switch?,
        lanyard: lanyard?,
        anchor: anchor?,
        battery: battery?,
    })
}

fn anchor(part: Part<'_>, chains: Option<&[Chain; 2]>) -> Read<Anchor> {
    let name = part.words("name");
    let kind = part.required("kind").and_then(anchor_kind);
    let at = part.position("at");
    let shared = |at: &Position| {
        chains.is_some_and(|pair| pair.iter().any(|chain| same_point(&chain.truck_eye, at)))
    };
    if at.as_ref().is_ok_and(shared) {
        part.tell(
            "at",
            "the lanyard's anchor is a chain's eye: when that eye tears out, nothing pulls the \
             switch",
            "clip it to a point of the truck that carries nothing else, and measure that",
        );
    }
    Ok(Anchor {
        name: name?,
        kind: kind?,
        at: at?,
    })
}

fn anchor_kind(node: Node<'_>) -> Read<AnchorKind> {
    let word = node.text()?;
    if !LEAVES_WITH_THE_HITCH.contains(&word) {
        return node.choice(&AnchorKind::WORDS);
    }
    let kinds = AnchorKind::WORDS.map(|(kind, _)| kind).join(", ");
    Err(node.fault(
        format!(
            "a lanyard on the {} leaves the truck with it and never pulls the switch: its anchor \
             must stay on the truck when every part of the hitch is gone",
            word.replace('-', " ")
        ),
        format!("clip it to one of {kinds}"),
    ))
}

fn same_point(one: &Position, other: &Position) -> bool {
    let pairs = [
        (&one.behind, &other.behind),
        (&one.right, &other.right),
        (&one.above, &other.above),
    ];
    pairs.iter().all(|(one, other)| {
        one.quantity
            .compare(&other.quantity)
            .is_some_and(Ordering::is_eq)
    })
}

pub(super) fn jack(part: Part<'_>) -> Read<Jack> {
    Ok(Jack {
        clearance: part.positive("clearance", Length)?,
    })
}

pub(super) fn plug(part: Part<'_>) -> Read<Plug> {
    let kind = part.words("kind");
    let cord = part.positive("cord", Length);
    Ok(Plug {
        kind: kind?,
        cord: cord?,
    })
}
