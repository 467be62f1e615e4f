//! What a statement can state. Frozen with version 1: names and order of fields are the format.

use crate::record::statement::DefectOwned;
use crate::record::strict::{self, Spelt};
use crate::record::{Crew, Digest, Id, JsonFault, Previous, Unreadable, Version};
use crate::walk::{Ended, Words};
use serde::{Deserialize, Serialize};
use std::fmt;

/// What is stated, by its kind.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(tag = "kind", content = "body", rename_all = "kebab-case")]
pub enum Says {
    /// From here on another crew file is in force.
    Crew(CrewChange),
    /// A trip was looked at.
    Countersigned(Countersigned),
    /// Of two histories of a device, one goes on.
    ForkClosed(ForkClosed),
    /// Trips were taken out of the logbook.
    Pruned(Pruned),
    /// Trips are lost, and the manager knows of it.
    LossAccepted(LossAccepted),
    /// What one manager signed on two laptops apart counts, all of it.
    Joined(Joined),
    /// A defect has an owner.
    DefectOwned(DefectOwned),
}

/// A new crew file.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct CrewChange {
    /// Its place in the roster, from 1.
    pub number: u64,
    /// The statement that put the crew file before in force; nothing for the first.
    pub before: Option<Digest>,
    /// The new file, by its plain hash.
    pub file: Digest,
    /// What is new in it.
    pub changes: Vec<Change>,
    /// Everything people are signed off for, from here on.
    pub signed_off: Vec<SignedOff>,
}

impl CrewChange {
    fn has_rides(&self) -> bool {
        self.signed_off.iter().any(|line| !line.rides.is_empty())
    }

    fn rides_are_good(&self) -> bool {
        let kinds = ["bumper-pull", "gooseneck"];
        self.signed_off.iter().all(|line| {
            let good =
                |ride: &RideSignedOff| ride.revision > 0 && kinds.contains(&ride.rigs.as_str());
            line.rides.iter().all(good) && line.rides.is_sorted_by(|a, b| a < b)
        })
    }

    /// What the first statement of a roster says: everybody of this crew is new in it.
    pub fn first(crew: &Crew) -> Self {
        let added = crew.signers().iter().map(|signer| Change {
            who: signer.id.clone(),
            what: Changed::Added,
            words: None,
        });
        Self {
            number: 1,
            before: None,
            file: crew.revision(),
            changes: added.collect(),
            signed_off: Vec::new(),
        }
    }
}

/// One change of the crew.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Change {
    /// Who.
    pub who: Id,
    /// What is new about them.
    pub what: Changed,
    /// Why.
    pub words: Option<Words>,
}

/// What is new about someone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Changed {
    /// They are in the crew now.
    Added,
    /// They have left; what they signed before stands.
    Retired,
    /// Their key may be in other hands; only what was witnessed before stands.
    Revoked,
    /// They have other roles.
    Roles,
    /// They are signed off for something else than before.
    SignedOff,
}

/// What a person is signed off for.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct SignedOff {
    /// Who.
    pub person: Id,
    /// For these rigs; nothing means every rig.
    pub rigs: Option<Vec<Id>>,
    /// For these checklists; nothing means every checklist.
    pub checklists: Option<Vec<Id>>,
    /// The check rides they passed, and what each is good for besides.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rides: Vec<RideSignedOff>,
}

/// What a check ride is good for that somebody passed.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct RideSignedOff {
    /// The checklist.
    pub checklist: Id,
    /// The revision that was ridden.
    pub revision: u32,
    /// The kind of rig: `bumper-pull` or `gooseneck`.
    pub rigs: Id,
    /// The check ride.
    pub drill: Id,
    /// The hash of its seal.
    pub seal: Digest,
}

/// A trip a manager looked at.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Countersigned {
    /// The trip.
    pub trip: Id,
    /// The device that kept it.
    pub device: Id,
    /// Its number there.
    pub seq: u64,
    /// Its seal.
    pub seal: Digest,
    /// What the manager says to it.
    pub opinion: Opinion,
    /// What was opened and looked at.
    pub opened: Vec<Words>,
    /// Remarks, or the question.
    pub remarks: Option<Words>,
    /// Milliseconds from when the trip was laid out to when the manager had said what they think of
    /// it. Version 2 of the format has it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub took_ms: Option<u64>,
}

