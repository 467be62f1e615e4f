//! What the trips and statements judged together come to.

use crate::cli::verify::copies::Stray;
use crate::cli::verify::line::Line;
use crate::cli::verify::lot::Lot;
use crate::logbook::order::{Judged, OrderFault};
use crate::record::{Finding, PrintedName, Stated, StatementFault};

/// A lot, judged.
pub(super) struct Section<'l> {
    pub(super) lot: &'l Lot,
    pub(super) lines: Vec<Line>,
    pub(super) judged: Judged<'l>,
    pub(super) strays: Vec<Stray>,
    /// Whether it is of whole logbooks, so that something can be missing.
    pub(super) whole: bool,
}

impl Section<'_> {
    /// What is gravest.
    pub(super) fn finding(&self) -> Finding {
        let trips = self.lines.iter().map(|line| line.finding(&self.judged));
        let order = self.judged.faults.iter().map(OrderFault::finding);
        let strays = self.strays.iter().map(|stray| stray.finding);
        let stated = self.stated().into_iter().map(|(finding, _)| finding);
        let worst = trips.chain(order).chain(strays).chain(stated).max();
        worst.unwrap_or(Finding::Intact)
    }

    /// What is wrong with the statements and the crew file.
    pub(super) fn stated(&self) -> Vec<(Finding, String)> {
        if !self.whole {
            return Vec::new();
        }
        let faults = self.lot.statements.faults().iter();
        let told = faults.map(|fault| {
            let at = match fault {
                StatementFault::Unreadable { at, .. } | StatementFault::OtherMode { at, .. } => {
                    self.lot.place(*at)
                }
                _ => None,
            };
            let at = at.map_or_else(String::new, |path| format!("{}: ", path.display()));
            (fault.finding(), format!("{at}{fault}"))
        });
        told.chain(self.lot.odd.iter().cloned()).collect()
    }

    /// The newest statement of each manager. What came after it leaves no gap.
    pub(super) fn newest_stated(&self) -> Vec<(&PrintedName, u64)> {
        let statements = &self.lot.statements;
        let newest = |stated: &&Stated| {
            let manager = &stated.statement().manager;
            let newest = statements.newest_of(manager);
            newest.is_some_and(|newest| newest.hash() == stated.hash())
        };
        let newest = statements.stated().iter().filter(newest);
        let told = newest.map(|stated| (&stated.statement().name, stated.statement().number));
        if self.whole {
            told.collect()
        } else {
            Vec::new()
        }
    }
}
