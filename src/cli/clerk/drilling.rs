//! Drills: what there is to play and how far each learner is, beginning one, and what is done in it.

use crate::cli::clerk::begin::PROGRAM;
use crate::cli::clerk::choosing::{Made, made};
use crate::cli::clerk::drilled::{may_drill, run_of};
use crate::cli::clerk::founding::{hex, id};
use crate::cli::clerk::open::{Open, nothing_open, without_end};
use crate::cli::clerk::{Books, Clerk, Trouble, around};
use crate::desk::DRILL;
use crate::desk::{AskedDrill, Learner, Reply};
use crate::drill::{Did, Doing, Drill, Line, Run, Stage};
use crate::record::{
    Begun, BegunDrill, DRILL_ID, Digest, Left, Mode, Pinned as Bound, Said, Statements, Tip, append,
};
use crate::store::{Device, Disk, Pinned};
use crate::walk::{Act, Entry, Words};
use std::sync::Arc;

/// As whom somebody plays who signs nothing.
const NOBODY: &str = "Learner";

impl<D: Disk> Clerk<D> {
    /// Begins a drill. Where somebody learns, its first line is on the disk when this answers.
    pub(super) fn begin_drill(&mut self, asked: &AskedDrill) -> Result<Reply, Trouble> {
        (self.open, self.alone) = (None, None);
        let random = u64::from_le_bytes(self.world.random::<8>()?);
        let made = made(asked, &self.offered, random)?;
        if asked.learner.is_empty() {
            if made.examiner.is_some() {
                return Err(Trouble::Said(
                    "A check ride is recorded, and somebody rides it. Name who learns.".to_owned(),
                ));
            }
            let stage = asked.stage.unwrap_or(Stage::Guided);
            return self.begin_alone(made.drill, stage);
        }
        self.found_demo()?;
        let books = self.books_in_force()?;
        let learner = self.learner(&books, &asked.learner)?;
        let stage = match (&made.examiner, asked.stage) {
            (Some(_), _) => Stage::CheckRide,
            (None, Some(stage)) => stage,
            (None, None) => self.stage_of(&learner, &made.drill),
        };
        let unhinted = learner.progress.unhinted(&made.drill.scenario.list);
        let run = self.begin_recorded(&books, &learner, (&made, stage))?;
        if let Some(open) = &mut self.open {
            open.drill = Some(Box::new(run.without_hints(unhinted)));
        }
        self.drilling(Vec::new())
    }

    fn begin_alone(&mut self, drill: Arc<Drill>, stage: Stage) -> Result<Reply, Trouble> {
        let who = Words::read(NOBODY).map_err(|fault| Trouble::Said(fault.to_string()))?;
        let run = Run::begin(drill, stage, &who, self.world.now());
        self.alone = Some(Box::new(run));
        self.drilling(Vec::new())
    }

    fn learner(&mut self, books: &Books<D>, name: &str) -> Result<Learner, Trouble> {
        let signer = books.person(name).filter(|signer| may_drill(signer));
        let Some(signer) = signer.map(|signer| signer.id.to_string()) else {
            return Err(Trouble::Said(format!(
                "“{}” is nobody who may sign drills in this logbook. Name someone of the crew, or \
                 play without a record.",
                name.trim().escape_debug()
            )));
        };
        let learners = self.learners(books)?.into_iter();
        let mut found = learners.filter(|one| one.who.id == signer);
        found.next().ok_or_else(nothing_open)
    }

    /// The stage a learner has reached with every section of a drill. A check ride is asked for by
    /// itself.
    fn stage_of(&self, learner: &Learner, drill: &Drill) -> Stage {
        let today = self.world.now().wall.date_naive();
        let scenario = &drill.scenario;
        let reached = scenario.sections.iter().map(|section| {
            let when = (today, learner.walked);
            learner
                .progress
                .stands((&scenario.list, section), when)
                .stage
        });
        reached.min().unwrap_or(Stage::Watch).min(Stage::Faults)
    }

