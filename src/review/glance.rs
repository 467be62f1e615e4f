//! A trip at a glance: what a calendar, a list and its filters need, and nothing of each step, so
//! that ten thousand of them fit in memory.

use crate::logbook::TripCounts;
use crate::record::{Finding, Id, Opinion, Verified};
use crate::rules::{Outcome, Verdict};
use crate::walk::{Ended, Event, Moment, Walk};
use chrono::{DateTime, FixedOffset};

/// A trip at a glance.
#[derive(Clone, Debug, PartialEq)]
pub struct Glance {
    /// The trip.
    pub trip: Id,
    /// The laptop that kept it.
    pub device: Id,
    /// Its number there.
    pub seq: u64,
    /// The rig's id.
    pub rig: String,
    /// The checklist's id.
    pub checklist: String,
    /// The checklist's title.
    pub title: String,
    /// Its revision.
    pub revision: u32,
    /// Who signed, or who read where nobody has signed yet.
    pub who: String,
    /// Everybody else who took part, each once; who looked or read second at a step too.
    pub others: Vec<String>,
    /// When it was walked, by the laptop's clock or by the paper it was entered from.
    pub at: DateTime<FixedOffset>,
    /// Whether it was entered from paper.
    pub from_paper: bool,
    /// Milliseconds from its first line to its last, holds included.
    pub took_ms: u64,
    /// As what it ended; nothing while it is under way.
    pub ended: Option<Ended>,
    /// Whether it is signed.
    pub signed: bool,
    /// The worst thing found on it, put right or not.
    pub worst: Verdict,
    /// Steps that wait or are put off at its end.
    pub left_open: usize,
    /// How much it holds.
    pub counts: TripCounts,
    /// What verification finds of it.
    pub finding: Finding,
    /// What managers said of it last.
    pub said: Option<Opinion>,
    /// How much there is to ask about it, by what all trips together show; 0 till they were read.
    pub doubts: usize,
}

/// How a trip weighs in a calendar, the lightest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Weight {
    /// Nothing beyond a limit, nothing open.
    Clear,
    /// A note, a step put off, or a walk that was left before its end.
    Noted,
    /// Something had to be put right.
    Fixed,
    /// Something that stops a rig was found, or it ended as not fit to go.
    Stopped,
    /// Verification finds something: the record itself is in question.
    Doubtful,
}

impl Weight {
    /// Each, the lightest first.
    pub const ALL: [Self; 5] = [
        Self::Clear,
        Self::Noted,
        Self::Fixed,
        Self::Stopped,
        Self::Doubtful,
    ];

    /// The sign it has in a calendar and a list: never a colour alone.
    pub const fn sign(self) -> char {
        match self {
            Self::Clear => '.',
            Self::Noted => 'n',
            Self::Fixed => 'f',
            Self::Stopped => 'S',
            Self::Doubtful => '?',
        }
    }

    /// The word in commands and JSON.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Clear => "clear",
            Self::Noted => "noted",
            Self::Fixed => "fixed",
            Self::Stopped => "stopped",
            Self::Doubtful => "doubtful",
        }
    }

    /// What it means.
    pub const fn told(self) -> &'static str {
        match self {
            Self::Clear => "nothing beyond a limit",
            Self::Noted => "something noted, put off or left unfinished",
            Self::Fixed => "something had to be put right",
            Self::Stopped => "something that stops a rig",
            Self::Doubtful => "the record itself is in question",
        }
    }
}

impl Glance {
    /// As commands name it: `barn-laptop/7`.
    pub fn named(&self) -> String {
        format!("{}/{}", self.device, self.seq)
    }

