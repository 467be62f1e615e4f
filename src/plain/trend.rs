//! Trends as lines of text: what there is to ask first, each with a chart, then a line for each that
//! is quiet. Charts are all ASCII, and nothing is told by colour.

use crate::desk::trend as words;
use crate::due::{Due, When};
use crate::review::trend::{RigTrends, Series};
use crate::rules::Verdict;
use crate::text::put;

/// Rows of a chart.
const ROWS: usize = 10;

/// Columns before what is said of a quiet series.
const NAME: usize = 30;

/// The trends of one rig, and the age of its tires. No line is longer than 80 columns.
pub fn report(rig: &RigTrends) -> String {
    let mut text = String::new();
    let day = words::day(rig.newest.date_naive());
    put(
        &mut text,
        0,
        &format!("{}, up to its trip of {day}", rig.rig),
    );
    let (asks, still): (Vec<&Series>, Vec<&Series>) =
        rig.series.iter().partition(|one| one.ask.is_some());
    for series in asks {
        text.push('\n');
        put(&mut text, 2, &words::asked(series));
        put(&mut text, 4, &words::rests_on(series));
        if let Some(limit) = words::limit(series) {
            put(&mut text, 4, &limit);
        }
        put(&mut text, 4, &words::newest(series));
        text.extend(words::letters(series, ROWS));
    }
    if !still.is_empty() || !rig.tires.is_empty() {
        text.push('\n');
    }
    for series in still {
        row(&mut text, &series.name(), &words::quiet(series));
    }
    for due in &rig.tires {
        row(&mut text, &due.name(), &aged(due));
    }
    if !rig.tires.is_empty() {
        let from = words::day(rig.day.date());
        put(
            &mut text,
            2,
            &format!("Days to a tire's age are counted from {from}."),
        );
    }
    text
}

fn row(text: &mut String, name: &str, said: &str) {
    put(text, 2, &format!("{name:<NAME$}{said}"));
}

/// When a tire is too old, in a few words.
fn aged(due: &Due) -> String {
    let when = if due.when == When::default() {
        let why = due.why.split_once('.');
        why.map_or(due.why.as_str(), |(first, _)| first).to_owned()
    } else {
        due.when.to_string()
    };
    match due.verdict {
        Verdict::Ok => when,
        verdict => format!("{}; {when}", verdict.word()),
    }
}
