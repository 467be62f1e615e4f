//! Who may do what: what each of the crew is signed off for, and when they last walked it.
//!
//! What counts as a walk is one that was gone through and signed: to its end, or as not fit to go
//! with at least half of its steps answered, which is a walk that found what it is there to find.

use crate::drill::{Progress, Ridden, Stage, list};
use crate::record::{Crew, Finding, Id, PrintedName, Role, Roster, SignedOff, Verified};
use crate::review::is_named;
use crate::rig::HitchKind;
use crate::walk::{Walk, Words, hands};
use chrono::{DateTime, FixedOffset, NaiveDate};
use std::collections::BTreeMap;

/// A walk that was gone through, and whose hands were in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Practice {
    rig: (String, String),
    kind: HitchKind,
    checklist: (String, String),
    at: DateTime<FixedOffset>,
    hands: Vec<Id>,
}

impl Practice {
    /// Who of this crew read and typed or did the work; nothing of a walk that was not gone
    /// through. A second look or reading at some of its steps is no walk.
    pub fn of(trip: &Verified, walk: &Walk, crew: &Crew) -> Option<Self> {
        let signed = &trip.sealed()?.person.id;
        if !walk.went_through() {
            return None;
        }
        let plan = walk.plan();
        let begun = trip.begun();
        let names = hands((&begun.reader, &begun.doer), trip.entries());
        let names: Vec<&Words> = names.collect();
        let took_part = crew.signers().iter().filter(|one| {
            let is_named = |name: &&Words| {
                name.names_whom(one.name.as_str()) || name.as_str() == one.id.as_str()
            };
            one.id == *signed || names.iter().any(is_named)
        });
        let took_part = took_part.filter(|one| !is_device(&one.roles));
        Some(Self {
            rig: (plan.rig().id.clone(), plan.rig().name.clone()),
            kind: plan.rig().hitch.kind(),
            checklist: (plan.checklist().id.clone(), plan.checklist().title.clone()),
            at: walk.paper().copied().unwrap_or(trip.at().wall),
            hands: took_part.map(|one| one.id.clone()).collect(),
        })
    }

    /// Whether a walk counts of which verification finds this.
    pub const fn counts(finding: Finding) -> bool {
        matches!(finding, Finding::Intact | Finding::NotCountersigned)
    }
}

/// One of the crew.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Person {
    /// The id.
    pub id: Id,
    /// The name as printed.
    pub name: PrintedName,
    /// What they may sign as.
    pub roles: Vec<Role>,
    /// What they are signed off for; nothing where no manager has said anything of them.
    pub signed_off: Option<SignedOff>,
    /// Every rig that anybody walked or is signed off for, by id.
    pub rigs: Vec<OnRig>,
    /// The drills they passed: how far they are with each section they drilled, in the order of
    /// checklists. How any drill went stays theirs.
    pub drills: Vec<DrilledSection>,
    /// The check rides they rode, the newest first.
    pub rides: Vec<RodeList>,
}

/// How far somebody is with a section they drilled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrilledSection {
    /// The checklist, by id and title.
    pub checklist: (String, String),
    /// The section, by id and title.
    pub section: (String, String),
    /// The stage that is next.
    pub stage: Stage,
    /// When it was last drilled.
    pub last: NaiveDate,
}

/// A check ride somebody rode.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RodeList {
    /// The checklist, by id and title.
    pub checklist: (String, String),
    /// When.
    pub day: NaiveDate,
    /// What came of it.
    pub ridden: Ridden,
    /// Whether the roster signs them off by it.
    pub signed_off: bool,
}

impl Person {
    /// Whether they are meant by this, which is a part of their name or of their id.
    pub fn is_named(&self, wanted: &str) -> bool {
        is_named(wanted, self.name.as_str()) || is_named(wanted, self.id.as_str())
    }
}

/// What somebody may do with one rig, and did.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnRig {
    /// The rig's id.
    pub rig: String,
    /// Its name, else its id.
    pub name: String,
    /// For which lists they are signed off.
    pub signed_off: Lists,
    /// The lists they walked, by title.
    pub walked: Vec<Walked>,
}

/// For which lists of a rig somebody is signed off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Lists {
    /// For none.
    No,
    /// For these.
    These(Vec<Id>),
    /// For every one.
    Every,
}

/// What somebody walked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Walked {
    /// The checklist's id.
    pub checklist: String,
    /// Its title.
    pub title: String,
    /// How often.
    pub times: usize,
    /// When last.
    pub last: NaiveDate,
    /// Whether they are signed off for it now.
    pub signed_off: bool,
}

/// The crew, and the walks of its people.
#[derive(Clone, Debug)]
pub struct People {
    people: Vec<Person>,
}

