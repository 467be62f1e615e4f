//! The walk: one pass through a checklist with a rig.
//!
//! An act goes in; exactly one event comes out, or a refusal with its reason. State is a fold of
//! events and of nothing else, so a walk rebuilt from its journal is the walk that was.

mod act;
mod answer;
mod apply;
mod decide;
mod event;
mod facts;
mod hands;
mod leaves;
mod look_again;
mod moment;
mod now;
mod refusal;
mod repeat;
mod state;
mod words;

pub use act::Act;
pub use answer::{Answer, Given, Round};
pub use event::{After, Ended, Entry, Event};
pub use hands::hands;
pub use leaves::{Change, Turn};
pub use moment::Moment;
pub use now::Now;
pub use refusal::Refusal;
pub use repeat::Departure;
pub use state::{Status, StepState, Tally, Walk};
pub use words::{NotWords, Words, unprintable};
