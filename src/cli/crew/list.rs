//! `hames crew list`: everyone in force, and where wanted everyone who has left.

use crate::cli::Status;
use crate::cli::lot::{Shelf, Stopped};
use crate::record::{Changed, Crew, Gone, Id, PublicKey, Revision, Roster, SignedOff, Signer};
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
    /// `in-force`, `retired`, `revoked` or `not-added`.
    state: &'static str,
    /// The crew file of the roster that brought this key in; nothing where there is no roster.
    since: Option<u64>,
    /// The crew file that took it out.
    until: Option<u64>,
    why: Option<&'a str>,
    signed_off: Option<Span<'a>>,
    #[serde(skip)]
    line: Option<&'a SignedOff>,
}

/// What a person is signed off for as JSON; nothing means every one.
#[derive(Serialize)]
struct Span<'a> {
    rigs: Option<Vec<&'a str>>,
    checklists: Option<Vec<&'a str>>,
}

pub(super) fn list(
    place: &Path,
    all: bool,
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let shelf = match Shelf::open(place) {
        Ok(shelf) => shelf,
        Err(Stopped(status, sentence)) => {
            writeln!(err, "{sentence}")?;
            return Ok(status);
        }
    };
    let statements = shelf.statements();
    let roster = statements.roster();
    let crew = shelf.crew_by(&statements);
    for signer in crew.map_or(&[][..], Crew::signers) {
        tell(&now(signer, roster), json, out)?;
    }
    if all {
        for told in gone(roster, crew) {
            tell(&told, json, out)?;
        }
    }
    // On the side; the gravest decides how the program ends.
    let faults = shelf.faults(&statements);
    for (_, fault) in &faults {
        let point = if fault.ends_with('.') { "" } else { "." };
        writeln!(err, "{fault}{point}")?;
    }
    let worst = faults.iter().map(|(finding, _)| *finding).max();
    Ok(worst.map_or(Status::Fine, Status::Verified))
}

fn now<'a>(signer: &'a Signer, roster: &'a Roster) -> Told<'a> {
    Told {
        state: "in-force",
        since: since(&signer.key, roster, u64::MAX),
        until: None,
        why: None,
        signed_off: roster.signed_off(&signer.id).map(Span::of),
        line: roster.signed_off(&signer.id),
        ..person(signer)
    }
}

/// Everyone whose key was taken out, in the order in which it was: once for each time, also where they
/// are in the crew again.
fn gone<'a>(roster: &'a Roster, crew: Option<&Crew>) -> Vec<Told<'a>> {
    let row = row(roster);
    let mut gone: Vec<Told<'a>> = Vec::new();
    for (before, after) in row.iter().zip(row.iter().skip(1)) {
        let left = before.crew.signers().iter();
        for signer in left.filter(|one| !holds(after, &one.key)) {
            gone.push(left_by(signer, after, how(signer, after), roster));
        }
    }
    for revision in roster.revisions() {
        for signer in revision.crew.signers() {
            let mut here = crew.map_or(&[][..], Crew::signers).iter();
            let here = here.any(|one| one.key == signer.key)
                || row.iter().any(|one| holds(one, &signer.key));
            let taken_out = roster.taken_out(&signer.key, revision);
            let (Some((later, how)), false) = (taken_out, here) else {
                continue;
            };
            // Only on a branch that ended.
            let later = roster.went(&signer.key, later);
            let key = signer.key.fingerprint();
            gone.retain(|told| told.key != key);
            gone.push(left_by(signer, later, how, roster));
        }
    }
    gone.sort_by_key(|told| told.until);
    gone
}

/// The crew files that lead to the one in force, from the first on.
fn row(roster: &Roster) -> Vec<&Revision> {
    let all = roster.revisions();
    let before = |one: &&Revision| {
        let before = one.change.before?;
        all.iter().find(|other| other.statement == before)
    };
    let mut row: Vec<&Revision> = std::iter::successors(roster.in_force(), before).collect();
    row.reverse();
    row
}

fn holds(revision: &Revision, key: &PublicKey) -> bool {
    let mut signers = revision.crew.signers().iter();
    signers.any(|signer| signer.key == *key)
}

/// Whoever is taken out in silence may have been taken out for cause.
fn how(signer: &Signer, by: &Revision) -> Gone {
    let said = |what: Changed| {
        let mut changes = by.change.changes.iter();
        changes.any(|change| change.who == signer.id && change.what == what)
    };
    if said(Changed::Retired) && !said(Changed::Revoked) {
        Gone::Retired
    } else {
        Gone::Revoked
    }
}

fn left_by<'a>(signer: &'a Signer, later: &'a Revision, how: Gone, roster: &'a Roster) -> Told<'a> {
    Told {
        state: match how {
            Gone::Retired => "retired",
            Gone::Revoked | Gone::LeftOut => "revoked",
            Gone::NotAdded => "not-added",
        },
        since: since(&signer.key, roster, later.change.number),
        until: Some(later.change.number),
        why: why(later, &signer.id),
        ..person(signer)
    }
}

fn why<'a>(revision: &'a Revision, who: &Id) -> Option<&'a str> {
    let mut changes = revision.change.changes.iter();
    let change = changes.find(|change| change.who == *who && change.words.is_some());
    Some(change?.words.as_ref()?.as_str())
}

/// The crew file that brought the key in, for the last time before this number.
fn since(key: &PublicKey, roster: &Roster, until: u64) -> Option<u64> {
    let row = row(roster);
    let earlier = row.iter().rev().filter(|one| one.change.number < until);
    let had = earlier.skip_while(|one| !holds(one, key));
    let last = had.take_while(|one| holds(one, key)).last();
    let mut all = roster.revisions().iter();
    let first = || all.find(|one| holds(one, key));
    let first = last.copied().or_else(first);
    first.map(|revision| revision.change.number)
}

fn person(signer: &Signer) -> Told<'_> {
    Told {
        schema: "hames-crew/1",
        id: signer.id.as_str(),
        name: signer.name.as_str(),
        roles: signer.roles.iter().map(|role| role.word()).collect(),
        key: signer.key.fingerprint(),
        state: "in-force",
        since: None,
        until: None,
        why: None,
        signed_off: None,
        line: None,
    }
}

impl<'a> Span<'a> {
    fn of(line: &'a SignedOff) -> Self {
        let ids = |ids: &'a Option<Vec<Id>>| {
            let ids = ids.as_ref()?;
            Some(ids.iter().map(Id::as_str).collect())
        };
        Self {
            rigs: ids(&line.rigs),
            checklists: ids(&line.checklists),
        }
    }
}

fn tell(told: &Told<'_>, json: bool, out: &mut dyn Write) -> io::Result<()> {
    if json {
        serde_json::to_writer(&mut *out, told)?;
        return writeln!(out);
    }
    let roles = told.roles.join(", ");
    write!(out, "{}  {}  {roles}  {}", told.id, told.name, told.key)?;
    if let Some(since) = told.since {
        write!(out, "  since crew file {since}")?;
    }
    if let Some(until) = told.until {
        let why = told.why.map(|why| format!(": {why}")).unwrap_or_default();
        let state = told.state.replace('-', " ");
        write!(out, "  {state} by crew file {until}{why}")?;
    }
    if let Some(line) = told.line {
        write!(out, "  signed off for: {line}")?;
    }
    writeln!(out)
}
