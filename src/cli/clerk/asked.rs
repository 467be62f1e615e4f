//! What managers asked about earlier trips, put to whoever had a hand in one and begins a walk.

use crate::cli::clerk::{Books, Plans};
use crate::desk::PutQuestion;
use crate::desk::earlier::date;
use crate::logbook::order::Countersign;
use crate::logbook::{Answers, took_part, unanswered};
use crate::record::{Finding, Signer, Statements, Verified, Wall};
use crate::store::{Disk, StoreFault};
use chrono::{DateTime, FixedOffset, TimeDelta};
use std::cmp::Reverse;

/// How many trips of a laptop are looked through for an answer that was given already.
const MOST_TRIPS: usize = 100;

/// So much earlier than a question a clock may put the answer to it.
const SLACK: TimeDelta = TimeDelta::days(2);

/// Most questions put at once, the newest; the rest are put when a later walk begins.
const MOST_PUT: usize = 3;

/// Questions for whoever begins a walk.
#[derive(Debug, Default)]
pub(super) struct Put {
    /// The newest that nobody has answered, the newest of all first.
    pub(super) newest: Vec<PutQuestion>,
    /// How many older ones there are.
    pub(super) older: usize,
}

impl Put {
    /// That there are older ones, and where they all stand.
    pub(super) fn told(&self) -> Option<String> {
        let count = match self.older {
            0 => return None,
            1 => "One older question of a manager waits".to_owned(),
            older => format!("{older} older questions of managers wait"),
        };
        Some(format!(
            "{count} for an answer as well. Every question with its trip: hames logbook questions"
        ))
    }
}

impl<D: Disk> Books<D> {
    /// The questions for these people that nobody has answered yet.
    pub(super) fn questions_for(
        &self,
        statements: &Statements,
        people: &[&str],
        plans: &mut Plans,
    ) -> Result<Put, StoreFault> {
        let people = people.iter();
        let people = people.filter_map(|name| Some((*name, self.person(name)?)));
        let people: Vec<(&str, &Signer)> = people.collect();
        let mut asked = Vec::new();
        for question in unanswered(statements) {
            if let Some(put) = self.put(&question, &people, plans)? {
                asked.push(((question.by.clock.moment(), question.by.number), put));
            }
        }
        let Some(first) = asked.iter().map(|((at, _), _)| *at).min() else {
            return Ok(Put::default());
        };
        let given = self.answers_since(first, statements, plans)?.given();
        asked.retain(|(_, put)| !given.contains(&put.question));
        // Of two by one clock at one moment the later statement is the newer.
        asked.sort_by_key(|(at, _)| Reverse(*at));
        let newest = asked.into_iter().map(|(_, put)| put);
        let mut newest: Vec<PutQuestion> = newest.collect();
        let older = newest.split_off(MOST_PUT.min(newest.len())).len();
        Ok(Put { newest, older })
    }

    /// The question as it is put to the first of these people who had a hand in its trip.
    fn put(
        &self,
        question: &Countersign<'_>,
        people: &[(&str, &Signer)],
        plans: &mut Plans,
    ) -> Result<Option<PutQuestion>, StoreFault> {
        if people.is_empty() {
            return Ok(None);
        }
        let says = question.says;
        let trips = self.logbook.trips(&says.device)?.trips.into_iter();
        for folder in trips.filter(|folder| folder.seq == says.seq) {
            let read = self.read(&says.device, &folder, plans)?;
            let is_its = |trip: &&Verified| trip.sealed().is_some_and(|one| one.hash == says.seal);
            let Some(trip) = read.trip().filter(is_its) else {
                continue;
            };
            let to = people
                .iter()
                .find(|(_, one)| took_part(trip, &one.id, &one.name));
            let began = trip.begun().paper.as_ref().map(Wall::moment);
            let what = read.walk().map(|walk| {
                let plan = walk.plan();
                format!("“{}” with {}", plan.checklist().title, plan.rig().name)
            });
            return Ok(to.map(|(to, _)| PutQuestion {
                question: question.by.hash,
                to: (*to).to_owned(),
                by: question.by.name.to_string(),
                at: date(&question.by.clock.moment()),
                about: format!(
                    "trip {} of {} ({}, {})",
                    says.seq,
                    says.device,
                    what.unwrap_or_else(|_| trip.begun().checklist.id.clone()),
                    date(&began.unwrap_or(trip.at().wall))
                ),
                words: question.question().unwrap_or_default().to_owned(),
            }));
        }
        Ok(None)
    }

    /// What the newest trips of each laptop answer, back to shortly before a moment.
    fn answers_since(
        &self,
        first: DateTime<FixedOffset>,
        statements: &Statements,
        plans: &mut Plans,
    ) -> Result<Answers, StoreFault> {
        let mut answers = Answers::of(statements);
        for device in self.logbook.devices()? {
            let trips = self.logbook.trips(&device)?.trips.into_iter().rev();
            for folder in trips.take(MOST_TRIPS) {
                let read = self.read(&device, &folder, plans)?;
                answers.take((&device, folder.seq), &read.examined, read.finding());
                let earlier = |trip: &Verified| trip.at().wall + SLACK < first;
                if read.finding() == Finding::Intact && read.trip().is_some_and(earlier) {
                    break;
                }
            }
        }
        Ok(answers)
    }
}
