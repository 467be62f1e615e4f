//! The closed lists of words, each word with what it means to a person.

use crate::rig::describe::ask::Choice;

pub(super) const EVIDENCE: &[Choice] = &[
    ("plate", "a certification label or data plate"),
    ("stamp", "a mark struck or cast into the part"),
    ("manual", "the maker's manual or data sheet"),
    ("scale", "a weighbridge or another scale"),
    ("tape", "a tape, caliper, gauge or other measuring tool"),
    ("estimate", "a reasoned guess, named as such"),
];

pub(super) const JOINT: &[Choice] = &[
    (
        "bumper-pull",
        "a ball behind the bumper, on a drawbar in a receiver",
    ),
    ("gooseneck", "a ball locked into the bed"),
];

pub(super) const ANCHOR: &[Choice] = &[
    ("frame-eye", "an eye bolted or welded to the truck's frame"),
    ("bed-eye", "a fixed eye in the bed, not the chain's"),
    ("stake-pocket", "a stake pocket of the bed"),
];

pub(super) const BATTERY: &[Choice] = &[
    ("flooded", "cells with caps, filled with acid"),
    ("agm", "sealed, absorbed glass mat"),
];

pub(super) const PULLS: &[Choice] = &[
    ("before-chains", "before the chains come tight"),
    ("after-chains", "only when the chains have gone too"),
];

pub(super) const SUSPENSION: &[Choice] = &[
    (
        "torsion",
        "a square tube with rubber inside and a short arm to each wheel",
    ),
    (
        "equalized-leaf",
        "leaf springs, with a rocker between the axles",
    ),
];

pub(super) const SEAT: &[Choice] = &[
    ("cone", "a cone"),
    ("ball", "a part of a ball"),
    ("flange", "a flat flange or washer"),
];

pub(super) const HORSE: &[Choice] = &[
    ("adult", "a grown horse"),
    ("pony", "a pony"),
    ("yearling", "between one and two years old"),
    ("weanling", "a foal off its mother"),
];

pub(super) const INSTRUMENT: &[Choice] = &[
    ("pressure-gauge", "a tire gauge"),
    ("torque-wrench", "a torque wrench that clicks"),
    ("multimeter", "volts and small currents"),
    ("tape", "a tape or rule"),
    ("caliper", "a caliper"),
    ("scale", "a weighbridge with its ticket, or a tongue scale"),
    ("stopwatch", "a stopwatch"),
    ("clock", "a clock or a watch"),
    (
        "controller-display",
        "the display of the brake controller in the cab",
    ),
    ("thermometer", "a thermometer for hubs and tires"),
    ("clamp-meter", "current, clamped round a wire"),
    ("dial-indicator", "play of thousandths, on a foot"),
    ("tread-gauge", "the depth of a tread"),
    ("hygrometer", "humidity of the air, or a weather report"),
    ("odometer", "the truck's odometer"),
    ("plate", "a label, plate or stamp that is read"),
    ("count", "counting by eye"),
];

pub(super) const LIKE: &[Choice] = &[
    (
        "yes",
        "take its values, except those that are this one's own",
    ),
    ("no", "ask for each"),
];

pub(super) const TOOLS: &[Choice] = &[
    ("own", "describe my own, one by one"),
    (
        "standard",
        "take the standard set of the demo rig, and mend it where my own tools differ",
    ),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::{
        AnchorKind, BatteryKind, Evidence, HitchKind, HorseKind, InstrumentKind, Pulls, Seat,
        Suspension,
    };
    use std::collections::BTreeSet;

    fn same<T>(choices: &[Choice], words: &[(&str, T)]) {
        let offered: BTreeSet<&str> = choices.iter().map(|(word, _)| *word).collect();
        let known: BTreeSet<&str> = words.iter().map(|(word, _)| *word).collect();
        assert_eq!(offered, known);
    }

    #[test]
    fn every_word_the_reader_knows_is_offered_and_no_other() {
        same(EVIDENCE, &Evidence::WORDS);
        same(JOINT, &HitchKind::WORDS);
        same(ANCHOR, &AnchorKind::WORDS);
        same(BATTERY, &BatteryKind::WORDS);
        same(PULLS, &Pulls::WORDS);
        same(SUSPENSION, &Suspension::WORDS);
        same(SEAT, &Seat::WORDS);
        same(HORSE, &HorseKind::WORDS);
        same(INSTRUMENT, &InstrumentKind::WORDS);
    }
}
