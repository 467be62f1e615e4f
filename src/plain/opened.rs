//! One trip opened, as lines of text: exceptions first, then how it went, then the readings.

use crate::desk::{OpenedTrip, ReadingBeside};
use crate::plain::lines::put;
use crate::record::counted;
use crate::review::{Stretch, Went};

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
    if !trip.asked.is_empty() {
        part(&mut text, "What to ask, and no more than that");
    }
    for line in &trip.asked {
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

/// A stretch of a walk: `07:12  Chains and lanyard: 9 answers in 4 min 10 s`.
pub fn went(stretch: &Stretch) -> String {
    let took = lasted(stretch.took_ms);
    let told = match &stretch.what {
        Went::Answers {
            section,
            answers,
            again,
        } => {
            let again = match again {
                0 => String::new(),
                some => format!(", {some} of them not for the first time"),
            };
            format!(
                "{section}: {} in {took}{again}",
                counted(*answers, "answer")
            )
        }
        Went::Nothing => format!("nothing was typed for {took}, and no hold was said"),
        Went::OnHold { why, look_again } => format!(
            "on hold for {took}{}{}",
            of(why.as_ref()),
            again(*look_again)
        ),
        Went::StoodStill { look_again } => {
            format!("the program was closed for {took}{}", again(*look_again))
        }
        Went::NotClear {
            words,
            settled,
            look_again,
        } => format!(
            "stopped for {took}, something was not clear{}; settled: {settled}{}",
            of(words.as_ref()),
            again(*look_again)
        ),
        Went::HandedOver {
            reader,
            doer,
            look_again,
        } => format!(
            "handed over: {reader} reads, {doer} does the work{}",
            again(*look_again)
        ),
    };
    format!("{}  {told}", stretch.from.format("%H:%M"))
}

fn of(words: Option<&String>) -> String {
    words.map_or_else(String::new, |words| format!(": {words}"))
}

fn again(steps: usize) -> String {
    match steps {
        0 => String::new(),
        some => format!("; {} to be looked at again", counted(some, "step")),
    }
}

/// A span of a walk, to the second where it is short.
pub fn lasted(ms: u64) -> String {
    let seconds = ms / 1000;
    match (seconds / 3600, seconds / 60 % 60, seconds % 60) {
        (0, 0, seconds) => format!("{seconds} s"),
        (0, minutes, seconds) => format!("{minutes} min {seconds} s"),
        (hours, minutes, _) => format!("{hours} h {minutes} min"),
    }
}

fn read(text: &mut String, reading: &ReadingBeside) {
    let replaced = if reading.replaced {
        ", and another took its place"
    } else {
        ""
    };
    put(
        text,
        2,
        &format!(
            "{}: {} ({}), {}{replaced}",
            reading.name, reading.typed, reading.instrument, reading.outcome
        ),
    );
    if let Some(limit) = &reading.limit {
        put(text, 5, &format!("Limit: {limit}."));
    }
    if !reading.earlier.is_empty() {
        let earlier = reading.earlier.iter();
        let earlier: Vec<String> = earlier
            .map(|one| format!("{} on {}", one.typed, one.at.format("%-d %b %Y")))
            .collect();
        put(text, 5, &format!("Before: {}.", earlier.join(", ")));
    }
}
