//! What several test files share.

pub(crate) mod good;
pub(crate) mod home;
pub(crate) mod terminal;
