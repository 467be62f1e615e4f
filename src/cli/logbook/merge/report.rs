//! What a merge came to, as text or as JSON.

use crate::cli::Status;
use crate::cli::logbook::merge::DrillsCame;
use crate::cli::logbook::merge::aside::{CameBack, Mended, SetAside};
use crate::cli::logbook::merge::open::Open;
use crate::logbook::merge::TripKey;
use crate::record::Id;
use serde::Serialize;
use std::collections::BTreeSet;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

const SCHEMA: &str = "hames-merge/1";

/// The kinds of what a merge does; where it only looks, it would.
const DONE: [&str; 3] = ["healed", "moved aside", "set aside"];

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
    /// What came of the drills.
    pub drills: DrillsCame,
    /// How many trips had nothing new.
    pub known: usize,
    /// What is kept aside since now.
    pub aside: Vec<SetAside>,
    /// How many files lie in quarantine from before.
    pub aside_before: usize,
    /// How many of them wait for something that is still not here.
    pub waiting: usize,
    /// What was damaged, or there twice, and is so no more.
    pub mended: Vec<Mended>,
    /// Trips that a manager had taken out; they are not brought back.
    pub pruned: Vec<TripKey>,
    /// Trips that a manager had taken out, and whose files lie here still.
    pub to_prune: Vec<(Id, u64)>,
    /// The crew file put in force.
    pub crew: Option<String>,
    /// What somebody has to see to.
    pub open: Vec<Open>,
    /// The newest trip of each device.
    pub newest: Vec<(Id, u64)>,
    /// Trips that came back to the laptop that made them.
    pub own: Vec<CameBack>,
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
    /// Where it lies; nothing where this only looks, and it lies nowhere here.
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

impl How {
    fn says_more_than(self, other: Self) -> bool {
        let says = |how| match how {
            Self::Completed => 0,
            Self::Longer(_) => 1,
            Self::New | Self::Beside => 2,
        };
        says(self) > says(other)
    }
}

/// One line of JSON.
#[derive(Default, Serialize)]
pub(super) struct Told {
    pub(super) schema: &'static str,
    pub(super) kind: &'static str,
    pub(super) what: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) device: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) number: Option<u64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) path: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) next: Option<String>,
}

impl Merged {
    pub(super) fn new(from: &Path, look: bool) -> Self {
        Self {
            from: from.to_owned(),
            look,
            ..Self::default()
        }
    }

