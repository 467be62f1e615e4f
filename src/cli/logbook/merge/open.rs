//! What somebody has to see to after a merge: each with its neighbours and the next step.

use crate::cli::command::quoted;
use crate::cli::logbook::merge::report::{Told, shown};
use crate::logbook::merge::{Fork, Gap, Parting};
use crate::record::{Id, StatementFault};
use std::fmt;
use std::path::{Path, PathBuf};

/// What somebody has to see to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Open {
    /// Trips are missing.
    Gap(Gap, Neighbours),
    /// Two histories, and where they lie.
    Fork(Fork, Vec<PathBuf>, Neighbours),
    /// A trip here cannot be relied on.
    Damaged(Damaged, Neighbours),
    /// Files of a trip here have not arrived.
    InPart(InPart, Neighbours),
    /// Something else has the place of a file.
    NoFile(PathBuf),
    /// Another program has this device's trips open.
    InUse(Id),
    /// The crew file here stays.
    Crew(String),
    /// Something is wrong with what managers stated.
    Statement(StatementFault),
}

/// A trip here that cannot be relied on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Damaged {
    /// The device.
    pub device: Id,
    /// Its number.
    pub seq: u64,
    /// Where it lies.
    pub path: PathBuf,
    /// What is wrong.
    pub faults: Vec<String>,
    /// Whether a whole one lies beside it, which has not all that may be in it.
    pub beside: bool,
}

/// A trip of which files are missing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InPart {
    /// The device.
    pub device: Id,
    /// Its number.
    pub seq: u64,
    /// Where it lies.
    pub path: PathBuf,
    /// The names of the files that are missing.
    pub missing: Vec<&'static str>,
}

/// The trips before and after something, with their receipts where they are sealed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Neighbours {
    /// The one before.
    pub before: Option<(u64, Option<String>)>,
    /// The one after.
    pub after: Option<(u64, Option<String>)>,
}

impl Open {
    pub(super) fn told(&self) -> Told {
        let (device, number) = match self {
            Self::Gap(gap, _) => (Some(&gap.device), Some(gap.from)),
            Self::Fork(fork, ..) => (Some(&fork.device), Some(fork.seq)),
            Self::Damaged(damaged, _) => (Some(&damaged.device), Some(damaged.seq)),
            Self::InPart(part, _) => (Some(&part.device), Some(part.seq)),
            Self::InUse(device) => (Some(device), None),
            Self::NoFile(_) | Self::Crew(_) | Self::Statement(_) => (None, None),
        };
        Told {
            kind: self.kind(),
            what: self.to_string(),
            device: device.map(ToString::to_string),
            number,
            next: Some(self.next_step()),
            ..Told::default()
        }
    }

    const fn kind(&self) -> &'static str {
        match self {
            Self::Gap(..) => "gap",
            Self::Fork(..) => "fork",
            Self::Damaged(..) => "damaged here",
            Self::InPart(..) => "in part",
            Self::NoFile(_) => "no file",
            Self::InUse(_) => "in use",
            Self::Crew(_) => "crew",
            Self::Statement(_) => "statement",
        }
    }

    fn next_step(&self) -> String {
        match self {
            Self::Gap(gap, _) => format!(
                "Ask for the laptop or a stick that has them, and merge again. Where they are lost \
                 for good, a manager says so: hames logbook accept-loss {} {} --why WORDS",
                gap.device,
                numbers(gap)
            ),
            Self::Fork(fork, places, _) => {
                let names = places.iter().filter_map(|path| path.file_name());
                let names: Vec<String> = names.map(|name| shown(name.as_ref())).collect();
                format!(
                    "Have a manager look into each, and say which goes on: hames logbook close-fork \
                     {} {} --goes-on FOLDER --why WORDS, with one of these for FOLDER: {}",
                    fork.device,
                    fork.seq,
                    names.join(", ")
                )
            }
            Self::Damaged(damaged, _) if damaged.beside => "A whole one lies beside it, and this \
                 one may hold lines that nobody else has, so both stay. Have a manager look at it."
                .to_owned(),
            Self::Damaged(..) => {
                "Merge from a laptop or a stick that has it whole: that then takes \
                 its place, and what is damaged is kept aside."
                    .to_owned()
            }
            Self::InPart(part, _) => format!(
                "Nothing was lost here. Bring the stick of {} once more, or merge from that laptop: \
                 hames logbook merge FOLDER. What is missing is then put beside the rest.",
                part.device
            ),
            Self::NoFile(path) => move_it_away(path),
            Self::InUse(_) => "Close it, and merge again.".to_owned(),
            Self::Crew(_) => "Bring the manager's statements, and merge again.".to_owned(),
            Self::Statement(StatementFault::RosterFork { .. }) => {
                "A manager says which goes on: hames crew settle. Then merge again on the other \
                 laptops."
                    .to_owned()
            }
            Self::Statement(StatementFault::Fork { manager, .. }) => {
                format!("Until then {manager} signs on one laptop alone.")
            }
            Self::Statement(_) => {
                "Merge from the manager's laptop, or from any that has it whole; \
                 ask the manager where that does not help."
                    .to_owned()
            }
        }
    }
}