    /// A trip that can be walked again, with what is found of it and was said.
    pub fn of((trip, walk): (&Verified, &Walk), finding: Finding, said: Option<Opinion>) -> Self {
        let begun = trip.begun();
        let sealed = trip.sealed();
        let who = sealed.map_or_else(
            || begun.reader.to_string(),
            |sealed| sealed.seal.name.to_string(),
        );
        let checklist = walk.plan().checklist();
        Self {
            trip: begun.trip.clone(),
            device: begun.device.clone(),
            seq: begun.seq,
            rig: begun.rig.id.clone(),
            checklist: checklist.id.clone(),
            title: checklist.title.clone(),
            revision: checklist.revision,
            others: others(trip, walk, &who),
            who,
            at: walk.paper().copied().unwrap_or(trip.at().wall),
            from_paper: walk.paper().is_some(),
            took_ms: last(trip).since(trip.at()),
            ended: walk.ended(),
            signed: sealed.is_some(),
            worst: worst(trip),
            left_open: walk.deferred().count() + walk.to_look_at_again().count(),
            counts: TripCounts::of(trip),
            finding,
            said,
            doubts: 0,
        }
    }

    /// How many questions there are about it: what does not fit, and a manager's that still stands.
    pub fn questions(&self) -> usize {
        self.doubts + usize::from(self.said == Some(Opinion::Asked))
    }

    /// Everybody who took part, whoever signed first.
    pub fn people(&self) -> impl Iterator<Item = &str> {
        std::iter::once(&self.who)
            .chain(&self.others)
            .map(String::as_str)
    }

    /// How it weighs in a calendar.
    pub fn weight(&self) -> Weight {
        // One that is not signed yet is in nobody's hands but the driver's.
        let fine = [
            Finding::Intact,
            Finding::NotCountersigned,
            Finding::Unsealed,
        ];
        if !fine.contains(&self.finding) {
            return Weight::Doubtful;
        }
        if self.ended == Some(Ended::NotFitToGo) || self.worst == Verdict::Stop {
            return Weight::Stopped;
        }
        match self.worst {
            Verdict::Fix => Weight::Fixed,
            Verdict::Note => Weight::Noted,
            _ if self.went_to_its_end() && !self.has_loose_ends() => Weight::Clear,
            _ => Weight::Noted,
        }
    }

    fn went_to_its_end(&self) -> bool {
        self.signed && self.ended == Some(Ended::Complete)
    }

    fn has_loose_ends(&self) -> bool {
        self.counts.deferred > 0 || self.left_open > 0 || self.counts.flagged > 0
    }

    /// Whether a manager still has something to do with it: to look at it, or to hear an answer.
    pub fn is_open(&self) -> bool {
        self.said != Some(Opinion::Agreed)
    }

    /// As what it ended, in words.
    pub const fn ended_as(&self) -> &'static str {
        match (self.ended, self.signed) {
            (Some(Ended::Complete), true) => "complete",
            (Some(Ended::Incomplete), true) => "incomplete",
            (Some(Ended::NotFitToGo), true) => "not fit to go",
            (Some(Ended::Abandoned), true) => "abandoned",
            (Some(Ended::Complete), false) => "complete, not signed",
            (Some(Ended::Incomplete), false) => "incomplete, not signed",
            (Some(Ended::NotFitToGo), false) => "not fit to go, not signed",
            (Some(Ended::Abandoned), false) => "abandoned, not signed",
            (None, _) => "not ended, not signed",
        }
    }

    /// Whether a manager has looked at it, or what stands in the way of that, in words.
    pub fn stands(&self) -> String {
        match (self.said, self.finding) {
            (_, finding) if self.weight() == Weight::Doubtful => finding.to_string(),
            (Some(Opinion::Agreed), _) => "a manager agreed".to_owned(),
            (Some(Opinion::Asked), _) => "a manager asked, and has not agreed yet".to_owned(),
            (None, Finding::Unsealed) => "not signed yet".to_owned(),
            (None, _) => "no manager has looked".to_owned(),
        }
    }
}

fn last(trip: &Verified) -> &Moment {
    trip.entries().last().map_or(trip.at(), |entry| &entry.at)
}

