//! The manager's statements: the crew before the first day, and what was said to each trip, of an
//! evening.

use crate::cli::clerk::Trouble;
use crate::cli::year::crew::{Keys, read_id};
use crate::cli::year::{Kept, is_same_day};
use crate::desk::exceptions_among;
use crate::haul::{Past, Told, fold};
use crate::record::{
    Countersigned, CrewChange, DefectOwned, Digest, Head, Id, Mode, Opinion, Owner, Says,
    SignedOff, Statement, Wall,
};
use crate::store::{Logbook, StatementText, Unsynced};
use crate::walk::Words;
use crate::year::{Look, ORDERS_THE_PART, PEOPLE, Trip, Work};
use chrono::{DateTime, FixedOffset, TimeDelta};
use std::collections::BTreeMap;

/// The evening before the first day of the year.
const FOUNDED: &str = "2025-11-23T18:20:00-05:00";

/// How long the manager looks at one trip.
const MINUTES_A_TRIP: i64 = 4;

/// Milliseconds she looks at a trip, and at each thing in it that is not as expected.
const LOOK_MS: u64 = 45_000;
const LOOK_AT_ONE_MS: u64 = 11_000;

/// What everybody but the manager is signed off for, by id.
fn signed_off() -> Result<Vec<SignedOff>, Trouble> {
    let workers = PEOPLE.iter().filter(|one| one.work != Work::Manager);
    let lines = workers.map(|one| {
        let rigs = one
            .rigs
            .map(|rigs| rigs.iter().map(|rig| read_id(rig)).collect());
        Ok(SignedOff {
            person: read_id(one.id)?,
            rigs: rigs.transpose()?,
            checklists: None,
            rides: Vec::new(),
        })
    });
    let mut lines = lines.collect::<Result<Vec<_>, Trouble>>()?;
    lines.sort_by(|one, next| one.person.cmp(&next.person));
    Ok(lines)
}

/// A trip the manager has not looked at.
struct Waiting {
    trip: Trip,
    device: Id,
    seq: u64,
    seal: Option<Digest>,
}

/// The manager's desk.
pub(super) struct Office {
    /// The newest statement.
    pub(super) newest: Option<Digest>,
    number: u64,
    heads: BTreeMap<Id, Head>,
    waiting: Vec<Waiting>,
}

impl Office {
    /// States the crew.
    pub(super) fn opens(logbook: &Logbook<Unsynced>, keys: &Keys) -> Result<Self, Trouble> {
        let mut office = Self {
            newest: None,
            number: 0,
            heads: BTreeMap::new(),
            waiting: Vec::new(),
        };
        let says = Says::Crew(CrewChange {
            signed_off: signed_off()?,
            ..CrewChange::first(&keys.crew)
        });
        let at = DateTime::parse_from_rfc3339(FOUNDED).unwrap_or_default();
        let crew = Some(keys.crew.text().as_bytes().to_vec());
        office.states(logbook, keys, (at, says), crew)?;
        Ok(office)
    }

    /// Takes in a trip that was kept.
    pub(super) fn hears_of(&mut self, trip: Trip, device: &Id, seq: u64, kept: Kept) {
        let head = Head {
            device: device.clone(),
            seq,
            ends: kept.ends,
        };
        self.heads.insert(device.clone(), head);
        self.waiting.push(Waiting {
            trip,
            device: device.clone(),
            seq,
            seal: kept.seal,
        });
    }

    /// The evening of the day before this trip, where it is the first of its day.
    pub(super) fn evening_before(
        &mut self,
        logbook: &Logbook<Unsynced>,
        keys: &Keys,
        trip: &Trip,
    ) -> Result<(), Trouble> {
        let last = self.waiting.last();
        if last.is_some_and(|last| is_same_day(&last.trip, trip)) {
            return Ok(());
        }
        self.evening(logbook, keys)
    }

