//! What is to be done on each day of the year: more hauls in summer, and what belongs to no haul.

use crate::shown::Dice;
use std::f64::consts::TAU;

/// Days of the year.
pub(super) const DAYS: u16 = 365;

/// About how many hauls it has.
const HAULS: f64 = 119.0;

/// What a day is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Day {
    /// Nothing of ours.
    Free,
    /// A haul with this rig.
    Haul(usize),
    /// One list that belongs to no haul, with this rig.
    Apart(usize, &'static str),
}

/// The days set in advance: the rig, the list.
const SET: [(u16, usize, &str); 10] = [
    (2, 0, "rig-match"),
    (4, 1, "rig-match"),
    (6, 2, "rig-match"),
    (20, 1, "storage-in"),
    (84, 0, "season-service"),
    (104, 1, "storage-out"),
    (110, 1, "season-service"),
    (122, 2, "season-service"),
    (201, 0, "rig-match"),
    (352, 2, "storage-in"),
];

/// Every day of the year.
pub(super) fn days(dice: &mut Dice) -> Vec<Day> {
    let mut days: Vec<Day> = Vec::new();
    let mut owed = 0.0;
    for day in 0..DAYS {
        let season = libm::cos((f64::from(day) - 220.0) / 365.0 * TAU);
        owed += HAULS / f64::from(DAYS) * (1.0 + 0.45 * season);
        let set = SET.iter().find(|(on, ..)| *on == day);
        days.push(match set {
            Some((_, rig, list)) => Day::Apart(*rig, list),
            None if owed >= 1.0 => {
                owed -= 1.0;
                Day::Haul(rig(day, dice))
            }
            None => Day::Free,
        });
    }
    // Before every third haul somebody sits down to papers, weather and the way.
    let next: Vec<Day> = days.iter().skip(1).copied().collect();
    let mut hauls = 0_u32;
    for (day, next) in days.iter_mut().zip(next) {
        if let Day::Haul(rig) = next {
            hauls += 1;
            if hauls.is_multiple_of(3) && *day == Day::Free {
                *day = Day::Apart(rig, "days-before");
            }
        }
    }
    days
}

/// The gooseneck stands through the winter, and the year's own rig goes to rest near its end.
fn rig(day: u16, dice: &mut Dice) -> usize {
    let thrown = match dice.below(100) {
        0..40 => 0,
        40..64 => 1,
        _ => 2,
    };
    let rests = match thrown {
        1 => (20..=110).contains(&day),
        2 => day >= 352,
        _ => false,
    };
    if rests { 0 } else { thrown }
}
