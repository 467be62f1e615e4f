//! `hames checklist paper`: a checklist on a sheet, to be filled by hand.

use crate::checklist::{Checklist, Plan};
use crate::cli::Status;
use crate::cli::checklist::{Desk, Not};
use crate::cli::clerk::Offer;
use crate::cli::plan::{Barn, Named};
use crate::cli::rig::known;
use crate::desk::Approval;
use crate::paper::{Sheet, html, text};
use std::io::Write;

/// A sheet wanted.
pub(super) struct Wanted<'w> {
    pub(super) checklist: &'w Named,
    /// The only one of the logbook where none is named.
    pub(super) rig: Option<&'w Named>,
    pub(super) barn: Option<&'w Barn>,
    /// Whether a page is written, and no text.
    pub(super) html: bool,
}

pub(super) fn paper(desk: &Desk, wanted: &Wanted<'_>, out: &mut dyn Write) -> Result<Status, Not> {
    let offer = desk.found(wanted.checklist)?;
    let rig = known(wanted.rig, wanted.barn)
        .map_err(Not::Store)?
        .map_err(Not::Found)?;
    let standing = standing(desk, &offer);
    let plan = Plan::lay(offer.read, rig.read).map_err(|gaps| {
        let gaps: Vec<String> = gaps.iter().map(ToString::to_string).collect();
        Not::Meant(gaps.join("\n"))
    })?;
    let sheet = Sheet::of(&plan, desk.stock.settings.units, standing);
    let page = if wanted.html {
        html(&sheet)
    } else {
        text(&sheet)
    };
    write!(out, "{page}")?;
    Ok(Status::Fine)
}

fn standing(desk: &Desk, offer: &Offer<Checklist>) -> Option<&'static str> {
    match desk.standing(offer) {
        Approval::Unapproved => Some("UNAPPROVED: no manager has signed this list as it is"),
        Approval::Shipped | Approval::Approved { .. } => None,
    }
}
