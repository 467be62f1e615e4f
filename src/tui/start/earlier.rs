//! What earlier walks left open of each rig, on the first screen and before a walk begins.

use crate::desk::RigCard;
use crate::tui::page::{Page, Rank};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;

/// Most lines of a rig that only remind, on a screen that is about all rigs.
const MOST: usize = 2;

/// What stands open of a rig among others: what keeps it off the road whole, of the rest the first
/// lines.
pub(super) fn in_short(rig: &RigCard, page: &mut Page) {
    tell(rig, MOST, Rank::Needed, page);
}

/// Everything that stands open of a rig. What is asked below stays in sight in a small window.
pub(super) fn in_full(rig: &RigCard, page: &mut Page) {
    tell(rig, usize::MAX, Rank::Wanted, page);
}

fn tell(rig: &RigCard, most: usize, graver: Rank, page: &mut Page) {
    let (blocks, notes): (Vec<_>, Vec<_>) = rig.defects.iter().partition(|defect| defect.blocks);
    let notes = notes.iter().map(|defect| &defect.told);
    let reminds: Vec<&String> = rig.open.iter().chain(notes).collect();
    if blocks.is_empty() && reminds.is_empty() {
        return;
    }
    let title = format!("{}, from earlier walks", rig.name);
    let rank = if blocks.is_empty() {
        Rank::Useful
    } else {
        graver
    };
    page.together(|page| {
        page.say(rank, Ink::Strong, &escaped(&title));
        for defect in blocks {
            page.item(rank, "OFF THE ROAD:", Ink::Strong, &escaped(&defect.told));
        }
        for line in reminds.iter().take(most) {
            page.item(Rank::Useful, "-", Ink::Body, &escaped(line));
        }
        let more = reminds.len().saturating_sub(most);
        if more > 0 {
            let text = format!("and {more} more, told before a walk begins");
            page.item(Rank::Useful, "-", Ink::Body, &text);
        }
    });
}
