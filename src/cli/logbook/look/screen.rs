//! A logbook looked over on a screen: this side of the desk reads, and signs what a manager says to
//! one trip.

use crate::cli::logbook::AboutLogbook;
use crate::cli::logbook::known::Known;
use crate::cli::logbook::look::reading::{Reading, Whole};
use crate::cli::logbook::look::signing::{Able, Desk};
use crate::cli::logbook::shelf::Failed;
use crate::cli::logbook::show::{Open, open};
use crate::cli::logbook::trends::Followed;
use crate::cli::lot::{Lot, lots};
use crate::cli::whose::Whose;
use crate::cli::{Status, screens, year};
use crate::desk::{Errand, Lookout, OpenedTrip, Reply};
use crate::record::{Mode, Opinion};
use crate::review::Filter;
use std::cell::OnceCell;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::slice;

/// Shows it until the person leaves. What could not be read is told once more after that.
pub(super) fn show(
    filter: Filter,
    about: &AboutLogbook,
    whose: &Whose,
    err: &mut dyn Write,
) -> Status {
    let year_in = about.year_in.as_deref();
    let to_make = year_in.is_some_and(|data| !year::is_made(data));
    let mode = year_in.map_or(Mode::Real, |_| Mode::Demo);
    let lots = OnceCell::new();
    let mut reader = Reader {
        place: about.place().to_owned(),
        lots: &lots,
        reading: None,
        whole: None,
        known: None,
        followed: Followed::default(),
        whose: whose.clone(),
        agent: about.agent.clone(),
        year_in: about.year_in.clone(),
        failed: None,
    };
    let mut perform = |errand| reader.perform(errand);
    let status = screens::show_lookout(&mut perform, (mode, filter), to_make, about.look, err);
    let Some((failed, sentence)) = reader.failed else {
        return status;
    };
    drop(writeln!(err, "{sentence}"));
    failed
}

/// Whoever reads for the screen.
struct Reader<'l> {
    place: PathBuf,
    /// The logbook, once it was looked at.
    lots: &'l OnceCell<Vec<Lot>>,
    /// What is still to be read of it.
    reading: Option<Reading<'l>>,
    /// Everything there is to look over, where that was read before the screen asked for it.
    whole: Option<Box<Lookout>>,
    /// What is known beside each trip, once all of them were read.
    known: Option<Known>,
    /// How readings move, by the trips that were read.
    followed: Followed,
    whose: Whose,
    agent: Option<PathBuf>,
    /// Where the invented year lies, or is made first, until it is at hand.
    year_in: Option<PathBuf>,
    /// Why the logbook could not be read, and the status for that.
    failed: Option<(Status, String)>,
}

impl<'l> Reader<'l> {
    fn perform(&mut self, errand: Errand) -> Reply {
        let reply = match errand {
            Errand::LookOver => self.look_over(),
            Errand::ReadOn => self
                .read_on()
                .unwrap_or_else(|failed| Reply::Cannot(said(failed).1)),
            Errand::LookAtTrends => match self.read_all() {
                Ok(()) => {
                    let place = slice::from_ref(&self.place);
                    Reply::Trends(self.followed.told(None, place))
                }
                Err(failed) => Reply::Cannot(said(failed).1),
            },
            Errand::OpenTrip { trip } => self.with(&trip, |desk, open| Ok(laid_out(&desk, open))),
            Errand::MayCountersign {
                trip,
                manager,
                opinion,
            } => self.with(&trip, |desk, open| desk.may(&open, &manager, opinion)),
            Errand::Countersign { what, consent } => {
                let trip = what.trip.clone();
                self.with(&trip, |mut desk, open| desk.sign(&open, *what, &consent))
            }
            _ => Reply::Cannot("Here trips are looked over, and nothing else is done.".to_owned()),
        };
        self.whose.reply(reply)
    }

    fn look_over(&mut self) -> Reply {
        self.looked().unwrap_or_else(|failed| {
            let (status, sentence) = said(failed);
            self.failed = Some((status, sentence.clone()));
            Reply::Cannot(sentence)
        })
    }

    /// Everything where that is short; else the newest trips, and the others as
    /// [`Errand::ReadOn`] asks for them.
    fn looked(&mut self) -> Result<Reply, Failed> {
        if let Some(data) = self.year_in.take() {
            self.place = year::at_hand(&data)?;
        }
        let found = lots(slice::from_ref(&self.place), &[])?;
        let Some(lot) = self.lots.get_or_init(|| found).first() else {
            let nothing = Lookout {
                mode: Mode::Real,
                trips: Vec::new(),
                closed: Vec::new(),
                unread: 0,
            };
            return Ok(Reply::Lookout(Box::new(nothing)));
        };
        let mut reading = Reading::begin(lot)?;
        if reading.is_short() {
            return self.whole(reading);
        }
        let newest = reading.newest();
        self.reading = Some(reading);
        Ok(Reply::Lookout(Box::new(newest)))
    }

