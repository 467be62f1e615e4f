//! What the trailer carries, in the rig file.

use crate::document::{Node, Read, nearest};
use crate::rig::yaml::part::Part;
use crate::rig::{Given, HorseKind, HorseTape, Load, Position, Stall};
use crate::units::Dimension::{Length, Mass};

const KEYS: &[&str] = &["name", "weight", "horse", "at", "in"];

pub(super) fn load(list: Node<'_>, stalls: &Read<Vec<Stall>>) -> Read<Vec<Load>> {
    list.each(|node| one(node, stalls))
}

fn one(node: Node<'_>, stalls: &Read<Vec<Stall>>) -> Read<Load> {
    let part = Part::open(node, KEYS)?;
    let name = part.words("name");
    let weight = weight(part);
    let place = place(part, stalls);
    let (weight, horse) = weight?;
    let (at, stall) = place?;
    Ok(Load {
        name: name?,
        weight,
        horse,
        at,
        stall,
    })
}

/// The ways to say how heavy it is.
#[derive(Clone, Copy)]
enum Known {
    Weight,
    Tape,
}

fn weight(part: Part<'_>) -> Read<(Option<Given>, Option<HorseTape>)> {
    match part
        .only_one_of(&[("weight", Known::Weight), ("horse", Known::Tape)])?
        .0
    {
        Known::Weight => Ok((Some(part.positive("weight", Mass)?), None)),
        Known::Tape => Ok((None, Some(horse(part)?))),
    }
}

fn horse(part: Part<'_>) -> Read<HorseTape> {
    let horse = part.part("horse", &["girth", "length", "kind"])?;
    let girth = horse.positive("girth", Length);
    let length = horse.positive("length", Length);
    let kind = horse.choice("kind", &HorseKind::WORDS);
    Ok(HorseTape {
        girth: girth?,
        length: length?,
        kind: kind?,
    })
}

/// The ways to say where it is.
#[derive(Clone, Copy)]
enum Where {
    At,
    In,
}

fn place(part: Part<'_>, stalls: &Read<Vec<Stall>>) -> Read<(Position, Option<String>)> {
    let (how, node) = part.only_one_of(&[("at", Where::At), ("in", Where::In)])?;
    match how {
        Where::At => Ok((part.position("at")?, None)),
        Where::In => {
            let stall = stall(node, stalls)?;
            Ok((stall.at.clone(), Some(stall.id.clone())))
        }
    }
}

fn stall<'s>(node: Node<'_>, stalls: &'s Read<Vec<Stall>>) -> Read<&'s Stall> {
    let id = node.id()?;
    let stalls = stalls.as_ref().map_err(|told| *told)?;
    if let Some(stall) = stalls.iter().find(|stall| stall.id == id) {
        return Ok(stall);
    }
    let ids: Vec<&str> = stalls.iter().map(|stall| stall.id.as_str()).collect();
    let fix = match nearest(id, ids.iter().copied()) {
        _ if ids.is_empty() => {
            "list the trailer's stalls at `stalls`, or say where it is at `at`".to_owned()
        }
        Some(meant) => format!("did you mean {meant}? The stalls are {}", ids.join(", ")),
        None => format!("the stalls are {}", ids.join(", ")),
    };
    Err(node.fault(format!("the trailer has no stall called {id}"), fix))
}
