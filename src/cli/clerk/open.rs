//! The trip in hand: an act is judged, its line is put on the disk, and only then it counts.

use crate::cli::clerk::{Clerk, Trouble};
use crate::desk::Reply;
use crate::drill::{Did, Doing, Line, Run};
use crate::record::{Begun, Said, Tip, append};
use crate::store::{Device, Disk, Journal, TripFolder};
use crate::walk::{Act, Entry, Moment, Walk};

/// A trip that is written here, and nowhere else as long as this is held.
#[derive(Debug)]
pub(super) struct Open<D: Disk> {
    /// Keeps every other program off this laptop's trips.
    pub(super) _held: Device<D>,
    pub(super) journal: Journal<D>,
    pub(super) folder: TripFolder,
    pub(super) begun: Begun,
    pub(super) tip: Tip,
    pub(super) walk: Walk,
    /// The drill it is the walk of, where it is one.
    pub(super) drill: Option<Box<Run>>,
    /// Whether the person has signed, so that the examiner of a check ride is next.
    pub(super) is_signed: bool,
}

impl<D: Disk> Clerk<D> {
    /// Judges an act and puts its event on the disk.
    pub(super) fn record(&mut self, act: &Act) -> Result<Reply, Trouble> {
        self.wake();
        let now = self.world.now();
        if let Act::HandOver { reader, .. } = act {
            self.is_crew(reader)?;
        }
        self.is_another(act, &now)?;
        let open = self.open.as_mut().ok_or_else(nothing_open)?;
        let entry = open.record(act, now)?;
        Ok(Reply::Recorded(Box::new(entry)))
    }

    /// Who reads and types signs what was read and typed, so it is someone of the crew.
    pub(super) fn is_crew(&self, reader: &str) -> Result<(), Trouble> {
        if reader.trim().is_empty() || self.books()?.person(reader).is_some() {
            return Ok(());
        }
        Err(Trouble::Said(format!(
            "“{}” is not in the crew file of this barn, and who reads and types has to sign. \
             Name someone of the crew, or have the manager add the person.",
            reader.trim().escape_debug()
        )))
    }
}

impl<D: Disk> Open<D> {
    pub(super) fn record(&mut self, act: &Act, at: Moment) -> Result<Entry, Trouble> {
        let event = match &self.drill {
            None => self.walk.decide(act, &at)?,
            Some(run) => match run.decide(&Doing::Walk(act.clone()), &at)? {
                Did::Walked(event) => *event,
                Did::Drilled(_) => return Err(nothing_open()),
            },
        };
        let actor = self.walk.reader().clone();
        let entry = Entry { at, actor, event };
        let said = Said::Happened(Box::new(entry.event.clone()));
        self.keep(&entry.at, &said)?;
        self.walk.apply(&entry);
        if let Some(run) = &mut self.drill {
            run.apply(&Line::of(&entry));
        }
        Ok(entry)
    }

    /// Does something in a drill, and puts it on the disk.
    pub(super) fn does(&mut self, doing: &Doing, at: Moment) -> Result<Line, Trouble> {
        if let Doing::Walk(act) = doing {
            return Ok(Line::of(&self.record(act, at)?));
        }
        let run = self.drill.as_ref().ok_or_else(nothing_open)?;
        let line = Line {
            did: run.decide(doing, &at)?,
            at,
        };
        if let Did::Drilled(drilled) = &line.did {
            self.keep(&line.at, &Said::Drilled(Box::new(drilled.clone())))?;
        }
        if let Some(run) = &mut self.drill {
            run.apply(&line);
        }
        Ok(line)
    }

    /// Puts a line on the disk.
    fn keep(&mut self, at: &Moment, said: &Said) -> Result<(), Trouble> {
        let (line, next) = append(self.tip, at, self.walk.reader(), said)?;
        self.journal.append(without_end(&line))?;
        self.tip = next;
        Ok(())
    }
}

/// A line as the journal takes it: it puts the line end there itself.
pub(super) fn without_end(line: &[u8]) -> &[u8] {
    line.strip_suffix(b"\n").unwrap_or(line)
}

pub(super) fn nothing_open() -> Trouble {
    Trouble::Said("No walk is under way. Begin one, or take one up.".to_owned())
}
