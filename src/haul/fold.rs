//! What stands open of a rig is a fold of its walks, in order of time.

use crate::checklist::Haul;
use crate::due::{Done, OdometerRead};
use crate::haul::past::Turned;
use crate::haul::{Closed, Defect, Found, Open, Past, Since, lasting};
use crate::rules::{Carried, Verdict};
use crate::walk::{Ended, Turn};
use chrono::{DateTime, FixedOffset, NaiveDate};
use std::collections::BTreeMap;

/// What the walks of one rig have left.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Standing {
    /// What stands open, as it was left.
    pub open: Vec<Open>,
    /// What was found bad and not yet well, as it was found.
    pub defects: Vec<Defect>,
    /// The defects that were closed, the newest last.
    pub closed: Vec<Closed>,
    /// The newest time each service was done, by part.
    pub served: Vec<Done>,
    /// The haul still going.
    pub haul: Option<Going>,
    /// When the trailer was unhitched, where it was not hitched up since.
    pub unhitched: Option<DateTime<FixedOffset>>,
    /// The newest odometer known.
    pub odometer: Option<OdometerRead>,
    /// Everybody who went through a walk of it, by name, and on which day last.
    pub walked: BTreeMap<String, NaiveDate>,
}

/// A haul that was begun and not ended.
#[derive(Clone, Debug, PartialEq)]
pub struct Going {
    /// The trip that began it.
    pub trip: String,
    /// When that was.
    pub since: DateTime<FixedOffset>,
    /// The titles of the lists walked in it to their end, in order.
    pub walked: Vec<String>,
}

/// What the walks of this rig have left. Walks of other rigs among them count for nothing.
pub fn fold<'p>(rig: &str, past: impl IntoIterator<Item = &'p Past>) -> Standing {
    let of_rig = past.into_iter().filter(|walk| walk.rig == rig);
    let mut own: Vec<&Past> = of_rig.collect();
    own.sort_by_key(|walk| walk.at);
    own.into_iter().fold(Standing::default(), Standing::and)
}

impl Standing {
    /// What is open, as a plan takes it: each once.
    pub fn carried(&self) -> Vec<Carried> {
        self.open.iter().map(|open| open.carried.clone()).collect()
    }

    /// The same with one more walk.
    fn and(mut self, walk: &Past) -> Self {
        if walk.haul == Haul::Begins && walk.ended != Some(Ended::Abandoned) {
            self.haul = Some(Going {
                trip: walk.trip.clone(),
                since: walk.at,
                walked: Vec::new(),
            });
        }
        for turned in &walk.turns {
            match turned.change.turn {
                Turn::Left => self.leave(walk, turned),
                Turn::Closed if walk.signed => self.close(walk, turned),
                Turn::Closed => {}
            }
        }
        let complete = walk.signed && walk.ended == Some(Ended::Complete);
        let on_the_way = walk.haul != Haul::Apart;
        if let Some(going) = self.haul.as_mut().filter(|_| complete && on_the_way) {
            going.walked.push(walk.list.clone());
        }
        match walk.haul {
            Haul::Ends if complete => {
                self.haul = None;
                self.unhitched = Some(walk.at);
                self.uncouple(walk);
            }
            Haul::Begins if complete => self.unhitched = None,
            _ => {}
        }
        for found in &walk.found {
            self.find(walk, found);
        }
        for defect in &mut self.defects {
            defect.driven_to(walk.shown());
        }
        for served in &walk.served {
            let other = |one: &Done| (one.what, &one.item) != (served.what, &served.item);
            self.served.retain(other);
            self.served.push(served.clone());
        }
        self.odometer = walk.odometer.clone().or(self.odometer);
        if walk.signed && walk.went_through {
            let day = walk.at.date_naive();
            let hands = walk.hands.iter().map(|name| (name.to_string(), day));
            self.walked.extend(hands);
        }
        self
    }

    /// What is left a second time begins anew.
    fn leave(&mut self, walk: &Past, turned: &Turned) {
        let carried = &turned.change.carried;
        self.open.retain(|open| open.carried != *carried);
        let since = Since {
            trip: walk.trip.clone(),
            at: turned.at,
            odometer: walk.shown().cloned(),
            step: turned.change.step.clone(),
            who: turned.change.doer.clone(),
        };
        self.open.push(Open::left(carried.clone(), since));
    }

