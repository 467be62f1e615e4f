//! A day of the calendar in the rig file.

use crate::document::{Node, Read};
use chrono::NaiveDate;

/// A day, strictly as `2026-03-02`.
pub(super) fn day(node: Node<'_>) -> Read<NaiveDate> {
    const FORM: &str = "%Y-%m-%d";
    let written = node.text()?;
    NaiveDate::parse_from_str(written, FORM)
        .ok()
        .filter(|day| day.format(FORM).to_string() == written)
        .ok_or_else(|| {
            node.fault(
                format!("“{written}” is not a day"),
                "write it as year, month and day, such as 2026-03-02",
            )
        })
}
