//! Changing the crew: a manager's statement that puts another crew file in force.

use crate::cli::clerk::pen::Pen;
use crate::cli::clerk::{Books, Clerk, Trouble};
use crate::desk::Consent;
use crate::record::{
    Crew, CrewAct, CrewChange, CrewNow, Digest, Id, Mode, NextCrew, NotChanged, Revision, Role,
    Roster, Says, Signer, Stated, StatementFault, Statements,
};
use crate::store::{Disk, StatementFolder};
use crate::walk::Moment;
use std::collections::HashSet;

/// A crew file that was put in force.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PutInForce {
    /// Its place in the roster.
    pub number: u64,
    /// Its plain hash.
    pub file: Digest,
    /// The statement.
    pub folder: StatementFolder,
    /// Whether the logbook had no roster before.
    pub first: bool,
}

impl<D: Disk> Clerk<D> {
    /// The crew in force, with everything managers stated. Where a crash left the file before in
    /// `crew/`, the one in force is put there.
    ///
    /// # Errors
    /// A sentence, where the crew cannot be changed before something is settled.
    pub fn crew(&self) -> Result<(Books<D>, Statements), Trouble> {
        let (books, statements) = self.crew_agreed_on()?;
        let fork = |fault: &&StatementFault| matches!(fault, StatementFault::RosterFork { .. });
        if let Some(fork) = statements.faults().iter().find(fork) {
            return Err(Trouble::Said(format!(
                "Nothing is signed for the crew or the logbook: {fork}"
            )));
        }
        Ok((books, statements))
    }

    /// The same, also while two changes of the crew wait to be settled: by the last crew file that
    /// everyone agrees on.
    ///
    /// # Errors
    /// A sentence, where no manager has signed for the crew file here.
    pub(super) fn crew_agreed_on(&self) -> Result<(Books<D>, Statements), Trouble> {
        let mut books = self.books()?;
        let statements = books.statements()?;
        let Some(now) = statements.roster().in_force() else {
            return Ok((books, statements));
        };
        if now.crew.revision() != books.crew.revision() {
            if let Some(not) = books.not_in_force(&statements)
                && not.is_unsigned()
            {
                return Err(not.told("Nothing is signed by this crew file"));
            }
            if statements.roster().branches().is_empty() {
                books.logbook.replace_crew(now.crew.text().as_bytes())?;
            }
            books.crew = now.crew.clone();
        }
        Ok((books, statements))
    }

    /// What the crew would be after this change.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn next_crew(&self, by: &Id, act: &CrewAct) -> Result<NextCrew, Trouble> {
        let (books, statements) = self.crew()?;
        if let CrewAct::Retire(who, _) = act
            && let Some(apart) = apart(&statements, Some(who))
        {
            return Err(Trouble::Said(format!(
                "Nobody is retired before that is joined, or what they signed on one of the two \
                 would count for nothing: {apart}."
            )));
        }
        let crew = completed(&books.crew, books.mode())?;
        Ok(now(&crew, statements.roster(), books.mode()).next(act, by)?)
    }

    /// Puts the changed crew in force. In a logbook from before there were rosters the crew file
    /// as it stands is put in force first, so that what was signed by it stands.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn change_crew(
        &self,
        manager: &Signer,
        consent: &Consent,
        act: &CrewAct,
    ) -> Result<PutInForce, Trouble> {
        // Whatever refuses it does so before anything is signed.
        self.next_crew(&manager.id, act)?;
        let first = self.put_first_in_force(manager, consent)?;
        let (books, statements) = self.crew()?;
        let pen = self.pen(&books.logbook, manager)?;
        let by = (&pen, consent);
        let roster = statements.roster();
        let next = now(&books.crew, roster, books.mode()).next(act, &manager.id)?;
        let before = roster.in_force();
        let number = before.map_or(1, |before| before.change.number + 1);
        let file = next.crew.revision();
        let says = Says::Crew(CrewChange {
            number,
            before: before.map(|before| before.statement),
            file,
            changes: next.changes,
            signed_off: next.signed_off,
        });
        let at = self.world.now();
        let folder = books.state(manager, by, &at, says, Some(&next.crew))?;
        Ok(PutInForce {
            number,
            file,
            folder,
            first,
        })
    }
}

