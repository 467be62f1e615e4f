//! `hames rig`: every figure of a rig, as text or as JSON.

mod describe;
mod json;

pub(super) use describe::describe;

use crate::cli::clerk::{Offer, Place, Stock};
use crate::cli::plan::{AboutRig, Barn, Named, Way};
use crate::cli::sitting::{place, tell};
use crate::cli::supply::{self, NotFound};
use crate::cli::{Status, screens};
use crate::figures::Today;
use crate::plain;
use crate::record::Mode;
use crate::rig::{Rig, demo};
use std::io::{self, Write};

pub(super) fn rig(
    about: &AboutRig,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let offer = match known(about.rig.as_ref(), about.barn.as_ref()) {
        Err(sentence) => {
            writeln!(err, "{sentence}")?;
            return Ok(Status::Store);
        }
        Ok(Err(not_found)) => return tell(&not_found, err),
        Ok(Ok(offer)) => offer,
    };
    let invented = demo::is_invented(&offer.text);
    if about.look.way == Way::Screens && !about.json {
        let mode = if invented { Mode::Demo } else { Mode::Real };
        return Ok(screens::show_rig(
            &offer.read,
            &about.facts,
            mode,
            about.look,
            err,
        ));
    }
    let today = Today {
        rig: &offer.read,
        facts: &about.facts,
    };
    if about.json {
        json::write(today, out)?;
    } else {
        write!(out, "{}", plain::rig_report(today, invented))?;
    }
    Ok(Status::Fine)
}

/// The rig that is named, among those of this logbook and of the demo barn; where none is named,
/// as [`named`] has it. A sentence when the logbook's disk refuses.
pub(super) fn known(
    name: Option<&Named>,
    barn: Option<&Barn>,
) -> Result<Result<Offer<Rig>, NotFound>, String> {
    let place = barn.map(place).transpose()?;
    Ok(named(name, own(place.as_ref())))
}

/// The rigs a logbook keeps.
fn own(place: Option<&Place>) -> Vec<Offer<Rig>> {
    place
        .filter(|place| place.mode == Mode::Real)
        .map_or_else(Vec::new, |place| supply::rigs_kept(&place.root))
}

/// The rig that is named; else the only one of the logbook; where it keeps none, the demo barn's
/// first.
fn named(name: Option<&Named>, own: Vec<Offer<Rig>>) -> Result<Offer<Rig>, NotFound> {
    let demo = Stock::demo().rigs;
    if let Some(name) = name {
        return supply::rig(name, own.into_iter().chain(demo).collect());
    }
    let several: Vec<String> = own.iter().map(|offer| offer.read.id.clone()).collect();
    let only = if own.len() < 2 {
        own.into_iter().chain(demo).next()
    } else {
        None
    };
    only.ok_or(NotFound::Several(several))
}
