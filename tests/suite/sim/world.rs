//! A laptop's clock and dice that a test holds: it goes fast or slow, is set back, sleeps, starts.

use super::dice::Dice;
use chrono::{DateTime, FixedOffset, TimeDelta};
use hames::walk::Moment;
use hames::world::{NoRandomness, World};
use std::cell::RefCell;
use std::rc::Rc;

/// The world of one laptop. Clones are the same world.
#[derive(Clone, Debug)]
pub(crate) struct Given(Rc<RefCell<State>>);

#[derive(Clone, Debug)]
struct State {
    wall: DateTime<FixedOffset>,
    /// Milliseconds too many in each 1000 seconds.
    drift: i64,
    laptop: String,
    start: u32,
    mono_ms: u64,
    dice: Dice,
}

impl Given {
    /// A laptop just started, on the morning every test begins on.
    pub(crate) fn new(laptop: &str, seed: u64) -> Self {
        let mut dice = Dice::new(seed);
        let drift = i64::try_from(dice.below(400)).unwrap() - 200;
        let morning = DateTime::parse_from_rfc3339("2026-11-25T07:30:00-05:00").unwrap();
        // No two clocks agree.
        let skew = i64::try_from(dice.below(1200)).unwrap() - 600;
        Self(Rc::new(RefCell::new(State {
            wall: morning + TimeDelta::seconds(skew),
            drift,
            laptop: laptop.to_owned(),
            start: 1,
            mono_ms: 20_000,
            dice,
        })))
    }

    /// Another world that goes on from here in the same way.
    pub(crate) fn twin(&self) -> Self {
        Self(Rc::new(RefCell::new(self.0.borrow().clone())))
    }

    /// Time goes by, awake or asleep.
    pub(crate) fn pass(&self, ms: u32) {
        let state = &mut *self.0.borrow_mut();
        state.mono_ms += u64::from(ms);
        let ms = i64::from(ms);
        state.wall += TimeDelta::milliseconds(ms + ms * state.drift / 1_000_000);
    }

    /// The wall clock is set by hand; the count since the start goes on.
    pub(crate) fn set(&self, by: TimeDelta) {
        self.0.borrow_mut().wall += by;
    }

    /// The laptop is started anew.
    pub(crate) fn start(&self) {
        let state = &mut *self.0.borrow_mut();
        state.start += 1;
        state.mono_ms = 20_000;
    }
}

impl World for Given {
    fn now(&self) -> Moment {
        self.pass(7);
        let state = self.0.borrow();
        Moment {
            wall: state.wall,
            boot: format!("{}, start {}", state.laptop, state.start),
            mono_ms: state.mono_ms,
        }
    }

    fn fill(&self, bytes: &mut [u8]) -> Result<(), NoRandomness> {
        self.0.borrow_mut().dice.bytes(bytes);
        Ok(())
    }
}