impl People {
    /// The people of a crew, what they are signed off for, and what they walked.
    pub fn of(
        crew: &Crew,
        roster: &Roster,
        practice: &[Practice],
        drills: &BTreeMap<Id, Progress>,
    ) -> Self {
        let people = crew.signers().iter().filter(|one| !is_device(&one.roles));
        let lines: Vec<_> = people
            .map(|one| (one, roster.signed_off(&one.id)))
            .collect();
        let mut rigs: BTreeMap<&str, &str> = BTreeMap::new();
        for (_, line) in &lines {
            let named = line.and_then(|line| line.rigs.as_ref());
            rigs.extend(
                named
                    .into_iter()
                    .flatten()
                    .map(|id| (id.as_str(), id.as_str())),
            );
        }
        rigs.extend(practice.iter().map(|one| (&*one.rig.0, &*one.rig.1)));
        let people = lines.into_iter().map(|(signer, line)| Person {
            id: signer.id.clone(),
            name: signer.name.clone(),
            roles: signer.roles.clone(),
            signed_off: line.cloned(),
            rigs: rigs
                .iter()
                .map(|rig| OnRig::of(rig, line, &signer.id, practice))
                .collect(),
            drills: drills.get(&signer.id).map_or_else(Vec::new, drilled),
            rides: drills
                .get(&signer.id)
                .map_or_else(Vec::new, |progress| rode(progress, line)),
        });
        Self {
            people: people.collect(),
        }
    }

    /// Everyone, in the order of the crew file.
    pub fn all(&self) -> &[Person] {
        &self.people
    }

    /// Whether a manager has signed anybody off. Where none has, that somebody is not means nothing.
    pub fn signs_off(&self) -> bool {
        self.people.iter().any(|one| one.signed_off.is_some())
    }
}

/// A checklist that drills know, by id and title.
fn known(id: &str) -> (String, String) {
    let title = list(id).map_or(id, |list| list.checklist.title.as_str());
    (id.to_owned(), title.to_owned())
}

fn drilled(progress: &Progress) -> Vec<DrilledSection> {
    let sections = progress.sections().filter_map(|(id, section, reached)| {
        let titled = list(id).and_then(|list| {
            let mut own = list.checklist.sections.iter();
            own.find(|one| one.id == section)
        });
        let title = titled.map_or(section, |one| one.title.as_str());
        Some(DrilledSection {
            checklist: known(id),
            section: (section.to_owned(), title.to_owned()),
            stage: reached.stage,
            last: progress.last(id, section)?,
        })
    });
    sections.collect()
}

fn rode(progress: &Progress, line: Option<&SignedOff>) -> Vec<RodeList> {
    let rides = progress.rides().iter().rev();
    let rode = rides.map(|(id, day, ridden)| {
        let mut stated = line.into_iter().flat_map(|line| &line.rides);
        let signed_off = stated.any(|one| {
            one.checklist.as_str() == id
                && one.revision == ridden.revision
                && one.rigs.as_str() == ridden.rigs.word()
        });
        RodeList {
            checklist: known(id),
            day: *day,
            ridden: ridden.clone(),
            signed_off: signed_off && ridden.passed,
        }
    });
    rode.collect()
}

impl OnRig {
    fn of(
        (rig, name): (&&str, &&str),
        line: Option<&SignedOff>,
        who: &Id,
        practice: &[Practice],
    ) -> Self {
        let signed_off = Lists::of(line, rig);
        let theirs = practice
            .iter()
            .filter(|one| one.rig.0 == **rig && one.hands.contains(who));
        let mut walked: BTreeMap<(&str, &str), Vec<NaiveDate>> = BTreeMap::new();
        for one in theirs {
            let (id, title) = &one.checklist;
            walked
                .entry((title, id))
                .or_default()
                .push(one.at.date_naive());
        }
        let kind = practice.iter().find(|one| one.rig.0 == **rig);
        let kind = kind.map(|one| one.kind.word());
        let rode = |id: &str| {
            let mut rides = line.into_iter().flat_map(|line| &line.rides);
            rides.any(|ride| ride.checklist.as_str() == id && Some(ride.rigs.as_str()) == kind)
        };
        let walked = walked.into_iter().filter_map(|((title, id), days)| {
            Some(Walked {
                checklist: id.to_owned(),
                title: title.to_owned(),
                times: days.len(),
                last: days.into_iter().max()?,
                signed_off: signed_off.holds(id) || rode(id),
            })
        });
        Self {
            rig: (*rig).to_owned(),
            name: (*name).to_owned(),
            walked: walked.collect(),
            signed_off,
        }
    }

    /// How often they walked any list of it.
    pub fn times(&self) -> usize {
        self.walked.iter().map(|one| one.times).sum()
    }

    /// When they last walked any list of it.
    pub fn last(&self) -> Option<NaiveDate> {
        self.walked.iter().map(|one| one.last).max()
    }

    /// The lists they walked without being signed off for them now, by title.
    pub fn without(&self) -> impl Iterator<Item = &Walked> {
        self.walked.iter().filter(|one| !one.signed_off)
    }
}

impl Lists {
    fn of(line: Option<&SignedOff>, rig: &str) -> Self {
        let Some(line) = line else { return Self::No };
        let holds = |ids: &Vec<Id>| ids.iter().any(|id| id.as_str() == rig);
        if !line.rigs.as_ref().is_none_or(holds) {
            return Self::No;
        }
        line.checklists.clone().map_or(Self::Every, Self::These)
    }

    /// Whether this list is among them.
    pub fn holds(&self, list: &str) -> bool {
        match self {
            Self::No => false,
            Self::These(ids) => ids.iter().any(|id| id.as_str() == list),
            Self::Every => true,
        }
    }
}

fn is_device(roles: &[Role]) -> bool {
    roles.contains(&Role::Device)
}
