//! The hitch's part of the rig file: how the ball is carried, the ball and the coupler.

use crate::document::Read;
use crate::rig::yaml::part::{Part, exceeds, order};
use crate::rig::yaml::{backups, chains};
use crate::rig::{
    Ball, Coupler, Drawbar, Given, Hitch, HitchKind, Joint, Pin, Receiver, SpringBars,
};
use crate::units::Dimension::{Angle, Length, Mass, Torque};
use crate::units::{Quantity, Unit};
use std::cmp::Ordering;

pub(super) const HITCH_KEYS: &[&str] = &[
    "joint",
    "ball",
    "coupler",
    "chains",
    "breakaway",
    "jack",
    "plug",
    "turn",
    "spring-bars",
];

/// The most a trailer can turn: folded back along the truck.
const MOST_TURN: i64 = 180;

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
    let plug = part
        .part("plug", backups::PLUG_KEYS)
        .and_then(backups::plug);
    let turn = turn(part);
    let spring_bars = spring_bars(part, joint.as_ref().ok());
    Ok(Hitch {
        joint: joint?,
        ball: ball?,
        coupler: coupler?,
        chains: chains?,
        breakaway: breakaway?,
        jack: jack?,
        plug: plug?,
        turn: turn?,
        spring_bars: spring_bars?,
    })
}

/// Of which kind the hitch is, where it says exactly one. Faults are told by [`hitch`].
pub(super) fn kind(hitch: Part<'_>) -> Option<HitchKind> {
    let joint = hitch.optional("joint")?;
    let mut said = HitchKind::WORDS
        .iter()
        .filter(|(word, _)| joint.holds(word));
    match (said.next(), said.next()) {
        (Some((_, kind)), None) => Some(*kind),
        _ => None,
    }
}

fn turn(hitch: Part<'_>) -> Read<Option<Given>> {
    let turn = hitch.positive_if_any("turn", Angle);
    if let Ok(Some(given)) = &turn {
        let most = Quantity::whole(MOST_TURN, Unit::Degree);
        if given.quantity.compare(&most) == Some(Ordering::Greater) {
            hitch.tell(
                "turn",
                format!("a trailer cannot turn {} from straight", given.quantity),
                "measure from straight behind the truck to where body nears body: 90 deg is square",
            );
        }
    }
    turn
}

/// Spring bars are levers in a receiver that is rated for them.
fn spring_bars(hitch: Part<'_>, joint: Option<&Joint>) -> Read<Option<SpringBars>> {
    let Some(bars) = hitch.part_if_any("spring-bars", &["couple"]) else {
        return Ok(None);
    };
    let couple = bars.and_then(|bars| bars.positive("couple", Torque));
    match joint {
        Some(Joint::Gooseneck { .. }) => hitch.tell(
            "spring-bars",
            "spring bars reach from a receiver to a bumper pull's tongue, and this is a gooseneck",
            "take `spring-bars` out",
        ),
        Some(Joint::BumperPull { receiver, .. }) if receiver.distributing.is_none() => hitch.tell(
            "spring-bars",
            "the receiver has no ratings for use with spring bars",
            "read its plate again and add them at `distributing`, or take `spring-bars` out",
        ),
        Some(Joint::BumperPull { .. }) | None => {}
    }
    Ok(Some(SpringBars { couple: couple? }))
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
    let coupler = hitch.part("coupler", &["diameter", "ratings", "below-chain-eye"]);
    let coupler_size = coupler.and_then(|coupler| coupler.positive("diameter", Length));
    let ratings = coupler.and_then(|coupler| coupler.ratings("ratings"));
    let below_chain_eye =
        coupler.and_then(|coupler| coupler.positive_if_any("below-chain-eye", Length));
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
            below_chain_eye: below_chain_eye?,
        })
    });
    (ball, coupler)
}
