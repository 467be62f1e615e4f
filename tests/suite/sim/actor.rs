//! A person at the keys: mostly sensible, sometimes hasty, sometimes called away.

use super::dice::Dice;
use crate::harness::good;
use hames::checklist::{Ending, PlannedAsk, PlannedStep, SightingAsk};
use hames::units::{Exact, Quantity};
use hames::walk::{Act, Ended, Now, Status, Walk};

/// Everyone who may read; only people of the crew may.
pub(crate) const READERS: [&str; 3] = ["Wren Ashdown", "Tobias Fenn", "Odile Marsh"];

/// Everyone who may do the work.
pub(crate) const DOERS: [&str; 5] = [
    "Wren Ashdown",
    "Tobias Fenn",
    "Odile Marsh",
    "a neighbour",
    "Née Žižka, farrier",
];

const WORDS: [&str; 6] = [
    "rain",
    "the vet called",
    "“by Friday” – or sooner",
    "back\\slash and \"quotes\"",
    "čerň, 蹄鉄",
    "it stuck",
];

/// The next act on this walk.
pub(crate) fn next(walk: &Walk, dice: &mut Dice) -> Act {
    if let Some(aside) = aside(walk, dice) {
        return aside;
    }
    match walk.now() {
        Now::Next(_) | Now::Ended(_) => Act::Open,
        Now::Open(index) => answer(walk, &walk.asked(index).unwrap(), dice),
        Now::Branch(index) => branch(walk, index, dice),
        Now::Remark(_) => Act::Remark { words: words(dice) },
        Now::SectionEnd(_) => Act::CloseSection,
        Now::Held => Act::Resume,
        Now::Unsure => Act::Settle { words: words(dice) },
        Now::Finished => Act::End {
            outcome: Ended::Complete,
            words: String::new(),
        },
    }
}

/// Ends the walk wherever it stands.
pub(crate) fn end(walk: &Walk, dice: &mut Dice) -> Act {
    let outcome = match walk.now() {
        Now::Finished => Ended::Complete,
        _ => *dice.of(&[Ended::Incomplete, Ended::Abandoned, Ended::NotFitToGo]),
    };
    Act::End {
        outcome,
        words: words(dice),
    }
}

pub(crate) fn words(dice: &mut Dice) -> String {
    (*dice.of(&WORDS)).to_owned()
}

/// What is not an answer to what is asked.
fn aside(walk: &Walk, dice: &mut Dice) -> Option<Act> {
    let (words, who) = (words(dice), (*dice.of(&READERS)).to_owned());
    let doer = (*dice.of(&DOERS)).to_owned();
    Some(match dice.below(100) {
        0..3 => Act::Note { words },
        3..6 => Act::Hold {
            why: words,
            next: String::new(),
        },
        6..8 => Act::HandOver { reader: who, doer },
        8..10 => Act::Unsure { words },
        10..13 => Act::Correct {
            step: walk.plan().steps()[done(walk, dice)?].key.clone(),
            words,
        },
        13..15 => Act::Defer { words },
        15 => end(walk, dice),
        // What is not legal here is refused, and nothing is written.
        16 => Act::TakeUp,
        17 => Act::CloseSection,
        18 => Act::Note {
            words: "two\nlines".to_owned(),
        },
        _ => return None,
    })
}

fn done(walk: &Walk, dice: &mut Dice) -> Option<usize> {
    let steps = walk.steps().iter().enumerate();
    let done: Vec<usize> = steps
        .filter(|(_, step)| matches!(step.status, Status::Done(_)))
        .map(|(index, _)| index)
        .collect();
    (!done.is_empty()).then(|| *dice.of(&done))
}

fn answer(walk: &Walk, planned: &PlannedStep, dice: &mut Dice) -> Act {
    let second = *DOERS.iter().find(|who| !walk.is_walked_by(who)).unwrap();
    let hasty = dice.in_hundred(15);
    match &planned.ask {
        PlannedAsk::Sighting(ask) if hasty => Act::See {
            state: state(ask, dice),
        },
        PlannedAsk::Independent(ask) if hasty => Act::SeeAs {
            who: (*dice.of(&DOERS)).to_owned(),
            state: state(ask, dice),
        },
        PlannedAsk::Reading { open, .. } if hasty || !open.is_empty() => {
            reading(walk, planned, second, dice)
        }
        _ => good::good(walk.plan(), planned, second).act().clone(),
    }
}

fn state(ask: &SightingAsk, dice: &mut Dice) -> String {
    dice.of(&ask.states).id.clone()
}

/// A reading near one of the limits, or anywhere plausible, by any instrument of its kind.
fn reading(walk: &Walk, planned: &PlannedStep, second: &str, dice: &mut Dice) -> Act {
    let PlannedAsk::Reading {
        ask,
        limits,
        target,
        ..
    } = &planned.ask
    else {
        return Act::Open;
    };
    let (low, high) = &ask.plausible;
    let mut near: Vec<&Quantity> = vec![low, high];
    near.extend(target);
    near.extend(limits.iter().map(|limit| &limit.bound));
    let share = Exact::ratio(*dice.of(&[9, 10, 10, 11, 20]), 10).unwrap();
    let value = dice.of(&near).times(&share);
    let rounded = Exact::parse_decimal(&value.value.rounded(1)).unwrap();
    let typed = Quantity::new(rounded, value.unit).to_string();
    let tools = planned.tools(walk.plan().rig());
    let instrument = if tools.is_empty() {
        "none".to_owned()
    } else {
        dice.of(&tools).instrument.id.clone()
    };
    if ask.second {
        let who = second.to_owned();
        return Act::ReadAs {
            who,
            typed,
            instrument,
        };
    }
    Act::Read { typed, instrument }
}

fn branch(walk: &Walk, index: usize, dice: &mut Dice) -> Act {
    let Some(Status::Bad { branch, .. }) = walk.steps().get(index).map(|step| &step.status) else {
        return Act::Open;
    };
    let ends = walk.plan().branch(branch).map(|branch| branch.ends);
    if ends == Some(Ending::NotFitToGo) {
        return Act::End {
            outcome: Ended::NotFitToGo,
            words: words(dice),
        };
    }
    Act::PutRight { words: words(dice) }
}
