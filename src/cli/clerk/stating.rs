//! Stating something about the whole logbook: a manager's next statement, signed and kept.

use crate::cli::clerk::pen::Pen;
use crate::cli::clerk::{Books, Trouble};
use crate::desk::Consent;
use crate::logbook::{Owned, owned};
use crate::record::{Crew, Head, Says, Signer, Stated, Statement, Statements, Wall};
use crate::store::{Disk, StatementFolder, StatementText, StoreFault};
use crate::walk::Moment;

impl<D: Disk> Books<D> {
    /// Everything managers stated here, as far as it can be relied on.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn statements(&self) -> Result<Statements, StoreFault> {
        Ok(self.read_statements(&self.texts()?))
    }

    fn read_statements(&self, texts: &[StatementText]) -> Statements {
        let files: Vec<_> = texts.iter().map(StatementText::files).collect();
        Statements::read(&files, self.mode(), &[])
    }

    /// What managers stated of defects. Where they stated nothing of that kind, nothing is verified.
    ///
    /// # Errors
    /// What the disk refused.
    pub(in crate::cli) fn owned(&self) -> Result<Vec<Owned>, StoreFault> {
        const KIND: &str = "\"kind\":\"defect-owned\"";
        let texts = self.texts()?;
        let is_of_kind =
            |text: &StatementText| String::from_utf8_lossy(&text.statement).contains(KIND);
        if !texts.iter().any(is_of_kind) {
            return Ok(Vec::new());
        }
        Ok(owned(&self.read_statements(&texts)))
    }

    /// The files of every statement.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn texts(&self) -> Result<Vec<StatementText>, StoreFault> {
        let mut texts = Vec::new();
        for folder in self.logbook.statements()? {
            texts.extend(self.logbook.read_statement(&folder)?);
        }
        Ok(texts)
    }

    /// Returns when a statement that is about to be quoted is on the disk.
    ///
    /// # Errors
    /// What the disk refused.
    pub(super) fn settle(&self, stated: &Stated) -> Result<(), StoreFault> {
        let (named, hash) = (stated.statement(), stated.hash());
        let folder = self.logbook.statement(&named.manager, named.number, &hash);
        self.logbook.settle_statement(&folder)
    }

    /// The newest trip of every device, and how it ends.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn heads(&self, statements: &Statements) -> Result<Vec<Head>, StoreFault> {
        let mut heads = Vec::new();
        for device in self.logbook.devices()? {
            if let Some(newest) = self.newest_trip(&device, statements)? {
                let (seq, ends) = (newest.seq, newest.ends);
                heads.push(Head { device, seq, ends });
            }
        }
        heads.sort_by(|one, next| one.device.cmp(&next.device));
        Ok(heads)
    }

    /// Signs the manager's next statement and keeps it; with a new crew file, that too, and it is
    /// in force from then on. Whether the manager may say this is for the caller to have asked.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub(super) fn state(
        &self,
        manager: &Signer,
        by: (&Pen, &Consent),
        now: &Moment,
        says: Says,
        crew: Option<&Crew>,
    ) -> Result<StatementFolder, Trouble> {
        let folder = self.keep_stated(manager, by, now, says, crew)?;
        if let Some(crew) = crew {
            self.logbook.replace_crew(crew.text().as_bytes())?;
        }
        Ok(folder)
    }

    /// The same, and the file that `crew/` has stays as it is.
    ///
    /// # Errors
    /// As [`state`](Self::state).
    pub(super) fn keep_stated(
        &self,
        manager: &Signer,
        (pen, consent): (&Pen, &Consent),
        now: &Moment,
        says: Says,
        crew: Option<&Crew>,
    ) -> Result<StatementFolder, Trouble> {
        for device in self.logbook.devices()? {
            self.logbook.settle(&device)?;
        }
        self.logbook.move_beginnings_aside(&manager.id)?;
        // Read once: there may be thousands.
        let mut texts = self.texts()?;
        let known = self.read_statements(&texts);
        for stated in known.newest_of_each().into_values() {
            self.settle(stated)?;
        }
        let before = known.newest_of(&manager.id);
        let first = crew.filter(|_| known.roster().revisions().is_empty());
        let wall = Wall::new(now.wall).ok_or_else(|| {
            Trouble::Said("The clock of this laptop cannot be right. Set it, then sign.".to_owned())
        })?;
        let statement = Statement {
            mode: self.mode(),
            manager: manager.id.clone(),
            name: manager.name.clone(),
            number: before.map_or(1, |before| before.statement().number + 1),
            previous: before.map(Stated::hash),
            known: known.known_to(&manager.id),
            crew: first.unwrap_or(&self.crew).revision(),
            heads: self.heads(&known)?,
            wall,
            says,
        };
        let namespace = Statement::namespace(statement.mode);
        let bytes = statement.write()?;
        let signature = pen.sign(consent, namespace, &bytes)?;
        let hash = Statement::hash(&bytes);
        let text = StatementText {
            signature: Some(signature.into_bytes()),
            crew: crew.map(|crew| crew.text().as_bytes().to_vec()),
            statement: bytes,
        };
        // What would not be believed is not kept.
        texts.push(text.clone());
        let then = self.read_statements(&texts);
        let mut new = then.faults().iter();
        let new = new.find(|one| !known.faults().contains(one));
        if then.find(&hash).is_none() || new.is_some() {
            let why = new.map_or_else(String::new, |fault| format!(": {fault}"));
            return Err(Trouble::Said(format!(
                "This statement would not count{why}. Nothing was written."
            )));
        }
        let folder = self.logbook.statement(&manager.id, statement.number, &hash);
        self.logbook.keep_statement(&folder, &text)?;
        Ok(folder)
    }
}
