//! `hames logbook show`: one trip opened, what is not as expected first.

use crate::cli::Status;
use crate::cli::clerk::{Books, Plans, TripRead, tale};
use crate::cli::logbook::gather::Gathered;
use crate::cli::logbook::shelf::Failed;
use crate::cli::lot::{Line, Lot, Section};
use crate::desk::{OpenedTrip, ReadingBeside, Tale, lasted, went};
use crate::plain;
use crate::record::{Digest, Finding, Opinion, Says, Statements, Verified};
use crate::review::{Past, Stretch, attention};
use crate::rules::Outcome;
use crate::store::{Local, TripFolder};
use crate::world::{Machine, World};
use serde::Serialize;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::slice;

const SCHEMA: &str = "hames-trip/1";

/// What the whole logbook says beside one trip.
struct Beside {
    past: Past,
    gathered: Gathered,
}

/// A trip that was opened.
pub(super) struct Open {
    /// The trip as it is told.
    pub(super) told: OpenedTrip,
    /// What verification finds of it in the whole logbook.
    pub(super) finding: Finding,
    read: TripRead,
}

/// A trip that cannot be walked again.
pub(super) struct Shut {
    /// What of it can be told.
    pub(super) tale: Tale,
    finding: Finding,
}

/// Tells the trip that is meant.
pub(super) fn show(
    typed: &str,
    logbook: &Path,
    json: bool,
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    let open = match open(typed, logbook)? {
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

/// Opens the trip that is meant: it, and the whole logbook beside it, is read for that.
pub(super) fn open(typed: &str, logbook: &Path) -> Result<Result<Open, Shut>, Failed> {
    let books = Books::open(&Local, logbook)?;
    let found = books.trip(typed);
    let (device, folder) =
        found.map_err(|trouble| Failed::Said(trouble.status(), trouble.to_string()))?;
    let read = books.read(&device, &folder, &mut Plans::default())?;
    let mut told = tale(&read, &books);
    let (Some(trip), Ok(walk)) = (read.trip(), read.walk()) else {
        let finding = read.finding();
        return Ok(Err(Shut {
            tale: told,
            finding,
        }));
    };
    let place: PathBuf = logbook.to_owned();
    let lots = crate::cli::lot::lots(slice::from_ref(&place), &[])?;
    let Some(lot) = lots.first() else {
        let finding = Finding::Unreadable;
        return Ok(Err(Shut {
            tale: told,
            finding,
        }));
    };
    let mut beside = Beside {
        past: Past::default(),
        gathered: Gathered::default(),
    };
    let now = Some(Machine::this().now().wall);
    let section = look_around(lot, trip, &mut beside)?;
    let line = section.lines.iter().find(|line| line.folder == folder);
    let finding = line.map_or_else(|| read.finding(), |line| line.finding(&section.judged));
    told.findings = findings(line, &section, finding);
    beside.gathered.leave_ended(&section.judged);
    let briefs = std::mem::take(&mut beside.gathered.briefs);
    let mut asked: Vec<String> = attention(briefs)
        .iter()
        // What is asked about many trips of a person is no question about this one.
        .filter(|one| one.of.trip == trip.begun().trip && !one.what.is_of_many())
        .map(|one| one.what.to_string())
        .collect();
    let all = beside.gathered.asked(now);
    let id = &trip.begun().trip;
    let about = all.questions.iter().filter(|question| {
        let (earlier, later) = question.spots();
        earlier.trip == *id || later.trip == *id
    });
    asked.extend(about.map(ToString::to_string));
    let marks = all.marks.iter();
    let own = marks.filter(|mark| mark.trip == *id && mark.is_doubtful());
    asked.extend(own.map(ToString::to_string));
    let seal = trip.sealed().map(|sealed| sealed.hash);
    let said = seal.map_or_else(Vec::new, |seal| said(&lot.statements, &seal));
    let told = OpenedTrip::of((trip, &walk), (told, said, asked), &beside.past);
    drop(walk);
    Ok(Ok(Open {
        told,
        finding,
        read,
    }))
}

/// Reads everything, and keeps what there is to lay beside this trip.
fn look_around<'l>(
    lot: &'l Lot,
    trip: &Verified,
    beside: &mut Beside,
) -> Result<Section<'l>, Failed> {
    let begun = trip.begun();
    let mut see = |folder: &TripFolder, read: &TripRead| {
        let taken = (Ok(read), read.finding());
        beside.gathered.take(folder, taken, &lot.statements);
        if let (Some(other), Ok(walk)) = (read.trip(), read.walk())
            && other.begun().rig.id == begun.rig.id
            && other.begun().trip != begun.trip
        {
            beside.past.take(other, &walk);
        }
    };
    let now = Some(Machine::this().now().wall);
    Ok(lot.judge_seeing(&mut Plans::default(), now, &mut see)?)
}

fn findings(line: Option<&Line>, section: &Section<'_>, finding: Finding) -> Vec<String> {
    let told = line.map_or_else(Vec::new, |line| line.told(&section.judged));
    let trip = line.and_then(|line| line.trip.as_ref());
    let ended = trip.and_then(|trip| section.judged.ended(&trip.end));
    std::iter::once(finding.to_string())
        .chain(ended.map(ToString::to_string))
        .chain(told)
        .collect()
}

/// What managers said of the trip with this seal, in the order of their words.
fn said(statements: &Statements, seal: &Digest) -> Vec<String> {
    let said = statements.counting().filter_map(|stated| {
        let statement = stated.statement();
        let Says::Countersigned(says) = &statement.says else {
            return None;
        };
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
            format!(
                "{} {opinion} on {}{took}, in statement {}{words}",
                statement.name,
                statement.wall.moment().format("%Y-%m-%d %H:%M"),
                statement.number
            )
        })
    });
    said.collect()
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
    limit: Option<&'t str>,
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
        limit: read.limit.as_deref(),
        earlier: earlier
            .map(|one| EarlierTold {
                at: one.at.to_rfc3339(),
                typed: one.typed.text(),
                outcome: Outcome::word(one.outcome),
            })
            .collect(),
    }
}
