//! The screens of the program.

pub mod rig;
