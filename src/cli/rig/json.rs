//! Every figure of a rig as one JSON object.

use crate::cli::amount::Amount;
use crate::figures::{Entry, Fact, Found, NotKnown, RatedLink, Today, ratings_chain, sheet};
use serde::Serialize;
use std::io::{self, Write};

#[derive(Serialize)]
struct Sheet<'a> {
    schema: &'static str,
    rig: &'a str,
    name: &'a str,
    today: Vec<Read>,
    figures: Vec<Told>,
    ratings: Vec<Rated>,
}

/// Something read today.
#[derive(Serialize)]
struct Read {
    name: &'static str,
    #[serde(flatten)]
    amount: Amount,
}

/// One figure.
#[derive(Serialize)]
struct Told {
    name: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    item: Option<String>,
    label: &'static str,
    #[serde(flatten)]
    answer: Answer,
}

/// One rating from truck to tires, the weakest first.
#[derive(Serialize)]
struct Rated {
    link: String,
    place: &'static str,
    about: &'static str,
    in_force: bool,
    basis: String,
    rating: Answer,
    load: Answer,
    #[serde(skip_serializing_if = "Option::is_none")]
    margin: Option<Amount>,
    #[serde(skip_serializing_if = "Option::is_none")]
    share_left: Option<Amount>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Answer {
    Known {
        #[serde(flatten)]
        amount: Amount,
        from: String,
        by_maker: bool,
        #[serde(skip_serializing_if = "Option::is_none")]
        formula: Option<Formula>,
    },
    Unknown {
        value: (),
        unknown: &'static str,
        why: String,
        #[serde(skip_serializing_if = "Vec::is_empty")]
        missing: Vec<Missing>,
    },
}

/// The formula behind a figure.
#[derive(Serialize)]
struct Formula {
    name: &'static str,
    title: &'static str,
    source: &'static str,
    inputs: Vec<Input>,
}

#[derive(Serialize)]
struct Input {
    what: String,
    value: String,
    from: String,
}

/// What the rig file does not say, or was not read today.
#[derive(Serialize)]
struct Missing {
    field: &'static str,
    what: String,
}

/// Writes every figure of this rig, today.
pub(super) fn write(today: Today<'_>, out: &mut dyn Write) -> io::Result<()> {
    let facts = Fact::WORDS.into_iter().filter_map(|(name, fact)| {
        let amount = today.facts.get(fact).map(Amount::of)?;
        Some(amount.map(|amount| Read { name, amount }))
    });
    let figures = sheet(today).into_iter().map(told);
    let ratings = ratings_chain(today).into_iter().map(rated);
    let sheet = Sheet {
        schema: "hames-rig-figures/1",
        rig: &today.rig.id,
        name: &today.rig.name,
        today: facts.collect::<Result<_, _>>()?,
        figures: figures.collect::<Result<_, _>>()?,
        ratings: ratings.collect::<Result<_, _>>()?,
    };
    serde_json::to_writer_pretty(&mut *out, &sheet)?;
    writeln!(out)
}

fn told(entry: Entry) -> Result<Told, serde_json::Error> {
    Ok(Told {
        name: entry.figure.word(),
        item: entry.item.map(|item| item.id),
        label: entry.figure.label(),
        answer: answer(entry.answer)?,
    })
}

fn rated(link: RatedLink) -> Result<Rated, serde_json::Error> {
    let margin = link.margin();
    let margin = margin.as_ref();
    Ok(Rated {
        margin: margin.map(|margin| Amount::of(&margin.left)).transpose()?,
        share_left: margin.map(|margin| Amount::of(&margin.share)).transpose()?,
        link: link.name,
        place: link.place.word(),
        about: link.kind.words(),
        in_force: link.in_force,
        basis: link.basis,
        rating: answer(link.rating)?,
        load: answer(link.load)?,
    })
}

fn answer(answer: Result<Found, NotKnown>) -> Result<Answer, serde_json::Error> {
    match answer {
        Ok(found) => known(found),
        Err(not) => Ok(unknown(&not)),
    }
}

fn known(found: Found) -> Result<Answer, serde_json::Error> {
    let formula = found.working.map(|working| Formula {
        name: working.page.name,
        title: working.page.title,
        source: working.page.source,
        inputs: working
            .inputs
            .into_iter()
            .map(|input| Input {
                what: input.what,
                value: input.value,
                from: input.from,
            })
            .collect(),
    });
    Ok(Answer::Known {
        amount: Amount::of(&found.quantity)?,
        from: found.from,
        by_maker: found.by_maker,
        formula,
    })
}

fn unknown(not: &NotKnown) -> Answer {
    let (unknown, missing) = match not {
        NotKnown::NotOnThisRig(_) => ("not on this rig", Vec::new()),
        NotKnown::NeedsItem(..) => ("of one item only", Vec::new()),
        NotKnown::Undescribed(_, lacks) => {
            let missing = lacks.iter().map(|lack| Missing {
                field: lack.field,
                what: lack.what.clone(),
            });
            ("not described", missing.collect())
        }
        NotKnown::Unread(_, fact) => {
            let missing = Missing {
                field: fact.word(),
                what: fact.word().replace('-', " "),
            };
            ("not read today", vec![missing])
        }
        NotKnown::NoNumber(..) | NotKnown::NotAnswered(_) => ("no number", Vec::new()),
    };
    Answer::Unknown {
        value: (),
        unknown,
        why: not.to_string(),
        missing,
    }
}