/// What a manager says to a trip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Opinion {
    /// It may stand.
    Agreed,
    /// It may stand once a question is answered.
    Asked,
}

/// A fork a manager has looked into.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct ForkClosed {
    /// The device.
    pub device: Id,
    /// The number at which it forks.
    pub seq: u64,
    /// The trip by which the device's sequence goes on.
    pub goes_on: Branch,
    /// The trips of the same number that end here.
    pub ended: Vec<Branch>,
    /// Why.
    pub words: Words,
}

/// One history of a number.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Branch {
    /// The trip.
    pub trip: Id,
    /// How it ends.
    pub ends: Previous,
}

/// Trips taken out of the logbook.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Pruned {
    /// What is left of each, by device and number.
    pub trips: Vec<Stub>,
    /// Why.
    pub words: Words,
}

/// What order and witnesses need of a trip, and nothing of what was seen or who was there.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Stub {
    /// The device.
    pub device: Id,
    /// The trip's number there.
    pub seq: u64,
    /// The trip.
    pub trip: Id,
    /// How the device's trip before it ended.
    pub previous: Option<Previous>,
    /// How many lines it had.
    pub lines: u64,
    /// The hash of the last of them.
    pub last: Digest,
    /// Its seal, if it had one.
    pub seal: Option<Digest>,
    /// How the walk ended, if it was sealed.
    pub outcome: Option<Ended>,
    /// The crew file it counted by.
    pub crew: Digest,
    /// The statement it quoted.
    pub manager: Option<Digest>,
}

/// Trips that are gone, and are not looked for any more.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct LossAccepted {
    /// The device.
    pub device: Id,
    /// The first number missing.
    pub from: u64,
    /// The last number missing.
    pub to: u64,
    /// What became of them.
    pub words: Words,
}

/// The ends of one manager's statements, where a key was used on two laptops at once.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Joined {
    /// Whose statements.
    pub manager: Id,
    /// The last of each row, by hash.
    pub ends: Vec<Digest>,
    /// How it came about.
    pub words: Words,
}

/// What who signs a change of the crew states.
pub const fn crew_meaning() -> &'static str {
    "From here on, these people and laptops may sign as is written here."
}

impl fmt::Display for SignedOff {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let list = |ids: &Option<Vec<Id>>, every: &str| match ids {
            None => every.to_owned(),
            Some(ids) if ids.is_empty() => "none".to_owned(),
            Some(ids) => {
                let ids: Vec<&str> = ids.iter().map(Id::as_str).collect();
                ids.join(", ")
            }
        };
        let is_of_none = |ids: &Option<Vec<Id>>| ids.as_ref().is_some_and(Vec::is_empty);
        let rides = self.rides.iter().map(|ride| {
            format!(
                "check ride of {} revision {} for {}",
                ride.checklist, ride.revision, ride.rigs
            )
        });
        let mut told: Vec<String> = rides.collect();
        // Whoever was signed off by check rides alone has no rig and no checklist besides.
        if told.is_empty() || !(is_of_none(&self.rigs) && is_of_none(&self.checklists)) {
            let rigs = list(&self.rigs, "every rig");
            let checklists = list(&self.checklists, "every checklist");
            told.insert(0, format!("{rigs}; {checklists}"));
        }
        f.write_str(&told.join("; "))
    }
}

impl Says {
    /// What who countersigns a trip states.
    pub const COUNTERSIGNED: &'static str =
        "I have looked at this trip as it was sealed, and at what is listed here.";

    /// What who closes a fork states.
    pub const FORK_CLOSED: &'static str = "I have looked into both histories. The one named here goes on; the other is kept and ends.";

    /// What who prunes trips states.
    pub const PRUNED: &'static str = "These trips were whole when I took them out of the logbook. What order needs of them is written here.";

    /// What who accepts a loss states.
    pub const LOSS_ACCEPTED: &'static str =
        "These trips are lost. I know of it, and they are not looked for any more.";

