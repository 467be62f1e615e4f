//! `hames checklist list`: what can be walked, and what of it is approved.

use crate::cli::Status;
use crate::cli::checklist::Desk;
use crate::desk::Approval;
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
    standing: &'a str,
    by: Option<&'a str>,
    on: Option<&'a str>,
}

pub(super) fn list(desk: &Desk, json: bool, out: &mut dyn Write) -> io::Result<Status> {
    for offer in desk.all() {
        let list = &offer.read;
        let stands = desk.standing(&offer);
        let (standing, by, on) = match &stands {
            Approval::Shipped => ("shipped", None, None),
            Approval::Approved { by, on } => ("approved", Some(by.as_str()), Some(on.as_str())),
            Approval::Unapproved => ("unapproved", None, None),
        };
        let told = Told {
            schema: "hames-checklists/1",
            id: &list.id,
            title: &list.title,
            revision: list.revision,
            rigs: list.rigs.iter().map(|kind| kind.word()).collect(),
            steps: list.steps().count(),
            standing,
            by,
            on,
        };
        tell(&told, &stands, json, out)?;
    }
    Ok(Status::Fine)
}

fn tell(told: &Told<'_>, stands: &Approval, json: bool, out: &mut dyn Write) -> io::Result<()> {
    if json {
        serde_json::to_writer(&mut *out, told)?;
        return writeln!(out);
    }
    writeln!(
        out,
        "{}  {}, revision {}, {}, {} steps: {stands}",
        told.id,
        told.title,
        told.revision,
        told.rigs.join(" and "),
        told.steps
    )
}
