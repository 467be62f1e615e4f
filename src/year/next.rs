//! A walk under way: what its people do next, and how long that takes.

use crate::checklist::Ending;
use crate::shown::Dice;
use crate::units::Quantity;
use crate::walk::{Act, Ended, Entry, Event, Moment, Now, Status, Walk};
use crate::year::people::Person;
use crate::year::truth::Truth;
use crate::year::weather::Weather;
use crate::year::{mishap, pace};
use chrono::TimeDelta;
use std::collections::HashMap;

/// What was last typed at a step of a rig, and what is known to be well there.
#[derive(Clone, Debug, Default)]
pub(super) struct Memory {
    pub(super) typed: HashMap<String, (String, String)>,
    pub(super) sound: HashMap<String, (Quantity, String)>,
}

/// How a walk goes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Manner {
    /// Whether nothing comes between and nothing is bad.
    pub(super) calm: bool,
    /// Whether it may end as not fit to go.
    pub(super) may_end: bool,
    /// Whether it was typed up from the seat of the truck.
    pub(super) typed_up: bool,
    /// After how many steps it is left and never ended.
    pub(super) left_after: Option<usize>,
}

/// A walk under way.
#[derive(Debug)]
pub(super) struct Going<'y> {
    pub(super) walk: Walk,
    pub(super) at: Moment,
    pub(super) entries: Vec<Entry>,
    pub(super) who: &'static Person,
    pub(super) manner: Manner,
    pub(super) truth: &'y mut Truth,
    pub(super) weather: &'y Weather,
    pub(super) memory: &'y mut Memory,
    pub(super) dice: &'y mut Dice,
    /// The day of the year and the part of it when it began.
    pub(super) time: f64,
    pub(super) hours: f64,
    pub(super) driven: f64,
    /// The wheel that comes off, on a list that takes one off.
    pub(super) off: Option<String>,
}

/// More acts than any walk has.
const MOST_ACTS: usize = 4000;

impl Going<'_> {
    /// Walks to its end, or to where it is left.
    pub(super) fn walks(&mut self) {
        for _ in 0..MOST_ACTS {
            let left = self.manner.left_after;
            if left.is_some_and(|steps| self.entries.len() > 2 * steps)
                || self.walk.ended().is_some()
            {
                return;
            }
            let act = self.aside().or_else(|| self.next());
            let act = act.unwrap_or_else(|| end(Ended::Incomplete, "it could not be gone on with"));
            if !self.does(&act) {
                // What was thrown is refused here; what is next is done instead.
                let next = self.next();
                if !next.is_some_and(|act| self.does(&act)) {
                    self.does(&end(Ended::Incomplete, "it could not be gone on with"));
                }
            }
        }
    }

    fn aside(&mut self) -> Option<Act> {
        if self.manner.calm || self.manner.typed_up || self.manner.left_after.is_some() {
            return None;
        }
        mishap::aside(&self.walk, self.dice)
    }

    fn does(&mut self, act: &Act) -> bool {
        let Ok(event) = self.walk.decide(act, &self.at) else {
            return false;
        };
        let actor = self.walk.reader().clone();
        let at = self.at.clone();
        if let Event::Answered { step, .. } = &event {
            self.takes_off(step.as_str(), act);
        }
        let entry = Entry { at, actor, event };
        self.walk.apply(&entry);
        self.entries.push(entry);
        true
    }

    /// A wheel that was off begins to settle.
    fn takes_off(&mut self, step: &str, act: &Act) {
        let (name, part) = step.split_once('/').unwrap_or((step, ""));
        if let Act::See { state } = act
            && (state == "was-off" || name == "wheel-on")
        {
            let loses = 0.06 + 0.16 * self.dice.share();
            self.truth.wheel_off(Some(part), loses);
        }
    }

    pub(super) fn passes(&mut self, ms: u64) {
        let delta = TimeDelta::milliseconds(i64::try_from(ms).unwrap_or(0));
        self.at.wall += delta;
        self.at.mono_ms += ms;
        self.time += delta.as_seconds_f64() / 86_400.0;
    }

    fn next(&mut self) -> Option<Act> {
        Some(match self.walk.now() {
            Now::Next(_) => {
                let ms = pace::on_the_way(self.manner.typed_up, self.dice);
                self.passes(ms);
                Act::Open
            }
            Now::Open(index) => self.answer(index)?,
            Now::Branch(index) => self.branch(index)?,
            Now::Remark(_) => {
                self.takes(12, 40);
                let words = self.dice.of(&mishap::REMARKS).copied()?.to_owned();
                Act::Remark { words }
            }
            Now::SectionEnd(_) => {
                self.takes(3, 9);
                Act::CloseSection
            }
            Now::Held => {
                self.takes(45, 900);
                Act::Resume
            }
            Now::Unsure => {
                self.takes(60, 400);
                let words = "Odile Marsh was asked, and showed which one".to_owned();
                Act::Settle { words }
            }
            Now::Finished => {
                self.takes(3, 12);
                end(Ended::Complete, "")
            }
            Now::Ended(_) => return None,
        })
    }

    fn takes(&mut self, low: u64, high: u64) {
        let ms = self.dice.between(low * 1000, high * 1000);
        self.passes(ms);
    }

    fn branch(&mut self, index: usize) -> Option<Act> {
        self.takes(90, 480);
        let Status::Bad { branch, .. } = &self.walk.steps().get(index)?.status else {
            return None;
        };
        let ends = self.walk.plan().branch(branch)?.ends;
        if ends == Ending::NotFitToGo {
            return Some(end(Ended::NotFitToGo, "it stays here until this is mended"));
        }
        let words = self.dice.of(&mishap::PUT_RIGHT).copied()?.to_owned();
        Some(Act::PutRight { words })
    }
}

fn end(outcome: Ended, words: &str) -> Act {
    let words = words.to_owned();
    Act::End { outcome, words }
}
