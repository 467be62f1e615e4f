//! The answer as JSON.

use super::{Found, Kept, Pruned};
use crate::cli::verify::{CountersignTold, MarkTold};
use crate::logbook::TripCounts;
use crate::record::Verified;
use crate::walk::Ended;
use serde::Serialize;
use std::io::{self, Write};

const SCHEMA: &str = "hames-receipt/1";

/// One line: the answer, and the trip where there is one.
#[derive(Serialize)]
pub(super) struct Told<'a> {
    schema: &'static str,
    answer: &'static str,
    receipt: &'a str,
    seals: usize,
    trip: Option<TripTold>,
}

/// The trip a seal closes, as the whole logbook has it.
#[derive(Default, Serialize)]
pub(super) struct TripTold {
    of_drills: bool,
    path: Option<String>,
    finding: &'static str,
    faults: Vec<String>,
    trip: Option<String>,
    device: Option<String>,
    number: Option<u64>,
    rig: Option<String>,
    checklist: Option<String>,
    outcome: Option<&'static str>,
    signed_by: Option<String>,
    role: Option<&'static str>,
    begun: Option<String>,
    sealed: Option<String>,
    pruned_by: Option<String>,
    history_ended: Option<String>,
    counts: Option<CountsTold>,
    countersigns: Vec<CountersignTold>,
    beside: Vec<BesideTold>,
    clock_marks: Vec<MarkTold>,
}

/// How much the trip holds.
#[derive(Serialize)]
struct CountsTold {
    steps: usize,
    readings: usize,
    out_of_limits: usize,
    deferred: usize,
    corrected: usize,
    flagged: usize,
}

/// What is wrong next to the trip, or lies under another name beside it. No finding of the trip.
#[derive(Serialize)]
struct BesideTold {
    finding: &'static str,
    what: String,
}

impl<'a> Told<'a> {
    pub(super) const fn of(
        answer: &'static str,
        receipt: &'a str,
        seals: usize,
        trip: Option<TripTold>,
    ) -> Self {
        Self {
            schema: SCHEMA,
            answer,
            receipt,
            seals,
            trip,
        }
    }
}

impl TripTold {
    pub(super) fn of(found: &Found<'_>) -> Self {
        match found {
            Found::Kept(kept) => Self::kept(kept),
            Found::Pruned(pruned) => Self::pruned(pruned),
        }
    }

    fn pruned(pruned: &Pruned<'_>) -> Self {
        let Pruned {
            stub,
            by,
            faults,
            ended,
        } = pruned;
        Self {
            history_ended: ended.as_ref().map(ToString::to_string),
            finding: "pruned",
            faults: faults.iter().map(ToString::to_string).collect(),
            trip: Some(stub.trip.to_string()),
            device: Some(stub.device.to_string()),
            number: Some(stub.seq),
            outcome: stub.outcome.map(Ended::word),
            pruned_by: Some(by.name.to_string()),
            ..Self::default()
        }
    }

    fn kept(kept: &Kept<'_>) -> Self {
        let trip = kept.read.as_ref().and_then(|read| read.trip());
        let begun = trip.map(Verified::begun);
        let sealed = trip.and_then(Verified::sealed);
        let seal = sealed.map(|sealed| &sealed.seal);
        let countersigns = sealed.map(|sealed| kept.section.judged.countersigns(&sealed.hash));
        let marks = kept.line().map(|line| kept.section.marks_of(line));
        let beside = kept.beside().into_iter().map(|(finding, what)| BesideTold {
            finding: finding.word(),
            what,
        });
        Self {
            of_drills: kept.section.lot.drills,
            path: kept
                .line()
                .map(|line| line.folder.path.display().to_string()),
            finding: kept.finding().word(),
            faults: kept.faults(),
            trip: begun.map(|begun| begun.trip.to_string()),
            device: begun.map(|begun| begun.device.to_string()),
            number: begun.map(|begun| begun.seq),
            rig: begun.map(|begun| begun.rig.id.clone()),
            checklist: begun.map(|begun| begun.checklist.id.clone()),
            outcome: seal.map(|seal| seal.outcome.word()),
            signed_by: seal.map(|seal| seal.name.to_string()),
            role: seal.map(|seal| seal.role.word()),
            begun: trip.map(|trip| trip.at().wall.to_rfc3339()),
            sealed: seal.map(|seal| seal.wall.to_string()),
            pruned_by: None,
            history_ended: kept.ended().map(ToString::to_string),
            counts: trip.map(|trip| CountsTold::of(&TripCounts::of(trip))),
            countersigns: countersigns
                .iter()
                .flatten()
                .map(CountersignTold::of)
                .collect(),
            beside: beside.collect(),
            clock_marks: marks.into_iter().flatten().map(MarkTold::of).collect(),
        }
    }
}

impl CountsTold {
    const fn of(counts: &TripCounts) -> Self {
        Self {
            steps: counts.steps,
            readings: counts.readings,
            out_of_limits: counts.out_of_limits,
            deferred: counts.deferred,
            corrected: counts.corrected,
            flagged: counts.flagged,
        }
    }
}

pub(super) fn line(out: &mut dyn Write, told: &Told<'_>) -> io::Result<()> {
    serde_json::to_writer(&mut *out, told)?;
    writeln!(out)
}
