//! What a merge kept aside, put in order, or gave back, as it is told.

use crate::cli::logbook::merge::open::Neighbours;
use crate::cli::logbook::merge::report::{Told, shown};
use crate::logbook::merge::{TripKey, Why};
use crate::record::Id;
use std::path::PathBuf;

/// A file that cannot be used as it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SetAside {
    /// Where it was found.
    pub path: PathBuf,
    /// Where it is kept.
    pub kept: PathBuf,
    /// Why.
    pub why: Why,
    /// The trip it says it is of, and the trips here that this lies between.
    pub of: Option<(TripKey, Neighbours)>,
    /// The laptop and the number of the trip it lay beside, where it says of none itself.
    pub beside: Option<(Id, u64)>,
}

/// What was damaged here, or there twice, and is so no more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Mended {
    /// What is whole has the place of what was damaged.
    Healed {
        /// The trip or the statement.
        what: String,
        /// Where it lies.
        path: PathBuf,
        /// What was wrong.
        faults: Vec<String>,
        /// Where what was damaged is kept.
        kept: Vec<PathBuf>,
    },
    /// What had nothing of its own was moved aside.
    Moved {
        /// What it was.
        what: String,
        /// Where it lay.
        path: PathBuf,
        /// Where all that was in it lies whole.
        into: PathBuf,
        /// Where it is kept.
        kept: Vec<PathBuf>,
    },
}

/// Trips that came back to the laptop that made them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CameBack {
    /// The laptop.
    pub device: Id,
    /// The first number.
    pub from: u64,
    /// The last number.
    pub to: u64,
    /// The trips it had itself.
    pub around: Neighbours,
}

impl SetAside {
    pub(super) fn told(&self, look: bool) -> Told {
        let kind = if self.why.waits() {
            "waits"
        } else {
            "set aside"
        };
        let of = self.of.as_ref().map(|(key, around)| {
            let key = key.to_string();
            format!("; it says it is of {key}, and {around}")
        });
        let beside = self.beside.as_ref();
        let lay = beside.map(|(device, seq)| format!("; it lay beside trip {seq} of {device}"));
        let of_trip = self.of.as_ref().map(|(key, _)| (&key.device, key.seq));
        let of_trip = of_trip.or_else(|| beside.map(|(device, seq)| (device, *seq)));
        Told {
            kind,
            what: format!(
                "{}: {}{}",
                shown(&self.path),
                self.why,
                of.or(lay).unwrap_or_default()
            ),
            device: of_trip.map(|(device, _)| device.to_string()),
            number: of_trip.map(|(_, seq)| seq),
            path: Some(format!("{} {}", kept_in(look), shown(&self.kept))),
            next: Some(self.why.next_step().to_owned()),
            ..Told::default()
        }
    }
}

impl Mended {
    /// Where what gave way is kept.
    pub(super) fn kept(&self) -> &[PathBuf] {
        match self {
            Self::Healed { kept, .. } | Self::Moved { kept, .. } => kept,
        }
    }

    pub(super) fn told(&self, look: bool) -> Told {
        let (kind, what, kept) = match self {
            Self::Healed {
                what,
                path,
                faults,
                kept,
            } => {
                let was = if faults.is_empty() {
                    "was here in part".to_owned()
                } else {
                    format!("was damaged here ({})", faults.join("; "))
                };
                let is = if look { "would be" } else { "is" };
                let what = format!("{what} {was} and {is} whole again: {}", shown(path));
                ("healed", what, kept)
            }
            Self::Moved {
                what,
                path,
                into,
                kept,
            } => {
                let (path, into) = (shown(path), shown(into));
                let was = if look { "is" } else { "was" };
                let what = format!("{path} {was} {what}, all of which is in {into}");
                ("moved aside", what, kept)
            }
        };
        let kept: Vec<String> = kept.iter().map(|path| shown(path)).collect();
        let place = (!kept.is_empty()).then(|| format!("{} {}", kept_in(look), kept.join(", ")));
        Told {
            kind,
            what,
            path: place,
            ..Told::default()
        }
    }
}

/// What stands before where something is kept.
const fn kept_in(look: bool) -> &'static str {
    if look { "to be kept in" } else { "kept in" }
}

impl CameBack {
    pub(super) fn told(&self, look: bool) -> String {
        let Self {
            device,
            from,
            to,
            around,
        } = self;
        let here = if look {
            "would be here then"
        } else {
            "is here now"
        };
        let which = if from == to {
            format!("trip {from}; {around}")
        } else {
            format!("trips {from} to {to}; of those that were here, {around}")
        };
        format!(
            "{device} is this laptop, and others had trips of it that this logbook had not. Either this \
             logbook was put back from a backup, or the disk was copied and another laptop goes by \
             the same name; nothing here tells which. What others had {here}: {which}. Whether there \
             were others still, nothing here tells."
        )
    }
}
