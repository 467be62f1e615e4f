//! What managers have seen of each device, and whether that is still here.
//!
//! A statement names the newest trip of every device. Whoever puts a backup back, or rewrites a
//! trip, no longer has what was named.

use crate::record::{
    Digest, Head, Id, LossAccepted, Previous, PrintedName, Says, Statements, Stub,
};
use std::collections::{BTreeMap, HashMap};
use std::fmt;

/// The end of a trip that a manager saw and that is not here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unmet {
    /// The device.
    pub device: Id,
    /// The trip's number.
    pub seq: u64,
    /// Who saw it.
    pub by: PrintedName,
    /// On which day, by their clock.
    pub on: String,
    /// Whether another trip, or another end of it, has the number here.
    pub other: bool,
}

/// How the trips of one number of a device stand here.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Ends {
    /// The seals there are.
    pub seals: Vec<Digest>,
    /// The lines there are.
    pub lines: Vec<Digest>,
}

impl Ends {
    /// This end alone.
    pub fn of(ends: Previous) -> Self {
        match ends {
            Previous::Sealed(seal) => Self {
                seals: vec![seal],
                lines: Vec::new(),
            },
            Previous::Unsealed(line) => Self {
                seals: Vec::new(),
                lines: vec![line],
            },
        }
    }

    /// Whether what was seen is here, or has grown from it.
    pub fn holds(&self, ends: &Previous) -> bool {
        match ends {
            Previous::Sealed(seal) => self.seals.contains(seal),
            Previous::Unsealed(line) => self.lines.contains(line),
        }
    }
}

/// Every end of a trip that managers have seen and that is not here, each once, by device and
/// number. `here` says what lies here; what was pruned, or whose loss was accepted, is not missed.
///
/// # Errors
/// What `here` says.
pub fn unmet<E>(
    statements: &Statements,
    mut here: impl FnMut(&Head) -> Result<Ends, E>,
) -> Result<Vec<Unmet>, E> {
    let mut seen: BTreeMap<(Id, u64, String), (Head, PrintedName, String)> = BTreeMap::new();
    for stated in statements.stated() {
        let statement = stated.statement();
        let on = statement.wall.moment().format("%Y-%m-%d").to_string();
        for head in &statement.heads {
            let key = (head.device.clone(), head.seq, ended(&head.ends).to_string());
            seen.entry(key)
                .or_insert_with(|| (head.clone(), statement.name.clone(), on.clone()));
        }
    }
    let let_go = LetGo::of(statements);
    let mut unmet = Vec::new();
    for (head, by, on) in seen.into_values() {
        if let_go.holds(&head) {
            continue;
        }
        let ends = here(&head)?;
        if !ends.holds(&head.ends) {
            unmet.push(Unmet {
                device: head.device,
                seq: head.seq,
                by,
                on,
                other: ends != Ends::default(),
            });
        }
    }
    Ok(unmet)
}

/// What managers have signed to be no longer here, by the number of the trip: there may be as many
/// heads as statements.
#[derive(Default)]
struct LetGo<'s> {
    pruned: HashMap<u64, Vec<&'s Stub>>,
    lost: Vec<&'s LossAccepted>,
}

impl<'s> LetGo<'s> {
    fn of(statements: &'s Statements) -> Self {
        let mut let_go = Self::default();
        for stated in statements.stated() {
            match &stated.statement().says {
                Says::Pruned(pruned) => {
                    for stub in &pruned.trips {
                        let_go.pruned.entry(stub.seq).or_default().push(stub);
                    }
                }
                Says::LossAccepted(loss) => let_go.lost.push(loss),
                _ => {}
            }
        }
        let_go
    }

    fn holds(&self, head: &Head) -> bool {
        let is_pruned = |stub: &&Stub| {
            let ends = match head.ends {
                Previous::Sealed(seal) => stub.seal == Some(seal),
                // A line in the middle of it is not in the stub.
                Previous::Unsealed(_) => true,
            };
            stub.device == head.device && ends
        };
        let is_lost = |loss: &&LossAccepted| {
            loss.device == head.device && (loss.from..=loss.to).contains(&head.seq)
        };
        let mut pruned = self.pruned.get(&head.seq).into_iter().flatten();
        pruned.any(is_pruned) || self.lost.iter().any(is_lost)
    }
}

const fn ended(ends: &Previous) -> &Digest {
    match ends {
        Previous::Sealed(hash) | Previous::Unsealed(hash) => hash,
    }
}

impl fmt::Display for Unmet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            device,
            seq,
            by,
            on,
            other,
        } = self;
        let how = if *other {
            "is here with another end"
        } else {
            "is not here"
        };
        write!(
            f,
            "trip {seq} of {device}, as {by} saw it on {on}, {how}: a backup was put back, or it \
             was changed, or it has not been copied here"
        )
    }
}
