//! `hames logbook receipt`: which trip a receipt was read off.

mod told;

use crate::cli::Status;
use crate::cli::clerk::{Plans, TripRead};
use crate::cli::logbook::shelf::{Failed, Kept, kept, statements};
use crate::desk::earlier;
use crate::logbook::{Sought, seek};
use crate::record::{
    Digest, Finding, NotAReceipt, Receipt, Says, Seal, Sealed, Stated, Statement, Statements, Stub,
    Verified,
};
use crate::store::{Disk, Local, MOST_FILE_BYTES, StoreFault};
use std::io::{self, ErrorKind, Write};
use std::path::PathBuf;
use told::{Told, TripTold, line};

/// Where a seal was found.
#[derive(Clone, Copy)]
enum Place<'a> {
    /// Beside a trip.
    Kept(&'a Kept),
    /// In the statement by which the trip was pruned.
    Pruned(&'a Stub, &'a Statement),
}

/// The same, read.
enum Found<'a> {
    Read(Box<TripRead>),
    Unread(&'a Kept, StoreFault),
    Pruned(&'a Stub, &'a Statement),
}

/// Looks for the receipt.
pub(super) fn receipt(
    code: &str,
    places: &[PathBuf],
    json: bool,
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    let receipt = match Receipt::read(code) {
        Ok(receipt) => receipt,
        Err(slip) => return Ok(mistyped(code, &slip, json, out)?),
    };
    let (kept, statements) = (kept(places)?, statements(places));
    let (mut seals, mut unread) = (Vec::new(), Vec::new());
    for kept in &kept {
        match seal_of(kept) {
            Ok(Some(hash)) => seals.push((hash, Place::Kept(kept))),
            Ok(None) => {}
            Err(fault) => unread.push(fault),
        }
    }
    seals.extend(pruned(&statements));
    let looked_at = seals.len();
    let sought = seek(receipt, seals);
    let answer = Answer {
        receipt: receipt.to_string(),
        seals: looked_at,
        unread,
        places,
        found: found(&sought),
        sought,
    };
    if json {
        answer.as_json(out)?;
    } else {
        answer.as_text(out)?;
    }
    Ok(answer.status())
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

/// The seals of trips that are here no more, as the statements that pruned them keep them.
fn pruned(statements: &Statements) -> impl Iterator<Item = (Digest, Place<'_>)> {
    let all = statements.stated().iter().map(Stated::statement);
    all.flat_map(|statement| {
        let stubs: &[Stub] = match &statement.says {
            Says::Pruned(pruned) => &pruned.trips,
            _ => &[],
        };
        stubs
            .iter()
            .filter_map(move |stub| Some((stub.seal?, Place::Pruned(stub, statement))))
    })
}

/// A slip of the tongue or the hand is never taken for a receipt that leads nowhere.
fn mistyped(code: &str, slip: &NotAReceipt, json: bool, out: &mut dyn Write) -> io::Result<Status> {
    if json {
        line(out, &Told::of("mistyped", code, 0, None))?;
    } else {
        writeln!(
            out,
            "“{}” was mistyped or misheard, so nothing was looked for: {slip}.",
            code.escape_debug()
        )?;
    }
    Ok(Status::Usage)
}

/// Each place that was found, read.
fn found<'a>(sought: &Sought<Place<'a>>) -> Vec<Found<'a>> {
    let places: &[Place<'a>] = match sought {
        Sought::Nowhere => &[],
        Sought::To(places) | Sought::Several(places) => places,
    };
    let mut plans = Plans::default();
    let read = |place: &Place<'a>| match *place {
        Place::Pruned(stub, by) => Found::Pruned(stub, by),
        Place::Kept(kept) => match kept.read(&mut plans) {
            Ok(read) => Found::Read(Box::new(read)),
            Err(fault) => Found::Unread(kept, fault),
        },
    };
    places.iter().map(read).collect()
}

/// What was found.
struct Answer<'a> {
    receipt: String,
    seals: usize,
    /// Seals that cannot be read, so that they may be the one.
    unread: Vec<StoreFault>,
    places: &'a [PathBuf],
    sought: Sought<Place<'a>>,
    found: Vec<Found<'a>>,
}

impl Answer<'_> {
    /// A trip that is found and is not intact ends as its verification does.
    fn status(&self) -> Status {
        let worst = self.found.iter().map(Found::finding).max();
        match &self.sought {
            Sought::Nowhere | Sought::Several(_) => Status::Findings,
            Sought::To(_) => Status::Verified(worst.unwrap_or(Finding::Intact)),
        }
    }

    fn as_text(&self, out: &mut dyn Write) -> io::Result<()> {
        let receipt = &self.receipt;
        match &self.sought {
            Sought::Nowhere => self.nowhere(out)?,
            Sought::To(_) => writeln!(out, "The receipt {receipt} is of this trip:")?,
            Sought::Several(_) => writeln!(
                out,
                "The receipt {receipt} is of several different trips. Ask for the day and who \
                 signed, and tell them apart by these:"
            )?,
        }
        for found in &self.found {
            found.tell(out)?;
        }
        for fault in &self.unread {
            writeln!(out, "not looked at: {fault}")?;
        }
        Ok(())
    }

    fn nowhere(&self, out: &mut dyn Write) -> io::Result<()> {
        let places = self.places.iter().map(|place| place.display().to_string());
        let places: Vec<String> = places.collect();
        let seals = match self.seals {
            1 => "1 seal was".to_owned(),
            seals => format!("{seals} seals were"),
        };
        writeln!(
            out,
            "No seal in {} has the receipt {}; {seals} looked at. Its check characters agree, so it \
             was read rightly: the trip lies in another logbook, or has not been copied here yet.",
            places.join(", "),
            self.receipt
        )
    }

    fn as_json(&self, out: &mut dyn Write) -> io::Result<()> {
        let answer = match &self.sought {
            Sought::Nowhere => "none",
            Sought::To(_) => "one",
            Sought::Several(_) => "several",
        };
        let told = |trip| Told::of(answer, &self.receipt, self.seals, trip);
        if matches!(self.sought, Sought::Nowhere) {
            line(out, &told(None))?;
        }
        for found in &self.found {
            line(out, &told(Some(TripTold::of(found))))?;
        }
        Ok(())
    }
}

impl Found<'_> {
    fn finding(&self) -> Finding {
        match self {
            Self::Read(read) => read.finding(),
            Self::Unread(..) => Finding::Unreadable,
            // Only a statement that counts is asked for its stubs.
            Self::Pruned(..) => Finding::Intact,
        }
    }

    fn tell(&self, out: &mut dyn Write) -> io::Result<()> {
        match self {
            Self::Read(read) => tell(read, out),
            Self::Unread(_, fault) => writeln!(out, "  {fault}"),
            Self::Pruned(stub, by) => writeln!(
                out,
                "  trip {} of {}\n  its record is here no more: {} pruned it by statement {}, {}, \
                 which keeps its seal",
                stub.seq,
                stub.device,
                by.name,
                by.number,
                earlier::date(&by.wall.moment())
            ),
        }
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
    writeln!(
        out,
        "  by itself: {}; hames verify looks at its place and at keys taken out since",
        read.finding()
    )?;
    for fault in read.faults() {
        writeln!(out, "    {fault}")?;
    }
    writeln!(out, "  in {}", read.folder.path.display())
}
