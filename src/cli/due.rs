//! `hames due`: what is due for each rig today, and why.

use crate::cli::Status;
use crate::cli::amount::Amount;
use crate::cli::clerk::{Offer, Place, Stock, Trouble, left_by_walks};
use crate::cli::plan::{Barn, Named};
use crate::cli::rig::known;
use crate::cli::sitting::{no_rig, place, tell};
use crate::cli::supply::{NotFound, kept};
use crate::due::{Done, Due, due_by};
use crate::plain;
use crate::record::Mode;
use crate::rig::{Rig, demo};
use crate::rules::Verdict;
use crate::store::Local;
use crate::units::Quantity;
use crate::world::Clock;
use chrono::NaiveDate;
use serde::Serialize;
use std::io::{self, Write};

/// What is due, for which rigs.
#[derive(Clone, Debug, PartialEq)]
pub struct AboutDue {
    /// The rig: a file or an id; every rig on offer where none is named.
    pub rig: Option<Named>,
    /// The logbook whose rigs are known by their ids, where there is a folder for one.
    pub barn: Option<Barn>,
    /// The odometer of its truck today.
    pub odometer: Option<Quantity>,
    /// Whether JSON is written.
    pub json: bool,
}

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
    let stock = match stock(about) {
        Err(sentence) => {
            writeln!(err, "{sentence}")?;
            return Ok(Status::Store);
        }
        Ok(Err(not_found)) => return tell(&not_found, err),
        Ok(Ok(stock)) => stock,
    };
    for notice in &stock.notices {
        writeln!(err, "{notice}")?;
    }
    let place = match about.barn.as_ref().map(place).transpose() {
        Ok(place) => place,
        Err(sentence) => {
            writeln!(err, "{sentence}")?;
            return Ok(Status::Store);
        }
    };
    let day = Clock::of_this_machine().now().wall.date_naive();
    let mut stops = false;
    for (number, offer) in stock.rigs.iter().enumerate() {
        let done = match done_by(place.as_ref(), &offer.read) {
            Ok(done) => done,
            Err(trouble) => {
                writeln!(err, "{trouble}")?;
                return Ok(Status::Store);
            }
        };
        let odometer = about.odometer.as_ref();
        let due = due_by(stock.settings.tires, &offer.read, day, odometer, &done);
        stops |= due.iter().any(|one| one.verdict == Verdict::Stop);
        if about.json {
            json(about, offer, day, &due, out)?;
            continue;
        }
        if number > 0 {
            writeln!(out)?;
        }
        let invented = demo::is_invented(&offer.text);
        let report = plain::due_report(&offer.read, invented, day, odometer, &due);
        write!(out, "{report}")?;
    }
    Ok(if stops {
        Status::Findings
    } else {
        Status::Fine
    })
}

/// The settings and rigs of the logbook, or of the demo barn where there is none; of the rigs only
/// the one that is named, where one is. A sentence when the disk refuses or nothing is kept there.
fn stock(about: &AboutDue) -> Result<Result<Stock, NotFound>, String> {
    let place = about.barn.as_ref().map(place).transpose()?;
    let mut stock = match place.filter(|place| place.mode == Mode::Real) {
        None => Stock::demo(),
        Some(place) => {
            let kept = kept(&place.root);
            if kept.rigs.is_empty() && kept.notices.is_empty() && about.rig.is_none() {
                return Err(no_rig(&place));
            }
            kept
        }
    };
    if about.rig.is_some() {
        match known(about.rig.as_ref(), about.barn.as_ref())? {
            Err(not_found) => return Ok(Err(not_found)),
            Ok(offer) => stock.rigs = vec![offer],
        }
    }
    Ok(Ok(stock))
}

/// What the walks in the logbook have served on this rig.
fn done_by(place: Option<&Place>, rig: &Rig) -> Result<Vec<Done>, Trouble> {
    match place {
        Some(place) => Ok(left_by_walks(&Local, &place.root, &rig.id)?.served),
        None => Ok(Vec::new()),
    }
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