fn worst(trip: &Verified) -> Verdict {
    let verdicts = trip
        .entries()
        .iter()
        .filter_map(|entry| match &entry.event {
            Event::Answered { given, .. } => match given.outcome() {
                Outcome::Judged(verdict) => Some(verdict),
                Outcome::Again => None,
            },
            _ => None,
        });
    verdicts.max().unwrap_or(Verdict::Ok)
}

fn others(trip: &Verified, walk: &Walk, who: &str) -> Vec<String> {
    let mut others: Vec<String> = Vec::new();
    let entries = trip.entries().iter();
    let named = entries.flat_map(|entry| {
        let (doer, second) = match &entry.event {
            Event::Answered { doer, given, .. } => (Some(doer), given.second()),
            Event::HandedOver { doer, .. } => (Some(doer), None),
            _ => (None, None),
        };
        let all = std::iter::once(&entry.actor).chain(doer).chain(second);
        all.map(ToString::to_string)
    });
    for name in named.chain(std::iter::once(walk.doer().to_string())) {
        if name != who && !others.contains(&name) {
            others.push(name);
        }
    }
    others
}

#[cfg(test)]
pub(super) mod bench {
    use super::*;

    /// A complete trip of this rig, signed by this person at this time, in which nothing was found.
    pub(in crate::review) fn glance(rig: &str, who: &str, at: &str) -> Glance {
        Glance {
            trip: Id::read("9f0c11b2").unwrap(),
            device: Id::read("laptop-7f3a").unwrap(),
            seq: 1,
            rig: rig.to_owned(),
            checklist: "hitch-bumper".to_owned(),
            title: "Hitch up a bumper pull".to_owned(),
            revision: 4,
            who: who.to_owned(),
            others: Vec::new(),
            at: at.parse().unwrap(),
            from_paper: false,
            took_ms: 1_200_000,
            ended: Some(Ended::Complete),
            signed: true,
            worst: Verdict::Ok,
            left_open: 0,
            counts: TripCounts::default(),
            finding: Finding::NotCountersigned,
            said: None,
            doubts: 0,
        }
    }

    /// A weight, and what about a trip comes to it.
    type Row = (Weight, fn(&mut Glance));

    #[test]
    fn a_trip_weighs_as_much_as_the_gravest_thing_about_it() {
        let clear = glance("juniper", "Wren Ashdown", "2026-11-03T07:00:00-05:00");
        let with = |change: fn(&mut Glance)| {
            let mut glance = clear.clone();
            change(&mut glance);
            glance.weight()
        };
        assert_eq!(clear.weight(), Weight::Clear);
        let rows: [Row; 12] = [
            (Weight::Noted, |one| one.ended = Some(Ended::Incomplete)),
            (Weight::Noted, |one| one.ended = None),
            (Weight::Noted, |one| one.signed = false),
            (Weight::Noted, |one| one.left_open = 1),
            (Weight::Noted, |one| one.counts.deferred = 1),
            (Weight::Noted, |one| one.worst = Verdict::Note),
            (Weight::Fixed, |one| one.worst = Verdict::Fix),
            (Weight::Stopped, |one| one.worst = Verdict::Stop),
            (Weight::Stopped, |one| one.ended = Some(Ended::NotFitToGo)),
            (Weight::Stopped, |one| {
                one.ended = Some(Ended::NotFitToGo);
                one.signed = false;
            }),
            (Weight::Doubtful, |one| one.finding = Finding::Altered),
            (Weight::Doubtful, |one| {
                one.finding = Finding::Gap;
                one.worst = Verdict::Stop;
            }),
        ];
        for (weight, change) in rows {
            assert_eq!(with(change), weight);
        }
    }

    #[test]
    fn no_two_weights_share_a_sign_or_a_word() {
        for one in Weight::ALL {
            for other in Weight::ALL.into_iter().filter(|other| *other != one) {
                assert_ne!(one.sign(), other.sign());
                assert_ne!(one.key(), other.key());
                assert_ne!(one.told(), other.told());
            }
        }
    }
}
