//! The drills: what `hames verify` finds of them, those that were begun and never ended, and what lies
//! in their tree and is none.

use crate::cli::clerk::{Books, Plans};
use crate::cli::command::quoted;
use crate::cli::doctor::check::{Check, Stands};
use crate::cli::lot::{Found, whole_of_drills};
use crate::record::{Finding, Id};
use crate::store::{DRILLS, Disk, Local, TripFolder};
use std::path::Path;

const OF: &str = "drills";

/// Nothing where no drill was ever begun here.
pub(super) fn drills(books: &Books<Local>) -> Vec<Check> {
    let root = books.logbook.root();
    let whole = match whole_of_drills(root) {
        Ok(Some(whole)) => whole,
        Ok(None) => return Vec::new(),
        Err(why) => return vec![Check::wrong(OF, why)],
    };
    let mut checks: Vec<Check> = whole
        .found
        .iter()
        .filter_map(|one| found(one, root))
        .collect();
    checks.extend(strange(root));
    let own = books.drills();
    for device in own.logbook.devices().unwrap_or_default() {
        checks.extend(not_ended(&own, &device));
    }
    if checks.iter().all(|check| check.stands == Stands::Ok) {
        let many = whole.trips;
        let told = format!("each of the {many} here was verified, and every one is signed");
        checks.push(Check::ok(OF, told));
    }
    checks
}

fn found(one: &Found, root: &Path) -> Option<Check> {
    let told = match one {
        Found::Trip(path, finding, faults) => {
            let below = path.strip_prefix(root).unwrap_or(path);
            let below = below.to_string_lossy().escape_debug().to_string();
            let next = match finding {
                Finding::OtherMode => "It is none of the drills; ask who copied it here",
                _ => {
                    "Where a stick or another laptop has it whole, bring it: hames logbook merge \
                     FOLDER. Until then it counts for nothing"
                }
            };
            let (faults, path) = (faults.join("; "), quoted(path));
            format!("{below} is {finding}: {faults}. {next}. See it with: hames verify {path}")
        }
        Found::Order(fault) => format!(
            "{}. Bring what is missing from whatever laptop or stick has it: hames logbook merge \
             FOLDER. No manager can give up a drill or choose between two, and nothing rests on one",
            fault.to_string().trim_end_matches('.')
        ),
        Found::Stray(finding, what) => format!("{finding}: {what}"),
        // Nothing is stated of drills, and none of them rests on another.
        Found::RestsOn(..) | Found::Statement(..) | Found::Folder(_) => return None,
    };
    Some(Check::wrong(OF, told))
}

/// What has a place in the tree that is nobody's.
fn strange(root: &Path) -> Vec<Check> {
    let tree = root.join(DRILLS);
    let entries = Local.list(&tree).unwrap_or_default();
    let others = entries.into_iter().filter(|entry| entry.name != "dev");
    let told = others.map(|entry| {
        let name = tree.join(entry.name);
        let name = name.strip_prefix(root).unwrap_or(&name);
        let name = name.to_string_lossy().escape_debug().to_string();
        let what = format!("{name} lies among the drills and is none; nothing looks at it");
        Check::look(OF, what)
    });
    told.collect()
}

/// The drills of a device that nobody signed, and folders that hold none.
fn not_ended(drills: &Books<Local>, device: &Id) -> Vec<Check> {
    let trips = match drills.logbook.trips(device) {
        Ok(found) => found.trips,
        Err(fault) => return vec![Check::wrong(OF, fault.to_string())],
    };
    let mut plans = Plans::default();
    let told = trips
        .iter()
        .filter_map(|drill| one(drills, (device, drill), &mut plans));
    told.collect()
}

fn one(
    drills: &Books<Local>,
    (device, drill): (&Id, &TripFolder),
    plans: &mut Plans,
) -> Option<Check> {
    let name = drill.path.file_name().unwrap_or_default();
    let name = name.to_string_lossy().escape_debug().to_string();
    if drills.logbook.is_sealed(drill).unwrap_or(true) {
        return None;
    }
    let told = if drills.logbook.has_begun(drill).unwrap_or(true) {
        // What cannot be relied on is told as that.
        let walk = drills.read(device, drill, plans).ok()?.walk().ok()?;
        if walk.ended().is_some() {
            "has ended, and nobody has signed it"
        } else {
            "was begun and has not ended. Go on with it on its laptop, or leave it: it counts for \
             nothing"
        }
    } else {
        "is what a crash left of a beginning; nothing in it was ever recorded"
    };
    Some(Check::look(OF, format!("{name} of {device} {told}")))
}
