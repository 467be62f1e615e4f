//! What is due for a rig, as lines of text.

use crate::due::{Due, Odometer, When, reckoned};
use crate::rig::Rig;
use crate::rules::Verdict;
use crate::text::put;
use chrono::NaiveDate;

/// Columns before what is due: the longest verdict and two blanks.
const INDENT: usize = 6;

/// What is due for a rig on this day: what its walks left, then the worst and soonest first; no
/// line longer than 80 columns.
pub fn report(
    rig: &Rig,
    demo: bool,
    (day, odometer): (NaiveDate, Option<&Odometer>),
    due: &[Due],
    walks: &[String],
) -> String {
    let mut text = String::new();
    put(&mut text, 0, &rig.name);
    if demo {
        put(&mut text, 0, "DEMO. Every number of this rig is invented.");
    }
    put(&mut text, 0, &format!("Today, {day}"));
    if let Some(from) = reckoned(due, odometer) {
        put(&mut text, 0, &from);
    }
    text.push('\n');
    for one in walks {
        put(&mut text, 0, one);
    }
    if !walks.is_empty() {
        text.push('\n');
    }
    let (in_time, open): (Vec<_>, Vec<_>) = due.iter().partition(|one| one.verdict == Verdict::Ok);
    let (unknown, now): (Vec<_>, Vec<_>) = open.into_iter().partition(|one| one.is_unknown());
    for one in &now {
        told(&mut text, one);
    }
    if now.is_empty() {
        put(&mut text, 0, "Nothing is known to be due.");
    }
    let below = |text: &mut String, title: &str, all: &[&Due], words: fn(&Due) -> String| {
        if all.is_empty() {
            return;
        }
        text.push('\n');
        put(text, 0, title);
        for one in all {
            let line = format!("{} ({})", words(one), one.basis);
            put(text, 2, &line);
        }
    };
    below(&mut text, "Nothing says when:", &unknown, Due::sentence);
    below(&mut text, "In time:", &in_time, |one| {
        format!("{}: {}", one.name(), one.when)
    });
    text
}

/// One thing that is due, with everything there is to say of it.
fn told(text: &mut String, one: &Due) {
    let mut lines = String::new();
    put(&mut lines, INDENT, &one.sentence());
    if one.when != When::default() {
        put(&mut lines, INDENT, &one.why);
    }
    put(&mut lines, INDENT, &one.basis.to_string());
    let head = format!("{:<INDENT$}", one.verdict.word());
    lines.replace_range(..INDENT, &head);
    text.push_str(&lines);
}