    fn close(&mut self, walk: &Past, turned: &Turned) {
        let mut done = Vec::new();
        self.open.retain_mut(|open| {
            let closed = closes(turned, &open.carried) && open.read_again(&walk.trip, walk.shown());
            done.extend(closed.then(|| open.carried.clone()));
            !closed
        });
        let mut found = walk.found.iter();
        let by = found.find(|found| found.step.as_str() == turned.change.step);
        self.close_what_stood_for(&done, walk, by);
    }

    /// The joint is undone, and with it what stood open of nothing else.
    fn uncouple(&mut self, walk: &Past) {
        let ends = |open: &Open| lasting(open.carried.what).ends_uncoupled;
        let (ended, open) = std::mem::take(&mut self.open).into_iter().partition(ends);
        self.open = open;
        let ended: Vec<Open> = ended;
        let done: Vec<Carried> = ended.into_iter().map(|open| open.carried).collect();
        self.close_what_stood_for(&done, walk, walk.found.last());
    }

    /// A step that stands only for what was left is never asked again once that is closed, so what
    /// it found is closed by the same answer.
    fn close_what_stood_for(&mut self, done: &[Carried], walk: &Past, by: Option<&Found>) {
        let Some(by) = by else {
            return;
        };
        let stood_for = |defect: &Defect| {
            let left = defect.found.only_for.as_ref();
            left.is_some_and(|left| done.iter().any(|done| is_about(done, left)))
        };
        let (closed, open) = std::mem::take(&mut self.defects)
            .into_iter()
            .partition(stood_for);
        self.defects = open;
        for defect in closed {
            self.keep_closed(defect, by, walk);
        }
    }

    fn keep_closed(&mut self, defect: Defect, by: &Found, walk: &Past) {
        self.closed.push(Closed {
            defect,
            by: by.clone(),
            trip: walk.trip.clone(),
        });
    }

    /// Takes in what a step was found to be: well closes, bad or noted stands. Nothing else makes a
    /// defect better, and what nobody signed for makes none so.
    fn find(&mut self, walk: &Past, found: &Found) {
        let at = self
            .defects
            .iter()
            .position(|defect| defect.found.step == found.step);
        let was = at.and_then(|at| self.defects.get_mut(at));
        let better = was
            .as_ref()
            .is_some_and(|was| found.verdict < was.found.verdict);
        let well = found.verdict == Verdict::Ok;
        if better && !(well && walk.signed) {
            if let Some(was) = was.filter(|_| !well) {
                was.trips.push(walk.trip.clone());
            }
            return;
        }
        let was = at.map(|at| self.defects.remove(at));
        match (well, was) {
            (true, None) => {}
            (true, Some(defect)) => self.keep_closed(defect, found, walk),
            (false, was) => self.defects.push(Defect::found(found, walk, was)),
        }
    }
}

impl Defect {
    /// What was found on this walk, where it stood before that too.
    fn found(found: &Found, walk: &Past, was: Option<Self>) -> Self {
        let new = Self {
            found: found.clone(),
            trip: walk.trip.clone(),
            list: walk.list.clone(),
            since: found.at,
            trips: vec![walk.trip.clone()],
            furthest: None,
            owned: Vec::new(),
        };
        let Some(was) = was else {
            return new;
        };
        Self {
            since: was.since,
            trips: [was.trips, new.trips].concat(),
            furthest: was.furthest,
            ..new
        }
    }
}

/// Whether what was left is what a step stands for: the same, or at a part where one names none.
fn is_about(left: &Carried, stands_for: &Carried) -> bool {
    let parts = left.part.as_ref().zip(stands_for.part.as_ref());
    left.what == stands_for.what && parts.is_none_or(|(one, other)| one == other)
}

/// Whether a closing answer is about this. An answer about the whole rig is about all of its
/// parts; one about a part is about that part. What was left for no part, or for one that the
/// step does not go round, is closed once its step has gone round every part.
fn closes(turned: &Turned, open: &Carried) -> bool {
    let closing = &turned.change.carried;
    let own = match (&closing.part, &open.part) {
        (None, _) => true,
        (Some(closing), Some(open)) => closing == open,
        (Some(_), None) => false,
    };
    let round = turned.round.as_ref().is_some_and(|parts| {
        let among = |part: &String| parts.contains(part);
        !open.part.as_ref().is_some_and(among)
    });
    closing.what == open.what && (own || round)
}
