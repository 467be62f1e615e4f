//! Strict reading of stored JSON: size, encoding, spelling, fields, and back to the same bytes.

use crate::record::json::{self, DEEPEST, check};
use crate::record::{Id, JsonFault, Version};
use crate::walk::{Words, unprintable};
use serde::{Deserialize, Serialize};
use std::fmt;
use std::io;

/// Why stored bytes cannot be read as a record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unreadable {
    /// More bytes than the cap.
    Long {
        /// Bytes found.
        bytes: usize,
        /// Bytes allowed.
        cap: usize,
    },
    /// Nothing on the line.
    Blank,
    /// A byte order mark in front.
    ByteOrderMark,
    /// A carriage return at the end.
    CarriageReturn,
    /// No line end after the one line of the file.
    NoLineEnd,
    /// Not UTF-8, from this byte (counted from 1).
    NotText(usize),
    /// A version of the format that is not read here.
    Version {
        /// The version found.
        found: u64,
        /// The newest that is read here.
        newest: Version,
    },
    /// Not JSON as records spell it.
    Json(JsonFault),
    /// A field missing, unknown, or of another kind; the reader's words.
    Fields(String),
    /// All fields there, but not in the order records have.
    Order,
    /// A line of a kind its version does not have.
    Kind(Version, Id),
    /// Figures that contradict each other.
    Contradiction(&'static str),
    /// A field whose text is not what that field holds.
    Field {
        /// Which field.
        field: &'static str,
        /// What it holds.
        found: String,
    },
}

/// What is said of a file whose line ends a tool changed on the way.
pub(crate) const TRANSIT: &str = "the line endings were changed in transit; put the line “* -text” into .gitattributes, turn off text conversion in the copying tool, and copy the file again";

/// Reads one line of a version up to `newest`, without its line end, as `T`, a struct of borrowed
/// fields in the fixed order.
pub(crate) fn line<'a, T>(bytes: &'a [u8], cap: usize, newest: Version) -> Result<T, Unreadable>
where
    T: Deserialize<'a> + Serialize,
{
    if bytes.len() > cap {
        let bytes = bytes.len();
        return Err(Unreadable::Long { bytes, cap });
    }
    if bytes.starts_with(b"\xef\xbb\xbf") {
        return Err(Unreadable::ByteOrderMark);
    }
    if bytes.ends_with(b"\r") {
        return Err(Unreadable::CarriageReturn);
    }
    if bytes.is_empty() {
        return Err(Unreadable::Blank);
    }
    let text =
        std::str::from_utf8(bytes).map_err(|error| Unreadable::NotText(error.valid_up_to() + 1))?;
    if let Some(value) = json::read(text) {
        return version(text, newest).map(|()| value);
    }
    check(text, DEEPEST).map_err(Unreadable::Json)?;
    version(text, newest)?;
    the_long_way(text)
}

/// Reads one line, without its line end, where that can be done in one pass; what is wrong with
/// it, or what is of another version, is not told here.
pub(crate) fn at_once<'a, T: Deserialize<'a>>(bytes: &'a [u8], cap: usize) -> Option<T> {
    let text = std::str::from_utf8(bytes).ok()?;
    json::read(text).filter(|_| bytes.len() <= cap)
}

/// Reads a text that is checked already, and demands that what was read, written again, gives the
/// same bytes. It tells what is wrong, and reads what no struct of fields can hold.
fn the_long_way<'a, T>(text: &'a str) -> Result<T, Unreadable>
where
    T: Deserialize<'a> + Serialize,
{
    let value: T = serde_json::from_str(text).map_err(|error| fields(&error))?;
    if is_written_as(&value, text) {
        Ok(value)
    } else {
        Err(Unreadable::Order)
    }
}

/// The reader's words without the place it adds: there is one line, and the caller knows which.
/// They quote what was stored, so what would move a cursor is written out.
pub(crate) fn fields(error: &serde_json::Error) -> Unreadable {
    let words = error.to_string();
    let end = words.find(" at line ").unwrap_or(words.len());
    let shown = |letter: char| {
        if unprintable(letter) {
            letter.escape_unicode().to_string()
        } else {
            letter.to_string()
        }
    };
    Unreadable::Fields(words.chars().take(end).map(shown).collect())
}

