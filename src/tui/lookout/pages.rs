//! The pages over the month: trips that cannot be looked at, a trip opened, how readings move.

use crate::desk::Lookout;
use crate::text::capital;
use crate::tui::lookout::trip::{Shown, Trip, and_more};
use crate::tui::lookout::{Looking, Over, sign, trends};
use crate::tui::page::{Page, Rank};
use crate::tui::text::{escaped, shorten};
use crate::tui::theme::Ink;

/// From so many columns on the list tells how much more there is of each thing.
const ROOM_FOR_MORE: usize = 50;

/// Writes the page.
pub(in crate::tui) fn body(looking: &Looking, page: &mut Page) {
    match (&looking.over, &looking.lookout) {
        (Some(Over::Trip(trip)), _) if trip.signing.is_some() => {
            sign::body(trip, looking.mode, page);
        }
        (Some(Over::Trip(trip)), _) => match trip.shown {
            Shown::Things => things(trip, page),
            Shown::Thing => thing(trip, page),
            Shown::Rest => rest(trip, page),
        },
        (Some(Over::Closed), Some(lookout)) => closed(lookout, page),
        (Some(Over::Trends(moving)), _) => trends::body(moving, page),
        _ => {}
    }
}

fn closed(lookout: &Lookout, page: &mut Page) {
    for trip in &lookout.closed {
        let found = format!("A trip is {}. See why with:", trip.finding);
        page.say(Rank::Needed, Ink::Strong, &escaped(&found));
        page.beneath(Rank::Needed, &escaped(&trip.why));
    }
}

fn things(trip: &Trip, page: &mut Page) {
    for already in &trip.told.already {
        page.say(Rank::Needed, Ink::Strong, &escaped(already));
    }
    if trip.things().is_empty() {
        let none = "Nothing in it was out of limits, put off, corrected, noted or looked at twice.";
        page.say(Rank::Needed, Ink::Body, none);
    }
    let things = trip.things().iter().enumerate();
    let lines: Vec<(String, Ink, String)> = things
        .map(|(place, thing)| {
            let word = if trip.is_looked_at(place) {
                "opened"
            } else {
                "to open"
            };
            let head = format!("{:>2} {word:<7}", place + 1);
            let more = if page.width() < ROOM_FOR_MORE {
                String::new()
            } else {
                and_more(thing)
            };
            let first = thing
                .told
                .first()
                .map_or(thing.named.as_str(), String::as_str);
            // Two rows of it are enough to know it by; opened, it is whole.
            let room = (page.width().saturating_sub(head.len() + 3) * 2).saturating_sub(more.len());
            let first = shorten(&escaped(first), room.max(8));
            (head, Ink::Body, first + &more)
        })
        .collect();
    if !lines.is_empty() {
        page.choices(&lines, Some(trip.marked));
    }
    page.say(Rank::Useful, Ink::Body, &escaped(&trip.next));
}

fn thing(trip: &Trip, page: &mut Page) {
    let Some(thing) = trip.things().get(trip.marked) else {
        return;
    };
    page.say(
        Rank::Needed,
        Ink::Strong,
        &capital(&escaped(thing.named.as_str())),
    );
    page.together(|page| {
        for line in &thing.told {
            page.say(Rank::Needed, Ink::Body, &escaped(line));
        }
    });
    for reading in trip.readings() {
        readings(&reading, page);
    }
}

fn rest(trip: &Trip, page: &mut Page) {
    let told = &trip.told;
    page.say(Rank::Needed, Ink::Body, &escaped(&trip.next));
    part(page, "What verification found", &told.tale.findings);
    part(page, "What managers said", &told.said);
    let timeline: Vec<String> = trip.timeline().collect();
    part(page, "How it went", &timeline);
    if !told.readings.is_empty() {
        page.say(Rank::Needed, Ink::Strong, "What was read");
        for reading in &told.readings {
            readings(&reading.told(), page);
        }
    }
    part(page, "Who signed", &told.tale.signatures);
    part(page, "The record", &told.tale.heading);
}

fn part(page: &mut Page, title: &str, lines: &[String]) {
    if lines.is_empty() {
        return;
    }
    page.say(Rank::Needed, Ink::Strong, title);
    page.together(|page| {
        for line in lines {
            page.say(Rank::Needed, Ink::Body, &escaped(line));
        }
    });
}

/// A reading, with its limit and those before it below.
fn readings(told: &[String], page: &mut Page) {
    let mut lines = told.iter();
    if let Some(first) = lines.next() {
        page.say(Rank::Needed, Ink::Body, &escaped(first));
    }
    for line in lines {
        page.beneath(Rank::Needed, &escaped(line));
    }
}
