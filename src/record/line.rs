//! One line of a journal: a heading every kind of line has, and a body.

use crate::record::json::{Rest, Text, Whole};
use crate::record::strict::{self, field};
use crate::record::{Body, Digest, Id, Unreadable, Version, Wall};
use crate::walk::{Moment, Words};
use serde::{Deserialize, Serialize};

/// Most bytes of a line, its line end not counted.
pub const MAX_LINE: usize = 64 * 1024;

/// A line read, or one to be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Envelope {
    /// What stands before the body.
    pub heading: Heading,
    /// The act.
    pub body: Body,
}

/// What every line has before its body.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Heading {
    /// The version the line is written in.
    pub version: Version,
    /// Its place in the journal, from 0.
    pub index: u64,
    /// The hash of the line before; [`Digest::ZERO`] for line 0.
    pub prev: Digest,
    /// The wall clock.
    pub wall: Wall,
    /// Milliseconds since the machine started, sleep counted where the machine can tell.
    pub mono: u64,
    /// Which start of the machine `mono` counts from.
    pub boot: Words,
    /// Who acted.
    pub actor: Words,
    /// What kind of act the body tells.
    pub kind: Id,
}

/// The fields as stored, in the order stored.
#[derive(Deserialize, Serialize)]
#[serde(
    deny_unknown_fields,
    bound(deserialize = "'de: 'a, B: Deserialize<'de>")
)]
struct Stored<'a, B> {
    v: u64,
    i: u64,
    prev: Text<'a>,
    wall: Text<'a>,
    mono: u64,
    boot: Text<'a>,
    actor: Text<'a>,
    kind: Text<'a>,
    body: B,
}

impl Envelope {
    /// Reads the exact bytes of a line, without its line end.
    ///
    /// # Errors
    /// [`Unreadable`] with the first reason.
    pub fn read(bytes: &[u8]) -> Result<Self, Unreadable> {
        let stored: Stored<'_, Whole<'_>> = strict::line(bytes, MAX_LINE, Version::NEWEST)?;
        Ok(Self {
            heading: stored.heading()?,
            body: Body::checked(stored.body.0).map_err(Unreadable::Json)?,
        })
    }

    /// The exact bytes of the line, without its line end.
    ///
    /// # Errors
    /// [`Unreadable`] when the reader would refuse what was written, so that no such line is ever
    /// stored: it is too long, or a number has too many digits.
    pub fn write(&self) -> Result<Vec<u8>, Unreadable> {
        let heading = &self.heading;
        let stored = Stored {
            v: heading.version.number(),
            i: heading.index,
            prev: heading.prev.to_string().into(),
            wall: heading.wall.to_string().into(),
            mono: heading.mono,
            boot: heading.boot.as_str().into(),
            actor: heading.actor.as_str().into(),
            kind: heading.kind.as_str().into(),
            body: Whole(self.body.text()),
        };
        let bytes = strict::write(&stored)?.into_bytes();
        Self::read(&bytes).map(|_| bytes)
    }
}

impl Heading {
    /// The heading of a line, and its body, which nobody has looked at yet. Nothing where the
    /// heading has a fault, which [`Envelope::read`] tells.
    pub(in crate::record) fn before_body(bytes: &[u8]) -> Option<(Self, &str)> {
        let stored: Stored<'_, Rest<'_>> = strict::at_once(bytes, MAX_LINE)?;
        Some((stored.heading().ok()?, stored.body.0))
    }

    /// When the line was written.
    pub fn at(&self) -> Moment {
        self.clone().at_by().0
    }

    /// When the line was written, and who acted.
    pub(in crate::record) fn at_by(self) -> (Moment, Words) {
        let at = Moment {
            wall: self.wall.moment(),
            boot: self.boot.into_string(),
            mono_ms: self.mono,
        };
        (at, self.actor)
    }
}

