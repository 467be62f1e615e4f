//! Where managers' statements lie: `mgr/<manager>/<number>-<first letters of the hash>/`.

use crate::record::{Digest, Id, MAX_STATEMENT, StatementFiles};
use crate::store::whole::make_folders_below;
use crate::store::{Disk, Doing, Kind, Logbook, MOST_FILE_BYTES, Mode, StoreFault, keep};
use std::path::{Path, PathBuf};

/// Why something was moved aside that is no whole statement.
const BEGINNING: &str =
    "It lay there without its statement when the same manager signed the next one.\n";

/// What is stated.
const STATEMENT: &str = "statement.json";

/// So many letters of a statement's hash stand in the name of its folder.
const HASH_LETTERS: usize = 8;

/// The folder of one statement.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct StatementFolder {
    /// The folder.
    pub path: PathBuf,
}

/// The files of a statement as they lie there.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct StatementText {
    /// The statement.
    pub statement: Vec<u8>,
    /// The manager's signature, where it is there.
    pub signature: Option<Vec<u8>>,
    /// The crew file it puts in force, where it does.
    pub crew: Option<Vec<u8>>,
}

impl<D: Disk> Logbook<D> {
    /// The folder for a statement.
    pub fn statement(&self, manager: &Id, number: u64, hash: &Digest) -> StatementFolder {
        let letters: String = hash.to_string().chars().take(HASH_LETTERS).collect();
        let name = format!("{number:06}-{letters}");
        let path = self.manager_folders().join(manager.as_str()).join(name);
        StatementFolder { path }
    }

    /// Every statement of every manager, by the names of the folders, whatever each is worth.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn statements(&self) -> Result<Vec<StatementFolder>, StoreFault> {
        let mut found = Vec::new();
        for manager in self.folders_in(&self.manager_folders())? {
            let folders = self.folders_in(&manager)?.into_iter();
            found.extend(folders.map(|path| StatementFolder { path }));
        }
        Ok(found)
    }

    /// What has the place of a file of a statement, and is none: a folder, a broken link.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn no_file_of(&self, folder: &StatementFolder) -> Result<Option<PathBuf>, StoreFault> {
        for path in [folder.statement(), folder.signature(), folder.crew()] {
            if self.has(&path)? && !self.is_file(&path)? {
                return Ok(Some(path));
            }
        }
        Ok(None)
    }

    /// The files of a statement. One without a statement in it is what a crash left of a beginning.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn read_statement(
        &self,
        folder: &StatementFolder,
    ) -> Result<Option<StatementText>, StoreFault> {
        let Some(statement) = self.maybe(&folder.statement())? else {
            return Ok(None);
        };
        Ok(Some(StatementText {
            statement,
            signature: self.maybe(&folder.signature())?,
            crew: self.maybe(&folder.crew())?,
        }))
    }

    /// Whether a crew file lies beside the statement.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn puts_a_crew_in_force(&self, folder: &StatementFolder) -> Result<bool, StoreFault> {
        let crew = folder.crew();
        let there = self.disk().exists(&crew);
        there.map_err(StoreFault::of(Doing::Read, &crew))
    }

    /// Moves aside what a crash left of statements of this manager that were never whole: nobody was
    /// told that they are signed, and a signature by itself looks like a loss to whoever verifies.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn move_beginnings_aside(&self, manager: &Id) -> Result<(), StoreFault> {
        let own = self.manager_folders().join(manager.as_str());
        let folders = self.statements()?.into_iter();
        for folder in folders.filter(|one| one.path.parent() == Some(own.as_path())) {
            if self.has(&folder.statement())? {
                continue;
            }
            for path in [folder.signature(), folder.crew()] {
                if self.has(&path)? {
                    self.move_aside(&path, &format!("{}\n\n{BEGINNING}", path.display()))?;
                }
            }
            self.let_go_of(&folder.path)?;
        }
        Ok(())
    }

    /// Keeps a statement, each file once and for all; one that is there stays. The statement comes
    /// last: what a crash left without one counts for nothing, and whoever has one has it whole.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn keep_statement(
        &self,
        folder: &StatementFolder,
        text: &StatementText,
    ) -> Result<(), StoreFault> {
        make_folders_below(self.disk(), self.root(), &folder.path, Mode::Shared)?;
        let files = [
            (folder.crew(), text.crew.as_ref()),
            (folder.signature(), text.signature.as_ref()),
            (folder.statement(), Some(&text.statement)),
        ];
        for (path, bytes) in files {
            if let Some(bytes) = bytes {
                keep(self.disk(), &path, bytes, Mode::Shared)?;
            }
        }
        Ok(())
    }

    /// The folder that holds a folder for each manager.
    pub(crate) fn manager_folders(&self) -> PathBuf {
        self.root().join("mgr")
    }

    fn folders_in(&self, path: &Path) -> Result<Vec<PathBuf>, StoreFault> {
        let refused = || StoreFault::of(Doing::Read, path);
        if !self.disk().exists(path).map_err(refused())? {
            return Ok(Vec::new());
        }
        let entries = self.disk().list(path).map_err(refused())?;
        let folders = entries.into_iter().filter(|one| one.kind == Kind::Folder);
        Ok(folders.map(|one| path.join(one.name)).collect())
    }

    fn maybe(&self, path: &Path) -> Result<Option<Vec<u8>>, StoreFault> {
        let there = self.disk().exists(path);
        if !there.map_err(StoreFault::of(Doing::Read, path))? {
            return Ok(None);
        }
        let is_stated = path.ends_with(STATEMENT);
        let most = if is_stated {
            MAX_STATEMENT
        } else {
            MOST_FILE_BYTES
        };
        let bytes = self.disk().read(path, most);
        let refused = StoreFault::of_reading(path, most);
        bytes.map(Some).map_err(refused)
    }
}

impl StatementText {
    /// To be verified.
    pub fn files(&self) -> StatementFiles<'_> {
        StatementFiles {
            statement: &self.statement,
            signature: self.signature.as_deref(),
            crew: self.crew.as_deref(),
        }
    }
}

impl StatementFolder {
    /// The statement.
    pub fn statement(&self) -> PathBuf {
        self.path.join(STATEMENT)
    }

    /// The number in the manager's own row of statements, by the folder's name.
    pub fn number(&self) -> Option<u64> {
        let name = self.path.file_name()?.to_str()?;
        name.split_once('-')?.0.parse().ok()
    }

    /// The manager's signature of it.
    pub fn signature(&self) -> PathBuf {
        self.path.join("statement.sig")
    }

    /// The crew file it puts in force.
    pub fn crew(&self) -> PathBuf {
        self.path.join("allowed_signers")
    }
}
