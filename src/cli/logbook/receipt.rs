//! `hames logbook receipt`: which trip a receipt was read off.

use crate::cli::Status;
use crate::cli::clerk::{Plans, TripRead};
use crate::cli::logbook::shelf::{Kept, Stopped, kept};
use crate::desk::earlier;
use crate::logbook::{Sought, seek};
use crate::record::{Digest, Finding, NotAReceipt, Receipt, Seal, Sealed, Verified};
use crate::store::{Disk, Local, MOST_FILE_BYTES, StoreFault};
use serde::Serialize;
use std::io::{self, ErrorKind, Write};
use std::path::PathBuf;

const SCHEMA: &str = "hames-receipt/1";

/// One line of JSON: the answer, and the trip where there is one.
#[derive(Serialize)]
struct Told<'a> {
    schema: &'static str,
    answer: &'static str,
    receipt: &'a str,
    seals: usize,
    trip: Option<TripTold>,
}

/// The trip a seal closes, as verification left it.
#[derive(Serialize)]
struct TripTold {
    path: String,
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
}

/// Looks for the receipt. The first failure is of the folders, the second of the output.
pub(super) fn receipt(
    code: &str,
    places: &[PathBuf],
    json: bool,
    out: &mut dyn Write,
) -> Result<io::Result<Status>, Stopped> {
    let receipt = match Receipt::read(code) {
        Ok(receipt) => receipt,
        Err(slip) => return Ok(mistyped(code, &slip, json, out)),
    };
    let kept = kept(places)?;
    let mut seals = Vec::new();
    for kept in &kept {
        if let Some(hash) = seal_of(kept)? {
            seals.push((hash, kept));
        }
    }
    let looked_at = seals.len();
    let sought = seek(receipt, seals);
    let told = Answer {
        receipt: receipt.to_string(),
        seals: looked_at,
        places,
    };
    Ok(if json {
        told.as_json(&sought, out)
    } else {
        told.as_text(&sought, out)
    })
}

/// The hash of a trip's seal; nothing where it has none.
fn seal_of(kept: &Kept) -> Result<Option<Digest>, StoreFault> {
    let path = kept.folder.seal();
    match Local.read(&path, MOST_FILE_BYTES) {
        Ok(bytes) => Ok(Some(Seal::hash(&bytes))),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        Err(error) => Err(StoreFault::of_reading(&path, MOST_FILE_BYTES)(error)),
    }
}

/// A slip of the tongue or the hand is never taken for a receipt that leads nowhere.
fn mistyped(code: &str, slip: &NotAReceipt, json: bool, out: &mut dyn Write) -> io::Result<Status> {
    if json {
        line(
            out,
            &Told {
                schema: SCHEMA,
                answer: "mistyped",
                receipt: code,
                seals: 0,
                trip: None,
            },
        )?;
    } else {
        writeln!(
            out,
            "“{}” was mistyped or misheard, so nothing was looked for: {slip}.",
            code.escape_debug()
        )?;
    }
    Ok(Status::Usage)
}

/// What is told besides the trips.
struct Answer<'a> {
    receipt: String,
    seals: usize,
    places: &'a [PathBuf],
}

