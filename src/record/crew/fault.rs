//! What is wrong with a crew file, and why a signature is not one of the crew's.

use crate::record::{Id, Namespace, NotAName, NotAPublicKey, NotAnId, Role, SignatureFault};
use std::fmt;

/// Everything wrong with a crew file, in the order of its lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CrewFaults(pub Vec<CrewFault>);

/// One thing wrong with a crew file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CrewFault {
    /// The line, from 1.
    pub line: usize,
    /// What is wrong there.
    pub reason: LineReason,
}

/// What is wrong with a line of a crew file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LineReason {
    /// The file has more bytes than a crew file may have.
    Long(usize),
    /// Not UTF-8.
    NotText,
    /// A byte order mark.
    Mark,
    /// A carriage return; told of the first line that has one.
    Transit,
    /// The last line has no line end.
    NoLineEnd,
    /// A blank at an end, two together, or a tab.
    Blanks,
    /// A control character.
    Control(char),
    /// A part is missing; what comes next in a line.
    Missing(&'static str),
    /// The first principal is no id.
    Id(NotAnId),
    /// A pattern (`*`, `?`, `!`) among the principals.
    Pattern(String),
    /// A principal that is no role.
    Principal(String),
    /// No role at all.
    NoRole,
    /// A role twice.
    RoleTwice(Role),
    /// `device` together with a person's role.
    DeviceAndPerson,
    /// A device with a hardware key.
    DeviceTouched,
    /// `cert-authority`.
    Authority,
    /// `valid-after` or `valid-before`.
    Date,
    /// Any other option, or `namespaces` spelt otherwise.
    Option(String),
    /// A namespace that is none of ours.
    UnknownNamespace(String),
    /// A namespace twice.
    NamespaceTwice(Namespace),
    /// A namespace that is not for these roles.
    OtherNamespace(Namespace),
    /// The key.
    Key(NotAPublicKey),
    /// The printed name.
    Name(NotAName),
    /// An id that an earlier line has.
    IdTwice(Id, usize),
    /// A key that an earlier line has.
    KeyTwice(Id, usize),
}

/// Why a signature does not count.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refused {
    /// Nobody in the crew has that id.
    Unknown(Id),
    /// They do not hold the role.
    Role(Id, Role),
    /// Their signatures do not count there.
    Namespace(Id, Namespace),
    /// They are printed by another name.
    Name(Id),
    /// The signature itself.
    Signature(Id, SignatureFault),
}

impl fmt::Display for CrewFaults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (at, fault) in self.0.iter().enumerate() {
            let between = if at == 0 { "" } else { "\n" };
            write!(f, "{between}{fault}")?;
        }
        Ok(())
    }
}

impl fmt::Display for CrewFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}: {}", self.line, self.reason)
    }
}

impl fmt::Display for LineReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Long(bytes) => write!(f, "the file has {bytes} bytes, more than a crew needs"),
            Self::NotText => write!(f, "this is not UTF-8"),
            Self::Mark => write!(
                f,
                "a byte order mark was put in front of it, as some editors do; copy the file again, or save it without one"
            ),
            Self::Transit => write!(
                f,
                "the line endings were changed in transit; put the line “* -text” into .gitattributes and copy the file again"
            ),
            Self::NoLineEnd => write!(
                f,
                "the last line has no line end, so the file may be cut short; end it with one"
            ),
            Self::Blanks => write!(
                f,
                "the parts of a line stand one blank apart, with none at its ends and no tabs"
            ),
            Self::Control(letter) => write!(
                f,
                "there is a character that cannot be printed ({}); take it out",
                letter.escape_unicode()
            ),
            Self::Missing(part) => write!(
                f,
                "{part} is missing; a line is: id,role:driver namespaces=\"…\" ssh-ed25519 key printed name"
            ),
            Self::Id(fault) => fault.fmt(f),
            Self::Pattern(text) => write!(
                f,
                "“{}” is a pattern, which would let in people who are not named; name each one on a line of their own",
                text.escape_debug()
            ),
            Self::Principal(text) => write!(
                f,
                "“{}” is no role; write role:groom, role:driver, role:manager, role:examiner or role:device",
                text.escape_debug()
            ),
            Self::NoRole => write!(
                f,
                "there is no role; write one behind the id, such as ,role:driver"
            ),
            Self::RoleTwice(role) => write!(f, "the role {role} stands there twice; take one out"),
            Self::DeviceAndPerson => write!(
                f,
                "nobody is a device and a person; give each a line and a key of their own"
            ),
            Self::DeviceTouched => write!(
                f,
                "a device signs by itself, and a hardware key waits for a touch; give the device a key of its own"
            ),
            Self::Authority => write!(
                f,
                "cert-authority would let in keys that are not named; give each person a line with their own key"
            ),
            Self::Date => write!(
                f,
                "a date here is held against a time that the signer claims; take valid-after and valid-before out: from which record on a key counts is settled by its place in the logbook"
            ),
            Self::Option(text) => write!(
                f,
                "“{}” is not an option of a crew file; write namespaces=\"…\" once and nothing else",
                text.escape_debug()
            ),
            Self::UnknownNamespace(text) => {
                write!(f, "“{}” is not a namespace of Hames", text.escape_debug())
            }
            Self::NamespaceTwice(name) => write!(f, "{name} stands there twice; take one out"),
            Self::OtherNamespace(name) => write!(
                f,
                "{name} is not for these roles: people perform, managers approve, devices witness"
            ),
            Self::Key(fault) => fault.fmt(f),
            Self::Name(fault) => fault.fmt(f),
            Self::IdTwice(id, line) => write!(
                f,
                "{id} is on line {line} already; one id stands for one key"
            ),
            Self::KeyTwice(id, line) => write!(
                f,
                "this key is {id}'s, on line {line}; everyone signs with a key of their own"
            ),
        }
    }
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unknown(id) => write!(f, "nobody in the crew is called {id}"),
            Self::Role(id, role) => write!(f, "{id} does not hold the role {role}"),
            Self::Name(id) => write!(f, "the crew file prints {id} by another name"),
            Self::Namespace(id, name) => write!(f, "{id} may not sign for {name}"),
            Self::Signature(id, fault) => {
                write!(f, "this is not a good signature of {id}: {fault}")
            }
        }
    }
}
