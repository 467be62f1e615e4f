//! `hames checklist list`: what can be walked, and what of it is approved.

use crate::cli::Status;
use crate::cli::clerk::Stock;
use serde::Serialize;
use std::io::{self, Write};

/// One checklist as JSON.
#[derive(Serialize)]
struct Told<'a> {
    schema: &'static str,
    id: &'a str,
    title: &'a str,
    revision: u32,
    rigs: Vec<&'a str>,
    steps: usize,
}

pub(super) fn list(stock: &Stock, json: bool, out: &mut dyn Write) -> io::Result<Status> {
    for offer in &stock.checklists {
        let list = &offer.read;
        let told = Told {
            schema: "hames-checklists/1",
            id: &list.id,
            title: &list.title,
            revision: list.revision,
            rigs: list.rigs.iter().map(|kind| kind.word()).collect(),
            steps: list.steps().count(),
        };
        tell(&told, json, out)?;
    }
    Ok(Status::Fine)
}

fn tell(told: &Told<'_>, json: bool, out: &mut dyn Write) -> io::Result<()> {
    if json {
        serde_json::to_writer(&mut *out, told)?;
        return writeln!(out);
    }
    writeln!(
        out,
        "{}  {}, revision {}, {}, {} steps",
        told.id,
        told.title,
        told.revision,
        told.rigs.join(" and "),
        told.steps
    )
}
