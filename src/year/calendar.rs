//! The year as it goes, day after day: hauls of three to seven walks, and what belongs to none.

use crate::checklist::{Haul, Plan};
use crate::haul::{Past, Standing, Told, fold};
use crate::rules::Carried;
use crate::units::{Dimension, Typed};
use crate::walk::{Ended, Moment, Walk, Words};
use crate::year::days::{Day, days};
use crate::year::dice::Dice;
use crate::year::next::{Going, Manner, Memory};
use crate::year::people::{Habit, Person, Work};
use crate::year::trip::{Left, Look, Trip};
use crate::year::truth::Truth;
use crate::year::weather::Weather;
use crate::year::{Barn, TRIPS};
use chrono::{DateTime, FixedOffset, TimeDelta};
use std::collections::HashMap;
use std::sync::Arc;

/// Midnight before the first day of the year.
const FIRST_DAY: &str = "2025-11-24T00:00:00-05:00";

/// So many of a rig's newest walks say what stands open, as when a walk is begun.
const LOOKED_BACK: usize = 100;

/// Hauls at the end of the year on which nothing goes wrong, so that the number of walks comes out.
const CALM: usize = 6;

/// The trips that nobody ended or signed: the first such list from this trip on.
const LEFT: [(usize, &str, usize); 2] = [(77, "arrive", 9), (412, "days-before", 31)];

const MINUTE: i64 = 60_000;
const DAY: i64 = 1440 * MINUTE;

