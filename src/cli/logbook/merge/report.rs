//! What a merge came to, as text or as JSON.

use crate::cli::Status;
use crate::logbook::merge::{Fork, Gap, Parting, TripKey, Why};
use crate::record::{Id, StatementFault};
use serde::Serialize;
use std::fmt;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

const SCHEMA: &str = "hames-merge/1";

/// What a merge came to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Merged {
    /// What was brought.
    pub from: PathBuf,
    /// Whether nothing was written.
    pub look: bool,
    /// Trips of which something was taken, by device and number.
    pub came: Vec<Came>,
    /// Statements that were taken.
    pub statements: Vec<String>,
    /// Approvals that were taken.
    pub approvals: Vec<String>,
    /// How many trips had nothing new.
    pub known: usize,
    /// What is kept aside since now.
    pub aside: Vec<SetAside>,
    /// How many files were kept aside before and still cannot be used.
    pub aside_before: usize,
    /// Trips that a manager had taken out; they are not brought back.
    pub pruned: Vec<TripKey>,
    /// The crew file put in force.
    pub crew: Option<String>,
    /// What somebody has to see to.
    pub open: Vec<Open>,
    /// The newest trip of each device.
    pub newest: Vec<(Id, u64)>,
    /// This laptop, where others had trips of it that this logbook had not.
    pub own: Vec<Id>,
    /// What is no record, and was left where it is.
    pub left_alone: Vec<PathBuf>,
    /// What could not be read.
    pub refused: Vec<String>,
}

/// Something of a trip that was taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Came {
    /// The trip.
    pub key: TripKey,
    /// How it stood to what was here.
    pub how: How,
    /// Where it lies now.
    pub path: Option<PathBuf>,
}

/// How a trip stood to what was here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// It was not here.
    New,
    /// So many lines of it were missing here.
    Longer(usize),
    /// Its seal, signatures or texts were missing here.
    Completed,
    /// It went on in another way here.
    Beside,
}

/// A file that cannot be used as it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SetAside {
    /// Where it was found.
    pub path: PathBuf,
    /// Where it is kept.
    pub kept: PathBuf,
    /// Why.
    pub why: Why,
}

/// What somebody has to see to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Open {
    /// Trips are missing; the receipts of the neighbours.
    Gap(Gap, Option<String>, Option<String>),
    /// Two histories, and where they lie.
    Fork(Fork, Vec<PathBuf>),
    /// A trip here cannot be relied on.
    Damaged(PathBuf, Vec<String>),
    /// Another program has this device's trips open.
    InUse(Id),
    /// The crew file here stays.
    Crew(String),
    /// Something is wrong with what managers stated.
    Statement(StatementFault),
}

/// One line of JSON.
#[derive(Default, Serialize)]
struct Told {
    schema: &'static str,
    kind: &'static str,
    what: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    device: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    number: Option<u64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    path: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    next: Option<String>,
}

impl Merged {
    pub(super) fn new(from: &Path, look: bool) -> Self {
        Self {
            from: from.to_owned(),
            look,
            ..Self::default()
        }
    }

    /// Several steps of one trip are told as one; the first says most.
    pub(super) fn came(&mut self, came: Came) {
        let before = self.came.last_mut().filter(|one| one.key == came.key);
        match (before, came.how) {
            (Some(before), How::Completed) if before.how != How::Completed => {}
            (Some(before), How::Completed) => before.path = came.path,
            _ => self.came.push(came),
        }
    }

    pub(super) fn pruned(&mut self, key: &TripKey) {
        if !self.pruned.contains(key) {
            self.pruned.push(key.clone());
        }
    }

    pub(super) fn open(&mut self, open: Open) {
        if !self.open.contains(&open) {
            self.open.push(open);
        }
    }

    pub(super) fn damaged(&mut self, path: &Path, faults: Vec<String>) {
        self.open(Open::Damaged(path.to_owned(), faults));
    }

    /// Whether anything was taken.
    pub fn is_new(&self) -> bool {
        !(self.came.is_empty() && self.statements.is_empty() && self.approvals.is_empty())
            || self.crew.is_some()
    }

    /// How the program ends: nothing wrong, or something set aside or open.
    pub fn status(&self) -> Status {
        let wrong = !self.aside.is_empty() || !self.open.is_empty() || !self.refused.is_empty();
        if wrong || self.aside_before > 0 {
            Status::Findings
        } else {
            Status::Fine
        }
    }

