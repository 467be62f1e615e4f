//! What scale tickets say, as one JSON object.

use crate::cli::amount::Amount;
use crate::figures::weighing::{Band, Held, Left, Refused, Stands, Weighed};
use serde::Serialize;
use std::io::{self, Write};

#[derive(Serialize)]
struct Told<'a> {
    schema: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    rig: Option<&'a str>,
    #[serde(flatten)]
    answer: Answer,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Answer {
    Weighed(Box<Numbers>),
    Refused { refused: Vec<Why> },
}

#[derive(Serialize)]
struct Numbers {
    step: Amount,
    reading_error: Amount,
    tongue: Span,
    tongue_sd: Amount,
    trailer: Span,
    share: Span,
    share_sd: Amount,
    share_asked: Asked,
    held: &'static str,
    steer_change: Amount,
    #[serde(skip_serializing_if = "Option::is_none")]
    restored: Option<Span>,
    ratings: Vec<Row>,
}

/// A band.
#[derive(Serialize)]
struct Span {
    is: Amount,
    least: Amount,
    most: Amount,
}

/// The share asked for, %.
#[derive(Serialize)]
struct Asked {
    least_pct: i64,
    most_pct: i64,
    source: &'static str,
}

#[derive(Serialize)]
struct Row {
    what: &'static str,
    carries: Span,
    rating: Amount,
    from: String,
    stands: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    by: Option<Amount>,
}

#[derive(Serialize)]
struct Why {
    reason: String,
    next: &'static str,
}

/// Writes what the tickets say, or why they are refused.
pub(super) fn write(
    rig: Option<&str>,
    weighed: Result<&Weighed, &[Refused]>,
    left: &[Left],
    out: &mut dyn Write,
) -> io::Result<()> {
    let answer = match weighed {
        Ok(weighed) => Answer::Weighed(Box::new(numbers(weighed, left)?)),
        Err(refused) => Answer::Refused {
            refused: refused
                .iter()
                .map(|one| Why {
                    reason: one.reason(),
                    next: one.next(),
                })
                .collect(),
        },
    };
    let told = Told {
        schema: "hames-weigh/1",
        rig,
        answer,
    };
    serde_json::to_writer_pretty(&mut *out, &told)?;
    writeln!(out)
}

fn numbers(weighed: &Weighed, left: &[Left]) -> Result<Numbers, serde_json::Error> {
    Ok(Numbers {
        step: Amount::of(&weighed.step)?,
        reading_error: Amount::of(&weighed.error)?,
        tongue: span(&weighed.tongue)?,
        tongue_sd: Amount::of(&weighed.spread.tongue)?,
        trailer: span(&weighed.trailer)?,
        share: span(&weighed.share)?,
        share_sd: Amount::of(&weighed.spread.share)?,
        share_asked: Asked {
            least_pct: weighed.asked.least,
            most_pct: weighed.asked.most,
            source: weighed.asked.source,
        },
        held: held(weighed.held),
        steer_change: Amount::of(&weighed.steer_change)?,
        restored: weighed.restored.as_ref().map(span).transpose()?,
        ratings: left.iter().map(rating).collect::<Result<_, _>>()?,
    })
}

fn held(held: Held) -> &'static str {
    match held {
        Held::Within => "within",
        Held::Below => "below",
        Held::Above => "above",
        Held::CannotTell => "cannot tell",
    }
}

fn span(band: &Band) -> Result<Span, serde_json::Error> {
    Ok(Span {
        is: Amount::of(&band.is)?,
        least: Amount::of(&band.least)?,
        most: Amount::of(&band.most)?,
    })
}

fn rating(left: &Left) -> Result<Row, serde_json::Error> {
    let (stands, by) = match &left.stands {
        Stands::Left(by) => ("left", Some(by)),
        Stands::Over(by) => ("over", Some(by)),
        Stands::CannotTell => ("cannot tell", None),
    };
    Ok(Row {
        what: left.what,
        carries: span(&left.carries)?,
        rating: Amount::of(&left.rating)?,
        from: left.from.clone(),
        stands,
        by: by.map(Amount::of).transpose()?,
    })
}
