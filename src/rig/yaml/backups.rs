//! What holds, stops or lights the trailer beside ball and chains, in the rig file: breakaway,
//! jack and plug.

use crate::document::{Node, Read};
use crate::rig::yaml::part::{Part, is_whole_within};
use crate::rig::{
    Anchor, AnchorKind, Battery, BatteryKind, BrakeWire, Breakaway, Chain, Jack, Plug, Position,
    Pulls,
};
use crate::units::Dimension::{Charge, Count, Length};
use std::cmp::Ordering;

pub(super) const BREAKAWAY_KEYS: &[&str] = &[
    "switch",
    "lanyard",
    "anchor",
    "battery",
    "pin-travel",
    "pulls",
];

pub(super) const PLUG_KEYS: &[&str] = &["kind", "cord", "truck-end", "trailer-end", "brake-wire"];

/// Wire sizes by AWG number that a trailer may have: common practice, no source.
const GAUGES: (i64, i64) = (1, 24);

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
    let pin_travel = part.positive_if_any("pin-travel", Length);
    let pulls = part.choice_if_any("pulls", &Pulls::WORDS);
    Ok(Breakaway {
        switch: switch?,
        lanyard: lanyard?,
        anchor: anchor?,
        battery: battery?,
        pin_travel: pin_travel?,
        pulls: pulls?,
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
    let truck_end = part.position_if_any("truck-end");
    let trailer_end = part.position_if_any("trailer-end");
    let brake_wire = part
        .part_if_any("brake-wire", &["gauge", "length"])
        .map(|wire| wire.and_then(brake_wire))
        .transpose();
    Ok(Plug {
        kind: kind?,
        cord: cord?,
        truck_end: truck_end?,
        trailer_end: trailer_end?,
        brake_wire: brake_wire?,
    })
}

fn brake_wire(part: Part<'_>) -> Read<BrakeWire> {
    let gauge = part.positive("gauge", Count);
    let length = part.positive("length", Length);
    if gauge
        .as_ref()
        .is_ok_and(|gauge| !is_whole_within(gauge, GAUGES))
    {
        let (least, most) = GAUGES;
        part.tell(
            "gauge",
            format!("the wire's AWG number is a whole one from {least} to {most}"),
            "read it on the wire's jacket; a larger number is a thinner wire",
        );
    }
    Ok(BrakeWire {
        gauge: gauge?,
        length: length?,
    })
}
