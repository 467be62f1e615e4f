//! The only files: append and sync, write once, lock, read, and where each thing lies.
//!
//! Nothing here answers “done” before the disk has; what the disk refused is a [`StoreFault`]
//! with the next step. Reading never writes.

mod approvals;
mod aside;
mod cache;
mod device;
mod disk;
mod fault;
mod gather;
mod journal;
mod local;
mod logbook;
mod outgoing;
mod places;
mod pruning;
mod settle;
mod statements;
mod strays;
mod survey;
mod unsynced;
mod whole;

pub use approvals::ApprovalFolder;
pub use cache::MOST_CACHE_BYTES;
pub use device::{Device, Pinned};
pub use disk::{Disk, Entry, Kind, Mode, Stamp};
pub use fault::{Cause, Doing, LineProblem, StoreFault};
pub use gather::{Heap, gather};
pub use journal::{Journal, JournalText, Resumed};
pub use local::Local;
pub use logbook::{DRILLS, Logbook, MOST_FILE_BYTES, Trips};
pub use outgoing::{NewFile, NewFolder};
pub use places::{TripFolder, is_place};
pub use statements::{StatementFolder, StatementText};
pub use survey::{Surveyed, room, survey};
pub use unsynced::Unsynced;
pub use whole::{keep, replace, write_once};
