//! The tickets, and what is wrong with them.

use crate::figures::weighing::refused::Refused;
use crate::rig::HitchKind;
use crate::units::{Exact, Quantity, Unit};
use std::cmp::Ordering;

/// The tickets of one rig, loaded alike each time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tickets {
    /// How the ball is carried.
    pub kind: HitchKind,
    /// The unit that the scale prints.
    pub unit: Unit,
    /// The smallest step that it prints.
    pub step: Exact,
    /// The truck without its trailer: steer and drive axle.
    pub alone: [Exact; 2],
    /// With the trailer, bars loose or off: steer, drive and trailer axles.
    pub hitched: [Exact; 3],
    /// The same with the spring bars tight.
    pub bars: Option<[Exact; 3]>,
    /// The trailer by itself on one pad.
    pub trailer: Option<Exact>,
}

/// One weighing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ticket {
    /// The truck without its trailer.
    Alone,
    /// With the trailer, bars loose or off.
    Hitched,
    /// With the trailer, bars tight.
    Bars,
    /// The trailer by itself.
    Trailer,
}

impl Ticket {
    /// What people call it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Alone => "the truck alone",
            Self::Hitched => "truck and trailer",
            Self::Bars => "truck and trailer, bars tight",
            Self::Trailer => "the trailer alone",
        }
    }

    /// What stands on its pads.
    pub fn pads(self) -> &'static [Pad] {
        match self {
            Self::Alone => &[Pad::Steer, Pad::Drive],
            Self::Hitched | Self::Bars => &[Pad::Steer, Pad::Drive, Pad::Trailer],
            Self::Trailer => &[Pad::Whole],
        }
    }
}

/// What stands on one pad.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pad {
    /// The truck's front axle.
    Steer,
    /// The truck's rear axle.
    Drive,
    /// All axles of the trailer.
    Trailer,
    /// The whole trailer, jack and wheels.
    Whole,
}

impl Pad {
    /// What people call it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Steer => "steer axle",
            Self::Drive => "drive axle",
            Self::Trailer => "trailer axles",
            Self::Whole => "whole trailer",
        }
    }
}

/// More than any axle group of a pickup with a horse trailer weighs, lb: a slip of the fingers.
const TOO_HEAVY_LB: i64 = 40_000;

/// Readings whose errors can add up between two ways to the same weight.
const READINGS: i64 = 6;

impl Tickets {
    /// The step taken where nobody said one: what public truck scales print, common practice, no
    /// source. None in a unit in which no scale prints.
    pub fn usual_step(unit: Unit) -> Option<Exact> {
        match unit {
            Unit::Pound => Some(Exact::whole(20)),
            Unit::Kilogram => Some(Exact::whole(10)),
            _ => None,
        }
    }

    /// How far a reading may be off either way: half a step.
    pub fn error(&self) -> Exact {
        &self.step * &Exact::ratio(1, 2).unwrap_or_else(Exact::zero)
    }

    /// Every reading with its ticket and pad.
    pub fn readings(&self) -> Vec<(Ticket, Pad, &Exact)> {
        let mut tickets = vec![
            (Ticket::Alone, &self.alone[..]),
            (Ticket::Hitched, &self.hitched[..]),
        ];
        tickets.extend(self.bars.as_ref().map(|bars| (Ticket::Bars, &bars[..])));
        let trailer = self.trailer.as_ref();
        tickets.extend(trailer.map(|one| (Ticket::Trailer, std::slice::from_ref(one))));
        let each = tickets.into_iter().flat_map(|(ticket, readings)| {
            let pads = ticket.pads().iter().zip(readings);
            pads.map(move |(pad, reading)| (ticket, *pad, reading))
        });
        each.collect()
    }

    /// So much in the unit of the scale.
    pub(super) fn quantity(&self, value: Exact) -> Quantity {
        Quantity::new(value, self.unit)
    }

    /// How far two ways to the same weight may be apart.
    fn allowed(&self) -> Exact {
        &self.error() * &Exact::whole(READINGS)
    }

    /// What is wrong with the readings themselves, every one.
    pub(super) fn wrong_readings(&self) -> Vec<Refused> {
        if self.step.is_zero() || self.step.is_negative() {
            return vec![Refused::NoStep];
        }
        let most = Quantity::whole(TOO_HEAVY_LB, Unit::Pound);
        let mut wrong = Vec::new();
        for (ticket, pad, value) in self.readings() {
            let reading = self.quantity(value.clone());
            let nothing = value.is_zero() || value.is_negative();
            let steps = value.over(&self.step);
            if nothing || reading.compare(&most).is_none_or(Ordering::is_gt) {
                wrong.push(Refused::NoSuchLoad(ticket, pad, reading));
            } else if steps.is_none_or(|steps| !steps.is_whole()) {
                let step = self.quantity(self.step.clone());
                wrong.push(Refused::BetweenSteps(ticket, pad, reading, step));
            }
        }
        wrong
    }

    /// What is wrong with the tickets together, every fault.
    pub(super) fn contradictions(&self) -> Vec<Refused> {
        let [front, rear] = &self.alone;
        let [hitched_front, hitched_rear, axles] = &self.hitched;
        let tongue = &(hitched_front + hitched_rear) - &(front + rear);
        let gained = hitched_front - front;
        let mut wrong = Vec::new();
        // Four errors add up in the tongue weight.
        if tongue <= &self.error() * &Exact::whole(4) {
            wrong.push(Refused::NoTongue(self.quantity(tongue.clone())));
        }
        if self.kind == HitchKind::BumperPull && gained >= self.step {
            wrong.push(Refused::SteerGained(self.quantity(gained)));
        }
        let gross = &tongue + axles;
        if let Some(trailer) = &self.trailer {
            let apart = (trailer - &gross).magnitude();
            if apart > self.allowed() {
                let (apart, allowed) = (self.quantity(apart), self.quantity(self.allowed()));
                wrong.push(Refused::OtherTrailer(apart, allowed));
            }
        }
        if let Some([bars_front, bars_rear, bars_axles]) = &self.bars {
            if self.kind == HitchKind::Gooseneck {
                wrong.push(Refused::BarsOnGooseneck);
            }
            let total = &(hitched_front + hitched_rear) + axles;
            let tight = &(bars_front + bars_rear) + bars_axles;
            let apart = (&tight - &total).magnitude();
            if apart > self.allowed() {
                let (apart, allowed) = (self.quantity(apart), self.quantity(self.allowed()));
                wrong.push(Refused::OtherTotal(apart, allowed));
            }
        }
        wrong
    }
}
