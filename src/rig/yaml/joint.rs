//! The hitch's part of the rig file: how the ball is carried, the ball and the coupler.

use crate::document::Read;
use crate::rig::yaml::part::{Part, exceeds, order};
use crate::rig::yaml::{backups, chains};
use crate::rig::{Ball, Coupler, Drawbar, Hitch, HitchKind, Joint, Pin, Receiver};
use crate::units::Dimension::{Length, Mass};
use std::cmp::Ordering;

pub(super) const HITCH_KEYS: &[&str] = &[
    "joint",
    "ball",
    "coupler",
    "chains",
    "breakaway",
    "jack",
    "plug",
];

const BUMPER_PULL_KEYS: [&str; 3] = ["receiver", "drawbar", "pin"];
const GOOSENECK_KEYS: [&str; 3] = ["bed", "bed-height", "rail-height"];

pub(super) fn hitch(part: Part<'_>) -> Read<Hitch> {
    let joint = part
        .part("joint", &HitchKind::WORDS.map(|(word, _)| word))
        .and_then(joint);
    let (ball, coupler) = ball_and_coupler(part);
    let chains = part
        .part("chains", &["left", "right"])
        .and_then(|pair| chains::pair(pair, joint.as_ref().ok()));
    let breakaway = part
        .part("breakaway", backups::BREAKAWAY_KEYS)
        .and_then(|breakaway| backups::breakaway(breakaway, chains.as_ref().ok()));
    let jack = part.part("jack", &["clearance"]).and_then(backups::jack);
    let plug = part.part("plug", &["kind", "cord"]).and_then(backups::plug);
    Ok(Hitch {
        joint: joint?,
        ball: ball?,
        coupler: coupler?,
        chains: chains?,
        breakaway: breakaway?,
        jack: jack?,
        plug: plug?,
    })
}

fn joint(part: Part<'_>) -> Read<Joint> {
    let (kind, node) = part.only_one_of(&HitchKind::WORDS)?;
    let both = [BUMPER_PULL_KEYS, GOOSENECK_KEYS].concat();
    let part = Part::open(node, &both)?;
    match kind {
        HitchKind::BumperPull => {
            tell_foreign(
                part,
                &GOOSENECK_KEYS,
                "a bumper pull stands on a receiver, and this belongs to a bed hitch",
            );
            bumper_pull(part)
        }
        HitchKind::Gooseneck => {
            tell_foreign(
                part,
                &BUMPER_PULL_KEYS,
                "a gooseneck's ball is locked into the bed, and this belongs to a receiver hitch",
            );
            gooseneck(part)
        }
    }
}

/// Tells what only the other kind of hitch has.
fn tell_foreign(part: Part<'_>, keys: &[&str], what: &str) {
    for key in keys {
        if part.optional(key).is_some() {
            part.tell(
                key,
                what,
                format!("take `{key}` out, or name the other kind of joint"),
            );
        }
    }
}

fn bumper_pull(part: Part<'_>) -> Read<Joint> {
    let receiver = part
        .part("receiver", &["carrying", "distributing", "height"])
        .and_then(receiver);
    let drawbar = part
        .part("drawbar", &["ratings", "rise"])
        .and_then(|drawbar| {
            let ratings = drawbar.ratings("ratings");
            let rise = drawbar.given("rise", Length);
            Ok(Drawbar {
                ratings: ratings?,
                rise: rise?,
            })
        });
    let pin = part
        .part("pin", &["diameter"])
        .and_then(|pin| pin.positive("diameter", Length));
    Ok(Joint::BumperPull {
        receiver: receiver?,
        drawbar: drawbar?,
        pin: Pin { diameter: pin? },
    })
}

fn receiver(part: Part<'_>) -> Read<Receiver> {
    let carrying = part.ratings("carrying");
    let distributing = part
        .optional("distributing")
        .map(|_| part.ratings("distributing"))
        .transpose();
    let height = part.positive("height", Length);
    Ok(Receiver {
        carrying: carrying?,
        distributing: distributing?,
        height: height?,
    })
}

fn gooseneck(part: Part<'_>) -> Read<Joint> {
    let bed = part.ratings("bed");
    let bed_height = part.positive("bed-height", Length);
    let rail_height = part.positive("rail-height", Length);
    if exceeds(&bed_height, &rail_height) {
        part.tell(
            "rail-height",
            "the bed's rail lies below its floor",
            "measure both from the ground on the same level place",
        );
    }
    Ok(Joint::Gooseneck {
        bed: bed?,
        bed_height: bed_height?,
        rail_height: rail_height?,
    })
}

fn ball_and_coupler(hitch: Part<'_>) -> (Read<Ball>, Read<Coupler>) {
    let ball = hitch.part("ball", &["diameter", "total", "height"]);
    let ball_size = ball.and_then(|ball| ball.positive("diameter", Length));
    let total = ball.and_then(|ball| ball.positive("total", Mass));
    let height = ball.and_then(|ball| ball.positive("height", Length));
    let coupler = hitch.part("coupler", &["diameter", "ratings"]);
    let coupler_size = coupler.and_then(|coupler| coupler.positive("diameter", Length));
    let ratings = coupler.and_then(|coupler| coupler.ratings("ratings"));
    let differ = match order(&ball_size, &coupler_size) {
        Some(Ordering::Greater) => Some("would not close on it"),
        Some(Ordering::Less) => Some("would close on it and lift off it on the road"),
        Some(Ordering::Equal) | None => None,
    };
    if let (Some(end), Ok(ball), Ok(socket), Ok(part)) =
        (differ, &ball_size, &coupler_size, coupler)
    {
        part.tell(
            "diameter",
            format!(
                "the ball is {} and the coupler is for {}: the coupler {end}",
                ball.quantity, socket.quantity
            ),
            "read both stamps again; if they do differ, change the ball before anything is hitched",
        );
    }
    let ball = ball_size.and_then(|diameter| {
        Ok(Ball {
            diameter,
            total: total?,
            height: height?,
        })
    });
    let coupler = coupler_size.and_then(|diameter| {
        Ok(Coupler {
            diameter,
            ratings: ratings?,
        })
    });
    (ball, coupler)
}
