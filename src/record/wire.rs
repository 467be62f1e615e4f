//! What lines say: the walk's own types on one side, the frozen bodies of a version on the other.

mod begun;
mod v1;
mod v2;

pub use begun::{Begun, Left, Pinned, Previous};

use crate::record::{Envelope, Parts, Tip, Unreadable, Version, Wall};
use crate::walk::{Entry, Event, Moment, Words};

/// What a line says.
#[derive(Clone, Debug, PartialEq)]
pub enum Said {
    /// Line 0: which walk this is, and everything it rests on.
    Begun(Box<Begun>),
    /// Any other line: what happened.
    Happened(Box<Event>),
}

/// The exact bytes of the next line, line end included, and the tip once they are stored. The line
/// is written in the lowest version that can hold it.
///
/// # Errors
/// [`Unreadable`] when the line could not be read back, such as a moment no clock can show.
pub fn append(
    tip: Tip,
    at: &Moment,
    actor: &Words,
    said: &Said,
) -> Result<(Vec<u8>, Tip), Unreadable> {
    let (version, (kind, body)) = match said {
        Said::Begun(begun) if begun.needs_version_2() => (Version::V2, v2::write(begun)?),
        _ => (Version::V1, v1::write(said)?),
    };
    let odd = |field, found: String| Unreadable::Field { field, found };
    tip.append(Parts {
        version,
        wall: Wall::new(at.wall).ok_or_else(|| odd("wall", at.wall.to_rfc3339()))?,
        mono: at.mono_ms,
        boot: Words::read(&at.boot).map_err(|_| odd("boot", at.boot.clone()))?,
        actor: actor.clone(),
        kind,
        body,
    })
}

/// What a line says.
///
/// # Errors
/// [`Unreadable`] when its body is not what its kind holds.
pub fn said(line: &Envelope) -> Result<Said, Unreadable> {
    match line.version {
        Version::V1 => v1::read(&line.kind, &line.body),
        Version::V2 => v2::read(&line.kind, &line.body),
    }
}

impl Envelope {
    /// When the line was written.
    pub fn at(&self) -> Moment {
        Moment {
            wall: self.wall.moment(),
            boot: self.boot.as_str().to_owned(),
            mono_ms: self.mono,
        }
    }

    /// The line as the walk's own entry; nothing for line 0.
    ///
    /// # Errors
    /// [`Unreadable`] when its body is not what its kind holds.
    pub fn entry(&self) -> Result<Option<Entry>, Unreadable> {
        Ok(match said(self)? {
            Said::Begun(_) => None,
            Said::Happened(event) => Some(Entry {
                at: self.at(),
                actor: self.actor.clone(),
                event: *event,
            }),
        })
    }
}
