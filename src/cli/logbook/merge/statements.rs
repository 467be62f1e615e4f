//! What managers stated: those first that others stand on. A statement proves itself, by its name,
//! its signature and its chain; one here that does not gives way to one that does.

use crate::cli::logbook::merge::Merge;
use crate::cli::logbook::merge::aside::Mended;
use crate::cli::logbook::merge::write::put_right;
use crate::logbook::merge::{Offered, Signed, Told, What, Why};
use crate::record::{Crew, Digest, Says, Statement};
use crate::store::{Disk, StatementFolder, StatementText, StoreFault};
use std::collections::BTreeSet;
use std::path::PathBuf;

impl<D: Disk> Merge<D> {
    /// Takes statements, and heals those here.
    pub(super) fn statements(&mut self) -> Result<(), StoreFault> {
        let unproven = self.unproven()?;
        let known: Vec<Crew> = self.trusted.crews().cloned().collect();
        let parts = self.brought.pile.assemble(&known);
        let mut offered = Vec::new();
        for signed in &parts.statements {
            offered.extend(self.offered(signed)?);
        }
        let taken = self.trusted.take(&offered, self.mode);
        let before = self.merged.mended.len();
        for (at, signature) in taken.keep {
            let Some(one) = offered.get(at) else { continue };
            let signature = one.signatures.get(signature);
            self.keep_statement(one, signature.map(|(_, bytes)| bytes.clone()), &unproven)?;
        }
        for (at, why) in taken.aside {
            let Some(one) = offered.get(at) else { continue };
            self.aside(one.piece, &why)?;
            for (signature, _) in &one.signatures {
                self.aside(*signature, &why)?;
            }
        }
        if !self.merged.statements.is_empty() || self.merged.mended.len() > before {
            self.statements = self.books.statements()?;
            self.told = Told::of(&self.statements);
        }
        Ok(())
    }

    /// The folders of statements here that prove nothing as they are. What is in them is laid to what
    /// was brought: a part of it may be what makes another part whole.
    fn unproven(&mut self) -> Result<BTreeSet<PathBuf>, StoreFault> {
        let mut unproven = BTreeSet::new();
        let mut named = Vec::new();
        for folder in self.books.logbook.statements()? {
            let text = self.books.logbook.read_statement(&folder)?;
            let said = text.as_ref().map(|text| Statement::read(&text.statement));
            if let (Some(text), Some(Ok(said))) = (&text, said) {
                named.extend(said.names());
                let hash = Statement::hash(&text.statement);
                let place = self.place(&said, &hash);
                let counts = self.statements.find(&hash).is_some();
                let whole = text.signature.is_some()
                    && matches!(said.says, Says::Crew(_)) == text.crew.is_some();
                if counts && whole && place == folder {
                    continue;
                }
            }
            for path in [folder.statement(), folder.signature(), folder.crew()] {
                if self.books.logbook.has(&path)? {
                    let bytes = self.books.logbook.read_any(&path)?;
                    // What lies here is told where it is damaged, and is kept aside only there.
                    let piece = self.brought.take_ours(&path, bytes);
                    self.aside.extend(piece);
                }
            }
            unproven.insert(folder.path);
        }
        self.trusted.expect(named);
        Ok(unproven)
    }

    fn place(&self, said: &Statement, hash: &Digest) -> StatementFolder {
        let logbook = &self.books.logbook;
        logbook.statement(&said.manager, said.number, hash)
    }

    fn keep_statement(
        &mut self,
        one: &Offered,
        signature: Option<Vec<u8>>,
        unproven: &BTreeSet<PathBuf>,
    ) -> Result<(), StoreFault> {
        let folder = self.place(&one.statement, &Statement::hash(&one.bytes));
        let what = format!(
            "statement {} of {}",
            one.statement.number, one.statement.manager
        );
        let text = StatementText {
            statement: one.bytes.clone(),
            signature,
            crew: one.crew.clone(),
        };
        let is_here = self.books.logbook.has(&folder.path)?;
        if is_here && !unproven.contains(&folder.path) {
            // Another may have these eight letters of its hash.
            let held = self.books.logbook.read_statement(&folder)?;
            if held.is_some_and(|held| held.statement != text.statement) {
                self.aside(one.piece, &Why::Taken)?;
            }
            return Ok(());
        }
        if !is_here {
            if !self.look {
                self.books.logbook.keep_statement(&folder, &text)?;
            }
            self.merged.statements.push(what);
            return Ok(());
        }
        let kept = self.heal_statement(&folder, &text)?;
        let Some(kept) = kept else { return Ok(()) };
        if kept.is_empty() {
            self.merged.statements.push(what);
        } else {
            self.merged.mended.push(Mended::Healed {
                what,
                path: folder.path,
                faults: vec!["its files do not prove what its name says".to_owned()],
                kept,
            });
        }
        Ok(())
    }

    /// Completes a folder, and puts what is whole in the place of what is not: what it stands on
    /// first. Answers what was kept aside; nothing where all of it was there.
    fn heal_statement(
        &self,
        folder: &StatementFolder,
        text: &StatementText,
    ) -> Result<Option<Vec<PathBuf>>, StoreFault> {
        let logbook = &self.books.logbook;
        let why = Why::Healed(vec![
            "it is not what the name of its folder says".to_owned(),
        ]);
        let (mut kept, mut lacking) = (Vec::new(), false);
        let files: [(PathBuf, Option<&[u8]>); 3] = [
            (folder.crew(), text.crew.as_deref()),
            (folder.signature(), text.signature.as_deref()),
            (folder.statement(), Some(&text.statement)),
        ];
        for (path, bytes) in &files {
            let Some(bytes) = bytes else { continue };
            if !logbook.has(path)? {
                lacking = true;
            } else if logbook.read_any(path)? != *bytes {
                kept.push(put_right(logbook, (path, bytes), &why, !self.look)?);
            }
        }
        if lacking && !self.look {
            logbook.keep_statement(folder, text)?;
        }
        Ok((lacking || !kept.is_empty()).then_some(kept))
    }

    fn offered(&self, signed: &Signed) -> Result<Option<Offered>, StoreFault> {
        let Some(piece) = self.brought.pile.get(signed.file) else {
            return Ok(None);
        };
        let What::Statement(statement) = &piece.what else {
            return Ok(None);
        };
        let crew = match &statement.says {
            Says::Crew(change) => self.brought.text(&self.books.logbook, &change.file)?,
            _ => None,
        };
        Ok(Some(Offered {
            piece: signed.file,
            statement: (**statement).clone(),
            bytes: piece.bytes.clone(),
            signatures: self.small(&signed.signatures),
            crew,
        }))
    }
}
