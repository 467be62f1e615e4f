//! The drill: every scenario played to its right call and through its commonest wrong one.

pub(crate) mod bench;
mod check;
mod coverage;
mod dice;
mod learners;
mod one_rig;
mod pinned;
mod play;
mod progress;
mod rides;
mod sights;
mod sketch;
mod stages;
mod under_way;