/// Writes a struct of fields in the fixed order.
pub(crate) fn write(value: &impl Serialize) -> Result<String, Unreadable> {
    serde_json::to_string(value).map_err(|_| Unreadable::Json(JsonFault::NotWritable))
}

/// Whether a struct, written again, gives exactly `text`.
fn is_written_as(value: &impl Serialize, text: &str) -> bool {
    let mut expected = Expected(text.as_bytes());
    serde_json::to_writer(&mut expected, value).is_ok() && expected.0.is_empty()
}

/// The bytes still to be written; any other is refused.
struct Expected<'a>(&'a [u8]);

impl io::Write for Expected<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0 = self
            .0
            .strip_prefix(bytes)
            .ok_or(io::ErrorKind::InvalidData)?;
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// A field's text as what it holds, or the fault that names the field.
pub(crate) fn field<'t, T>(
    field: &'static str,
    text: &'t str,
    read: impl FnOnce(&'t str) -> Option<T>,
) -> Result<T, Unreadable> {
    read(text).ok_or_else(|| Unreadable::Field {
        field,
        found: text.chars().take(80).collect(),
    })
}

/// Words spelt as they are kept: nothing to trim, nothing unprintable.
pub(crate) fn words(text: &str) -> Option<Words> {
    Words::read(text)
        .ok()
        .filter(|words| words.as_str() == text)
}

/// The body of a line, as it is spelt.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Spelt<'a> {
    /// Known to be an object in the one spelling.
    Checked(&'a str),
    /// Not looked at.
    Raw(&'a str),
}

/// A body as `T`, a struct of fields in the fixed order. Of one that was not looked at, only what
/// one pass takes is taken, whatever is said of the rest.
pub(crate) fn body<'a, T>(body: Spelt<'a>) -> Result<T, Unreadable>
where
    T: Deserialize<'a> + Serialize,
{
    let (Spelt::Checked(text) | Spelt::Raw(text)) = body;
    match (json::read(text), body) {
        (Some(value), _) => Ok(value),
        (None, Spelt::Checked(text)) => the_long_way(text),
        (None, Spelt::Raw(_)) => Err(Unreadable::Order),
    }
}

/// A later version may have other fields, so its number is looked at before them.
fn version(text: &str, newest: Version) -> Result<(), Unreadable> {
    let found = text
        .strip_prefix("{\"v\":")
        .and_then(|rest| rest.split([',', '}']).next())
        .and_then(|number| number.parse().ok());
    match found {
        None => Ok(()),
        Some(found) => match Version::read(found).filter(|known| *known <= newest) {
            Some(_) => Ok(()),
            None => Err(Unreadable::Version { found, newest }),
        },
    }
}

impl Unreadable {
    /// Whether this is what file tools do to line ends, not what a person does to a record.
    pub const fn is_transit(&self) -> bool {
        matches!(self, Self::ByteOrderMark | Self::CarriageReturn)
    }
}

impl fmt::Display for Unreadable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Long { bytes, cap } => write!(f, "it has {bytes} bytes; {cap} is the most"),
            Self::Blank => write!(f, "it is blank"),
            Self::ByteOrderMark => write!(f, "it begins with a byte order mark: {TRANSIT}"),
            Self::CarriageReturn => write!(f, "it ends with a carriage return: {TRANSIT}"),
            Self::NoLineEnd => write!(
                f,
                "its line end is missing; the file was cut short or saved by an editor"
            ),
            Self::NotText(at) => write!(f, "byte {at} is not UTF-8"),
            Self::Version { found, newest } => write!(
                f,
                "it is written in version {found} of the format and this program reads up to version {}; use a newer Hames",
                newest.number()
            ),
            Self::Json(fault) => fault.fmt(f),
            Self::Fields(words) => f.write_str(words),
            Self::Order => write!(f, "its fields are not in the order records have"),
            Self::Kind(version, kind) => {
                write!(
                    f,
                    "version {} has no line of kind “{kind}”",
                    version.number()
                )
            }
            Self::Contradiction(what) => write!(f, "{what}"),
            Self::Field { field, found } => {
                write!(f, "“{}” cannot be its {field}", found.escape_debug())
            }
        }
    }
}
