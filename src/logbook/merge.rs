//! Bringing logbooks together: the union of what is in them, by content, in any order, as often as
//! anybody likes.
//!
//! A file is what its bytes say. What is valid is taken; of two histories neither is chosen; what
//! cannot be used is kept aside, and every later merge looks at it again, so that it does not
//! matter which half of a trip came first. What is damaged gives way to what is whole, where it
//! has nothing that is not there too.

mod candidate;
mod course;
mod files;
mod heal;
mod here;
mod numbers;
mod piece;
mod pile;
mod stated;
mod why;

pub use course::{Course, JournalTexts, SealTexts, Step, Theirs, course};
pub use files::{Files, History};
pub use heal::{is_damaged_copy, is_held, is_nearly};
pub use numbers::{Fork, Gap, Parting, Told};
pub use piece::{Beginning, Damage, TripKey, What, is_record, says_it_is_of};
pub use pile::{Assembled, Bundle, Piece, Pile, SealPieces, Signed};
pub use stated::{Offered, Taken, Trusted};
pub use why::{Awaited, Why};
