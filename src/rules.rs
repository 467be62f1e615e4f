//! Limits and verdicts: a reading, a limit and an instrument's error give ok, note, fix or stop,
//! always with the reason.

mod basis;
mod bound;
mod carry;
mod error;
mod judge;
mod limit;
mod plausible;
mod suitable;
mod verdict;

pub use basis::{Authority, Basis};
pub use bound::{Bound, Drawn, Earlier, RuleOfThumb};
pub use carry::{Carried, Carry};
pub use judge::{Band, Held, Judgement, Outcome, judge, judge_within};
pub use limit::{Limit, Rung, Side};
pub use plausible::{Doubt, doubt};
pub use suitable::{Unsuitable, scale, suits, usable};
pub use verdict::Verdict;
