//! `hames logbook show`: one trip opened, what is not as expected first.

use crate::cli::Status;
use crate::cli::clerk::{Books, Plans, TripRead, tale};
use crate::cli::logbook::known::Known;
use crate::cli::logbook::shelf::Failed;
use crate::desk::DRILL;
use crate::desk::{OpenedTrip, ReadingBeside, Tale, lasted, stated, went};
use crate::logbook::owned;
use crate::plain;
use crate::record::{Digest, Finding, Id, Opinion, Says, Verified};
use crate::review::Stretch;
use crate::rules::Outcome;
use crate::store::{Local, TripFolder};
use serde::Serialize;
use std::io::{self, Write};
use std::path::Path;

const SCHEMA: &str = "hames-trip/1";

/// A trip that was opened.
pub(super) struct Open {
    /// The trip as it is told.
    pub(super) told: OpenedTrip,
    /// What verification finds of it in the whole logbook.
    pub(super) finding: Finding,
    /// Its laptop and folder.
    pub(super) trip: (Id, TripFolder),
    /// The trip as read.
    pub(super) read: TripRead,
}

/// A trip that cannot be walked again.
pub(super) struct Shut {
    /// What of it can be told.
    pub(super) tale: Tale,
    /// What verification finds of it.
    pub(super) finding: Finding,
}

/// Tells the trip that is meant.
pub(super) fn show(
    typed: &str,
    logbook: &Path,
    json: bool,
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    let meant = Meant::by(typed, logbook)?;
    let known = if meant.is_drill {
        // What the trips of the rig say is nothing to a drill.
        Known::default()
    } else {
        Known::read(logbook)?.unwrap_or_default()
    };
    let open = match meant.open(&known)? {
        Ok(open) => open,
        Err(shut) if json => {
            let told = ShutTold {
                schema: SCHEMA,
                finding: shut.finding.word(),
                heading: &shut.tale.heading,
                findings: &shut.tale.findings,
            };
            serde_json::to_writer(&mut *out, &told).map_err(io::Error::from)?;
            writeln!(out)?;
            return Ok(Status::Verified(shut.finding));
        }
        Err(shut) => {
            for line in shut.tale.heading.iter().chain(&shut.tale.findings) {
                writeln!(out, "{line}")?;
            }
            return Ok(Status::Verified(shut.finding));
        }
    };
    if let Some(trip) = open.read.trip().filter(|_| json) {
        let told = Told::of(&open.told, trip, open.finding);
        serde_json::to_writer(&mut *out, &told).map_err(io::Error::from)?;
        writeln!(out)?;
    } else {
        out.write_all(plain::opened(&open.told).as_bytes())?;
    }
    Ok(match open.finding {
        Finding::Intact | Finding::NotCountersigned | Finding::Unsealed => Status::Fine,
        finding => Status::Verified(finding),
    })
}

/// Opens the trip that is meant, given what is known of the whole logbook.
pub(super) fn open(
    typed: &str,
    logbook: &Path,
    known: &Known,
) -> Result<Result<Open, Shut>, Failed> {
    Meant::by(typed, logbook)?.open(known)
}

/// The trip or drill that is meant, in the books it lies in.
struct Meant {
    books: Books<Local>,
    trip: (Id, TripFolder),
    is_drill: bool,
}

impl Meant {
    /// A drill is meant where one is named as its end names it, or by a folder or a receipt that no
    /// trip has and a drill does. Drills have numbers of their own, so a bare laptop and number is a
    /// trip.
    fn by(typed: &str, logbook: &Path) -> Result<Self, Failed> {
        let books = Books::open(&Local, logbook)?;
        let drill = typed.strip_prefix(DRILL);
        let found = match drill {
            Some(name) => books.drills().trip(name).map(|trip| (trip, true)),
            None => books.trip(typed).map(|trip| (trip, false)),
        };
        let found = found.or_else(|trouble| {
            let numbered = drill.is_some() || typed.contains('/');
            let of_drills = (!numbered)
                .then(|| books.drills().trip(typed).ok())
                .flatten();
            of_drills.map(|trip| (trip, true)).ok_or(trouble)
        });
        let (trip, is_drill) =
            found.map_err(|trouble| Failed::Said(trouble.status(), trouble.to_string()))?;
        let books = if is_drill { books.drills() } else { books };
        Ok(Self {
            books,
            trip,
            is_drill,
        })
    }

    /// Opens it, given what is known of the whole logbook: it alone is read for that.
    fn open(self, known: &Known) -> Result<Result<Open, Shut>, Failed> {
        let Self { books, trip, .. } = self;
        let (device, folder) = trip;
        let read = books.read(&device, &folder, &mut Plans::default())?;
        let mut told = tale(&read, &books);
        let (Some(trip), Ok(walk)) = (read.trip(), read.walk()) else {
            let finding = read.finding();
            return Ok(Err(Shut {
                tale: told,
                finding,
            }));
        };
        let finding = known.finding(&folder, read.finding());
        told.findings = known.findings(&read);
        let seal = trip.sealed().map(|sealed| sealed.hash);
        let said = seal.map_or_else(Vec::new, |seal| said(known, &seal));
        let exceptions = known.exceptions((&device, &read), (trip, &walk));
        let told = (told, said, known.asked(trip));
        let told = OpenedTrip::of((trip, &walk), told, exceptions, known.past(trip));
        drop(walk);
        Ok(Ok(Open {
            told,
            finding,
            trip: (device, folder),
            read,
        }))
    }
}

