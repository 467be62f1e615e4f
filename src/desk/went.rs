//! How a walk went, told: each stretch of it in a line.

use crate::record::counted;
use crate::review::{Stretch, Went};

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
        Went::Nothing => format!("nothing was typed for {took}, and it was not on hold"),
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