    fn read_on(&mut self) -> Result<Reply, Failed> {
        if let Some(whole) = self.whole.take() {
            return Ok(Reply::Lookout(whole));
        }
        let Some(mut reading) = self.reading.take() else {
            return Ok(Reply::StillToRead(0));
        };
        let unread = reading.go_on();
        if unread == 0 {
            return self.whole(reading);
        }
        self.reading = Some(reading);
        Ok(Reply::StillToRead(unread))
    }

    fn whole(&mut self, reading: Reading<'l>) -> Result<Reply, Failed> {
        let lookout = self.keep(reading.end()?);
        Ok(Reply::Lookout(Box::new(lookout)))
    }

    /// Keeps what every trip came to, but for what there is to look over.
    fn keep(&mut self, whole: Whole) -> Lookout {
        self.known = Some(whole.known);
        self.followed = whole.followed;
        whole.lookout
    }

    /// Reads what is left of a logbook. Whoever asks for what all trips come to waits for that.
    fn read_all(&mut self) -> Result<(), Failed> {
        if let Some(reading) = self.reading.take() {
            let lookout = self.keep(reading.end()?);
            self.whole = Some(Box::new(lookout));
        }
        Ok(())
    }

    /// What is known beside each trip.
    fn known(&mut self) -> Result<&Known, Failed> {
        self.read_all()?;
        Ok(self.known.get_or_insert_default())
    }

    fn opened(&mut self, trip: &str) -> Result<Result<Open, Reply>, Failed> {
        let place = self.place.clone();
        Ok(match open(trip, &place, self.known()?)? {
            Ok(open) => Ok(open),
            Err(shut) => {
                let lines = shut.tale.heading.iter().chain(&shut.tale.findings);
                let lines: Vec<String> = lines.cloned().collect();
                Err(Reply::Cannot(lines.join(" ")))
            }
        })
    }

    /// Does something with a trip of the logbook, which is read for it.
    fn with(
        &mut self,
        trip: &str,
        act: impl FnOnce(Desk<'_>, Open) -> Result<Reply, Failed>,
    ) -> Reply {
        let done = self.opened(trip).and_then(|opened| match opened {
            Ok(open) => {
                let desk = Desk {
                    place: &self.place,
                    agent: self.agent.as_ref(),
                    known: self.known.get_or_insert_default(),
                };
                act(desk, open)
            }
            Err(reply) => Ok(reply),
        });
        done.unwrap_or_else(|failed| {
            // Maybe for what came since: it is all read anew.
            self.known = Known::read(&self.place).ok().flatten();
            Reply::Cannot(said(failed).1)
        })
    }
}

/// A trip laid out, with who can countersign it here.
fn laid_out(desk: &Desk<'_>, open: Open) -> Reply {
    let (able, next) = match desk.managers(&open) {
        Ok(able) => {
            let next = what_next(&able.refused()).to_owned();
            (able, next)
        }
        Err(why) => (Able::default(), why),
    };
    let trip = OpenedTrip {
        already: able.already(),
        refused: able.refused(),
        ..open.told
    };
    Reply::Opened {
        next,
        managers: able.managers,
        trip: Box::new(trip),
    }
}

/// What can be done about an opened trip by whoever may countersign it, of whom none can say these
/// words. The word said last is one, so that the other is always left.
pub(super) fn what_next(refused: &[Opinion]) -> &'static str {
    match refused {
        [Opinion::Agreed] => {
            "a puts a question about the trip, which is signed by a manager who had no hand in it."
        }
        [Opinion::Asked] => {
            "s agrees to the trip, once everything here has been opened, which is signed by a \
             manager who had no hand in it."
        }
        _ => {
            "s agrees to the trip, once everything here has been opened; a puts a question about \
             it. Either is signed by a manager who had no hand in it."
        }
    }
}

pub(super) fn name(folder: &Path) -> String {
    let name = folder.file_name().unwrap_or_default();
    name.to_string_lossy().into_owned()
}

fn said(failed: Failed) -> (Status, String) {
    match failed {
        Failed::Said(status, sentence) => (status, sentence),
        Failed::Output(error) => (Status::Store, format!("Nothing could be read: {error}.")),
    }
}
