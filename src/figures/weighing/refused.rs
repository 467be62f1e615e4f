//! Why tickets are refused, and what to do next.

use crate::figures::weighing::{Pad, Ticket};
use crate::units::Quantity;
use std::fmt;

/// Why tickets are refused.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refused {
    /// A scale whose step is not more than nothing.
    NoStep,
    /// A load that no axle of such a rig has.
    NoSuchLoad(Ticket, Pad, Quantity),
    /// A reading between two steps of the scale.
    BetweenSteps(Ticket, Pad, Quantity, Quantity),
    /// The truck weighs hardly more with its trailer, or less.
    NoTongue(Quantity),
    /// The steer axle of a bumper pull got heavier.
    SteerGained(Quantity),
    /// The trailer alone weighs otherwise than by difference: how far apart, and how far it may be.
    OtherTrailer(Quantity, Quantity),
    /// Tight bars changed the total: by how much, and by how much they may.
    OtherTotal(Quantity, Quantity),
    /// A gooseneck has no spring bars.
    BarsOnGooseneck,
    /// The formula gives no number.
    NoNumber(String),
}

impl Refused {
    /// What is wrong.
    pub fn reason(&self) -> String {
        match self {
            Self::NoStep => "a scale's step is more than nothing".to_owned(),
            Self::NoSuchLoad(ticket, pad, reading) => format!(
                "{}, {}: {reading} is no load of a pickup with a horse trailer",
                ticket.word(),
                pad.word()
            ),
            Self::BetweenSteps(ticket, pad, reading, step) => format!(
                "{}, {}: {reading} lies between two steps of a scale that prints every {step}",
                ticket.word(),
                pad.word()
            ),
            Self::NoTongue(tongue) => format!(
                "with the trailer the truck weighs {tongue} more than alone, which is no tongue \
                 weight a scale of this step can tell from none"
            ),
            Self::SteerGained(gained) => format!(
                "the steer axle weighs {gained} more with the trailer than alone, and a ball behind \
                 the rear axle takes weight off it"
            ),
            Self::OtherTrailer(apart, allowed) => format!(
                "the trailer alone weighs {apart} more or less than the other tickets make it, and \
                 the scale's steps explain {allowed} at most"
            ),
            Self::OtherTotal(apart, allowed) => format!(
                "with the bars tight truck and trailer weigh {apart} more or less than with them \
                 loose, and the scale's steps explain {allowed} at most: bars move weight and add \
                 none"
            ),
            Self::BarsOnGooseneck => "a gooseneck has no spring bars".to_owned(),
            Self::NoNumber(why) => why.trim_end_matches('.').to_owned(),
        }
    }

    /// What to do next.
    pub fn next(&self) -> &'static str {
        match self {
            Self::NoStep => "Say the smallest step between two weights that the scale prints.",
            Self::NoSuchLoad(..) => "Read the ticket again, and type it in the unit it prints.",
            Self::BetweenSteps(..) => {
                "Read the ticket again; if it does print this, the scale's step is finer."
            }
            Self::NoTongue(_) | Self::NoNumber(_) => {
                "See that the tickets are in order, and that each axle stood whole on its own pad; \
                 then weigh again."
            }
            Self::SteerGained(_) => {
                "See that the trailer's bars were loose and each axle stood whole on its own pad; \
                 then weigh again."
            }
            Self::OtherTrailer(..) => {
                "See that nobody and nothing got on or off between the tickets, and that jack and \
                 wheels stood on the scale; then weigh again."
            }
            Self::OtherTotal(..) => {
                "See that nobody and nothing got on or off between the tickets; then weigh again."
            }
            Self::BarsOnGooseneck => "Leave that ticket out.",
        }
    }
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}. {}", self.reason(), self.next())
    }
}
