//! What line 0 binds.

use crate::record::{Digest, Id, Mode};
use crate::units::Typed;
use crate::walk::Words;

/// The beginning of a walk, and everything it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Begun {
    /// The trip: fresh random bytes in hexadecimal.
    pub trip: Id,
    /// Whether the walk counts.
    pub mode: Mode,
    /// The device that keeps the record.
    pub device: Id,
    /// The place of the trip in that device's sequence, from 1.
    pub seq: u64,
    /// How the device's trip before this one ended; nothing for its first.
    pub previous: Option<Previous>,
    /// The checklist walked, as a file.
    pub checklist: Pinned,
    /// The rig described, as a file.
    pub rig: Pinned,
    /// The crew file in force, by its plain hash.
    pub crew: Digest,
    /// The newest statement of a manager this device knows of.
    pub manager: Option<Digest>,
    /// The version of the program.
    pub program: String,
    /// The odometer.
    pub odometer: Option<Typed>,
    /// Who reads and types.
    pub reader: Words,
    /// Who does the work.
    pub doer: Words,
}

/// A file a walk rests on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pinned {
    /// Its id.
    pub id: String,
    /// The plain hash of its bytes.
    pub hash: Digest,
}

/// How the device's trip before this one ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Previous {
    /// With a seal, of this hash.
    Sealed(Digest),
    /// Without; the hash of the last line there was.
    Unsealed(Digest),
}