    /// As text.
    ///
    /// # Errors
    /// What the output refused.
    pub fn as_text(&self, out: &mut dyn Write) -> io::Result<()> {
        for told in self.told() {
            writeln!(out, "{}: {}", told.kind, told.what)?;
            for more in [told.path, told.next].into_iter().flatten() {
                writeln!(out, "  {more}")?;
            }
        }
        writeln!(out, "{}", self.whole())
    }

    /// As JSON, one object a line.
    ///
    /// # Errors
    /// What the output refused.
    pub fn as_json(&self, out: &mut dyn Write) -> io::Result<()> {
        let whole = Told {
            kind: "whole",
            what: self.whole(),
            ..Told::default()
        };
        for told in self.told().into_iter().chain([whole]) {
            let schema = SCHEMA;
            serde_json::to_writer(&mut *out, &Told { schema, ..told })?;
            writeln!(out)?;
        }
        Ok(())
    }

    /// Everything, in the order people ask for it.
    fn told(&self) -> Vec<Told> {
        let said = |kind, what: String| Told {
            kind,
            what,
            ..Told::default()
        };
        let mut told: Vec<Told> = self.came.iter().map(Came::told).collect();
        let stated = self.statements.iter().chain(&self.approvals);
        told.extend(stated.map(|what| said("came", what.clone())));
        told.extend(self.crew.iter().map(|what| said("crew", what.clone())));
        told.extend(self.own.iter().map(|device| {
            said(
                "own trips",
                format!(
                    "{device} is this laptop, and others had trips of it that this logbook had not. \
                     Either this logbook was put back from a backup, or the disk was copied and \
                     another laptop goes by the same name; nothing here tells which. What others had \
                     is here now; whether there were others still, nothing here tells."
                ),
            )
        }));
        let pruned = self.pruned.iter();
        told.extend(pruned.map(|key| {
            let what = format!("{key} was taken out by a manager's signed word, so it stays out");
            said("pruned", what)
        }));
        told.extend(self.aside.iter().map(SetAside::told));
        if self.aside_before > 0 {
            let what = format!(
                "{} kept aside by an earlier merge and still of no use; see why.txt beside each",
                files(self.aside_before)
            );
            told.push(said("set aside before", what));
        }
        told.extend(self.refused.iter().map(|why| said("not read", why.clone())));
        told.extend(self.open.iter().map(Open::told));
        if !self.left_alone.is_empty() {
            let first = self.left_alone.iter().take(3);
            let names: Vec<String> = first.map(|path| shown(path)).collect();
            let more = if self.left_alone.len() > 3 {
                ", …"
            } else {
                ""
            };
            let count = files(self.left_alone.len());
            let what = format!("{count} no record: {}{more}", names.join(", "));
            told.push(said("left alone", what));
        }
        let newest = self.newest.iter();
        told.extend(newest.map(|(device, seq)| {
            let what =
                format!("trip {seq} of {device} is the newest here; later ones may be missing");
            said("newest", what)
        }));
        told
    }

    fn whole(&self) -> String {
        let trips = |count: usize| match count {
            1 => "1 trip".to_owned(),
            _ => format!("{count} trips"),
        };
        let news = if self.is_new() {
            let stated = self.statements.len() + self.approvals.len();
            format!(
                "{} and {stated} statements or approvals came",
                trips(self.came.len())
            )
        } else {
            "nothing new came".to_owned()
        };
        let known = match self.known {
            1 => "1 trip was".to_owned(),
            known => format!("{known} trips were"),
        };
        let looked = if self.look {
            " This was only looked at: nothing was written."
        } else {
            ""
        };
        let end = match self.status() {
            Status::Fine if self.is_new() => {
                "nothing is set aside or open, and hames verify says what each is worth"
            }
            Status::Fine => "nothing is set aside or open",
            _ => "something is set aside or open, as told above",
        };
        format!(
            "From {}: {news}; {known} here already; {end}.{looked}",
            shown(&self.from)
        )
    }
}

