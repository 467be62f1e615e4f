//! What befalls a laptop: power, a disk that refuses, a program killed, time, a second window.

use super::Day;
use crate::sim::barn::place;
use crate::sim::law::broken;
use crate::store::pretend::{Fate, Trouble};
use chrono::TimeDelta;
use hames::cli::clerk::Clerk;
use hames::desk::{Errand, Reply};
use std::io::ErrorKind;

impl Day {
    /// Power goes at one of the next calls of the disk.
    pub(super) fn power_goes(&mut self, at: usize) {
        let trouble = *self.dice.of(&[Trouble::StopsBefore, Trouble::StopsAfter]);
        self.trouble(at, trouble);
    }

    /// The disk fails at one of the next calls, or is full or read-only from then on.
    pub(super) fn the_disk_refuses(&mut self, at: usize) {
        let kinds = [
            ErrorKind::Other,
            ErrorKind::StorageFull,
            ErrorKind::ReadOnlyFilesystem,
        ];
        let kind = *self.dice.of(&kinds);
        let trouble = match self.dice.below(3) {
            0 => Trouble::Refuses(kind),
            1 => Trouble::RefusesChanges(kind),
            _ => Trouble::WritesHalf,
        };
        self.trouble(at, trouble);
    }

    fn trouble(&mut self, at: usize, trouble: Trouble) {
        let calls = usize::try_from(self.dice.below(60)).unwrap();
        self.tell(at, &format!("in {calls} calls {trouble:?}"));
        self.laptops[at].disk.trouble_after(calls, trouble);
        self.mishaps += 1;
    }

    /// Power is back: what is left of the disk holds all that was told.
    pub(super) fn comes_back(&mut self, at: usize) {
        let fate = match self.dice.below(8) {
            0 => Fate::Lost,
            1 => Fate::Kept,
            2 => Fate::Half,
            3 => Fate::OtherHalf,
            _ => Fate::Lots(self.dice.throw()),
        };
        self.tell(at, &format!("power went, {fate:?}"));
        self.laptops[at].lose_power(fate);
        self.laptops[at].hold_to(&self.laptops[at].disk);
        if self.dice.in_hundred(30) {
            self.is_well(at, false);
        }
    }

    pub(super) fn is_killed(&mut self, at: usize) {
        self.tell(at, "the program is killed");
        let laptop = &mut self.laptops[at];
        laptop.close();
        laptop.disk = laptop.disk.after_death();
        self.mishaps += 1;
    }

    /// Somebody is called away, sleeps, sets the clock, or shuts the laptop down.
    pub(super) fn time_goes(&mut self, at: usize) {
        const HOUR: u32 = 3_600_000;
        let hours = i64::try_from(self.dice.below(50)).unwrap() - 25;
        let world = &self.laptops[at].world;
        match self.dice.below(4) {
            0 => world.pass(HOUR / 4),
            1 => world.pass(9 * HOUR),
            2 => world.set(TimeDelta::hours(hours)),
            _ => self.laptops[at].lose_power(Fate::Kept),
        }
        self.tell(at, "time goes by");
    }

    /// A second window may look, and may not write while the first has a walk in hand.
    pub(super) fn a_second_window(&mut self, at: usize) {
        let laptop = &self.laptops[at];
        let Some(hand) = &laptop.in_hand else { return };
        if laptop.disk.is_troubled() {
            return;
        }
        let (disk, world) = (laptop.disk.clone(), laptop.world.clone());
        let mut second = Clerk::new(disk, world, place(), self.stock.clone());
        let trip = hand.folder.path.file_name().unwrap().to_str().unwrap();
        let trip = trip.to_owned();
        match second.perform(Errand::TakeUp { trip }) {
            Reply::Cannot(sentence) if sentence.contains("Another window") => {}
            other => broken(&format!("a second window took the walk: {other:?}")),
        }
        self.tell(at, "a second window is shut out");
    }
}
