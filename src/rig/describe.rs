//! Describing a rig question by question: which values a rig file has, where each is found, and
//! the file as it grows.
//!
//! [`CHAPTERS`] is the one list of what is asked, in the order a person walks round the rig. An
//! [`Interview`] goes through it: it knows what to ask next, judges each answer by the rig file's
//! own reader, and always holds a file that can be saved as it is.

mod answer;
mod ask;
mod choices;
mod draft;
mod field;
mod fields;
mod interview;
mod put;
mod question;

pub use answer::NotAnAnswer;
pub use ask::{Ask, Choice, Like, List, Slot};
pub use field::{Chapter, Field, Need, Over, Section, When};
pub use fields::CHAPTERS;
pub use interview::{Amends, Interview, Refused};
pub use question::Question;
