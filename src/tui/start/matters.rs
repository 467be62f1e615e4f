//! What stands open and is due for a rig: the gravest on its page, everything on a page of its own,
//! and what earlier walks left before a walk begins.

use crate::desk::{Matter, RigCard};
use crate::tui::page::{Page, Rank};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;

/// The gravest of what stands open and is due, in so many rows; the first of it always.
pub(super) fn gravest(rig: &RigCard, rows: usize, page: &mut Page) {
    let matters = rig.matters();
    if matters.is_empty() {
        return page.say(
            Rank::Wanted,
            Ink::Body,
            "Nothing is open or known to be due.",
        );
    }
    let mut left = rows;
    let fits = |(at, matter): &(usize, &Matter)| {
        let more = usize::from(at + 1 < matters.len());
        let needed = page.rows_of(head(matter), &escaped(&matter.told));
        let fits = *at == 0 || needed + more <= left;
        left = left.saturating_sub(needed);
        fits
    };
    let shown = matters.iter().enumerate().take_while(fits).count();
    page.together(|page| {
        for matter in matters.iter().take(shown) {
            tell(matter, page);
        }
        if let Some(more) = matters.len().checked_sub(shown).filter(|more| *more > 0) {
            let text = format!("{more} more, and why: o");
            page.item(Rank::Wanted, "-", Ink::Dim, &text);
        }
    });
}

/// Everything that stands open and is due, with why.
pub(super) fn all(rig: &RigCard, page: &mut Page) {
    let title = format!("{}: what is open and due", rig.name);
    page.say(Rank::Needed, Ink::Strong, &escaped(&title));
    for matter in rig.matters() {
        page.item(
            Rank::Needed,
            head(&matter),
            Ink::Body,
            &escaped(&matter.told),
        );
        if let Some(why) = &matter.why {
            page.beneath(Rank::Needed, &escaped(why));
        }
    }
}

/// What earlier walks left open, and whatever keeps the rig off the road. What is asked below stays
/// in sight in a small window.
pub(super) fn earlier(rig: &RigCard, page: &mut Page) {
    let mut matters = rig.matters();
    matters.retain(|matter| matter.bars || matter.why.is_none());
    if matters.is_empty() {
        return;
    }
    let title = format!("{}, from earlier walks", rig.name);
    let barred = matters.iter().any(|matter| matter.bars);
    let rank = if barred { Rank::Wanted } else { Rank::Useful };
    page.together(|page| {
        page.say(rank, Ink::Strong, &escaped(&title));
        for matter in &matters {
            let rank = if matter.bars { rank } else { Rank::Useful };
            page.item(rank, head(matter), ink(matter), &escaped(&matter.told));
        }
    });
}

fn tell(matter: &Matter, page: &mut Page) {
    let rank = if matter.bars {
        Rank::Needed
    } else {
        Rank::Wanted
    };
    page.item(rank, head(matter), ink(matter), &escaped(&matter.told));
}

fn head(matter: &Matter) -> &'static str {
    if matter.bars { "OFF THE ROAD:" } else { "-" }
}

fn ink(matter: &Matter) -> Ink {
    if matter.bars { Ink::Strong } else { Ink::Body }
}
