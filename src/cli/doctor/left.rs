//! What lies about: drafts of a crash, what a merge set aside, trips nobody signed.

use crate::cli::clerk::{Books, Clerk, Plans};
use crate::cli::doctor::check::Check;
use crate::cli::doctor::tree::Named;
use crate::record::{Finding, Id};
use crate::store::{Disk, Kind, Local, TripFolder};
use std::path::Path;

const OF: &str = "left";

pub(super) fn left(books: &Books<Local>, clerk: &Clerk<Local>, names: &[Named]) -> Vec<Check> {
    let mut checks = drafts(names);
    checks.extend(aside(books.logbook.root()));
    checks.extend(pruned(clerk));
    if books.is_start_damaged() {
        checks.push(Check::look(
            OF,
            "cache/ holds what this program cannot read. Nothing rests on it; it is made anew, and \
             may be taken away by hand",
        ));
    }
    for device in books.logbook.devices().unwrap_or_default() {
        checks.extend(trips(books, &device));
    }
    if checks.is_empty() {
        checks.push(Check::ok(
            OF,
            "nothing lies about, and every trip is signed",
        ));
    }
    checks
}

/// Drafts of files that were never given their names.
fn drafts(names: &[Named]) -> Vec<Check> {
    let drafts = names.iter().filter(|named| {
        let name = named.name();
        name.starts_with('.') && name.contains(".draft-")
    });
    drafts
        .map(|named| {
            Check::look(
                OF,
                format!(
                    "{} is what a crash left of a file in the making. It counts for nothing, and \
                     may be taken away by hand",
                    named.shown()
                ),
            )
        })
        .collect()
}

fn aside(root: &Path) -> Vec<Check> {
    let mut aside = Local.list(&root.join("quarantine")).unwrap_or_default();
    aside.retain(|entry| entry.kind == Kind::Folder);
    let told = |what: &str| {
        Check::look(
            OF,
            format!(
                "{what} in quarantine/, which a merge could not use or moved out of the way. Each has \
                 the reason beside it, and every merge looks at it again"
            ),
        )
    };
    match aside.len() {
        0 => Vec::new(),
        1 => vec![told("1 thing lies")],
        many => vec![told(&format!("{many} things lie"))],
    }
}

fn pruned(clerk: &Clerk<Local>) -> Vec<Check> {
    match clerk.left_of_pruned() {
        Ok(left) if left.is_empty() => Vec::new(),
        Ok(left) => vec![Check::look(
            OF,
            format!(
                "{} here. Run hames logbook prune",
                match left.len() {
                    1 => "1 trip that a manager pruned still lies".to_owned(),
                    many => format!("{many} trips that a manager pruned still lie"),
                }
            ),
        )],
        Err(trouble) => vec![Check::wrong(OF, trouble.to_string())],
    }
}

/// The trips of a device that nobody signed, and folders that hold none.
fn trips(books: &Books<Local>, device: &Id) -> Vec<Check> {
    let found = match books.logbook.trips(device) {
        Ok(found) => found,
        Err(fault) => return vec![Check::wrong(OF, fault.to_string())],
    };
    let mut checks: Vec<Check> = found
        .strays
        .iter()
        .map(|stray| {
            let stray = stray.to_string_lossy().escape_debug().to_string();
            Check::look(
                OF,
                format!("{stray} lies among the trips of {device} and is no trip's folder"),
            )
        })
        .collect();
    let mut plans = Plans::default();
    // A folder that a crash left without a line is no trip that began.
    let begun = |trip: &&TripFolder| books.logbook.has_begun(trip).unwrap_or(true);
    let newest = found.trips.iter().rfind(begun).map(|trip| trip.seq);
    for trip in &found.trips {
        checks.extend(one(books, (device, trip), newest, &mut plans));
    }
    checks
}

fn one(
    books: &Books<Local>,
    (device, trip): (&Id, &TripFolder),
    newest: Option<u64>,
    plans: &mut Plans,
) -> Option<Check> {
    let name = trip.path.file_name().unwrap_or_default().to_string_lossy();
    let is_there = |answer: Result<bool, _>| answer.unwrap_or(true);
    if is_there(books.logbook.is_sealed(trip)) {
        return None;
    }
    if !is_there(books.logbook.has_begun(trip)) {
        let entries = Local.list(&trip.path).unwrap_or_default();
        let what = if entries.iter().any(|entry| entry.kind == Kind::File) {
            "what a crash left of a beginning"
        } else {
            "an empty folder"
        };
        return Some(Check::look(
            OF,
            format!("{name} of {device} is {what}; nothing in it was ever recorded"),
        ));
    }
    let read = match books.read(device, trip, plans) {
        Ok(read) => read,
        Err(fault) => return Some(Check::wrong(OF, fault.to_string())),
    };
    let told = match read.walk() {
        Ok(walk) if walk.ended().is_some() => {
            "has ended, and nobody has signed it. Take it up \
                                               on its laptop and sign it"
        }
        Ok(_) if newest > Some(trip.seq) => {
            "was abandoned: a later trip began before it ended. \
                                             Take it up on its laptop and end it with a reason"
        }
        Ok(_) => "has not ended. Take it up on its laptop",
        Err(_) if read.finding() == Finding::Unsealed => "is not signed",
        // Told with the trips.
        Err(_) => return None,
    };
    Some(Check::look(OF, format!("{name} of {device} {told}")))
}
