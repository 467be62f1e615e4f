//! What lines say: the walk's own types on one side, the frozen bodies of a version on the other.

mod begun;
mod v1;
mod v2;
mod v3;

pub use begun::{Answered, Begun, BegunDrill, DRILL_ID, Left, MOST_SEED, Pinned, Previous, called};
pub(in crate::record) use v1::StoredTyped;

use crate::drill::Drilled;
use crate::record::strict::Spelt;
use crate::record::{Envelope, Heading, Id, Parts, Tip, Unreadable, Version, Wall};
use crate::walk::{Entry, Event, Moment, Words};

/// What a line says.
#[derive(Clone, Debug, PartialEq)]
pub enum Said {
    /// Line 0: which walk this is, and everything it rests on.
    Begun(Box<Begun>),
    /// Any other line: what happened.
    Happened(Box<Event>),
    /// What there is in drills alone.
    Drilled(Box<Drilled>),
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
        Said::Drilled(drilled) => (Version::V3, v3::write(drilled)?),
        Said::Begun(begun) => match &begun.drill {
            Some(drill) => (Version::V3, v3::begin(begun, drill)?),
            None if begun.needs_version_2() => (Version::V2, v2::write(begun)?),
            None => (Version::V1, v1::write(said)?),
        },
        Said::Happened(_) => (Version::V1, v1::write(said)?),
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
    let Heading { version, kind, .. } = &line.heading;
    said_by(*version, kind, Spelt::Checked(line.body.text()))
}

/// Reads the exact bytes of a line, without its line end: its heading, and what its body says or
/// why that cannot be read.
///
/// # Errors
/// [`Unreadable`] with the first reason, where that lies outside the body.
pub(super) fn read(bytes: &[u8]) -> Result<(Heading, Result<Said, Unreadable>), Unreadable> {
    if let Some((heading, body)) = Heading::before_body(bytes) {
        let said = said_by(heading.version, &heading.kind, Spelt::Raw(body));
        if said.is_ok() {
            return Ok((heading, said));
        }
    }
    let line = Envelope::read(bytes)?;
    let said = said(&line);
    Ok((line.heading, said))
}

fn said_by(version: Version, kind: &Id, body: Spelt<'_>) -> Result<Said, Unreadable> {
    match version {
        Version::V1 => v1::read(kind, body),
        Version::V2 => v2::read(kind, body),
        Version::V3 => v3::read(kind, body),
    }
}

impl Envelope {
    /// The line as the walk's own entry; nothing for line 0 and for what drills alone have.
    ///
    /// # Errors
    /// [`Unreadable`] when its body is not what its kind holds.
    pub fn entry(&self) -> Result<Option<Entry>, Unreadable> {
        Ok(match said(self)? {
            Said::Begun(_) | Said::Drilled(_) => None,
            Said::Happened(event) => Some(event.at(self.heading.clone())),
        })
    }
}

impl Event {
    /// The walk's own entry of a line that tells it.
    pub(super) fn at(self, heading: Heading) -> Entry {
        let (at, actor) = heading.at_by();
        Entry {
            at,
            actor,
            event: self,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const EVERY: usize = 17;

    const JOURNAL: &[u8] = include_bytes!("../../tests/vectors/record/v1/journal.jsonl");

    /// What a line comes to with one byte of it changed, taken out or put in; not at every place
    /// of every line, which takes a minute, but at another place in each.
    #[test]
    fn a_line_read_at_once_is_read_as_it_is_read_slowly_whatever_was_changed_in_it() {
        let slowly = |bytes: &[u8]| {
            let line = Envelope::read(bytes)?;
            let said = said(&line);
            Ok((line.heading, said))
        };
        let mut at_once = 0;
        for (number, line) in JOURNAL.split(|byte| *byte == b'\n').enumerate() {
            assert_eq!(read(line), slowly(line));
            for at in (number % EVERY..line.len()).step_by(EVERY) {
                for other in *b"1\"\\,}\x01 -\xc3" {
                    for taken in [0, 1] {
                        let (before, after) = (&line[..at], &line[at + taken..]);
                        let changed = [before, &[other], after].concat();
                        let found = read(&changed);
                        at_once += usize::from(matches!(found, Ok((_, Ok(_)))));
                        assert_eq!(found, slowly(&changed));
                    }
                }
                let shorter = [&line[..at], &line[at + 1..]].concat();
                assert_eq!(read(&shorter), slowly(&shorter));
            }
        }
        assert!(at_once > 500, "{at_once} changed lines could still be read");
    }
}
