//! `hames due`: what is due for each rig today, and why.

use crate::cli::Status;
use crate::cli::amount::Amount;
use crate::cli::clerk::{Clerk, DueToday, Offer, Place, Stock};
use crate::cli::plan::{Barn, Named};
use crate::cli::rig::known;
use crate::cli::sitting::{no_rig, place, tell};
use crate::cli::supply::{NotFound, kept};
use crate::due::{Due, Odometer, Whence};
use crate::plain;
use crate::record::Mode;
use crate::rig::{Rig, demo};
use crate::rules::Verdict;
use crate::store::Local;
use crate::units::Quantity;
use crate::world::{Machine, World};
use chrono::NaiveDate;
use serde::Serialize;
use std::collections::BTreeSet;
use std::io::{self, Write};
use std::path::PathBuf;

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
    reckoned_from: Option<ReckonedFrom<'a>>,
    due: Vec<Item<'a>>,
    /// What earlier walks left open.
    open: &'a [String],
    /// Whether something found bad keeps the rig off the road.
    off_the_road: bool,
    /// What earlier walks found bad.
    defects: Vec<&'a str>,
}

/// The odometer from which the distance that is left is reckoned.
#[derive(Serialize)]
pub(in crate::cli) struct ReckonedFrom<'a> {
    odometer: Amount,
    on: NaiveDate,
    /// Who read it; of the rig file's and of what was told, nobody.
    by: Option<&'a str>,
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
    let (place, stock) = match stock(about) {
        Err(sentence) => {
            writeln!(err, "{sentence}")?;
            return Ok(Status::Store);
        }
        Ok(Err(not_found)) => return tell(&not_found, err),
        Ok(Ok(known)) => known,
    };
    for notice in &stock.notices {
        writeln!(err, "{notice}")?;
    }
    let machine = Machine::this();
    let (day, odometer) = (machine.now().wall.date_naive(), about.odometer.as_ref());
    let rigs = stock.rigs.clone();
    let mut clerk = Clerk::new(Local, machine, place, stock);
    let (mut stops, mut told) = (false, BTreeSet::new());
    for (number, offer) in rigs.iter().enumerate() {
        let today = match clerk.due(&offer.read, odometer) {
            Ok(today) => today,
            Err(trouble) => {
                writeln!(err, "{trouble}")?;
                return Ok(Status::Store);
            }
        };
        for notice in &today.notices {
            if told.insert(notice.clone()) {
                writeln!(err, "{notice}")?;
            }
        }
        stops |= today.due.iter().any(|one| one.verdict == Verdict::Stop)
            || today.defects.iter().any(|defect| defect.blocks);
        if about.json {
            json(about, offer, day, &today, out)?;
            continue;
        }
        if number > 0 {
            writeln!(out)?;
        }
        let invented = demo::is_invented(&offer.text);
        let defects = today.defects.iter().map(|defect| {
            let off = if defect.blocks { "OFF THE ROAD. " } else { "" };
            format!("{off}{}", defect.told)
        });
        let walks: Vec<String> = defects.chain(today.open.iter().cloned()).collect();
        let report = plain::due_report(
            &offer.read,
            invented,
            (day, today.odometer.as_ref()),
            &today.due,
            &walks,
        );
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
fn stock(about: &AboutDue) -> Result<Result<(Place, Stock), NotFound>, String> {
    // Without a folder for a logbook there is none to look into.
    let nowhere = Place {
        root: PathBuf::new(),
        mode: Mode::Demo,
    };
    let place = about.barn.as_ref().map_or(Ok(nowhere), place)?;
    let mut stock = if place.mode == Mode::Real {
        let kept = kept(&place.root);
        if kept.rigs.is_empty() && kept.notices.is_empty() && about.rig.is_none() {
            return Err(no_rig(&place));
        }
        kept
    } else {
        Stock::demo()
    };
    if about.rig.is_some() {
        match known(about.rig.as_ref(), about.barn.as_ref())? {
            Err(not_found) => return Ok(Err(not_found)),
            Ok(offer) => stock.rigs = vec![offer],
        }
    }
    Ok(Ok((place, stock)))
}

fn json(
    about: &AboutDue,
    offer: &Offer<Rig>,
    day: NaiveDate,
    today: &DueToday,
    out: &mut dyn Write,
) -> io::Result<()> {
    let told = Told {
        schema: "hames-due/1",
        rig: &offer.read.id,
        name: &offer.read.name,
        demo: demo::is_invented(&offer.text),
        day,
        odometer: about.odometer.as_ref().map(Amount::of).transpose()?,
        reckoned_from: today
            .odometer
            .as_ref()
            .map(|from| reckoned_from(from, day))
            .transpose()?,
        due: today.due.iter().map(item).collect::<Result<_, _>>()?,
        open: &today.open,
        off_the_road: today.defects.iter().any(|defect| defect.blocks),
        defects: today
            .defects
            .iter()
            .map(|defect| defect.told.as_str())
            .collect(),
    };
    serde_json::to_writer(&mut *out, &told)?;
    writeln!(out)
}

/// The same as JSON.
pub(in crate::cli) fn reckoned_from(
    from: &Odometer,
    today: NaiveDate,
) -> Result<ReckonedFrom<'_>, serde_json::Error> {
    let (on, by) = match from {
        Odometer::Today(_) => (today, None),
        Odometer::Written(_, Whence::File(on)) => (*on, None),
        Odometer::Written(_, Whence::Walk(on, by)) => (*on, Some(by.as_str())),
    };
    Ok(ReckonedFrom {
        odometer: Amount::of(from.shown())?,
        on,
        by,
    })
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
