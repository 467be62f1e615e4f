//! `hames logbook`: what the records of a whole barn come to.

mod receipt;
