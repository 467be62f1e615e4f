//! `hames due`: what is due for each rig today, and why.

use crate::cli::Status;
use crate::cli::amount::Amount;
use crate::cli::clerk::Offer;
use crate::cli::plan::AboutDue;
use crate::cli::rig::on_offer;
use crate::cli::sitting::tell;
use crate::due::{Done, Due, due};
use crate::plain;
use crate::rig::{Rig, demo};
use crate::rules::Verdict;
use crate::world::Clock;
use chrono::NaiveDate;
use serde::Serialize;
use std::io::{self, Write};

/// What is due for one rig, as JSON.
#[derive(Serialize)]
struct Told<'a> {
    schema: &'static str,
    rig: &'a str,
    name: &'a str,
    demo: bool,
    day: NaiveDate,
    #[serde(skip_serializing_if = "Option::is_none")]
    odometer: Option<Amount>,
    due: Vec<Item<'a>>,
}

/// One thing that is due.
#[derive(Serialize)]
struct Item<'a> {
    what: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    of: Option<&'a str>,
    verdict: &'static str,
    date: Option<NaiveDate>,
    days: Option<i64>,
    odometer: Option<Amount>,
    left: Option<Amount>,
    why: &'a str,
    authority: &'static str,
    source: &'a str,
}

/// Tells what is due. It ends with findings when something stops a rig.
pub(super) fn told(
    about: &AboutDue,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let offers = match on_offer(about.rig.as_ref(), about.barn.as_ref()) {
        Err(sentence) => {
            writeln!(err, "{sentence}")?;
            return Ok(Status::Store);
        }
        Ok(Err(not_found)) => return tell(&not_found, err),
        Ok(Ok(offers)) => offers,
    };
    let day = Clock::of_this_machine().now().wall.date_naive();
    let mut stops = false;
    for (place, offer) in offers.iter().enumerate() {
        let done = done_by(&offer.read);
        let due = due(&offer.read, day, about.odometer.as_ref(), &done);
        stops |= due.iter().any(|one| one.verdict == Verdict::Stop);
        if about.json {
            json(about, offer, day, &due, out)?;
            continue;
        }
        if place > 0 {
            writeln!(out)?;
        }
        let invented = demo::is_invented(&offer.text);
        let odometer = about.odometer.as_ref();
        let report = plain::due_report(&offer.read, invented, day, odometer, &due);
        write!(out, "{report}")?;
    }
    Ok(if stops {
        Status::Findings
    } else {
        Status::Fine
    })
}

/// What the walks in the logbook have served on this rig. None is looked at yet: until they are,
/// the rig file's own list is all that is known.
fn done_by(_rig: &Rig) -> Vec<Done> {
    Vec::new()
}

fn json(
    about: &AboutDue,
    offer: &Offer<Rig>,
    day: NaiveDate,
    due: &[Due],
    out: &mut dyn Write,
) -> io::Result<()> {
    let told = Told {
        schema: "hames-due/1",
        rig: &offer.read.id,
        name: &offer.read.name,
        demo: demo::is_invented(&offer.text),
        day,
        odometer: about.odometer.as_ref().map(Amount::of).transpose()?,
        due: due.iter().map(item).collect::<Result<_, _>>()?,
    };
    serde_json::to_writer(&mut *out, &told)?;
    writeln!(out)
}

fn item(due: &Due) -> Result<Item<'_>, serde_json::Error> {
    Ok(Item {
        what: &due.what,
        of: due.of.as_deref(),
        verdict: due.verdict.word(),
        date: due.when.date,
        days: due.when.days,
        odometer: due.when.odometer.as_ref().map(Amount::of).transpose()?,
        left: due.when.left.as_ref().map(Amount::of).transpose()?,
        why: &due.why,
        authority: due.basis.authority.word(),
        source: &due.basis.source,
    })
}