/// As a command takes them.
fn numbers(gap: &Gap) -> String {
    if gap.from == gap.to {
        gap.from.to_string()
    } else {
        format!("{}..{}", gap.from, gap.to)
    }
}

impl fmt::Display for Open {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Gap(gap, Neighbours { before, after }) => {
                let device = &gap.device;
                let one = gap.from == gap.to;
                if one {
                    write!(f, "trip {} of {device} is not here; ", gap.from)?;
                } else {
                    let (from, to) = (gap.from, gap.to);
                    write!(f, "trips {from} to {to} of {device} are not here; ")?;
                }
                let them = if one { "it" } else { "them" };
                match before {
                    Some(before) => write!(f, "before {them} {}", trip(before))?,
                    None => write!(f, "none before {them}")?,
                }
                match after {
                    Some(after) => write!(f, ", after {them} {}", trip(after)),
                    None => write!(f, ", and a manager's statement knows of {them}"),
                }
            }
            Self::Fork(fork, places, around) => {
                let (seq, device, many) = (fork.seq, &fork.device, fork.histories);
                write!(f, "{device} has {many} histories of trip {seq}, ")?;
                match fork.parts {
                    Parting::Trips => f.write_str("different trips with the same number")?,
                    Parting::Line(line) => write!(f, "which part at line {line}")?,
                    Parting::Seals => f.write_str("with the same lines and different seals")?,
                }
                let places: Vec<String> = places.iter().map(|path| shown(path)).collect();
                let places = places.join(", ");
                write!(f, "; none is chosen: {places}; {around}")
            }
            Self::Damaged(damaged, around) => {
                let Damaged {
                    device,
                    seq,
                    path,
                    faults,
                    ..
                } = damaged;
                let (path, faults) = (shown(path), faults.join("; "));
                write!(
                    f,
                    "trip {seq} of {device} cannot be relied on: {faults}; {around}: {path}"
                )
            }
            Self::InPart(part, around) => {
                let InPart {
                    device,
                    seq,
                    path,
                    missing,
                } = part;
                let is = if missing.len() == 1 { "is" } else { "are" };
                let (path, missing) = (shown(path), missing.join(", "));
                write!(
                    f,
                    "trip {seq} of {device} arrived in part: {missing} {is} missing here; {around}: {path}"
                )
            }
            Self::NoFile(path) => write!(
                f,
                "{} is no file, and a file of a record has its place there; nothing of that record was taken or put right",
                shown(path)
            ),
            Self::InUse(device) => write!(
                f,
                "another window of this program has the trips of {device} open, so nothing of them was taken"
            ),
            Self::Crew(what) => f.write_str(what),
            Self::Statement(fault) => fault.fmt(f),
        }
    }
}

/// The next step where something that is no file has the place of one.
pub(super) fn move_it_away(path: &Path) -> String {
    let mut away = path.as_os_str().to_owned();
    away.push(".moved");
    format!(
        "Move it away, and merge again: mv {} {}",
        quoted(path),
        quoted(away.as_ref())
    )
}

impl fmt::Display for Neighbours {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (&self.before, &self.after) {
            (Some(before), Some(after)) => {
                write!(f, "it lies between {} and {}", trip(before), trip(after))
            }
            (Some(before), None) => {
                write!(f, "it lies behind {}, the last before it", trip(before))
            }
            (None, Some(after)) => write!(f, "it lies before {}, the first after it", trip(after)),
            (None, None) => f.write_str("no other trip of that laptop is here"),
        }
    }
}

fn trip((seq, receipt): &(u64, Option<String>)) -> String {
    match receipt {
        Some(receipt) => format!("trip {seq} with the receipt {receipt}"),
        None => format!("trip {seq}, not sealed"),
    }
}
