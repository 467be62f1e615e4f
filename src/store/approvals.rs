//! Where the approvals of checklists lie: `approved/<id>/<first letters of the hash>/`.

use crate::record::{Digest, Id};
use crate::store::whole::make_folders_below;
use crate::store::{Disk, Doing, Kind, Logbook, Mode, StoreFault, keep};
use std::path::{Path, PathBuf};

/// So many letters of a checklist's hash name its folder.
const HASH_LETTERS: usize = 16;

/// The folder of one approval.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ApprovalFolder {
    /// The folder.
    pub path: PathBuf,
}

impl<D: Disk> Logbook<D> {
    /// The folder for an approval of these bytes.
    pub fn approval(&self, checklist: &Id, hash: &Digest) -> ApprovalFolder {
        let letters: String = hash.to_string().chars().take(HASH_LETTERS).collect();
        let path = self.approvals_of(checklist).join(letters);
        ApprovalFolder { path }
    }

    /// Every approval of checklists of this id, whatever each is worth.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn approvals(&self, checklist: &Id) -> Result<Vec<ApprovalFolder>, StoreFault> {
        let folder = self.approvals_of(checklist);
        let refused = || StoreFault::of(Doing::Read, &folder);
        if !self.disk().exists(&folder).map_err(refused())? {
            return Ok(Vec::new());
        }
        let entries = self.disk().list(&folder).map_err(refused())?;
        let folders = entries.into_iter().filter(|one| one.kind == Kind::Folder);
        let path = |name| ApprovalFolder {
            path: folder.join(name),
        };
        Ok(folders.map(|one| path(one.name)).collect())
    }

    /// Keeps a part of an approval, once and for all; one that is there stays.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn keep_approval(&self, path: &Path, bytes: &[u8]) -> Result<(), StoreFault> {
        if let Some(folder) = path.parent() {
            make_folders_below(self.disk(), self.root(), folder, Mode::Shared)?;
        }
        keep(self.disk(), path, bytes, Mode::Shared)
    }

    /// Takes an approval that came from elsewhere, with its signature. Where another approval of
    /// the same bytes is here, it is kept beside it. Answers whether anything of it was missing;
    /// with `look` nothing is written.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn take_approval(
        &self,
        of: (&Id, &Digest),
        checklist: &[u8],
        (approval, signature): (&[u8], &[u8]),
        look: bool,
    ) -> Result<bool, StoreFault> {
        let plain = self.approval(of.0, of.1);
        let own: String = Digest::of(approval).to_string().chars().take(8).collect();
        let mut beside = plain.path.clone().into_os_string();
        beside.push(format!("-{own}"));
        let beside = ApprovalFolder {
            path: beside.into(),
        };
        let is = |path: &Path, bytes: &[u8]| -> Result<bool, StoreFault> {
            Ok(!self.has(path)? || self.read(path)? == bytes)
        };
        let fits = |folder: &ApprovalFolder| -> Result<bool, StoreFault> {
            Ok(is(&folder.checklist(), checklist)?
                && is(&folder.approval(), approval)?
                && is(&folder.signature(), signature)?)
        };
        let folder = if fits(&plain)? { plain } else { beside };
        if self.has(&folder.signature())? {
            return Ok(false);
        }
        if !look {
            self.keep_approval(&folder.checklist(), checklist)?;
            self.keep_approval(&folder.approval(), approval)?;
            self.keep_approval(&folder.signature(), signature)?;
        }
        Ok(true)
    }

    fn approvals_of(&self, checklist: &Id) -> PathBuf {
        self.root().join("approved").join(checklist.as_str())
    }
}

impl ApprovalFolder {
    /// The checklist put together, to the byte.
    pub fn checklist(&self) -> PathBuf {
        self.path.join("checklist.yaml")
    }

    /// Who approved it, and when.
    pub fn approval(&self) -> PathBuf {
        self.path.join("approval.json")
    }

    /// The manager's signature of that.
    pub fn signature(&self) -> PathBuf {
        self.path.join("approval.sig")
    }
}
