//! Bringing logbooks together: whatever comes, in whatever order and under whatever names, the
//! union of it is there, nothing valid is lost, and what cannot be used is kept and told.

pub(crate) mod barn;
mod crash;
mod crew_file;
mod drills;
mod heal;
mod hidden;
mod kinds;
mod parts;
mod people;
mod places;
mod telling;
mod union;