/// A year under way.
pub(super) struct Year<'b> {
    barn: &'b Barn,
    pub(super) dice: Dice,
    weather: Weather,
    pub(super) truths: Vec<Truth>,
    pasts: Vec<Vec<Past>>,
    plans: HashMap<(usize, usize, Vec<Carried>), Option<Arc<Plan>>>,
    memory: Memory,
    trips: Vec<Trip>,
    left: usize,
    /// How many wheels were changed on the road.
    pub(super) changed: usize,
    first: DateTime<FixedOffset>,
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

    pub(super) fn walked(mut self) -> Vec<Trip> {
        let days = days(&mut self.dice);
        for (number, day) in days.iter().enumerate() {
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
        let spread = if hauls < CALM { 0 } else { die(&mut self.dice, 3) };
        (size + spread).saturating_sub(usize::from(hauls >= CALM)).clamp(2, 8)
    }

    /// One walk. Whether the next can follow: it was walked, and did not end badly.
    pub(super) fn walk(&mut self, outing: &mut Outing, list: &str) -> bool {
        let known = self.barn.lists.iter().position(|known| known.id == list);
        let Some(list_at) = known else {
            return false;
        };
        let rig = outing.rig;
        let past = self.pasts.get(rig).map(Vec::as_slice).unwrap_or_default();
        let newest = past.get(past.len().saturating_sub(LOOKED_BACK)..);
        let id = self.barn.rigs.get(rig).map(|rig| rig.id.as_str());
        let standing = fold(id.unwrap_or_default(), newest.unwrap_or_default());
        let Some(plan) = self.plan(rig, list_at, standing.carried()) else {
            return false;
        };
        if !standing.bars(&plan).is_empty() || standing.wants_hitching(&plan).is_some() {
            return false;
        }
        self.begins(outing, list_at, plan, &standing)
    }

    fn plan(&mut self, rig: usize, list: usize, carried: Vec<Carried>) -> Option<Arc<Plan>> {
        let key = (rig, list, carried);
        if let Some(known) = self.plans.get(&key) {
            return known.clone();
        }
        let (rig, list) = (self.barn.rigs.get(rig)?, self.barn.lists.get(list)?);
        let plan = Plan::lay_for(list.clone(), rig.clone(), key.2.clone());
        let plan = plan.ok().map(Arc::new);
        self.plans.insert(key, plan.clone());
        plan
    }

    fn begins(
        &mut self,
        outing: &mut Outing,
        list: usize,
        plan: Arc<Plan>,
        standing: &Standing,
    ) -> bool {
        let number = self.trips.len();
        let id = trip_id(&mut self.dice);
        let (haul, title) = (plan.checklist().haul, plan.checklist().id.clone());
        let (reader, doer) = if self.dice.below(10) < 6 {
            (outing.driver, outing.groom)
        } else {
            (outing.groom, outing.driver)
        };
        let (Ok(reads), Ok(does)) = (Words::read(reader.name), Words::read(doer.name)) else {
            return false;
        };
        let left_after = LEFT.get(self.left).filter(|(from, list, _)| {
            number >= *from && title == *list
        });
        let left_after = left_after.map(|(_, _, steps)| *steps);
        self.left += usize::from(left_after.is_some());
        let manner = Manner {
            calm: outing.calm,
            may_end: haul == Haul::Begins && !outing.calm,
            typed_up: reader.habit == Habit::Quick
                && haul != Haul::Apart
                && self.dice.in_myriad(1100),
            left_after,
        };
        let began = self.moment(outing);
        let time = days_of(outing.at);
        let Some(truth) = self.truths.get_mut(outing.rig) else {
            return false;
        };
        truth.until(time);
        let miles = format!("{:.0} mi", truth.odometer);
        let odometer = (haul == Haul::Begins).then_some(miles);
        let mut going = Going {
            walk: Walk::begin(Arc::clone(&plan), reads.clone(), does.clone(), began.clone()),
            at: began.clone(),
            entries: Vec::new(),
            who: reader,
            manner,
            truth,
            weather: &self.weather,
            memory: &mut self.memory,
            dice: &mut self.dice,
            time,
            hours: days_of(outing.at - outing.since) * 24.0,
            driven: outing.driven,
            off: outing.off.clone(),
        };
        going.walks();
        let Going { walk, entries, at, .. } = going;
        outing.at += at.wall.signed_duration_since(began.wall).num_milliseconds();
        let ended = walk.ended();
        let signed = ended.map(|_| self.signs(outing, &walk, at));
        let look = self.look(signed.is_some(), ended, manner.typed_up);
        let typed = odometer.as_ref();
        let typed = typed.and_then(|typed| Typed::read(typed, Dimension::Length).ok());
        let told = Told {
            trip: id.clone(),
            odometer: typed.map(|typed| typed.quantity().clone()),
            signed: signed.is_some(),
        };
        if let Some(pasts) = self.pasts.get_mut(outing.rig) {
            pasts.push(Past::of(&walk, &entries, told));
        }
        let left = |open: &crate::haul::Open| Left {
            carried: open.carried.clone(),
            since: open.since.trip.clone(),
        };
        let going = standing.haul.as_ref().map(|going| going.trip.clone());
        self.trips.push(Trip {
            haul: match haul {
                Haul::Begins => Some(id.clone()),
                Haul::During | Haul::Ends => going,
                Haul::Apart => None,
            },
            carried: standing.open.iter().map(left).collect(),
            id,
            laptop: outing.laptop,
            rig: outing.rig,
            list,
            plan,
            odometer,
            reader: reads,
            doer: does,
            began,
            entries,
            walk,
            signed,
            look,
            typed_up: manner.typed_up,
        });
        ended == Some(Ended::Complete) || ended.is_none()
    }

    /// The driver signs, or whoever has the walk at its end.
    fn signs(&mut self, outing: &mut Outing, walk: &Walk, ended: Moment) -> (&'static Person, Moment) {
        let wait = i64::try_from(self.dice.from_to(4_000, 40_000)).unwrap_or(0);
        outing.at += wait;
        let driver = walk.is_walked_by(outing.driver.name);
        let who = if driver { outing.driver } else { outing.groom };
        let at = Moment {
            wall: ended.wall + TimeDelta::milliseconds(wait),
            mono_ms: ended.mono_ms + u64::try_from(wait).unwrap_or(0),
            ..ended
        };
        (who, at)
    }

    fn look(&mut self, signed: bool, ended: Option<Ended>, typed_up: bool) -> Look {
        let number = self.trips.len();
        let thrown = self.dice.below(100);
        match ended {
            _ if !signed => Look::NotYet,
            // The newest have not been looked at, nor some before them.
            _ if number + 14 >= TRIPS || thrown < 9 => Look::NotYet,
            _ if typed_up && thrown < 60 => Look::Asked("how was this walked in so few minutes?"),
            Some(Ended::NotFitToGo) => Look::Asked("who mends it, and by when?"),
            _ if thrown < 12 => Look::Asked("was the gauge the one from the tack room?"),
            _ => Look::Agreed,
        }
    }

    /// A laptop is started each morning.
    fn moment(&self, outing: &Outing) -> Moment {
        let day = outing.at.div_euclid(DAY);
        let since = outing.at - day * DAY - 300 * MINUTE;
        Moment {
            wall: self.first + TimeDelta::milliseconds(outing.at),
            boot: format!("start-{}-{day:03}", outing.laptop + 1),
            mono_ms: u64::try_from(since).unwrap_or(0),
        }
    }
}

/// Milliseconds in days, by whole minutes.
fn days_of(ms: i64) -> f64 {
    f64::from(i32::try_from(ms / MINUTE).unwrap_or(0)) / 1440.0
}

/// Sixteen letters and digits, as a trip's random bytes are written.
fn trip_id(dice: &mut Dice) -> String {
    format!("{:016x}", dice.throw())
}