impl<D: Disk> Clerk<D> {
    /// Goes on with one of the branches of a forked roster, signed by a manager of it.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn settle_crew(
        &self,
        branch: &Revision,
        manager: &Signer,
        consent: &Consent,
    ) -> Result<PutInForce, Trouble> {
        let mut books = self.books()?;
        let known = books.statements()?;
        let own = known.newest_of(&manager.id).map(Stated::hash);
        let others = known.known_to(&manager.id).into_iter().map(|one| one.hash);
        let behind: HashSet<Digest> = own
            .into_iter()
            .chain(others)
            .flat_map(|one| known.behind(&one))
            .collect();
        let mut branches = known.roster().branches().into_iter();
        if branches.any(|branch| !behind.contains(&branch.statement)) {
            let apart = apart(&known, None).map_or_else(String::new, |fault| format!(": {fault}"));
            return Err(Trouble::Said(format!(
                "What goes on is said by who knows of both, and one manager signed on two laptops \
                 apart. That is joined first, then this is settled{apart}."
            )));
        }
        books.crew = branch.crew.clone();
        let pen = self.pen(&books.logbook, manager)?;
        let number = branch.change.number + 1;
        let says = Says::Crew(CrewChange {
            number,
            before: Some(branch.statement),
            file: branch.change.file,
            changes: Vec::new(),
            signed_off: branch.change.signed_off.clone(),
        });
        let (at, by) = (self.world.now(), (&pen, consent));
        let folder = books.state(manager, by, &at, says, Some(&branch.crew))?;
        Ok(PutInForce {
            number,
            file: branch.change.file,
            folder,
            first: false,
        })
    }

    /// Everything managers stated, whatever there is to be settled.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn statements(&self) -> Result<Statements, Trouble> {
        Ok(self.books()?.statements()?)
    }

    /// Whether a person's key is within reach here.
    pub fn has_key(&self, signer: &Signer) -> bool {
        self.key_lies(signer).is_ok()
    }
}

impl<D: Disk> Clerk<D> {
    /// Puts the crew file in force as it stands, in a logbook from before there were rosters: a
    /// statement counts by a crew file that one has put in force. Whether that was to be done.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub(super) fn put_first_in_force(
        &self,
        manager: &Signer,
        consent: &Consent,
    ) -> Result<bool, Trouble> {
        let (books, statements) = self.crew()?;
        let first = statements.roster().revisions().is_empty();
        if first {
            let pen = self.pen(&books.logbook, manager)?;
            let whole = completed(&books.crew, books.mode())?;
            books.found_roster(manager, (&pen, consent), &self.world.now(), &whole)?;
            books.logbook.replace_crew(whole.text().as_bytes())?;
        }
        Ok(first)
    }

    /// States the first crew file of a logbook without a manager, signed by who becomes one.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn first_manager(&self, signer: &Signer, consent: &Consent) -> Result<PutInForce, Trouble> {
        let (books, _) = self.crew()?;
        let pen = self.pen(&books.logbook, signer)?;
        let crew = books.crew.with(signer)?;
        let at = self.world.now();
        let folder = books.found_roster(signer, (&pen, consent), &at, &crew)?;
        books.logbook.replace_crew(crew.text().as_bytes())?;
        Ok(PutInForce {
            number: 1,
            file: crew.revision(),
            folder,
            first: true,
        })
    }
}

impl<D: Disk> Books<D> {
    /// States the first crew file. The file that `crew/` has stays as it is.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub(super) fn found_roster(
        &self,
        manager: &Signer,
        by: (&Pen, &Consent),
        at: &Moment,
        crew: &Crew,
    ) -> Result<StatementFolder, Trouble> {
        let says = Says::Crew(CrewChange::first(crew));
        self.keep_stated(manager, by, at, says, Some(crew))
    }
}

/// What this manager, or any, signed on two laptops apart and nobody has joined.
fn apart<'s>(statements: &'s Statements, of: Option<&Id>) -> Option<&'s StatementFault> {
    let mut faults = statements.faults().iter();
    faults.find(|fault| match fault {
        StatementFault::Fork { manager, .. } => of.is_none_or(|of| of == manager),
        _ => false,
    })
}

const fn now<'a>(crew: &'a Crew, roster: &'a Roster, mode: Mode) -> CrewNow<'a> {
    CrewNow { crew, roster, mode }
}

/// The crew with every namespace that its managers' roles have: a line made before there were
/// approvals or statements lacks some.
fn completed(crew: &Crew, mode: Mode) -> Result<Crew, NotChanged> {
    let mut whole = crew.clone();
    for signer in crew.signers() {
        let (roles, name) = (signer.roles.clone(), signer.name.clone());
        let enrolled = Signer::enrolled(&signer.id, roles, &signer.key, name, mode);
        let lacks = |namespace| !signer.namespaces.contains(namespace);
        if signer.roles.contains(&Role::Manager) && enrolled.namespaces.iter().any(lacks) {
            whole = whole.with(&enrolled)?;
        }
    }
    Ok(whole)
}
