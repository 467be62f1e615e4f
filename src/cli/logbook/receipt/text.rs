//! The answer as text.

use super::{Answer, Found, Kept, Pruned};
use crate::cli::verify::{said, say};
use crate::desk::earlier;
use crate::logbook::{Sought, TripCounts};
use crate::record::{Finding, Sealed, Verified};
use std::io::{self, Write};

impl Answer<'_> {
    pub(super) fn as_text(&self, out: &mut dyn Write) -> io::Result<()> {
        let receipt = &self.receipt;
        match &self.sought {
            Sought::Nowhere => self.nowhere(out)?,
            Sought::To(_) => {
                let what = self.found.first().map_or("trip", Found::what);
                writeln!(out, "The receipt {receipt} is of this {what}:")?;
            }
            Sought::Several(_) => writeln!(
                out,
                "The receipt {receipt} is of several different trips or drills. Ask for the day and who \
                 signed, and tell them apart by these:"
            )?,
        }
        for found in &self.found {
            match found {
                Found::Kept(kept) => kept.tell(out)?,
                Found::Pruned(pruned) => pruned.tell(out)?,
            }
        }
        for fault in &self.unread {
            writeln!(out, "not looked at: {fault}")?;
        }
        Ok(())
    }

    fn nowhere(&self, out: &mut dyn Write) -> io::Result<()> {
        let places = self.places.iter().map(|place| place.display().to_string());
        let places: Vec<String> = places.collect();
        let seals = match self.seals {
            0 => "there is no seal at all".to_owned(),
            1 => "1 seal was looked at".to_owned(),
            seals => format!("{seals} seals were looked at"),
        };
        writeln!(
            out,
            "No seal in {} has the receipt {}; {seals}. Its check characters agree, so it \
             was read rightly: its trip or drill lies in another logbook, or has not been copied here yet.",
            places.join(", "),
            self.receipt
        )
    }
}

impl Found<'_> {
    /// What it is of.
    fn what(&self) -> &'static str {
        match self {
            Self::Kept(kept) if kept.section.lot.drills => "drill",
            Self::Kept(_) | Self::Pruned(_) => "trip",
        }
    }
}

impl Kept<'_> {
    fn tell(&self, out: &mut dyn Write) -> io::Result<()> {
        if let Some(trip) = self.read.as_ref().and_then(|read| read.trip()) {
            heading(trip, out)?;
            for told in self.countersigns(trip) {
                say(out, &format!("  {told}"))?;
            }
        }
        if let Some(ended) = self.ended() {
            say(out, &format!("  {ended}"))?;
        }
        say(out, &format!("  verified: {}", self.finding()))?;
        for fault in self.faults() {
            say(out, &format!("    {fault}"))?;
        }
        for (finding, what) in self.beside() {
            match finding {
                Finding::Intact => say(out, &format!("  beside it: {what}"))?,
                finding => say(out, &format!("  beside it, {finding}: {what}"))?,
            }
        }
        if let Some(line) = self.line() {
            for mark in self.section.marks_of(line) {
                say(out, &format!("  marked, {}", mark.told()))?;
            }
            say(out, &format!("  in {}", line.folder.path.display()))?;
        }
        Ok(())
    }

    /// What managers said of it.
    fn countersigns(&self, trip: &Verified) -> Vec<String> {
        let Some(sealed) = trip.sealed() else {
            return Vec::new();
        };
        let countersigns = self.section.judged.countersigns(&sealed.hash);
        // Nobody is asked to countersign a drill.
        if countersigns.is_empty() && !self.section.lot.drills {
            return vec!["no manager has countersigned it".to_owned()];
        }
        countersigns.iter().map(said).collect()
    }
}

/// Which trip it is, who signed it, and how much it holds.
fn heading(trip: &Verified, out: &mut dyn Write) -> io::Result<()> {
    let begun = trip.begun();
    let what = begun.what();
    writeln!(
        out,
        "  {what} {} of {}, {} record",
        begun.seq, begun.device, begun.mode
    )?;
    writeln!(
        out,
        "  rig {}, checklist {}",
        begun.rig.id, begun.checklist.id
    )?;
    writeln!(out, "  begun {}", earlier::date(&trip.at().wall))?;
    if let Some(Sealed { seal, .. }) = trip.sealed() {
        writeln!(
            out,
            "  ended {}: {}, signed by {}, {}",
            earlier::date(&seal.wall.moment()),
            seal.outcome.word().replace('-', " "),
            seal.name,
            seal.role
        )?;
    }
    writeln!(out, "  {}", TripCounts::of(trip))
}

impl Pruned<'_> {
    fn tell(&self, out: &mut dyn Write) -> io::Result<()> {
        let Self {
            stub,
            by,
            faults,
            ended,
        } = self;
        writeln!(
            out,
            "  trip {} of {}\n  its record is here no more: {} pruned it by statement {}, {}, \
             which keeps its seal",
            stub.seq,
            stub.device,
            by.name,
            by.number,
            earlier::date(&by.wall.moment())
        )?;
        if let Some(ended) = ended {
            writeln!(out, "  {ended}")?;
        }
        for fault in faults {
            writeln!(out, "  {}: {fault}", fault.finding())?;
        }
        Ok(())
    }
}