/// What managers said of the trip with this seal, in the order of their words, and what was answered
/// to each question.
fn said(known: &Known, seal: &Digest) -> Vec<String> {
    let said = known.statements.counting().filter_map(|stated| {
        let statement = stated.statement();
        let Says::Countersigned(says) = &statement.says else {
            return None;
        };
        let answers = known.answers.to(&stated.hash()).into_iter();
        (says.seal == *seal).then(|| {
            let opinion = match says.opinion {
                Opinion::Agreed => "agreed",
                Opinion::Asked => "asked",
            };
            let took = says.took_ms.map_or_else(String::new, |ms| {
                format!(", after {} of looking", lasted(ms))
            });
            let words = says.remarks.as_ref();
            let words = words.map_or_else(String::new, |words| format!(": “{words}”"));
            let said = format!(
                "{} {opinion} on {}{took}, in statement {}{words}",
                statement.name,
                statement.wall.moment().format("%Y-%m-%d %H:%M"),
                statement.number
            );
            std::iter::once(said).chain(answers.map(|answer| answer.to_string()))
        })
    });
    let owned = owned(&known.statements).into_iter();
    let owned = owned.filter(|one| one.seal == *seal);
    let owned = owned.map(|one| format!("{}: {}", one.said.step, stated(&one.said)));
    said.flatten().chain(owned).collect()
}

/// A trip that cannot be walked again, as JSON: what the same fields of one that can say.
#[derive(Serialize)]
struct ShutTold<'t> {
    schema: &'static str,
    finding: &'static str,
    heading: &'t [String],
    findings: &'t [String],
}

/// The trip as JSON.
#[derive(Serialize)]
struct Told<'t> {
    schema: &'static str,
    trip: &'t str,
    device: &'t str,
    number: u64,
    rig: &'t str,
    finding: &'static str,
    heading: &'t [String],
    findings: &'t [String],
    said: &'t [String],
    asked: &'t [String],
    exceptions: Vec<ExceptionTold<'t>>,
    timeline: Vec<StretchTold>,
    readings: Vec<ReadingTold<'t>>,
    signatures: &'t [String],
}

#[derive(Serialize)]
struct ExceptionTold<'t> {
    named: &'t str,
    told: &'t [String],
}

#[derive(Serialize)]
struct StretchTold {
    from: String,
    took_ms: u64,
    told: String,
}

#[derive(Serialize)]
struct ReadingTold<'t> {
    line: usize,
    step: &'t str,
    name: &'t str,
    typed: &'t str,
    instrument: &'t str,
    outcome: &'static str,
    replaced: bool,
    limit: Option<String>,
    earlier: Vec<EarlierTold<'t>>,
}

#[derive(Serialize)]
struct EarlierTold<'t> {
    at: String,
    typed: &'t str,
    outcome: &'static str,
}

impl<'t> Told<'t> {
    fn of(opened: &'t OpenedTrip, trip: &'t Verified, finding: Finding) -> Self {
        let begun = trip.begun();
        let exceptions = opened.exceptions.iter();
        Self {
            schema: SCHEMA,
            trip: begun.trip.as_str(),
            device: begun.device.as_str(),
            number: begun.seq,
            rig: &begun.rig.id,
            finding: finding.word(),
            heading: &opened.tale.heading,
            findings: &opened.tale.findings,
            said: &opened.said,
            asked: &opened.asked,
            exceptions: exceptions
                .map(|exception| ExceptionTold {
                    named: exception.named.as_str(),
                    told: &exception.told,
                })
                .collect(),
            timeline: opened.timeline.iter().map(stretch).collect(),
            readings: opened.readings.iter().map(reading).collect(),
            signatures: &opened.tale.signatures,
        }
    }
}

fn stretch(stretch: &Stretch) -> StretchTold {
    StretchTold {
        from: stretch.from.to_rfc3339(),
        took_ms: stretch.took_ms,
        told: went(stretch),
    }
}

fn reading(read: &ReadingBeside) -> ReadingTold<'_> {
    let earlier = read.earlier.iter();
    ReadingTold {
        line: read.line,
        step: &read.step,
        name: &read.name,
        typed: read.typed.text(),
        instrument: &read.instrument,
        outcome: read.outcome,
        replaced: read.replaced,
        limit: read.limit.as_ref().map(ToString::to_string),
        earlier: earlier
            .map(|one| EarlierTold {
                at: one.at.to_rfc3339(),
                typed: one.typed.text(),
                outcome: Outcome::word(one.outcome),
            })
            .collect(),
    }
}
