//! What earlier walks left open of each rig, on the first screen and before a walk begins.

use crate::desk::RigCard;
use crate::tui::page::{Page, Rank};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;

/// What stands open of a rig among others: what keeps it off the road, and the rest in one line.
pub(super) fn in_short(rig: &RigCard, page: &mut Page) {
    tell(rig, Rank::Needed, page, |page| {
        if let Some(line) = &rig.in_short {
            page.item(Rank::Needed, "Left open:", Ink::Body, &escaped(line));
        }
    });
}

/// Everything that stands open of a rig. What is asked below stays in sight in a small window.
pub(super) fn in_full(rig: &RigCard, page: &mut Page) {
    tell(rig, Rank::Wanted, page, |page| {
        let notes = rig.defects.iter().filter(|defect| !defect.blocks);
        for line in rig.open.iter().chain(notes.map(|defect| &defect.told)) {
            page.item(Rank::Useful, "-", Ink::Body, &escaped(line));
        }
    });
}

fn tell(rig: &RigCard, rank: Rank, page: &mut Page, rest: impl FnOnce(&mut Page)) {
    if rig.open.is_empty() && rig.defects.is_empty() {
        return;
    }
    let title = format!("{}, from earlier walks", rig.name);
    page.together(|page| {
        page.say(rank, Ink::Strong, &escaped(&title));
        for defect in rig.defects.iter().filter(|defect| defect.blocks) {
            page.item(rank, "OFF THE ROAD:", Ink::Strong, &escaped(&defect.told));
        }
        rest(page);
    });
}