    /// What who joins the rows of a manager's statements states.
    pub const JOINED: &'static str = "I have looked at what this manager signed on several laptops apart. It was this manager, and all of it counts.";

    /// What who gives a defect an owner states.
    pub const DEFECT_OWNED: &'static str = "I have looked at what this step was found to be. Who is named here sees to it; only a later reading closes it.";

    /// What who signs it states.
    pub const fn meaning(&self) -> &'static str {
        match self {
            Self::Crew(_) => crew_meaning(),
            Self::Countersigned(_) => Self::COUNTERSIGNED,
            Self::ForkClosed(_) => Self::FORK_CLOSED,
            Self::Pruned(_) => Self::PRUNED,
            Self::LossAccepted(_) => Self::LOSS_ACCEPTED,
            Self::Joined(_) => Self::JOINED,
            Self::DefectOwned(_) => Self::DEFECT_OWNED,
        }
    }

    /// What a kind and the text of a body say.
    pub(super) fn read(kind: &str, body: &str) -> Result<Self, Unreadable> {
        let kind = strict::write(&kind)?;
        strict::body(Spelt::Checked(&format!(
            "{{\"kind\":{kind},\"body\":{body}}}"
        )))
    }

    /// Kind and body of what was written.
    pub(super) fn parts(written: &str) -> Result<(&str, &str), Unreadable> {
        let inside = written.strip_prefix("{\"kind\":\"");
        let inside = inside.and_then(|rest| rest.strip_suffix('}'));
        let parts = inside.and_then(|inside| inside.split_once("\",\"body\":"));
        parts.ok_or(Unreadable::Json(JsonFault::NotWritable))
    }

    /// The lowest version that has it.
    pub(super) fn version(&self) -> Version {
        match self {
            Self::Joined(_)
            | Self::DefectOwned(_)
            | Self::Countersigned(Countersigned {
                took_ms: Some(_), ..
            }) => Version::V2,
            Self::Crew(crew) if crew.has_rides() => Version::V3,
            _ => Version::V1,
        }
    }

    /// What the fields alone cannot say.
    pub(super) fn check(&self) -> Result<(), Unreadable> {
        let fault = match self {
            Self::Crew(crew) if crew.number == 0 || (crew.number == 1) != crew.before.is_none() => {
                "crew files are numbered from 1, and all but the first name the one before"
            }
            Self::Crew(crew) if !crew.signed_off.is_sorted_by(|a, b| a.person < b.person) => {
                "people signed off stand once each, by id"
            }
            Self::Crew(crew) if !crew.rides_are_good() => {
                "check rides stand once each, in order, with a revision from 1 and a kind of rig"
            }
            Self::Countersigned(trip)
                if trip.opinion == Opinion::Asked && trip.remarks.is_none() =>
            {
                "a question has no words"
            }
            Self::Countersigned(trip) if trip.seq == 0 => "trips are numbered from 1",
            Self::ForkClosed(fork) if fork.seq == 0 || fork.ended.is_empty() => {
                "a fork has a number from 1 and a history that ends"
            }
            Self::ForkClosed(fork) if fork.ended.contains(&fork.goes_on) => {
                "a history cannot go on and end"
            }
            Self::Pruned(pruned)
                if pruned.trips.is_empty()
                    || !pruned.trips.is_sorted_by(|one, next| {
                        (&one.device, one.seq, &one.trip) < (&next.device, next.seq, &next.trip)
                    }) =>
            {
                "pruned trips stand once each, by device and number"
            }
            Self::LossAccepted(loss) if loss.from == 0 || loss.to < loss.from => {
                "lost trips go from a number to the same or a later one"
            }
            Self::Joined(joined)
                if joined.ends.len() < 2 || !joined.ends.is_sorted_by(|a, b| a < b) =>
            {
                "two or more statements are joined, each once, by hash"
            }
            Self::DefectOwned(owned) => return owned.fault().map_or(Ok(()), refused),
            _ => return Ok(()),
        };
        refused(fault)
    }
}

const fn refused(fault: &'static str) -> Result<(), Unreadable> {
    Err(Unreadable::Contradiction(fault))
}
