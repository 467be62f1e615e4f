//! The answer as JSON.

use super::Found;
use crate::cli::clerk::TripRead;
use crate::record::{Finding, Verified};
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

/// The trip a seal closes, as verification left it.
#[derive(Default, Serialize)]
pub(super) struct TripTold {
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
            Found::Read(read) => Self::read(read),
            Found::Unread(kept, fault) => Self {
                path: Some(kept.folder.path.display().to_string()),
                finding: Finding::Unreadable.word(),
                faults: vec![fault.to_string()],
                ..Self::default()
            },
            Found::Pruned(stub, by) => Self {
                finding: "pruned",
                trip: Some(stub.trip.to_string()),
                device: Some(stub.device.to_string()),
                number: Some(stub.seq),
                outcome: stub.outcome.map(Ended::word),
                pruned_by: Some(by.name.to_string()),
                ..Self::default()
            },
        }
    }

    fn read(read: &TripRead) -> Self {
        let trip = read.trip();
        let begun = trip.map(Verified::begun);
        let seal = trip.and_then(Verified::sealed).map(|sealed| &sealed.seal);
        Self {
            path: Some(read.folder.path.display().to_string()),
            finding: read.finding().word(),
            faults: read.faults(),
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
        }
    }
}

pub(super) fn line(out: &mut dyn Write, told: &Told<'_>) -> io::Result<()> {
    serde_json::to_writer(&mut *out, told)?;
    writeln!(out)
}
