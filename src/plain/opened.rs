//! One trip opened, as lines of text: exceptions first, then how it went, then the readings.

use crate::desk::{OpenedTrip, ReadingBeside, went};
use crate::text::put;

/// The trip. No line is longer than 80 columns.
pub fn opened(trip: &OpenedTrip) -> String {
    let mut text = String::new();
    for line in &trip.tale.heading {
        put(&mut text, 0, line);
    }
    part(&mut text, "What verification found");
    for line in &trip.tale.findings {
        put(&mut text, 2, line);
    }
    for line in &trip.said {
        put(&mut text, 2, line);
    }
    part(&mut text, "What is not as expected");
    if trip.exceptions.is_empty() {
        put(
            &mut text,
            2,
            "Nothing in it was out of limits, put off, corrected, noted or looked at twice.",
        );
    }
    for (number, exception) in (1..).zip(&trip.exceptions) {
        put(&mut text, 2, &format!("{number}. {}", exception.named));
        for line in &exception.told {
            put(&mut text, 5, line);
        }
    }
    if !trip.timeline.is_empty() {
        part(&mut text, "How it went");
    }
    for stretch in &trip.timeline {
        put(&mut text, 2, &went(stretch));
    }
    if !trip.readings.is_empty() {
        part(&mut text, "What was read");
    }
    for reading in &trip.readings {
        read(&mut text, reading);
    }
    if !trip.tale.signatures.is_empty() {
        part(&mut text, "Who signed");
    }
    for line in &trip.tale.signatures {
        put(&mut text, 2, line);
    }
    text
}

fn part(text: &mut String, title: &str) {
    text.push('\n');
    put(text, 0, title);
}

fn read(text: &mut String, reading: &ReadingBeside) {
    let mut told = reading.told().into_iter();
    put(text, 2, &told.next().unwrap_or_default());
    for line in told {
        put(text, 5, &line);
    }
}
