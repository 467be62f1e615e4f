//! Line 0.

use super::quantity::StoredTyped;
use super::word::{token, words};
use crate::record::strict::{self, Spelt, field};
use crate::record::{Begun, Body, Digest, Id, JsonFault, Mode, Pinned, Previous, Unreadable};
use serde::{Deserialize, Serialize};

pub(in crate::record::wire) const KIND: &str = "begun";

const SEAL: &str = "seal";
const LINE: &str = "line";

/// The fields as stored, in the order stored. Version 2 begins with the same.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(in crate::record::wire) struct Stored {
    trip: String,
    mode: String,
    device: String,
    seq: u64,
    previous: Option<StoredPrevious>,
    checklist: StoredPinned,
    rig: StoredPinned,
    crew: String,
    manager: Option<String>,
    program: String,
    odometer: Option<StoredTyped>,
    reader: String,
    doer: String,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct StoredPrevious {
    last: String,
    hash: String,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(in crate::record::wire) struct StoredPinned {
    id: String,
    hash: String,
}

pub(super) fn write(begun: &Begun) -> Result<Body, JsonFault> {
    Body::write(&stored(begun))
}

pub(super) fn read(body: Spelt<'_>) -> Result<Begun, Unreadable> {
    meant(strict::body(body)?)
}

pub(in crate::record::wire) fn stored(begun: &Begun) -> Stored {
    Stored {
        trip: begun.trip.to_string(),
        mode: begun.mode.to_string(),
        device: begun.device.to_string(),
        seq: begun.seq,
        previous: begun.previous.map(write_previous),
        checklist: write_pinned(&begun.checklist),
        rig: write_pinned(&begun.rig),
        crew: begun.crew.to_string(),
        manager: begun.manager.map(|hash| hash.to_string()),
        program: begun.program.clone(),
        odometer: begun.odometer.as_ref().map(StoredTyped::of),
        reader: begun.reader.to_string(),
        doer: begun.doer.to_string(),
    }
}

/// What the fields mean. What version 1 does not hold is not there.
pub(in crate::record::wire) fn meant(stored: Stored) -> Result<Begun, Unreadable> {
    if stored.seq == 0 {
        return Err(Unreadable::Contradiction("trips are numbered from 1"));
    }
    let id = |name, text: &str| field(name, text, |text| Id::read(text).ok());
    Ok(Begun {
        trip: id("trip", &stored.trip)?,
        mode: field("mode", &stored.mode, Mode::read)?,
        device: id("device", &stored.device)?,
        seq: stored.seq,
        previous: stored.previous.map(read_previous).transpose()?,
        checklist: read_pinned("checklist", &stored.checklist)?,
        rig: read_pinned("rig", &stored.rig)?,
        crew: digest("crew", &stored.crew)?,
        manager: match stored.manager {
            Some(hash) => Some(digest("manager", &hash)?),
            None => None,
        },
        program: token("program", &stored.program)?,
        odometer: match stored.odometer {
            Some(read) => Some(read.meant()?),
            None => None,
        },
        reader: words("reader", &stored.reader)?,
        doer: words("doer", &stored.doer)?,
        haul: None,
        carried: Vec::new(),
        paper: None,
        answers: Vec::new(),
        drill: None,
    })
}

fn digest(name: &'static str, text: &str) -> Result<Digest, Unreadable> {
    field(name, text, |text| Digest::read(text).ok())
}

fn write_previous(previous: Previous) -> StoredPrevious {
    let (last, hash) = match previous {
        Previous::Sealed(hash) => (SEAL, hash),
        Previous::Unsealed(hash) => (LINE, hash),
    };
    StoredPrevious {
        last: last.to_owned(),
        hash: hash.to_string(),
    }
}

fn read_previous(stored: StoredPrevious) -> Result<Previous, Unreadable> {
    let hash = digest("previous", &stored.hash)?;
    match stored.last.as_str() {
        SEAL => Ok(Previous::Sealed(hash)),
        LINE => Ok(Previous::Unsealed(hash)),
        _ => Err(Unreadable::Field {
            field: "previous",
            found: stored.last,
        }),
    }
}

pub(in crate::record::wire) fn write_pinned(pinned: &Pinned) -> StoredPinned {
    StoredPinned {
        id: pinned.id.clone(),
        hash: pinned.hash.to_string(),
    }
}

pub(in crate::record::wire) fn read_pinned(
    name: &'static str,
    stored: &StoredPinned,
) -> Result<Pinned, Unreadable> {
    Ok(Pinned {
        hash: digest(name, &stored.hash)?,
        id: token(name, &stored.id)?,
    })
}