    /// What the manager says to the trips of the day.
    pub(super) fn evening(
        &mut self,
        logbook: &Logbook<Unsynced>,
        keys: &Keys,
    ) -> Result<(), Trouble> {
        let mut minutes = MINUTES_A_TRIP;
        for waiting in std::mem::take(&mut self.waiting) {
            let (opinion, question) = match waiting.trip.look {
                Look::NotYet => continue,
                Look::Agreed => (Opinion::Agreed, None),
                Look::Asked(question) => (Opinion::Asked, Some(question)),
            };
            let Some(seal) = waiting.seal else {
                continue;
            };
            let opened = exceptions_among(&waiting.trip.entries, &waiting.trip.plan);
            let things = u64::try_from(opened.len()).unwrap_or(u64::MAX);
            let says = Says::Countersigned(Countersigned {
                trip: read_id(&waiting.trip.id)?,
                device: waiting.device.clone(),
                seq: waiting.seq,
                seal,
                opinion,
                opened: opened.into_iter().map(|one| one.named).collect(),
                remarks: question.and_then(|words| Words::read(words).ok()),
                took_ms: Some(LOOK_MS + LOOK_AT_ONE_MS.saturating_mul(things)),
            });
            let at = evening_of(&waiting.trip) + TimeDelta::minutes(minutes);
            minutes += MINUTES_A_TRIP;
            self.states(logbook, keys, (at, says), None)?;
            for step in parts_to_order(&waiting.trip) {
                let says = Says::DefectOwned(DefectOwned {
                    trip: read_id(&waiting.trip.id)?,
                    device: waiting.device.clone(),
                    seq: waiting.seq,
                    seal,
                    step,
                    owner: Owner::Crew(keys.manager()?.id.clone()),
                    by_day: None,
                    by_odometer: None,
                    words: Words::read("The part is ordered.").ok(),
                });
                self.states(logbook, keys, (at, says), None)?;
            }
        }
        Ok(())
    }

    fn states(
        &mut self,
        logbook: &Logbook<Unsynced>,
        keys: &Keys,
        (at, says): (DateTime<FixedOffset>, Says),
        crew: Option<Vec<u8>>,
    ) -> Result<(), Trouble> {
        let manager = keys.manager()?;
        self.number += 1;
        let Some(wall) = Wall::new(at) else {
            return Ok(());
        };
        let statement = Statement {
            mode: Mode::Demo,
            manager: manager.id.clone(),
            name: manager.name.clone(),
            number: self.number,
            previous: self.newest,
            known: Vec::new(),
            crew: keys.crew.revision(),
            heads: self.heads.values().cloned().collect(),
            wall,
            says,
        };
        let bytes = statement.write()?;
        let signature = manager
            .open
            .sign(Statement::namespace(Mode::Demo), &bytes)?;
        let hash = Statement::hash(&bytes);
        let folder = logbook.statement(&manager.id, self.number, &hash);
        let text = StatementText {
            statement: bytes,
            signature: Some(signature.into_bytes()),
            crew,
        };
        logbook.keep_statement(&folder, &text)?;
        self.newest = Some(hash);
        Ok(())
    }
}

/// The steps of notes that the manager was told of, and orders a part for.
fn parts_to_order(trip: &Trip) -> Vec<Words> {
    let told = Told {
        trip: trip.id.clone(),
        odometer: None,
        signed: true,
        began_with: [trip.reader.clone(), trip.doer.clone()],
    };
    let past = Past::of(&trip.walk, &trip.entries, told);
    let noted = fold(&past.rig, [&past]).defects.into_iter();
    let told_of = noted.filter(|defect| {
        let words = defect.found.remark.as_ref();
        words.is_some_and(|words| words.as_str() == ORDERS_THE_PART)
    });
    told_of
        .filter_map(|defect| Words::read(defect.found.step.as_str()).ok())
        .collect()
}

/// When the manager sits down to the trips of a day.
fn evening_of(trip: &Trip) -> DateTime<FixedOffset> {
    let began = trip.began.wall;
    let midnight = began.date_naive().and_hms_opt(19, 30, 0);
    let evening = midnight.and_then(|time| time.and_local_timezone(*began.offset()).single());
    evening.unwrap_or(began)
}
