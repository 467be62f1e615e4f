//! Lines of text, none longer than 80 columns.

pub(super) use crate::text::{put, row};
