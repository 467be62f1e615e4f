//! `hames crew`: who may sign.

use crate::cli::Status;
use crate::cli::clerk::Books;
use crate::record::Signer;
use crate::store::Local;
use serde::Serialize;
use std::io::{self, Write};
use std::path::Path;

/// One of the crew as JSON.
#[derive(Serialize)]
struct Told<'a> {
    schema: &'static str,
    id: &'a str,
    name: &'a str,
    roles: Vec<&'a str>,
    key: String,
}

pub(super) fn list(
    place: &Path,
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let books = match Books::open(&Local, place) {
        Ok(books) => books,
        Err(trouble) => {
            writeln!(err, "{trouble}")?;
            return Ok(Status::Store);
        }
    };
    for signer in books.crew.signers() {
        tell(signer, json, out)?;
    }
    Ok(Status::Fine)
}

fn tell(signer: &Signer, json: bool, out: &mut dyn Write) -> io::Result<()> {
    let told = Told {
        schema: "hames-crew/1",
        id: signer.id.as_str(),
        name: signer.name.as_str(),
        roles: signer.roles.iter().map(|role| role.word()).collect(),
        key: signer.key.fingerprint(),
    };
    if json {
        serde_json::to_writer(&mut *out, &told)?;
        return writeln!(out);
    }
    let roles = told.roles.join(", ");
    writeln!(out, "{}  {}  {roles}  {}", told.id, told.name, told.key)
}
