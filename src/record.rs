//! The record of a walk: lines, chain, seal, keys, crew.
//!
//! What is hashed and signed is always the exact bytes as stored; they are checked before they
//! are read, and a thing read and written again gives the same bytes. Randomness and time come in
//! as values.

mod agent;
mod approval;
mod chain;
mod counted;
mod crew;
mod hash;
mod id;
mod json;
mod keys;
mod line;
mod name;
mod namesake;
mod namespace;
mod receipt;
mod roster;
mod seal;
mod spelt;
mod sshsig;
mod statement;
mod statements;
mod strict;
mod tail;
mod verify;
mod version;
mod wall;
mod wire;

pub use agent::{AgentFault, ask_to_sign, keys_listed, list_keys, signed};
pub use approval::{Approved, NotApproved, approved};
pub use chain::{Chain, ChainFault, Link, MAX_TRIP, Parts, Tail, Tip, read_chain};
pub(crate) use counted::counted;
pub use crew::{Crew, CrewFault, CrewFaults, LineReason, Refused, Request, Role, Signer};
pub use hash::{Digest, Hashed, NotADigest, Tag};
pub use id::{Id, NotAnId};
pub use json::{Body, JsonFault};
pub use keys::{DeviceKey, Dice, KeyFault, LockedKey, NotAPublicKey, Passphrase, PublicKey};
pub use line::{Envelope, Heading, MAX_LINE};
pub use name::{NotAName, PrintedName};
pub use namesake::{could_be, has_same_parts, is_whole};
pub use namespace::{Deed, Mode, Namespace};
pub use receipt::{NotAReceipt, Receipt};
pub use roster::{CrewAct, CrewNow, Gone, NextCrew, NotChanged, Revision, Roster};
pub use seal::{Counts, NotClosed, Seal, meaning, meaning_in};
pub use sshsig::SignatureFault;
pub use statement::{
    Branch, Change, Changed, Countersigned, CrewChange, DefectOwned, ForkClosed, Head, Joined,
    Known, LossAccepted, MAX_STATEMENT, Odometer, Opinion, Owner, Pruned, RideSignedOff, Says,
    SignedOff, Statement, Stub, crew_meaning,
};
pub use statements::{Stated, StatementFault, StatementFiles, Statements};
pub(crate) use strict::TRANSIT;
pub use strict::Unreadable;
pub use tail::split_torn;
pub use verify::{
    DrillFiles, Examined, Finding, SealFiles, Sealed, TripFault, TripFiles, Verified, verify,
    verify_next,
};
pub use version::Version;
pub use wall::Wall;
pub use wire::{
    Answered, Begun, BegunDrill, DRILL_ID, Left, MOST_SEED, Pinned, Previous, Said, append, called,
    said,
};