    fn begin_recorded(
        &mut self,
        books: &Books<D>,
        learner: &Learner,
        (made, stage): (&Made, Stage),
    ) -> Result<Run, Trouble> {
        let drill = &made.drill;
        let examiner = examiner(books, learner, made.examiner.as_deref())?;
        let name = books.drilling_device()?;
        let drills = books.drills();
        let device = Device::take(&drills.logbook, &name)?;
        drills.logbook.settle(&name)?;
        let none = Statements::default();
        let last = drills.last_number(&name, &none)?;
        let previous = drills.newest_trip(&name, &none)?;
        let who = Words::read(&learner.who.name);
        let who = who.map_err(|fault| Trouble::Said(format!("{fault}.")))?;
        let new = id(&format!("{DRILL_ID}{}", hex(self.world.random::<8>()?)))?;
        let scenario = &drill.scenario;
        let sights = &made.sights;
        let bound = |id: &str, text: &str| Bound {
            id: id.to_owned(),
            hash: Digest::of(text.as_bytes()),
        };
        let carried = scenario.carries.iter().map(|carried| Left {
            carried: carried.clone(),
            since: new.clone(),
        });
        let begun = Begun {
            carried: carried.collect(),
            mode: Mode::Drill,
            seq: device.next_seq()?.max(last.saturating_add(1)),
            previous: previous.map(|newest| newest.ends),
            device: name,
            checklist: bound(&scenario.list, &drill.passage),
            rig: bound(&scenario.rig, &made.rig),
            crew: books.crew.revision(),
            manager: None,
            program: PROGRAM.to_owned(),
            odometer: None,
            reader: who.clone(),
            doer: who.clone(),
            haul: None,
            paper: None,
            answers: Vec::new(),
            drill: Some(BegunDrill {
                scenario: bound(&scenario.id, &made.scenario),
                sights: Digest::of(sights.as_bytes()),
                seed: drill.seed,
                stage,
                examiner: examiner.clone(),
            }),
            trip: new,
        };
        let now = self.world.now();
        let (line, tip) = append(
            Tip::START,
            &now,
            &who,
            &Said::Begun(Box::new(begun.clone())),
        )?;
        let pinned = Pinned {
            checklist: drill.passage.as_bytes(),
            rig: made.rig.as_bytes(),
            crew: books.crew.text().as_bytes(),
            drill: Some((made.scenario.as_bytes(), sights.as_bytes())),
        };
        let (folder, journal) = device.begin(begun.seq, &begun.trip, pinned, without_end(&line))?;
        let run = Run::begin(Arc::clone(drill), stage, &who, now).examined_by(examiner);
        self.open = Some(Open {
            _held: device,
            journal,
            folder,
            begun,
            tip,
            walk: run.walk().clone(),
            drill: None,
            is_signed: false,
        });
        Ok(run)
    }

    /// Looks, measures, calls, comes back or says what was learned, in the drill under way.
    pub(super) fn drill(&mut self, doing: &Doing) -> Result<Reply, Trouble> {
        let now = self.world.now();
        let line = match (&mut self.open, &mut self.alone) {
            (Some(open), _) => open.does(doing, now)?,
            (None, Some(run)) => {
                let did = run.decide(doing, &now)?;
                let line = Line { at: now, did };
                run.apply(&line);
                line
            }
            (None, None) => return Err(nothing_open()),
        };
        Ok(match line.did {
            Did::Walked(event) => Reply::Recorded(Box::new(Entry {
                at: line.at,
                actor: self.actor()?,
                event: *event,
            })),
            Did::Drilled(_) => Reply::Drilled(Box::new(line)),
        })
    }

    fn actor(&self) -> Result<Words, Trouble> {
        let walk = self.open.as_ref().map(|open| &open.walk);
        let walk = walk.or(self.alone.as_ref().map(|run| run.walk()));
        walk.map(|walk| walk.reader().clone())
            .ok_or_else(nothing_open)
    }

    /// The drill in hand, for the screens.
    pub(super) fn drilling(&self, notices: Vec<String>) -> Result<Reply, Trouble> {
        let recorded = self.open.as_ref().and_then(|open| {
            let run = open.drill.clone()?;
            Some((run, Some(around::trip_name(&open.folder))))
        });
        let alone = || self.alone.clone().map(|run| (run, None));
        let (run, trip) = recorded.or_else(alone).ok_or_else(nothing_open)?;
        Ok(Reply::Drilling {
            run,
            trip,
            is_signed: self.open.as_ref().is_some_and(|open| open.is_signed),
            notices,
            barn: self.stock.settings.for_walk(),
            now: self.world.now(),
        })
    }

    /// Takes up a drill that was begun and not ended, or not signed.
    pub(super) fn take_up_drill(&mut self, name: &str) -> Result<Reply, Trouble> {
        let drills = self.books()?.drills();
        let trip = name.strip_prefix(DRILL).unwrap_or(name);
        let (mut open, read) = self.resumed(&drills, trip)?;
        let run = run_of(&read)?;
        let learner = self.learner(&self.books()?, run.walk().reader().as_str());
        let list = run.drill().scenario.list.clone();
        let unhinted = learner.map(|one| one.progress.unhinted(&list));
        open.drill = Some(Box::new(run.without_hints(unhinted.unwrap_or_default())));
        open.is_signed = read.trip().is_some_and(|trip| trip.sealed().is_some())
            || drills.logbook.is_signed(&open.folder)?;
        if open.walk.ended().is_none() {
            open.record(&Act::TakeUp, self.world.now())?;
        }
        self.open = Some(open);
        let notices = std::mem::take(&mut self.notices);
        self.drilling(notices)
    }
}

/// Who examines a check ride: one of the crew who may, and who is not the one examined.
fn examiner<D: Disk>(
    books: &Books<D>,
    learner: &Learner,
    named: Option<&str>,
) -> Result<Option<Words>, Trouble> {
    let Some(named) = named else {
        return Ok(None);
    };
    let rider = books.person(&learner.who.id);
    let meant = books.person(named).map(|one| one.name.to_string());
    let found = rider.zip(meant.as_deref());
    let found = found.and_then(|(rider, name)| books.crew.examiner(name, rider));
    let Some((who, _)) = found.filter(|(who, _)| may_drill(who)) else {
        return Err(Trouble::Said(format!(
            "“{}” may not examine {}. An examiner or a manager of the crew does, and nobody \
             examines themselves. See who is with: hames crew list",
            named.trim().escape_debug(),
            learner.who.name
        )));
    };
    let name = Words::read(who.name.as_str());
    Ok(Some(
        name.map_err(|fault| Trouble::Said(format!("{fault}.")))?,
    ))
}
