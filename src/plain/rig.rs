//! A rig's figures as lines of text: what they are, and where each comes from.

use crate::figures::{
    Area, Entry, Fact, Found, Item, NotKnown, RatedLink, RatingKind, Today, ratings_chain, sheet,
};
use crate::text::{put, row};

/// Every figure of a rig, part by part, no line longer than 80 columns.
pub fn report(today: Today<'_>, demo: bool) -> String {
    let mut text = String::new();
    put(&mut text, 0, &today.rig.name);
    if demo {
        put(&mut text, 0, "DEMO. Every number of this rig is invented.");
    }
    for (word, fact) in Fact::WORDS {
        if let Some(read) = today.facts.get(fact) {
            put(
                &mut text,
                0,
                &format!("Today, {}: {read}", word.replace('-', " ")),
            );
        }
    }
    let sheet = sheet(today);
    for (area, title) in Area::TITLES {
        let here: Vec<&Entry> = sheet
            .iter()
            .filter(|entry| entry.figure.area() == area)
            .collect();
        if here.is_empty() {
            continue;
        }
        text.push('\n');
        put(&mut text, 0, title);
        if area == Area::Ratings {
            chain(&mut text, today);
        }
        for same in here.chunk_by(|one, next| one.figure == next.figure) {
            figure(&mut text, same);
        }
    }
    text
}

/// Every rating from truck to tires and what is left of it, the weakest first.
fn chain(text: &mut String, today: Today<'_>) {
    let links = ratings_chain(today);
    let (held, beside): (Vec<_>, Vec<_>) = links.iter().partition(|link| link.in_force);
    for link in held {
        rated(text, link);
        if link.kind == RatingKind::Strength {
            put(text, 6, &link.basis);
        }
    }
    put(text, 2, "beside, not in force:");
    for link in beside {
        rated(text, link);
        put(text, 6, &link.basis);
    }
    text.push('\n');
}

/// One rating and what is left of it.
fn rated(text: &mut String, link: &RatedLink) {
    let rating = match &link.rating {
        Ok(found) => found.quantity.to_string(),
        Err(not) => unknown(not).0,
    };
    let value = match link.margin() {
        Some(margin) if margin.left.value.is_negative() => {
            format!("{} of {rating}, OVER", margin.left.shown(0))
        }
        Some(margin) => {
            let share = margin.share.shown(0);
            format!("{} of {rating} left, {share}", margin.left.shown(0))
        }
        None => format!("{rating}, load not known"),
    };
    row(text, 2, &link.label(), &value);
}

/// One figure: one line where all its items agree, else one for each.
fn figure(text: &mut String, entries: &[&Entry]) {
    let Some((first, others)) = entries.split_first() else {
        return;
    };
    let label = first.figure.label();
    if others.iter().all(|other| alike(other, first)) {
        let each = first.item.as_ref().map_or_else(String::new, |item| {
            format!(", each {}", item.each.word().replace('-', " "))
        });
        return answer(text, 2, &format!("{label}{each}"), &first.answer);
    }
    put(text, 2, label);
    for entry in entries {
        let name = entry.item.as_ref().map_or_else(String::new, Item::name);
        answer(text, 4, &name, &entry.answer);
    }
}

/// Whether two items of a figure are answered alike, so that it need be said but once.
fn alike(one: &Entry, other: &Entry) -> bool {
    match (&one.answer, &other.answer) {
        (Ok(one), Ok(other)) => one.quantity == other.quantity && one.from == other.from,
        (one, other) => one == other,
    }
}

fn answer(text: &mut String, indent: usize, label: &str, answer: &Result<Found, NotKnown>) {
    let (value, why) = match answer {
        Ok(found) => (found.quantity.to_string(), found.from.clone()),
        Err(not) => unknown(not),
    };
    row(text, indent, label, &value);
    put(text, indent + 4, &why);
}

/// That a figure is not known, in two or three words, and why.
fn unknown(not: &NotKnown) -> (String, String) {
    let (word, why) = match not {
        NotKnown::NotOnThisRig(_) => ("not on this rig", String::new()),
        NotKnown::NeedsItem(_, each) => ("one of several", format!("of each {}", each.word())),
        NotKnown::Undescribed(_, lacks) => {
            let fields: Vec<&str> = lacks.iter().map(|lack| lack.field).collect();
            ("not known", format!("not described: {}", fields.join(", ")))
        }
        NotKnown::Unread(_, fact) => (
            "not known",
            format!("not read today: {}", fact.word().replace('-', " ")),
        ),
        NotKnown::NoNumber(_, why) => ("no number", why.clone()),
        NotKnown::NotAnswered(step) => ("no number", format!("not read yet: {step}")),
    };
    (word.to_owned(), why)
}
