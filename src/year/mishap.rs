//! What goes otherwise than it should: something is found bad, somebody is called away, an answer
//! was wrong. So many times in ten thousand, each.

use crate::checklist::{Ending, Plan, SightingAsk, State};
use crate::rules::Verdict;
use crate::shown::Dice;
use crate::walk::{Act, Now, Status, Walk};
use crate::year::people::{PEOPLE, Work};

const FIX: u64 = 45;
const STOP: u64 = 9;
/// Of a step that can end a walk.
const NOT_FIT: u64 = 30;
const NOTE: u64 = 40;

/// Of one step.
const HELD: u64 = 28;
const NOTED: u64 = 12;
const CORRECTED: u64 = 11;
const UNSURE: u64 = 5;
const HANDED_OVER: u64 = 5;
const PUT_OFF: u64 = 700;

/// What is said of a note that the manager then sees to.
pub const ORDERS_THE_PART: &str = "told to Odile Marsh, who orders the part";

pub(super) const REMARKS: [&str; 4] = [
    "seen, and to be looked at again on Friday",
    "known; it holds until the next service",
    ORDERS_THE_PART,
    "as it was last week; to be closed by the end of the month",
];

pub(super) const PUT_RIGHT: [&str; 4] = [
    "put right and looked at once more",
    "taken apart, cleaned and put back",
    "tightened and tried by hand",
    "changed for the one in the tack room",
];

const HELD_FOR: [&str; 4] = [
    "the vet called",
    "a horse was loose in the yard",
    "the farrier came",
    "rain; the tools were carried in",
];

const NOTES: [&str; 3] = [
    "mud on the left steps",
    "the ramp spring squeaks",
    "a new hay net was hung",
];

const WRONG: [&str; 3] = [
    "the other wheel was meant",
    "typed before it was looked at",
    "read again in better light",
];

/// What is done in the place of what is next, where something comes between.
pub(super) fn aside(walk: &Walk, dice: &mut Dice) -> Option<Act> {
    let thrown = dice.below(10_000);
    let Now::Next(index) = walk.now() else {
        return None;
    };
    let put_off = walk.plan().steps().get(index)?.step.deferrable.is_some();
    if put_off && dice.in_myriad(PUT_OFF) {
        let words = "it is done when the lamps are looked at".to_owned();
        return Some(Act::Defer { words });
    }
    let pick = |words: &[&'static str], dice: &mut Dice| {
        dice.of(words).copied().unwrap_or_default().to_owned()
    };
    let marks = [HELD, NOTED, CORRECTED, UNSURE, HANDED_OVER];
    let mut sum = 0;
    let which = marks.iter().position(|mark| {
        sum += mark;
        thrown < sum
    })?;
    Some(match which {
        0 => Act::Hold {
            why: pick(&HELD_FOR, dice),
            next: String::new(),
        },
        1 => Act::Note {
            words: pick(&NOTES, dice),
        },
        2 => Act::Correct {
            step: walk.plan().steps().get(last_done(walk)?)?.key.clone(),
            words: pick(&WRONG, dice),
        },
        3 => Act::Unsure {
            words: "whether this pin is the right one".to_owned(),
        },
        _ => {
            let grooms = PEOPLE.iter().filter(|one| one.work == Work::Groom);
            let mut others = grooms.filter(|one| !walk.is_walked_by(one.name));
            Act::HandOver {
                reader: walk.reader().to_string(),
                doer: others.next()?.name.to_owned(),
            }
        }
    })
}

fn last_done(walk: &Walk) -> Option<usize> {
    let (index, _) = walk.last_done()?;
    let done = walk.steps().get(index)?;
    matches!(done.status, Status::Done(_)).then_some(index)
}

/// What is seen at a step: the state that is well, and seldom another. Where the walk must not end
/// by it, none that ends it.
pub(super) fn seen<'a>(
    plan: &Plan,
    ask: &'a SightingAsk,
    may_end: bool,
    dice: &mut Dice,
) -> Option<&'a State> {
    let ends = |state: &State| {
        let branch = state.branch.as_ref().and_then(|id| plan.branch(id));
        branch.is_some_and(|branch| branch.ends == Ending::NotFitToGo)
    };
    let last = ask.states.iter().find(|state| ends(state));
    if may_end && last.is_some() && dice.in_myriad(NOT_FIT) {
        return last;
    }
    let thrown = dice.below(10_000);
    let wanted = match thrown {
        _ if thrown < STOP => Verdict::Stop,
        _ if thrown < STOP + FIX => Verdict::Fix,
        _ if thrown < STOP + FIX + NOTE => Verdict::Note,
        _ => return well(ask),
    };
    let mut states = ask.states.iter();
    let found =
        states.find(|state| state.verdict == wanted && state.leaves.is_none() && !ends(state));
    found.or_else(|| well(ask))
}

/// The first state that is well and leaves nothing, else the first that is well.
pub(super) fn well(ask: &SightingAsk) -> Option<&State> {
    let mut states = ask
        .states
        .iter()
        .filter(|state| state.verdict == Verdict::Ok);
    let first = states.next();
    let plain = first.filter(|state| state.leaves.is_none());
    plain
        .or_else(|| states.find(|state| state.leaves.is_none()))
        .or(first)
}