impl Came {
    fn told(&self) -> Told {
        let what = match self.how {
            How::New => self.key.to_string(),
            How::Longer(1) => format!("1 more line of {}", self.key),
            How::Longer(lines) => format!("{lines} more lines of {}", self.key),
            How::Completed => format!("what was missing of {}", self.key),
            How::Beside => format!("another history of {}, kept beside the one here", self.key),
        };
        Told {
            kind: "came",
            what,
            device: Some(self.key.device.to_string()),
            number: Some(self.key.seq),
            path: self.path.as_deref().map(shown),
            ..Told::default()
        }
    }
}

impl SetAside {
    fn told(&self) -> Told {
        let kind = if self.why.waits() {
            "waits"
        } else {
            "set aside"
        };
        Told {
            kind,
            what: format!("{}: {}", shown(&self.path), self.why),
            path: Some(format!("kept in {}", shown(&self.kept))),
            next: Some(self.why.next_step().to_owned()),
            ..Told::default()
        }
    }
}

impl Open {
    fn told(&self) -> Told {
        let (kind, next) = match self {
            Self::Gap(..) => (
                "gap",
                "Ask for the laptop or a stick that has them, and merge again.",
            ),
            Self::Fork(..) => (
                "fork",
                "Have the manager look into both, and close the fork by a signed word.",
            ),
            Self::Damaged(..) => (
                "damaged here",
                "Merge from a laptop that has it whole; the whole one is then kept beside it.",
            ),
            Self::InUse(_) => ("in use", "Close it, and merge again."),
            Self::Crew(_) => ("crew", "Bring the manager's statements, and merge again."),
            Self::Statement(StatementFault::RosterFork { .. }) => {
                ("statement", "Then merge again on the other laptops.")
            }
            Self::Statement(_) => (
                "statement",
                "Merge from the manager's laptop; ask the manager where that does not help.",
            ),
        };
        let (device, number) = match self {
            Self::Gap(gap, ..) => (Some(&gap.device), Some(gap.from)),
            Self::Fork(fork, _) => (Some(&fork.device), Some(fork.seq)),
            Self::InUse(device) => (Some(device), None),
            _ => (None, None),
        };
        Told {
            kind,
            what: self.to_string(),
            device: device.map(ToString::to_string),
            number,
            next: Some(next.to_owned()),
            ..Told::default()
        }
    }
}

impl fmt::Display for Open {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Gap(gap, before, after) => {
                let device = &gap.device;
                if gap.from == gap.to {
                    write!(f, "trip {} of {device} is not here; ", gap.from)?;
                } else {
                    write!(
                        f,
                        "trips {} to {} of {device} are not here; ",
                        gap.from, gap.to
                    )?;
                }
                match gap.before {
                    Some(seq) => write!(f, "before them {}", neighbour(seq, before.as_deref()))?,
                    None => f.write_str("none before them")?,
                }
                match gap.after {
                    Some(seq) => write!(f, ", after them {}", neighbour(seq, after.as_deref())),
                    None => f.write_str(", and a manager's statement knows of them"),
                }
            }
            Self::Fork(fork, places) => {
                let (seq, device) = (fork.seq, &fork.device);
                write!(
                    f,
                    "{device} has {} histories of trip {seq}, ",
                    fork.histories
                )?;
                match fork.parts {
                    Parting::Trips => f.write_str("different trips with the same number")?,
                    Parting::Line(line) => write!(f, "which part at line {line}")?,
                    Parting::Seals => f.write_str("with the same lines and different seals")?,
                }
                let places: Vec<String> = places.iter().map(|path| shown(path)).collect();
                write!(f, "; none is chosen: {}", places.join(", "))
            }
            Self::Damaged(path, faults) => {
                write!(
                    f,
                    "{} cannot be relied on: {}",
                    shown(path),
                    faults.join("; ")
                )
            }
            Self::InUse(device) => write!(
                f,
                "another window of this program has the trips of {device} open, so nothing of them was taken"
            ),
            Self::Crew(what) => f.write_str(what),
            Self::Statement(fault) => fault.fmt(f),
        }
    }
}

fn neighbour(seq: u64, receipt: Option<&str>) -> String {
    match receipt {
        Some(receipt) => format!("trip {seq} with the receipt {receipt}"),
        None => format!("trip {seq}, not sealed"),
    }
}

fn files(count: usize) -> String {
    match count {
        1 => "1 file is".to_owned(),
        _ => format!("{count} files are"),
    }
}

/// A path fit to print.
fn shown(path: &Path) -> String {
    path.display().to_string().escape_debug().to_string()
}
