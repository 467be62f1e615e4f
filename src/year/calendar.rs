//! The year as it goes, day after day: hauls of three to seven walks, and what belongs to none.

use crate::checklist::Plan;
use crate::haul::Past;
use crate::rules::Carried;
use crate::shown::Dice;
use crate::year::days::{Day, days};
use crate::year::next::Memory;
use crate::year::people::{Person, Work};
use crate::year::trip::Trip;
use crate::year::truth::Truth;
use crate::year::weather::Weather;
use crate::year::{Barn, TRIPS};
use chrono::{DateTime, FixedOffset};
use std::collections::HashMap;
use std::sync::Arc;

/// Midnight before the first day of the year.
const FIRST_DAY: &str = "2025-11-24T00:00:00-05:00";

/// Hauls at the end of the year on which nothing goes wrong, so that the number of walks comes out.
const CALM: usize = 6;

pub(super) const MINUTE: i64 = 60_000;
pub(super) const DAY: i64 = 1440 * MINUTE;

/// A year under way.
pub(super) struct Year<'b> {
    pub(super) barn: &'b Barn,
    pub(super) dice: Dice,
    pub(super) weather: Weather,
    pub(super) truths: Vec<Truth>,
    pub(super) pasts: Vec<Vec<Past>>,
    pub(super) plans: HashMap<(usize, usize, Vec<Carried>), Option<Arc<Plan>>>,
    pub(super) memory: Memory,
    pub(super) trips: Vec<Trip>,
    pub(super) left: usize,
    /// How many wheels were changed on the road.
    pub(super) changed: usize,
    pub(super) first: DateTime<FixedOffset>,
}

/// A day's work with one rig.
#[derive(Clone, Debug)]
pub(super) struct Outing {
    pub(super) rig: usize,
    pub(super) driver: &'static Person,
    pub(super) groom: &'static Person,
    pub(super) laptop: usize,
    pub(super) calm: bool,
    /// Milliseconds since the year began, and when the outing began.
    pub(super) at: i64,
    pub(super) since: i64,
    pub(super) driven: f64,
    pub(super) off: Option<String>,
}

impl<'b> Year<'b> {
    pub(super) fn new(barn: &'b Barn, seed: u64) -> Self {
        let mut dice = Dice::new(seed);
        let weather = Weather::thrown(&mut dice);
        let truths = barn.rigs.iter().map(|rig| Truth::of(rig, &mut dice));
        Self {
            truths: truths.collect(),
            pasts: vec![Vec::new(); barn.rigs.len()],
            barn,
            dice,
            weather,
            plans: HashMap::new(),
            memory: Memory::default(),
            trips: Vec::new(),
            left: 0,
            changed: 0,
            first: DateTime::parse_from_rfc3339(FIRST_DAY).unwrap_or_default(),
        }
    }

    pub(super) fn walked(mut self, trips: usize) -> Vec<Trip> {
        let days = days(&mut self.dice);
        for (number, day) in days.iter().enumerate() {
            if self.trips.len() >= trips {
                break;
            }
            let rest = days.get(number + 1..).unwrap_or_default();
            let hauls = rest.iter().filter(|day| matches!(day, Day::Haul(_)));
            let hauls = hauls.count();
            let apart = rest.iter().filter(|day| matches!(day, Day::Apart(..)));
            let wanted = TRIPS.saturating_sub(self.trips.len() + apart.count());
            let at = i64::try_from(number).unwrap_or(0) * DAY;
            match day {
                Day::Free => {}
                Day::Haul(rig) => self.hauls((*rig, at), hauls, wanted),
                Day::Apart(rig, list) => self.works(*rig, at, list),
            }
        }
        self.trips.truncate(trips);
        self.trips
    }

    /// How many walks have gone before.
    pub(super) fn so_far(&self) -> usize {
        self.trips.len()
    }

    /// People and laptop for a day's work.
    pub(super) fn outing(&mut self, rig: usize, day: i64, calm: bool) -> Outing {
        let at = day + 350 * MINUTE + i64::try_from(self.dice.below(150)).unwrap_or(0) * MINUTE;
        let one = |work, dice: &mut Dice| {
            let all = Person::doing(work);
            dice.of(&all).copied().unwrap_or(Person::first())
        };
        Outing {
            rig,
            driver: one(Work::Driver, &mut self.dice),
            groom: one(Work::Groom, &mut self.dice),
            laptop: rig,
            calm,
            at,
            since: at,
            driven: 0.0,
            off: None,
        }
    }

    fn works(&mut self, rig: usize, day: i64, list: &str) {
        let mut outing = self.outing(rig, day, true);
        // What a service or a match finds is put right while it goes on.
        outing.calm = false;
        outing.at += 120 * MINUTE;
        self.walk(&mut outing, list);
        if list == "season-service"
            && let Some(truth) = self.truths.get_mut(rig)
        {
            truth.serviced();
        }
    }

    fn hauls(&mut self, (rig, day): (usize, i64), hauls: usize, wanted: usize) {
        let mut outing = self.outing(rig, day, hauls < CALM);
        let size = self.size(hauls, wanted);
        self.goes(&mut outing, size);
    }

    /// How many walks a haul has, so that the year comes out.
    fn size(&mut self, hauls: usize, wanted: usize) -> usize {
        let (each, over) = (wanted / (hauls + 1), wanted % (hauls + 1));
        let die = |dice: &mut Dice, end: usize| {
            usize::try_from(dice.below(u64::try_from(end).unwrap_or(1))).unwrap_or(0)
        };
        let one_more = usize::from(die(&mut self.dice, hauls + 1) < over);
        let size = if hauls == 0 { wanted } else { each + one_more };
        let spread = if hauls < CALM {
            0
        } else {
            die(&mut self.dice, 3)
        };
        (size + spread)
            .saturating_sub(usize::from(hauls >= CALM))
            .clamp(2, 8)
    }
}
