//! Services and papers in the rig file. Both lists may be left out.

use crate::document::{Node, Read};
use crate::rig::yaml::day::day;
use crate::rig::yaml::part::{Part, positive};
use crate::rig::{Interval, Paper, Served, Service, ServiceKind, Span};
use crate::units::Dimension::Length;

/// The longest interval that is taken for one: ten years. More is a slip, such as a year of the
/// calendar typed for a number of months.
const MOST_MONTHS: u32 = 120;
const MOST_DAYS: u32 = 3660;

pub(super) fn services(list: Node<'_>) -> Read<Vec<Service>> {
    let mut seen: Vec<ServiceKind> = Vec::new();
    list.each(|node| {
        let part = Part::open(node, &["what", "last", "every"])?;
        let what = part.choice("what", &ServiceKind::WORDS);
        if what.is_ok_and(|what| seen.contains(&what)) {
            part.tell(
                "what",
                "this service stands twice in the list",
                "keep the entry that is true, and take the other one out",
            );
        }
        seen.extend(what.ok());
        let done = part.optional("last").map(served).transpose();
        let every = part.optional("every").map(interval).transpose();
        if part.optional("last").is_none() && part.optional("every").is_none() {
            return Err(part.lack(
                "this entry says neither when it was last done nor how often it is due",
                "add `last: { on: … }`, or `every: { months: …, by: …, at: … }`",
            ));
        }
        Ok(Service {
            what: what?,
            last: done?,
            every: every?,
        })
    })
}

fn served(node: Node<'_>) -> Read<Served> {
    let part = Part::open(node, &["on", "odometer"])?;
    let on = part.required("on").and_then(day);
    let odometer = part
        .optional("odometer")
        .map(|node| positive(node, Length))
        .transpose();
    Ok(Served {
        on: on?,
        odometer: odometer?,
    })
}

fn interval(node: Node<'_>) -> Read<Interval> {
    let part = Part::open(node, &["months", "days", "distance", "by", "at"])?;
    let time = span(part);
    let distance = part
        .optional("distance")
        .map(|node| positive(node, Length))
        .transpose();
    let source = part.source();
    let (time, distance) = (time?, distance?);
    if time.is_none() && distance.is_none() {
        return Err(part.lack(
            "this interval has no length",
            "add `months: …`, `days: …` or `distance: …`, as the manual has it",
        ));
    }
    Ok(Interval {
        time,
        distance,
        source: source?,
    })
}

fn span(part: Part<'_>) -> Read<Option<Span>> {
    let months = part.optional("months");
    let days = part.optional("days");
    if let (Some(_), Some(days)) = (months, days) {
        return Err(days.fault(
            "`months` and `days` stand together, and only one of them may",
            "keep the one the manual has",
        ));
    }
    let months = months.map(|node| number(node, MOST_MONTHS).map(Span::Months));
    let days = days.map(|node| number(node, MOST_DAYS).map(Span::Days));
    months.or(days).transpose()
}

fn number(node: Node<'_>, most: u32) -> Read<u32> {
    let whole = node.whole()?;
    u32::try_from(whole)
        .ok()
        .filter(|number| (1..=most).contains(number))
        .ok_or_else(|| {
            node.fault(
                format!("{whole} is no interval: it runs from 1 to {most}"),
                "write it as the manual has it, such as 12",
            )
        })
}

pub(super) fn papers(list: Node<'_>) -> Read<Vec<Paper>> {
    let mut seen: Vec<(String, String)> = Vec::new();
    list.each(|node| {
        let part = Part::open(node, &["what", "of", "until"])?;
        let what = part.words("what");
        let of = part.words("of");
        let until = part.required("until").and_then(day);
        let paper = Paper {
            what: what?,
            of: of?,
            until: until?,
        };
        let name = (paper.what.clone(), paper.of.clone());
        if seen.contains(&name) {
            return Err(part.lack(
                "this paper stands twice in the list",
                "keep the one that holds longer",
            ));
        }
        seen.push(name);
        Ok(paper)
    })
}