    /// Several steps of one folder are told as one: the one that says most.
    pub(super) fn came(&mut self, came: Came) {
        let mut before = self.came.iter_mut();
        let same = before.find(|one| one.path.is_some() && one.path == came.path);
        match same {
            Some(one) if came.how.says_more_than(one.how) => *one = came,
            Some(_) => {}
            None => self.came.push(came),
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

    /// Whether anything was taken.
    pub fn is_new(&self) -> bool {
        !(self.came.is_empty() && self.statements.is_empty() && self.approvals.is_empty())
            || self.crew.is_some()
            || self.drills.came > 0
            || !self.mended.is_empty()
    }

    /// How the program ends: nothing wrong, or something set aside or open.
    pub fn status(&self) -> Status {
        let wrong = !self.aside.is_empty() || !self.open.is_empty() || !self.refused.is_empty();
        let of_drills = self.drills.beside > 0 || !self.drills.left.is_empty();
        if wrong || of_drills || self.waiting > 0 {
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
            let kind = match told.kind {
                "came" if self.look => "would come".to_owned(),
                kind if self.look && DONE.contains(&kind) => format!("would be {kind}"),
                kind => kind.to_owned(),
            };
            writeln!(out, "{kind}: {}", told.what)?;
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
        let look = self.look;
        let mut told: Vec<Told> = self.came.iter().map(|came| came.told(look)).collect();
        let stated = self.statements.iter().chain(&self.approvals);
        told.extend(stated.map(|what| said("came", what.clone())));
        told.extend(self.drills.told(look));
        told.extend(self.crew.iter().map(|what| said("crew", what.clone())));
        told.extend(self.mended.iter().map(|mended| mended.told(look)));
        let own = self.own.iter();
        told.extend(own.map(|own| said("own trips", own.told(look))));
        let pruned = self.pruned.iter();
        told.extend(pruned.map(|key| {
            let what = format!("{key} was taken out by a manager's signed word, so it stays out");
            said("pruned", what)
        }));
        told.extend(self.files_of_pruned());
        told.extend(self.aside.iter().map(|aside| aside.told(look)));
        if self.waiting > 0 {
            let files = match self.waiting {
                1 => "1 file that an earlier merge kept aside still waits".to_owned(),
                many => format!("{many} files that earlier merges kept aside still wait"),
            };
            let what =
                format!("{files} for its other half; see why.txt beside each in quarantine/");
            told.push(said("waits", what));
        }
        if self.aside_before > 0 {
            let lie = match self.aside_before {
                1 => "1 file lies".to_owned(),
                many => format!("{many} files lie"),
            };
            let what = format!("{lie} in quarantine/ from before, each with its reason beside it");
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

    /// What a statement says is gone, and lies here: only a manager's command lets it go.
    fn files_of_pruned(&self) -> Option<Told> {
        let first = self.to_prune.iter().take(3);
        let names: Vec<String> = first
            .map(|(device, seq)| format!("trip {seq} of {device}"))
            .collect();
        let (lie, more) = match self.to_prune.len() {
            0 => return None,
            1 => ("files of 1 trip that a manager pruned lie".to_owned(), ""),
            many => (
                format!("files of {many} trips that a manager pruned lie"),
                if many > names.len() { ", …" } else { "" },
            ),
        };
        Some(Told {
            kind: "pruned",
            what: format!("{lie} here still: {}{more}", names.join(", ")),
            next: Some("To let go of them here too: hames logbook prune".to_owned()),
            ..Told::default()
        })
    }

    fn whole(&self) -> String {
        let trips: BTreeSet<&TripKey> = self.came.iter().map(|came| &came.key).collect();
        let (trips, mended) = (trips.len(), self.mended.len());
        let would = |done: &'static str, would: &'static str| if self.look { would } else { done };
        let news = [
            (trips, "trip", "trips"),
            (self.statements.len(), "statement", "statements"),
            (self.approvals.len(), "approval", "approvals"),
            (self.drills.came, "drill", "drills"),
        ];
        let news = news.into_iter().filter(|(count, ..)| *count > 0);
        let news: Vec<String> = news.map(counted).collect();
        let mut said = vec![if news.is_empty() {
            format!("nothing new {}", would("came", "would come"))
        } else {
            format!("{} {}", in_words(&news), would("came", "would come"))
        }];
        if mended > 0 {
            let things = counted((mended, "thing here", "things here"));
            said.push(if self.look {
                format!("{things} would be put in order")
            } else {
                format!("{} put in order", was(things, mended))
            });
        }
        if self.known > 0 {
            let known = counted((self.known, "trip", "trips"));
            said.push(format!("{} here already", was(known, self.known)));
        }
        let said = said.join("; ");
        let looked = if self.look {
            " This was only looked at: nothing was written."
        } else {
            ""
        };
        let end = match self.status() {
            Status::Fine if self.is_new() => {
                "nothing is set aside or open; what each is worth, hames verify says of the logbook"
            }
            Status::Fine => "nothing is set aside or open",
            _ if self.look => "something would be set aside, or is open, as told above",
            _ => "something is set aside or open, as told above",
        };
        format!("From {}: {said}; {end}.{looked}", shown(&self.from))
    }
}

impl DrillsCame {
    fn told(&self, look: bool) -> Vec<Told> {
        let of = |kind, what: String| Told {
            kind,
            what,
            ..Told::default()
        };
        let beside = (self.beside > 0).then(|| {
            let drills = counted((
                self.beside,
                "drill is another history",
                "drills are other histories",
            ));
            let kept = if look { "would be kept" } else { "are kept" };
            of(
                "drills",
                format!("{drills} of what lies here; both {kept}, and none is chosen"),
            )
        });
        let left = self.left.iter().map(|(path, why)| {
            let what = format!("a drill stays where it lies: {why}");
            Told {
                path: Some(shown(path)),
                ..of("not taken", what)
            }
        });
        beside.into_iter().chain(left).collect()
    }
}

impl Came {
    fn told(&self, look: bool) -> Told {
        let what = match self.how {
            How::New => self.key.to_string(),
            How::Longer(1) => format!("1 more line of {}", self.key),
            How::Longer(lines) => format!("{lines} more lines of {}", self.key),
            How::Completed => format!("what was missing of {}", self.key),
            How::Beside if look => {
                let key = &self.key;
                format!("another history of {key}, to be kept beside the one here")
            }
            How::Beside => format!("another history of {}, kept beside the one here", self.key),
        };
        Told {
            kind: "came",
            what,
            device: Some(self.key.device.to_string()),
            number: Some(self.key.seq),
            path: self.path.as_deref().filter(|_| !look).map(shown),
            ..Told::default()
        }
    }
}

fn files(count: usize) -> String {
    match count {
        1 => "1 file is".to_owned(),
        _ => format!("{count} files are"),
    }
}

fn counted((count, one, many): (usize, &str, &str)) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

fn was(what: String, count: usize) -> String {
    what + if count == 1 { " was" } else { " were" }
}

/// `a`, `a and b`, `a, b and c`.
fn in_words(parts: &[String]) -> String {
    match parts {
        [before @ .., last] if !before.is_empty() => format!("{} and {last}", before.join(", ")),
        _ => parts.concat(),
    }
}

/// A path fit to print.
pub(super) fn shown(path: &Path) -> String {
    path.display().to_string().escape_debug().to_string()
}