impl<B> Stored<'_, B> {
    fn heading(&self) -> Result<Heading, Unreadable> {
        let version = Version::read(self.v).ok_or(Unreadable::Version {
            found: self.v,
            newest: Version::NEWEST,
        })?;
        Ok(Heading {
            version,
            index: self.i,
            prev: field("prev", &self.prev, |text| Digest::read(text).ok())?,
            wall: field("wall", &self.wall, Wall::read)?,
            mono: self.mono,
            boot: field("boot", &self.boot, strict::words)?,
            actor: field("actor", &self.actor, strict::words)?,
            kind: field("kind", &self.kind, |text| Id::read(text).ok())?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::JsonFault;

    const LINE: &str = r#"{"v":1,"i":0,"prev":"0000000000000000000000000000000000000000000000000000000000000000","wall":"2026-11-25T07:14:03.250-05:00","mono":81250,"boot":"5f0c","actor":"Wren Ashdown","kind":"reading","body":{"step":"tire-front-left","typed":"65 psi"}}"#;

    fn swapped(part: &str, other: &str) -> Result<Envelope, Unreadable> {
        assert!(LINE.contains(part), "{part}");
        Envelope::read(LINE.replacen(part, other, 1).as_bytes())
    }

    #[test]
    fn a_line_read_and_written_again_is_the_same_bytes() {
        let envelope = Envelope::read(LINE.as_bytes()).unwrap();
        assert_eq!(envelope.heading.mono, 81_250);
        assert_eq!(envelope.heading.actor.as_str(), "Wren Ashdown");
        assert_eq!(envelope.write().unwrap(), LINE.as_bytes());
    }

    #[test]
    fn a_line_spelt_otherwise_is_refused_with_the_reason() {
        for (part, other, reason) in [
            (
                "{",
                " {",
                "byte 1 is not JSON in the one spelling records have",
            ),
            (
                "\"i\":0",
                "\"i\":00",
                "byte 12 is not JSON in the one spelling records have",
            ),
            (
                "81250",
                "81250.5",
                "the number at byte 134 has a point or an exponent; decimals are written as strings",
            ),
            (
                "\"i\":0",
                "\"i\":0,\"i\":0",
                "the key “i” at byte 14 stands there twice",
            ),
            ("\"i\":0,", "", "missing field `i`"),
            (
                "\"i\":0,",
                "\"i\":0,\"x\":0,",
                "unknown field `x`, expected one of `v`, `i`, `prev`, `wall`, `mono`, `boot`, `actor`, `kind`, `body`",
            ),
            (
                "\"v\":1,\"i\":0",
                "\"i\":0,\"v\":1",
                "its fields are not in the order records have",
            ),
            (
                "\"v\":1",
                "\"v\":4,\"new\":0",
                "it is written in version 4 of the format and this program reads up to version 3; use a newer Hames",
            ),
            (
                "0000\"",
                "000G\"",
                "“000000000000000000000000000000000000000000000000000000000000000G” cannot be its prev",
            ),
            (".250", "", "“2026-11-25T07:14:03-05:00” cannot be its wall"),
            ("5f0c", "5f0c ", "“5f0c ” cannot be its boot"),
            ("Wren ", " Wren ", "“ Wren Ashdown” cannot be its actor"),
            ("\"reading\"", "\"\"", "“” cannot be its kind"),
            (
                "{\"step\":\"tire-front-left\",\"typed\":\"65 psi\"}",
                "[]",
                "it is not a JSON object",
            ),
            (
                "\"65 psi\"",
                "65.0",
                "the number at byte 235 has a point or an exponent; decimals are written as strings",
            ),
        ] {
            assert_eq!(swapped(part, other).unwrap_err().to_string(), reason);
        }
    }

    #[test]
    fn a_changed_line_end_is_named_as_such() {
        let crlf = Envelope::read(format!("{LINE}\r").as_bytes()).unwrap_err();
        let bom = Envelope::read(format!("\u{feff}{LINE}").as_bytes()).unwrap_err();
        for fault in [crlf, bom] {
            assert!(fault.is_transit());
            assert!(
                fault
                    .to_string()
                    .contains("line endings were changed in transit")
            );
        }
    }

    #[test]
    fn the_writer_writes_nothing_the_reader_would_refuse() {
        let line = Envelope::read(LINE.as_bytes()).unwrap();
        let long = Envelope {
            body: Body::write(
                &[("note", "x".repeat(MAX_LINE))]
                    .into_iter()
                    .collect::<std::collections::BTreeMap<_, _>>(),
            )
            .unwrap(),
            ..line.clone()
        };
        assert!(matches!(long.write(), Err(Unreadable::Long { .. })));
        let heading = Heading {
            mono: u64::MAX,
            ..line.heading
        };
        let late = Envelope { heading, ..line };
        assert!(matches!(
            late.write(),
            Err(Unreadable::Json(JsonFault::LongNumber(_)))
        ));
    }

    #[test]
    fn a_body_may_not_nest_deeper_than_the_line_allows() {
        let nested = |depth: usize| format!("{{\"a\":{}{}}}", "[".repeat(depth), "]".repeat(depth));
        let body = "{\"step\":\"tire-front-left\",\"typed\":\"65 psi\"}";
        assert!(swapped(body, &nested(6)).is_ok());
        assert!(matches!(
            swapped(body, &nested(7)),
            Err(Unreadable::Json(JsonFault::Deep(_)))
        ));
        assert!(matches!(Body::read(&nested(7)), Err(JsonFault::Deep(_))));
    }
}
