//! A haul: which walks it has, in which order, and the miles between them.

use crate::year::calendar::{Outing, Year};
use crate::year::people::Habit;

const MINUTE: i64 = 60_000;

/// The hauls on which a wheel is changed on the road: the first with this many walks before it.
const WHEEL_CHANGES: [usize; 3] = [96, 275, 440];

/// The wheels that come off there.
const OFF: [&str; 3] = ["left-front", "right-rear", "right-front"];

impl Year<'_> {
    /// Hitched up, gone and come back.
    pub(super) fn goes(&mut self, outing: &mut Outing, size: usize) {
        for list in self.lists(outing, size) {
            let miles = match list {
                "first-stop" => self.dice.between(17, 38),
                "stop" => self.dice.between(50, 105),
                "wheel-change" => self.dice.between(8, 40),
                "arrive" => self.dice.between(30, 85),
                "unhitch" => self.dice.between(6, 20),
                _ => 0,
            };
            let miles = u32::try_from(miles).unwrap_or(0);
            if let Some(truth) = self.truths.get_mut(outing.rig) {
                truth.drive(f64::from(miles));
            }
            outing.driven = f64::from(miles);
            // A truck with a trailer makes about forty-five miles in an hour.
            let pause = i64::try_from(self.dice.between(3, 11)).unwrap_or(3);
            outing.at += (i64::from(miles) * 4 / 3 + pause) * MINUTE;
            let own = outing.laptop;
            let elsewhere = outing.driver.habit == Habit::OtherLaptop
                && matches!(list, "arrive" | "unhitch")
                && self.dice.in_myriad(3000);
            if elsewhere {
                outing.laptop = (own + 1) % crate::year::LAPTOPS;
            }
            let goes_on = self.walk(outing, list);
            outing.laptop = own;
            if !goes_on {
                return;
            }
        }
    }

    fn lists(&mut self, outing: &mut Outing, size: usize) -> Vec<&'static str> {
        let hitch = if outing.rig == 1 {
            "hitch-gooseneck"
        } else {
            "hitch-bumper"
        };
        let next = WHEEL_CHANGES.iter().zip(OFF).nth(self.changed);
        let changes = next.filter(|(from, _)| self.so_far() >= **from && size >= 5);
        let mut likely = |list: &'static str, more: u64| (self.dice.below(100) + more, list);
        let mut maybe = [
            likely("load-horses", 30),
            likely("unhitch", 25),
            likely("arrive", 10),
            likely("first-stop", 5),
            likely("stop", 0),
        ];
        // The likeliest first; a haul of few walks leaves the others out.
        maybe.sort_unstable();
        maybe.reverse();
        let mut all = vec![hitch, "departure"];
        if let Some((_, wheel)) = changes {
            outing.off = Some(wheel.to_owned());
            self.changed += 1;
            all.push("wheel-change");
        }
        all.extend(maybe.map(|(_, list)| list));
        all.extend(["stop", "stop"]);
        all.truncate(size);
        let place = |list: &&str| match *list {
            "load-horses" => 1,
            "departure" => 2,
            "first-stop" => 3,
            "wheel-change" => 4,
            "stop" => 5,
            "arrive" => 6,
            "unhitch" => 7,
            _ => 0,
        };
        all.sort_by_key(place);
        all
    }
}
