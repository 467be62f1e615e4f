//! What the trips and statements judged together come to.

use crate::cli::lot::{Line, Lot, Stray};
use crate::logbook::ClockMark;
use crate::logbook::order::{Judged, OrderFault};
use crate::record::{Finding, PrintedName, Stated, StatementFault, counted};

/// A lot, judged.
pub(in crate::cli) struct Section<'l> {
    pub(in crate::cli) lot: &'l Lot,
    pub(in crate::cli) lines: Vec<Line>,
    pub(in crate::cli) judged: Judged<'l>,
    /// Of one trip: what the order says of those next to it.
    pub(in crate::cli) beside: Vec<OrderFault>,
    /// Where clocks do not agree with themselves or with everything else known. They are no
    /// findings.
    pub(in crate::cli) marks: Vec<ClockMark>,
    pub(in crate::cli) strays: Vec<Stray>,
    /// Whether it is of whole logbooks, so that something can be missing.
    pub(in crate::cli) whole: bool,
}

impl Section<'_> {
    /// What is gravest.
    pub(in crate::cli) fn finding(&self) -> Finding {
        let trips = self.lines.iter().map(|line| line.finding(&self.judged));
        let order = self.judged.faults.iter().map(OrderFault::finding);
        let strays = self.strays.iter().map(|stray| stray.finding);
        let stated = self.stated().into_iter().map(|(finding, _)| finding);
        let worst = trips.chain(order).chain(strays).chain(stated).max();
        worst.unwrap_or(Finding::Intact)
    }

    /// How many trips it has, or drills.
    pub(in crate::cli) fn count(&self) -> String {
        let of = if self.lot.drills { "drill" } else { "trip" };
        match self.lines.len() {
            0 => format!("no {of}"),
            count => counted(count, of),
        }
    }

    /// Keeps what is told of the one trip asked for, and what is told of those next to it.
    pub(super) fn narrow(&mut self, sent: bool) {
        let Self {
            lines,
            judged,
            beside,
            marks,
            ..
        } = self;
        let near = |fault: &&OrderFault| lines.iter().any(|line| line.is_beside(fault));
        *beside = judged.faults.iter().filter(near).cloned().collect();
        // Beside a trip that was sent alone nobody looks for statements.
        let looked_for =
            |fault: &OrderFault| !(sent && matches!(fault, OrderFault::Statement { .. }));
        let told = |fault: &OrderFault| lines.iter().any(|line| line.is_told_by(fault));
        judged
            .faults
            .retain(|fault| told(fault) && looked_for(fault));
        judged.notes.clear();
        marks.retain(|mark| lines.iter().any(|line| line.is_marked_by(mark)));
    }

    /// The marks of the clock in one trip.
    pub(in crate::cli) fn marks_of(&self, line: &Line) -> impl Iterator<Item = &ClockMark> {
        self.marks.iter().filter(|mark| line.is_marked_by(mark))
    }

    /// What is wrong with the statements and the crew file.
    pub(in crate::cli) fn stated(&self) -> Vec<(Finding, String)> {
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
    pub(in crate::cli) fn newest_stated(&self) -> Vec<(&PrintedName, u64)> {
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
