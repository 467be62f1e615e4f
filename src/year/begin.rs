//! One walk of the year: whether it can begin, and what it comes to.

use crate::checklist::{Haul, Plan};
use crate::haul::{Open, Past, Standing, Today, Told, fold};
use crate::rules::Carried;
use crate::shown::Dice;
use crate::units::{Dimension, Typed};
use crate::walk::{Ended, Moment, Walk, Words};
use crate::year::TRIPS;
use crate::year::calendar::{DAY, MINUTE, Outing, Year};
use crate::year::next::{Going, Manner};
use crate::year::people::{Habit, Person};
use crate::year::trip::{Left, Look, Trip};
use chrono::TimeDelta;
use std::sync::Arc;

/// So many of a rig's newest walks say what stands open, as when a walk is begun.
const LOOKED_BACK: usize = 100;

/// The trips that nobody ended or signed: the first such list from this trip on.
const LEFT: [(usize, &str, usize); 2] = [(18, "arrive", 9), (412, "days-before", 31)];

impl Year<'_> {
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
        let today = Today {
            day: self.moment(outing).wall.date_naive(),
            odometer: None,
        };
        if !standing.bars(&plan, today).is_empty() || standing.wants_hitching(&plan).is_some() {
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
        let haul = plan.checklist().haul;
        let id = trip_id(&mut self.dice);
        let (reader, doer) = self.hands(outing);
        let (Ok(typing), Ok(working)) = (Words::read(reader.name), Words::read(doer.name)) else {
            return false;
        };
        let manner = self.manner(outing, &plan, reader);
        let began = self.moment(outing);
        let time = days_of(outing.at);
        let Some(truth) = self.truths.get_mut(outing.rig) else {
            return false;
        };
        truth.until(time);
        let miles = format!("{:.0} mi", truth.odometer);
        let odometer = (haul == Haul::Begins).then_some(miles);
        let mut going = Going {
            walk: Walk::begin(
                Arc::clone(&plan),
                typing.clone(),
                working.clone(),
                began.clone(),
            ),
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
        let Going {
            walk, entries, at, ..
        } = going;
        outing.at += at.wall.signed_duration_since(began.wall).num_milliseconds();
        let ended = walk.ended();
        let signed = ended.map(|_| self.signs(outing, &walk, at));
        let look = self.look(signed.is_some(), ended, manner.typed_up);
        let left = |open: &Open| Left {
            carried: open.carried.clone(),
            since: open.since.trip.clone(),
        };
        let going = standing.haul.as_ref().map(|going| going.trip.clone());
        self.keep(Trip {
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
            reader: typing,
            doer: working,
            began,
            entries,
            walk,
            signed,
            look,
            typed_up: manner.typed_up,
        })
    }

    /// Keeps a trip and what it leaves to later ones. Whether the next can follow.
    fn keep(&mut self, trip: Trip) -> bool {
        let typed = trip.odometer.as_ref();
        let typed = typed.and_then(|typed| Typed::read(typed, Dimension::Length).ok());
        let told = Told {
            trip: trip.id.clone(),
            odometer: typed.map(|typed| typed.quantity().clone()),
            signed: trip.signed.is_some(),
            began_with: [trip.reader.clone(), trip.doer.clone()],
        };
        if let Some(pasts) = self.pasts.get_mut(trip.rig) {
            pasts.push(Past::of(&trip.walk, &trip.entries, told));
        }
        let ended = trip.walk.ended();
        self.trips.push(trip);
        ended == Some(Ended::Complete) || ended.is_none()
    }

    /// Who reads and types, and who does the work.
    fn hands(&mut self, outing: &Outing) -> (&'static Person, &'static Person) {
        if self.dice.below(10) < 6 {
            (outing.driver, outing.groom)
        } else {
            (outing.groom, outing.driver)
        }
    }

    fn manner(&mut self, outing: &Outing, plan: &Plan, reader: &Person) -> Manner {
        let list = plan.checklist();
        let left = LEFT.get(self.left);
        let left = left.filter(|(from, title, _)| self.so_far() >= *from && list.id == *title);
        let left_after = left.map(|(_, _, steps)| *steps);
        self.left += usize::from(left_after.is_some());
        Manner {
            calm: outing.calm,
            may_end: list.haul == Haul::Begins && !outing.calm,
            typed_up: reader.habit == Habit::Quick
                && list.haul != Haul::Apart
                && self.dice.in_myriad(1100),
            left_after,
        }
    }

    /// The driver signs, or whoever has the walk at its end.
    fn signs(
        &mut self,
        outing: &mut Outing,
        walk: &Walk,
        ended: Moment,
    ) -> (&'static Person, Moment) {
        let wait = i64::try_from(self.dice.between(4_000, 40_000)).unwrap_or(0);
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
