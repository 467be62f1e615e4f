//! Version 1 of the bodies. Frozen: what is stored with it must stay readable as it is.
//!
//! One module a group of bodies. Each body is a struct whose fields stand in the order stored;
//! numbers with a unit are strings, such as `65 psi`; what is absent is `null`.

mod answer;
pub(super) mod begun;
mod event;
mod judgement;
pub(super) mod quantity;
pub(super) mod word;

pub(in crate::record) use quantity::StoredTyped;

use crate::record::strict::Spelt;
use crate::record::{Body, Id, JsonFault, Said, Unreadable};

/// The kind and body of what is said.
pub(super) fn write(said: &Said) -> Result<(Id, Body), Unreadable> {
    let (kind, body) = match said {
        Said::Begun(begun) => (begun::KIND, begun::write(begun)),
        Said::Happened(event) => event::write(event),
        // It is said in version 3.
        Said::Drilled(_) => ("", Err(JsonFault::NotWritable)),
    };
    let kind = Id::read(kind).map_err(|fault| Unreadable::Field {
        field: "kind",
        found: fault.0,
    })?;
    Ok((kind, body.map_err(Unreadable::Json)?))
}

/// What a body of this kind says.
pub(super) fn read(kind: &Id, body: Spelt<'_>) -> Result<Said, Unreadable> {
    if kind.as_str() == begun::KIND {
        begun::read(body).map(|begun| Said::Begun(Box::new(begun)))
    } else {
        event::read(kind, body).map(|event| Said::Happened(Box::new(event)))
    }
}
