//! `hames weigh`: tickets of a truck scale to tongue weight, its share, and what is left of each
//! rating.

mod json;
mod typed;

pub(super) use typed::{NotTyped, TypedTickets};

use crate::cli::Status;
use crate::cli::clerk::Offer;
use crate::cli::plan::{Joined, TicketsFrom, Weighing};
use crate::cli::rig::known;
use crate::cli::sitting::tell;
use crate::figures::weighing::Tickets;
use crate::plain::{self, Options, Stop, Talk};
use crate::rig::{HitchKind, Rig, demo};
use crate::units::Quantity;
use std::io::{self, BufRead, Write};

/// Weighs by the tickets typed behind the flags, or asks for them.
pub(super) fn weigh(
    about: &Weighing,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let joined = match &about.from {
        TicketsFrom::Typed(joined, _) => Some(joined),
        TicketsFrom::Asked(joined) => joined.as_ref(),
    };
    let rig = match joined {
        Some(Joined::As(named)) => match known(Some(named), about.barn.as_ref()) {
            Err(sentence) => {
                writeln!(err, "{sentence}")?;
                return Ok(Status::Store);
            }
            Ok(Err(not_found)) => return tell(&not_found, err),
            Ok(Ok(offer)) => Some(offer),
        },
        _ => None,
    };
    let kind = match (&rig, joined) {
        (Some(offer), _) => Some(offer.read.kind()),
        (None, Some(Joined::By(kind))) => Some(*kind),
        (None, _) => None,
    };
    let tickets = match (&about.from, kind) {
        (TicketsFrom::Typed(_, typed), Some(kind)) => typed.of(kind),
        _ => match asked(about, kind, input, out)? {
            Some(tickets) => tickets,
            None => return Ok(Status::Usage),
        },
    };
    told(about, rig.as_ref(), &tickets, out)
}

fn told(
    about: &Weighing,
    rig: Option<&Offer<Rig>>,
    tickets: &Tickets,
    out: &mut dyn Write,
) -> io::Result<Status> {
    let weighed = tickets.weighed();
    let status = if weighed.is_ok() {
        Status::Fine
    } else {
        Status::Findings
    };
    let left = match (&weighed, rig) {
        (Ok(weighed), Some(rig)) => tickets.left_of(weighed, &rig.read),
        _ => Vec::new(),
    };
    if about.json {
        let rig = rig.map(|offer| offer.read.id.as_str());
        json::write(rig, weighed.as_ref().map_err(Vec::as_slice), &left, out)?;
        return Ok(status);
    }
    if let Some(offer) = rig {
        writeln!(out, "{}", offer.read.name)?;
        if demo::is_invented(&offer.text) {
            writeln!(out, "DEMO. Every number of this rig is invented.")?;
        }
        writeln!(out)?;
    }
    if let TicketsFrom::Typed(_, typed) = &about.from
        && let Some(step) = typed.unsaid_step()
    {
        writeln!(out, "{}", taken(&step))?;
    }
    match &weighed {
        Ok(weighed) => write!(
            out,
            "{}",
            plain::weighed_report(weighed, tickets.kind, &left)
        )?,
        Err(refused) => write!(out, "{}", plain::refused_report(refused))?,
    }
    Ok(status)
}

/// That a step is taken which nobody typed.
fn taken(step: &Quantity) -> String {
    format!(
        "The scale's step is taken as {step}: common practice, no source. --step says another.\n"
    )
}

/// The tickets as they were typed, one after the other; none when the input ended.
fn asked(
    about: &Weighing,
    kind: Option<HitchKind>,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
) -> io::Result<Option<Tickets>> {
    let options = Options {
        ascii: about.look.ascii,
        ..Options::default()
    };
    let mut talk = Talk::new(input, out, options);
    let ended = match plain::ask_tickets(&mut talk, kind) {
        Ok(tickets) => {
            talk.say("")?;
            return Ok(Some(tickets));
        }
        Err(ended) => ended,
    };
    if let Stop::Broken(error) = ended {
        return Err(error);
    }
    talk.head("The input has ended. Nothing was reckoned.")?;
    Ok(None)
}
