//! One trip: what its record proves, on a page or two.

mod layout;
mod people;
mod readings;
mod signed;
mod tools;

use crate::desk::{BarnDefects, OpenedTrip, earlier, went};
use crate::haul::Standing;
use crate::logbook::Answers;
use crate::record::{Finding, Statements, Verified};
use crate::report::standing::defects;
use crate::report::{Cover, Made, Picture};
use crate::walk::Walk;
use people::PersonTold;
pub(super) use readings::LimitTold;
use readings::{ReadingTold, SeenTold};
use serde::Serialize;
use signed::{CountersignTold, SealTold};
use tools::ToolTold;

/// What a trip's report is made of.
#[derive(Clone, Debug)]
pub struct TripSources<'a> {
    /// The trip.
    pub trip: &'a Verified,
    /// The walk it tells.
    pub walk: &'a Walk,
    /// The same, opened beside the whole logbook.
    pub opened: &'a OpenedTrip,
    /// The name of its folder.
    pub folder: &'a str,
    /// What verification finds of it in the whole logbook.
    pub finding: Finding,
    /// What managers stated.
    pub statements: &'a Statements,
    /// What was answered to their questions.
    pub answers: &'a Answers,
    /// What stood open of its rig before it, and after it.
    pub standing: (&'a Standing, &'a Standing),
    /// The same as the list of defects has it.
    pub defects: (BarnDefects, BarnDefects),
    /// The rig drawn, with the part marked that the first exception at one is about.
    pub picture: Option<Picture>,
    /// How the report came about.
    pub made: &'a Made,
}

/// A trip's report.
#[derive(Clone, Debug, Serialize)]
pub struct TripReport {
    #[serde(flatten)]
    cover: Cover,
    trip: String,
    folder: String,
    device: String,
    number: u64,
    rig: FileTold,
    checklist: FileTold,
    revision: u32,
    began: String,
    from_paper: Option<String>,
    took_ms: u64,
    reader: String,
    doer: String,
    outcome: &'static str,
    walked_with: String,
    heading: Vec<String>,
    finding: &'static str,
    finding_means: &'static str,
    findings: Vec<String>,
    seal: Option<SealTold>,
    said: Vec<CountersignTold>,
    asked: Vec<String>,
    exceptions: Vec<ExceptionTold>,
    timeline: Vec<StretchTold>,
    readings: Vec<ReadingTold>,
    seen: Vec<SeenTold>,
    not_done: Vec<String>,
    not_answered_again: Vec<String>,
    open_before: Vec<String>,
    open_after: Vec<String>,
    people: Vec<PersonTold>,
    instruments: Vec<ToolTold>,
    #[serde(skip)]
    defects: (BarnDefects, BarnDefects),
    #[serde(skip)]
    stood: (Vec<String>, Vec<String>),
    #[serde(skip)]
    picture: Option<Picture>,
}

/// A file the walk was made by.
#[derive(Clone, Debug, Serialize)]
struct FileTold {
    id: String,
    name: String,
    sha256: String,
}

#[derive(Clone, Debug, Serialize)]
struct ExceptionTold {
    named: String,
    told: Vec<String>,
}

#[derive(Clone, Debug, Serialize)]
struct StretchTold {
    from: String,
    took_ms: u64,
    told: String,
}

impl TripReport {
    /// The report of a trip.
    pub fn of(from: &TripSources<'_>) -> Self {
        let (begun, walk, opened) = (from.trip.begun(), from.walk, from.opened);
        let (rig, checklist) = (walk.plan().rig(), walk.plan().checklist());
        let last = from.trip.entries().last();
        let last = last.map_or(from.trip.at(), |entry| &entry.at);
        let exceptions = opened.exceptions.iter().map(|exception| ExceptionTold {
            named: exception.named.to_string(),
            told: exception.told.clone(),
        });
        let timeline = opened.timeline.iter().map(|stretch| StretchTold {
            from: stretch.from.to_rfc3339(),
            took_ms: stretch.took_ms,
            told: went(stretch),
        });
        let (before, after) = from.standing;
        Self {
            cover: Cover::new("trip", from.made),
            trip: begun.trip.to_string(),
            folder: from.folder.to_owned(),
            device: begun.device.to_string(),
            number: begun.seq,
            rig: FileTold {
                id: begun.rig.id.clone(),
                name: rig.name.clone(),
                sha256: begun.rig.hash.to_string(),
            },
            checklist: FileTold {
                id: begun.checklist.id.clone(),
                name: checklist.title.clone(),
                sha256: begun.checklist.hash.to_string(),
            },
            revision: checklist.revision,
            began: from.trip.at().wall.to_rfc3339(),
            from_paper: begun.paper.map(|paper| paper.moment().to_rfc3339()),
            took_ms: last.since(from.trip.at()),
            reader: begun.reader.to_string(),
            doer: begun.doer.to_string(),
            outcome: walk.ended().map_or("not ended", crate::walk::Ended::word),
            walked_with: begun.program.clone(),
            heading: opened.tale.heading.clone(),
            finding: from.finding.word(),
            finding_means: from.finding.meaning(),
            findings: opened.tale.findings.clone(),
            seal: from.trip.sealed().map(SealTold::of),
            said: signed::said(from.trip, from.statements, from.answers),
            asked: opened.asked.clone(),
            exceptions: exceptions.collect(),
            timeline: timeline.collect(),
            readings: opened.readings.iter().map(ReadingTold::of).collect(),
            seen: readings::seen(walk),
            not_done: crate::desk::not_done(walk),
            not_answered_again: crate::desk::not_answered_again(walk),
            open_before: earlier::opens(before),
            open_after: earlier::opens(after),
            defects: from.defects.clone(),
            stood: (stood(before, from.trip), stood(after, from.trip)),
            people: people::people(from.trip, walk, from.statements),
            instruments: tools::tools(from.trip, walk),
            picture: from.picture.clone(),
        }
    }

    /// What stood open of the rig before the trip, and after it, with all that was closed by then.
    pub const fn defects(&self) -> &(BarnDefects, BarnDefects) {
        &self.defects
    }
}

/// What was found bad and stood so on the day of the walk, with what walks had left open.
fn stood(standing: &Standing, trip: &Verified) -> Vec<String> {
    let day = trip.at().wall.date_naive();
    [defects(standing, day), earlier::opens(standing)].concat()
}
