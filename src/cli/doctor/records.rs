//! The records themselves: what `hames verify` finds of trips and statements, each with what to do,
//! and what keeps this laptop from beginning a walk.

use crate::cli::clerk::{Books, Clerk};
use crate::cli::command::quoted;
use crate::cli::doctor::check::{Check, Stands};
use crate::cli::doctor::next;
use crate::cli::logbook::anew;
use crate::cli::lot::{Found, Placed, Whole, whole};
use crate::logbook::order::{closings, last_closings};
use crate::record::{Changed, Id, Role, Says, Signer, Stated, StatementFault, Statements};
use crate::store::Local;
use crate::walk::Moment;
use std::collections::BTreeMap;
use std::path::Path;

const TRIPS: &str = "trips";
const STATEMENTS: &str = "statements";

pub(super) fn records(books: &Books<Local>, clerk: &Clerk<Local>, now: &Moment) -> Vec<Check> {
    let mut checks = Vec::new();
    let statements = books.statements().unwrap_or_default();
    match clerk.may_a_walk_begin() {
        Ok(()) => {}
        // Told with the crew.
        Err(_) if books.not_in_force(&statements).is_some() => {}
        Err(trouble) => checks.push(Check::wrong("device", trouble.to_string())),
    }
    let whole = match whole(books.logbook.root()) {
        Ok(whole) => whole,
        Err(why) => {
            checks.push(Check::wrong(TRIPS, why));
            return checks;
        }
    };
    let own = clerk.device_here();
    checks.extend(elsewhere(books, &whole.placed, own.as_ref(), &now.boot));
    checks.extend(closed(books));
    let root = books.logbook.root();
    checks.extend(whole.found.iter().filter_map(|one| found(one, root)));
    checks.extend(fine(&whole, &checks));
    checks
}

/// What was looked at, where nothing was found, and what nobody can see from here.
fn fine(whole: &Whole, checks: &[Check]) -> Vec<Check> {
    let none = |of: &str| {
        !checks
            .iter()
            .any(|check| check.of == of && check.stands > Stands::Ok)
    };
    let mut told = Vec::new();
    if none(TRIPS) {
        told.push(Check::ok(
            TRIPS,
            format!(
                "each of the {} here was verified, and their numbers and ends fit together and fit \
                 what managers saw. Whether newer ones are missing, or another machine has a copy \
                 of this laptop's key, shows only when logbooks are merged",
                whole.trips
            ),
        ));
    }
    if none(STATEMENTS) {
        told.push(Check::ok(
            STATEMENTS,
            format!(
                "each of the {} here was verified, and none that another names is missing",
                whole.stated
            ),
        ));
    }
    told
}

fn found(one: &Found, root: &Path) -> Option<Check> {
    Some(match one {
        Found::Trip(path, finding, faults) => {
            let below = path.strip_prefix(root).unwrap_or(path);
            let below = below.to_string_lossy().escape_debug().to_string();
            let next = next::for_trip(*finding, &quoted(path));
            let faults: Vec<_> = faults.iter().map(|fault| unpointed(fault)).collect();
            let faults = faults.join("; ");
            Check::wrong(TRIPS, format!("{below} is {finding}: {faults}. {next}"))
        }
        Found::Order(fault) => {
            let next = next::for_order(fault).map(|next| format!(". {next}"));
            let (fault, next) = (fault.to_string(), next.unwrap_or_default());
            Check::wrong(TRIPS, format!("{}{next}", unpointed(&fault)))
        }
        Found::Stray(finding, what) => Check::wrong(
            TRIPS,
            format!(
                "{finding}: {what}. Have it judged by what is in it: hames logbook merge {root} --logbook \
                 {root}",
                root = quoted(root)
            ),
        ),
        Found::RestsOn(by, named) => Check::look(
            TRIPS,
            format!(
                "{} of {} goes on from trip {named}, which is not here. If a backup was put back, or \
                 logbooks were not merged, bring it: hames logbook merge FOLDER",
                by.name, by.device
            ),
        ),
        // Told with the crew.
        Found::Statement(StatementFault::RosterFork { .. }, _) => return None,
        Found::Statement(fault, place) => {
            let place = place.as_deref().map(|path| format!("{}: ", path.display()));
            let next = next::for_statement(fault).map(|next| format!(". {next}"));
            let (place, next) = (place.unwrap_or_default(), next.unwrap_or_default());
            let fault = fault.to_string();
            let fault = unpointed(&fault);
            Check::wrong(STATEMENTS, format!("{place}{fault}{next}"))
        }
        Found::Folder(what) => Check::wrong(
            STATEMENTS,
            format!(
                "{}. Bring it whole from a manager's laptop: hames logbook merge FOLDER",
                unpointed(what)
            ),
        ),
    })
}

