//! What people signed for the whole barn: crew files, approvals.

use crate::cli::Status;
use crate::cli::logbook::merge::Stopped;
use crate::cli::logbook::merge::{Merge, Open};
use crate::logbook::merge::{Assembled, Awaited, What, Why};
use crate::record::{Digest, Revision, Roster, approved};
use crate::store::{Disk, StoreFault};

impl<D: Disk> Merge<D> {
    /// Whether what was brought is of this barn, and counts as this logbook does.
    pub(super) fn is_of_this_barn(&self) -> Result<(), Stopped> {
        let refused = |sentence| {
            Err(Stopped {
                status: Status::Findings,
                sentence,
            })
        };
        let mut modes = self.brought.modes().peekable();
        if let Some(first) = modes.peek().copied()
            && modes.all(|mode| mode != self.mode)
            && !self.brought.shares_records
        {
            return refused(format!(
                "{} holds {first} records and this is a {} logbook; they are not mixed. Nothing \
                 was taken. Name the {first} logbook with --logbook to merge it there.",
                self.merged.from.display(),
                self.mode
            ));
        }
        let mut crews = self.brought.pile.crews().peekable();
        let strange = crews.peek().is_some() && !crews.any(|crew| self.trusted.is_kin(crew));
        if strange && !self.brought.shares {
            return refused(format!(
                "{} is of another barn: no laptop of its crew file is in the crew here. Nothing \
                 was taken. If it is of this barn, have the manager add that laptop to the crew, \
                 or bring the crew file in force, then merge again.",
                self.merged.from.display()
            ));
        }
        Ok(())
    }

    /// What earlier merges could not use may have its other half now.
    pub(super) fn take_up_what_is_aside(&mut self) -> Result<(), StoreFault> {
        self.brought.take_up(&self.books.logbook)
    }

    /// Takes approvals that a manager signed by a crew file that counts here.
    pub(super) fn approvals(&mut self, parts: &Assembled) -> Result<(), StoreFault> {
        for signed in &parts.approvals {
            let Some(piece) = self.brought.pile.get(signed.file) else {
                continue;
            };
            let What::Approval(approval) = &piece.what else {
                continue;
            };
            if approval.mode != self.mode {
                let (found, mode) = (approval.mode, self.mode);
                let why = Why::OtherMode { found, mode };
                self.refused.insert(approval.hash, why.clone());
                for piece in [&[signed.file], signed.signatures.as_slice()].concat() {
                    self.aside(piece, &why)?;
                }
                continue;
            }
            let (approval, bytes) = (approval.clone(), piece.bytes.clone());
            let signatures = self.small(&signed.signatures);
            let checklist = self.brought.text(&self.books.logbook, &approval.hash)?;
            let Some(checklist) = checklist else {
                self.aside(signed.file, &Why::Waits(Awaited::Checklist))?;
                for (signature, _) in &signatures {
                    self.aside(*signature, &Why::Waits(Awaited::Checklist))?;
                }
                continue;
            };
            let counts = signatures.iter().find(|(_, armor)| {
                let armor = String::from_utf8_lossy(armor);
                let mut crews = self.trusted.crews();
                crews.any(|crew| approved(crew, self.mode, &checklist, (&bytes, &armor)).is_ok())
            });
            let Some((_, signature)) = counts else {
                let why = if signatures.is_empty() {
                    Why::Waits(Awaited::Signatures)
                } else {
                    Why::Waits(Awaited::Crew)
                };
                self.aside(signed.file, &why)?;
                for (signature, _) in &signatures {
                    self.aside(*signature, &why)?;
                }
                continue;
            };
            let new = self.books.logbook.take_approval(
                (&approval.checklist, &approval.hash),
                &checklist,
                (&bytes, signature),
                self.look,
            )?;
            self.placed.insert(approval.hash);
            if new {
                self.merged.approvals.push(format!(
                    "the approval of {} by {}",
                    approval.checklist, approval.name
                ));
            }
        }
        Ok(())
    }

    /// Small pieces with their bytes.
    pub(super) fn small(&self, pieces: &[usize]) -> Vec<(usize, Vec<u8>)> {
        let read = |at: &usize| Some((*at, self.brought.pile.get(*at)?.bytes.clone()));
        pieces.iter().filter_map(read).collect()
    }

    /// Puts the crew file in force that the roster leads to from the one here.
    pub(super) fn crew(&mut self) -> Result<(), StoreFault> {
        let roster = self.statements.roster();
        let here = self.books.crew.revision();
        if let Some(in_force) = roster.in_force().filter(|one| one.crew.revision() != here) {
            if let Some(own) = self.before(&here, in_force) {
                if !self.look {
                    let bytes = in_force.crew.text().as_bytes();
                    self.books.logbook.replace_crew(bytes)?;
                }
                let ended = (!leads(roster, &here, in_force)).then(|| {
                    format!(
                        " The one that was here, {} of {}, ended when two that managers signed \
                         apart were settled; it is kept with that statement.",
                        own.change.number, own.by
                    )
                });
                let is = if self.look { "would be" } else { "is" };
                self.merged.crew = Some(format!(
                    "Crew file {} {is} in force now, signed by {}. Compare with your manager: {}{}",
                    in_force.change.number,
                    in_force.by,
                    in_force.crew.revision(),
                    ended.map(|told| format!(".{told}")).unwrap_or_default()
                ));
            } else if roster.crew(&here).is_none() {
                self.merged.open.push(Open::Crew(
                    "The crew file here is none of those that managers signed, so it stays. \
                     Ask the manager which one is in force."
                        .to_owned(),
                ));
            }
        }
        let faults = self.statements.faults().iter();
        let faults = faults.map(|fault| Open::Statement(fault.clone()));
        self.merged.open.extend(faults);
        Ok(())
    }

    /// The crew file here, where the one in force stands behind it: it was put in its place, or
    /// settled a fork of which this is the branch that ended.
    fn before(&self, here: &Digest, in_force: &Revision) -> Option<&Revision> {
        let behind = self.statements.behind(&in_force.statement);
        let mut all = self.statements.roster().revisions().iter();
        all.find(|one| one.crew.revision() == *here && behind.contains(&one.statement))
    }
}

/// Whether the roster leads from the crew file here to that one, step by step, each signed by a
/// manager of the one before.
fn leads(roster: &Roster, here: &Digest, to: &Revision) -> bool {
    let mut at = Some(to);
    while let Some(one) = at {
        if one.crew.revision() == *here {
            return true;
        }
        let before = one.change.before;
        at = roster
            .revisions()
            .iter()
            .find(|earlier| Some(earlier.statement) == before);
    }
    false
}
