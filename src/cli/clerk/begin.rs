//! Beginning a trip: everything it rests on is pinned beside it before its first line.

use crate::checklist::{Checklist, Haul};
use crate::cli::clerk::founding::{hex, id};
use crate::cli::clerk::history::Looked;
use crate::cli::clerk::open::{Open, without_end};
use crate::cli::clerk::ready::Ready;
use crate::cli::clerk::stock::Offer;
use crate::cli::clerk::{Clerk, Trouble};
use crate::desk::{Approval, NO_ODOMETER, PutQuestion, Reply};
use crate::haul;
use crate::record::{
    Answered, Begun, Digest, Id, Left, Pinned as Bound, Said, Stated, Tip, append,
};
use crate::store::{Device, Disk, Pinned};
use crate::units::{Dimension, Typed};
use crate::walk::Words;
use std::sync::Arc;

/// What is written in line 0 as the program.
pub(in crate::cli) const PROGRAM: &str = concat!("hames ", env!("CARGO_PKG_VERSION"));

/// A walk as it was asked for.
pub(super) struct Asked<'a> {
    pub(super) rig: &'a str,
    pub(super) checklist: &'a str,
    pub(super) reader: &'a str,
    pub(super) doer: &'a str,
    pub(super) odometer: &'a str,
    /// When it was walked on paper, or nothing.
    pub(super) walked: &'a str,
    /// Answers to questions that were put.
    pub(super) answers: Vec<Answered>,
}

impl<D: Disk> Clerk<D> {
    /// Begins a trip. When this answers, its first line is on the disk.
    pub(super) fn begin(&mut self, asked: Asked<'_>) -> Result<Reply, Trouble> {
        (self.open, self.alone) = (None, None);
        let odometer = odometer_of(asked.odometer)?;
        let read = odometer.as_ref().map(Typed::quantity);
        let ready = self.ready((asked.rig, asked.checklist), asked.walked, read)?;
        let (reader, doer) = (
            person(asked.reader, "who reads")?,
            person(asked.doer, "who does the work")?,
        );
        self.found_demo()?;
        let books = self.books_in_force()?;
        self.is_crew(reader.as_str())?;
        let name = books.device()?;
        let device = Device::take(&books.logbook, &name)?;
        books.logbook.settle(&name)?;
        let statements = books.statements()?;
        let manager = statements.newest();
        if let Some(stated) = manager {
            books.settle(stated)?;
        }
        books.may_begin(&name, &statements)?;
        let people = [reader.as_str(), doer.as_str()];
        let mut notices = self.good_to_know(&books, &statements, &ready, &people)?;
        let open = books.questions_for(&statements, &people, &mut self.history.plans)?;
        let is_left = |put: &&PutQuestion| {
            let mut given = asked.answers.iter();
            !given.any(|answer| answer.question == put.question)
        };
        notices.extend(open.newest.iter().filter(is_left).map(PutQuestion::told));
        notices.extend(open.told());
        let Ready {
            rig,
            checklist,
            plan,
            looked,
            paper,
            ..
        } = ready;
        let last = books.last_number(&name, &statements)?;
        let previous = books.newest_trip(&name, &statements)?;
        let new = id(&hex(self.world.random::<8>()?))?;
        let begun = Begun {
            haul: haul_of(&checklist, &new, &looked)?,
            carried: left_open(&looked)?,
            paper,
            answers: asked.answers,
            drill: None,
            trip: new,
            mode: books.mode(),
            seq: device.next_seq()?.max(last.saturating_add(1)),
            previous: previous.map(|newest| newest.ends),
            device: name,
            checklist: bound(&checklist.read.id, &checklist.text),
            rig: bound(&rig.read.id, &rig.text),
            crew: books.crew.revision(),
            manager: manager.map(Stated::hash),
            program: PROGRAM.to_owned(),
            odometer,
            reader: reader.clone(),
            doer,
        };
        let now = self.world.now();
        let said = Said::Begun(Box::new(begun.clone()));
        let (line, tip) = append(Tip::START, &now, &reader, &said)?;
        let pinned = Pinned {
            checklist: checklist.text.as_bytes(),
            rig: rig.text.as_bytes(),
            crew: books.crew.text().as_bytes(),
            drill: None,
        };
        let (folder, journal) = device.begin(begun.seq, &begun.trip, pinned, without_end(&line))?;
        let walk = begun.walk(Arc::new(plan), now);
        self.open = Some(Open {
            _held: device,
            journal,
            folder,
            begun,
            tip,
            walk,
            drill: None,
            is_signed: false,
        });
        let standing = books.standing(&checklist.read.id, checklist.text.as_bytes());
        self.walking(standing, notices)
    }

    /// The walk in hand, for the screens.
    pub(super) fn walking(
        &self,
        standing: Approval,
        notices: Vec<String>,
    ) -> Result<Reply, Trouble> {
        let open = self.open.as_ref().ok_or_else(super::open::nothing_open)?;
        Ok(Reply::Walking {
            walk: Box::new(open.walk.clone()),
            trip: super::around::trip_name(&open.folder),
            mode: open.begun.mode,
            standing,
            notices,
            barn: self.stock.settings.for_walk(),
            now: self.world.now(),
        })
    }
}

/// The haul a walk belongs to, by the trip that began it.
fn haul_of(
    checklist: &Offer<Checklist>,
    trip: &Id,
    looked: &Looked,
) -> Result<Option<Id>, Trouble> {
    let going = || {
        let haul = looked.standing.haul.as_ref();
        haul.map(|haul| id(&haul.trip)).transpose()
    };
    match checklist.read.haul {
        Haul::Begins => Ok(Some(trip.clone())),
        Haul::During | Haul::Ends => going(),
        Haul::Apart => Ok(None),
    }
}

/// What stands open, as line 0 keeps it.
fn left_open(looked: &Looked) -> Result<Vec<Left>, Trouble> {
    let left = |open: &haul::Open| {
        Ok(Left {
            carried: open.carried.clone(),
            since: id(&open.since.trip)?,
        })
    };
    looked.standing.open.iter().map(left).collect()
}

fn bound(id: &str, text: &str) -> Bound {
    Bound {
        id: id.to_owned(),
        hash: Digest::of(text.as_bytes()),
    }
}

fn odometer_of(typed: &str) -> Result<Option<Typed>, Trouble> {
    if typed.trim().is_empty() {
        return Ok(None);
    }
    Typed::read(typed, Dimension::Length)
        .map(Some)
        .map_err(|_| Trouble::Said(NO_ODOMETER.to_owned()))
}

fn person(name: &str, whose: &str) -> Result<Words, Trouble> {
    Words::read(name).map_err(|fault| Trouble::Said(format!("Name {whose}: {fault}.")))
}