/// Laptops whose key two machines use: a start of a machine that is over does not come again.
fn elsewhere(books: &Books<Local>, placed: &[Placed], own: Option<&Id>, boot: &str) -> Vec<Check> {
    let statements = books.statements().unwrap_or_default();
    let mut by_device: BTreeMap<&Id, Vec<(&str, &str)>> = BTreeMap::new();
    for trip in placed {
        // What a manager closed is settled.
        if trip.seq > settled(&statements, &trip.device)
            && books.crew.signer(&trip.device).is_some()
        {
            let row = by_device.entry(&trip.device).or_default();
            row.push((&trip.boot, &trip.name));
        }
    }
    let mut checks = Vec::new();
    for (device, mut row) in by_device {
        if own == Some(device) {
            row.push((boot, "this start of this laptop"));
        }
        if let Some((first, between, again)) = comes_again(&row) {
            checks.push(Check::wrong(
                "device",
                format!(
                    "two machines write as {device}: {first} and {again} belong to one start of a \
                     machine, and {between} in between to another. So its folder was copied with \
                     its key. Take keys/{device} away from the machine it does not belong to, and \
                     enrol that one by itself: hames crew request"
                ),
            ));
        }
    }
    checks
}

/// Forks that were closed and after which no laptop was let in: if a disk was copied, both machines
/// have the key still.
fn closed(books: &Books<Local>) -> Vec<Check> {
    let statements = books.statements().unwrap_or_default();
    let lets_in = |stated: &&Stated| match &stated.statement().says {
        Says::Crew(crew) => crew.changes.iter().any(|change| {
            change.what == Changed::Added && books.crew.signer(&change.who).is_some_and(is_laptop)
        }),
        _ => false,
    };
    let mut checks = Vec::new();
    for stated in statements.stated() {
        let Says::ForkClosed(fork) = &stated.statement().says else {
            continue;
        };
        let hash = stated.hash();
        let mut after = statements.stated().iter().filter(lets_in);
        let is_over = after.any(|later| statements.behind(&later.hash()).contains(&hash));
        let closings = closings(&statements, &fork.device);
        let last = last_closings(&closings, fork.seq, |one| statements.behind(one));
        let of_one = last.iter().all(|(other, _)| other.goes_on == fork.goes_on);
        let is_last = last.iter().any(|(_, one)| one.hash() == hash);
        // What managers disagree in is told with the fork itself.
        if is_last && of_one && !is_over && books.crew.signer(&fork.device).is_some() {
            let (seq, name) = (fork.seq, &stated.statement().name);
            let told = format!(
                "the fork at trip {seq} of {} was closed by {name}. {}",
                fork.device,
                anew(&fork.device)
            );
            checks.push(Check::look("device", told));
        }
    }
    checks
}

fn is_laptop(signer: &Signer) -> bool {
    signer.roles.contains(&Role::Device)
}

/// The last number of a device that a manager knew of who closed a fork of it.
fn settled(statements: &Statements, device: &Id) -> u64 {
    let stated = statements.stated().iter().map(Stated::statement);
    let closed =
        stated.filter(|one| matches!(&one.says, Says::ForkClosed(fork) if fork.device == *device));
    let heads = closed.flat_map(|one| &one.heads);
    let known = heads.filter(|head| head.device == *device);
    known.map(|head| head.seq).max().unwrap_or(0)
}

/// Three in a row of which the first and the last are of one start, and one between them is not.
fn comes_again<'a>(row: &[(&str, &'a str)]) -> Option<(&'a str, &'a str, &'a str)> {
    let of_machine = |boot: &str| !boot.starts_with(Moment::OF_PROGRAM);
    let row: Vec<_> = row.iter().filter(|(boot, _)| of_machine(boot)).collect();
    row.iter().enumerate().find_map(|(at, (boot, again))| {
        let before = row.get(..at)?;
        let (first, (_, named)) = before
            .iter()
            .enumerate()
            .find(|(_, (one, _))| one == boot)?;
        let mut between = before.get(first..)?.iter();
        let (_, other) = between.find(|(one, _)| one != boot)?;
        Some((*named, *other, *again))
    })
}

/// A sentence that another is put behind, which brings the point.
fn unpointed(sentence: &str) -> &str {
    sentence.trim_end_matches('.')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_start_of_a_machine_that_comes_again_after_another_shows_a_second_machine() {
        let names = ["one", "two", "three", "four"];
        let shown = |boots: &[&'static str]| {
            let row: Vec<_> = boots.iter().copied().zip(names).collect();
            comes_again(&row)
        };
        assert_eq!(shown(&["a", "a", "b", "b"]), None);
        assert_eq!(shown(&["a", "b", "c", "d"]), None);
        assert_eq!(shown(&["a", "b", "a", "c"]), Some(("one", "two", "three")));
        assert_eq!(shown(&["a", "a", "b", "a"]), Some(("one", "three", "four")));
        // A start of the program says nothing of the machine.
        assert_eq!(shown(&["a", "program-7", "a", "b"]), None);
    }
}