impl Answer<'_> {
    fn as_text(&self, sought: &Sought<&Kept>, out: &mut dyn Write) -> io::Result<Status> {
        let receipt = &self.receipt;
        match sought {
            Sought::Nowhere => {
                let places: Vec<String> = self
                    .places
                    .iter()
                    .map(|place| place.display().to_string())
                    .collect();
                writeln!(
                    out,
                    "No seal in {} has the receipt {receipt}; {} looked at. Its check characters \
                     agree, so it was read rightly: the trip lies in another logbook, or has not \
                     been copied here yet.",
                    places.join(", "),
                    counted(self.seals)
                )?;
            }
            Sought::To(_) => writeln!(out, "The receipt {receipt} is of this trip:")?,
            Sought::Several(_) => writeln!(
                out,
                "The receipt {receipt} is of several different trips. Ask for the day and who \
                 signed, and tell them apart by these:"
            )?,
        }
        let mut worst = Finding::Intact;
        for read in read(sought) {
            match read {
                Ok(read) => {
                    worst = worst.max(read.finding());
                    tell(&read, out)?;
                }
                Err(fault) => {
                    worst = worst.max(Finding::Unreadable);
                    writeln!(out, "  {fault}")?;
                }
            }
        }
        Ok(status(sought, worst))
    }

    fn as_json(&self, sought: &Sought<&Kept>, out: &mut dyn Write) -> io::Result<Status> {
        let told = |trip| Told {
            schema: SCHEMA,
            answer: match sought {
                Sought::Nowhere => "none",
                Sought::To(_) => "one",
                Sought::Several(_) => "several",
            },
            receipt: &self.receipt,
            seals: self.seals,
            trip,
        };
        if matches!(sought, Sought::Nowhere) {
            line(out, &told(None))?;
        }
        let mut worst = Finding::Intact;
        for (kept, read) in places(sought).iter().zip(read(sought)) {
            let trip = match read {
                Ok(read) => trip_told(&read),
                Err(fault) => TripTold::unread(kept, &fault),
            };
            let found = Finding::TABLE
                .iter()
                .find(|(word, ..)| *word == trip.finding);
            worst = worst.max(found.map_or(Finding::Unreadable, |(_, _, finding)| *finding));
            line(out, &told(Some(trip)))?;
        }
        Ok(status(sought, worst))
    }
}

fn places<'s>(sought: &'s Sought<&Kept>) -> &'s [&'s Kept] {
    match sought {
        Sought::Nowhere => &[],
        Sought::To(places) | Sought::Several(places) => places,
    }
}

fn read(sought: &Sought<&Kept>) -> impl Iterator<Item = Result<TripRead, StoreFault>> {
    let mut plans = Plans::default();
    places(sought).iter().map(move |kept| kept.read(&mut plans))
}

/// A trip that is found and is not intact ends as its verification does.
fn status(sought: &Sought<&Kept>, worst: Finding) -> Status {
    match sought {
        Sought::Nowhere | Sought::Several(_) => Status::Findings,
        Sought::To(_) => Status::Verified(worst),
    }
}

fn counted(seals: usize) -> String {
    match seals {
        1 => "1 seal was".to_owned(),
        _ => format!("{seals} seals were"),
    }
}

fn tell(read: &TripRead, out: &mut dyn Write) -> io::Result<()> {
    if let Some(trip) = read.trip() {
        let begun = trip.begun();
        writeln!(
            out,
            "  trip {} of {}, {} record",
            begun.seq, begun.device, begun.mode
        )?;
        writeln!(
            out,
            "  rig {}, checklist {}",
            begun.rig.id, begun.checklist.id
        )?;
        writeln!(out, "  begun {}", earlier::date(&trip.at().wall))?;
    }
    if let Some(Sealed { seal, .. }) = read.trip().and_then(Verified::sealed) {
        writeln!(
            out,
            "  ended {}: {}, signed by {}, {}",
            earlier::date(&seal.wall.moment()),
            seal.outcome.word().replace('-', " "),
            seal.name,
            seal.role
        )?;
    }
    writeln!(out, "  verified: {}", read.finding())?;
    for fault in read.faults() {
        writeln!(out, "    {fault}")?;
    }
    writeln!(out, "  in {}", read.folder.path.display())
}

fn trip_told(read: &TripRead) -> TripTold {
    let trip = read.trip();
    let begun = trip.map(Verified::begun);
    let seal = trip.and_then(Verified::sealed).map(|sealed| &sealed.seal);
    TripTold {
        path: read.folder.path.display().to_string(),
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
    }
}

impl TripTold {
    fn unread(kept: &Kept, fault: &StoreFault) -> Self {
        Self {
            path: kept.folder.path.display().to_string(),
            finding: Finding::Unreadable.word(),
            faults: vec![fault.to_string()],
            trip: None,
            device: None,
            number: None,
            rig: None,
            checklist: None,
            outcome: None,
            signed_by: None,
            role: None,
            begun: None,
            sealed: None,
        }
    }
}

fn line(out: &mut dyn Write, told: &Told<'_>) -> io::Result<()> {
    serde_json::to_writer(&mut *out, told)?;
    writeln!(out)
}
