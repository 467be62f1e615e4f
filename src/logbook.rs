//! What the records of a whole barn come to, when they are laid side by side: receipts, continuity,
//! instruments, clocks, tables, order and witnesses.
//!
//! Nothing here reads a file. Trips come in as verified, one after the other, and are brought down
//! to what is asked of them: a [`Leg`] for the way a truck went, a [`ClockMark`] for a clock.

pub mod merge;

pub mod order;

pub mod table;

mod answers;
mod clock;
mod continuity;
mod copy;
mod countersign;
mod counts;
mod hands;
mod leg;
mod owned;
mod pins;
mod question;
mod readings;
mod receipt;
mod thresholds;
mod trace;
mod truck;
mod walked;

pub use answers::{Answer, Answers};
pub use clock::{ClockMark, ClockWatch, LookAtClock, Odd};
pub use continuity::questions;
pub use copy::{Copy, copy};
pub use countersign::{
    Barred, Opined, has_left, is_news, left_open, may_countersign, opinions, thought_of, unanswered,
};
pub use counts::TripCounts;
pub use hands::{Hand, first_named, hand_in, took_part};
pub use leg::{Leg, Mileage};
pub use owned::{Owned, owned};
pub use pins::{Ends, Unmet, unmet};
pub use question::{Comes, Question, Spot};
pub use readings::{Reading, readings, readings_in};
pub use receipt::{Sought, seek};
pub use thresholds::Thresholds;
pub use trace::{NotAnError, Rejudged, Use, WiderError, uses};
pub use truck::TruckKey;
pub use walked::in_order;
