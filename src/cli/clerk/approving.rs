//! Approving a checklist: a manager's signature over exactly these bytes, and who stands behind
//! a checklist.

use crate::barn::Policies;
use crate::checklist::{Checklist, Shipped};
use crate::cli::clerk::listed::{Listed, is_shipped};
use crate::cli::clerk::{Books, Clerk, Offer, Trouble};
use crate::desk::{Approval, Consent};
use crate::record::{Approved, Digest, Id, Mode, NotApproved, Role, Signer, Wall, approved};
use crate::store::{ApprovalFolder, Disk};
use chrono::{DateTime, FixedOffset};

/// The list that stands approved, and who stands behind it.
#[derive(Clone, Debug, PartialEq)]
pub struct Before {
    /// The checklist.
    pub checklist: Checklist,
    /// Who stands behind it.
    pub standing: Approval,
}

impl Before {
    /// The one that comes with the program, as the barn's defaults put it together.
    pub fn shipped(id: &str) -> Option<Self> {
        let put = Shipped::named(id)?.together(&Policies::default())?;
        Some(Self {
            checklist: put.checklist,
            standing: Approval::Shipped,
        })
    }
}

impl<D: Disk> Clerk<D> {
    /// Who stands behind a checklist on offer.
    pub fn standing(&self, offer: &Offer<Checklist>) -> Approval {
        self.standing_in(self.books().ok().as_ref(), offer)
    }

    /// The same, by books that are open.
    pub(super) fn standing_in(
        &self,
        books: Option<&Books<D>>,
        offer: &Offer<Checklist>,
    ) -> Approval {
        let bytes = offer.text.as_bytes();
        match books {
            Some(books) => books.standing(&offer.read.id, bytes),
            None if is_shipped(&offer.read.id, bytes, self.place.mode) => Approval::Shipped,
            None => Approval::Unapproved,
        }
    }

    /// The same of a list that may not have been read yet.
    pub(super) fn standing_of(&self, books: Option<&Books<D>>, listed: &Listed) -> Approval {
        if listed.is_as_shipped(&self.stock.settings.policies) {
            return Approval::Shipped;
        }
        let whole = self.stock.whole(listed);
        whole.map_or(Approval::Unapproved, |offer| {
            self.standing_in(books, &offer)
        })
    }

    /// The managers whose keys are within reach: on this laptop, or in its ssh-agent. The demo barn is made where there is none yet.
    ///
    /// # Errors
    /// A sentence, where there is no logbook or nobody of them.
    pub fn managers(&self) -> Result<Vec<Signer>, Trouble> {
        self.found_demo()?;
        let books = self.books()?;
        let here = |signer: &&Signer| {
            signer.roles.contains(&Role::Manager) && self.pen(&books.logbook, signer).is_ok()
        };
        let managers: Vec<Signer> = books.crew.signers().iter().filter(here).cloned().collect();
        let manager = |signer: &Signer| signer.roles.contains(&Role::Manager);
        if !books.crew.signers().iter().any(manager) {
            return Err(Trouble::Said(
                "Nobody in this logbook is a manager. Whoever is to be one makes it so on the \
                 laptop with their key: hames crew roles ID --role driver --role manager"
                    .to_owned(),
            ));
        }
        if managers.is_empty() {
            return Err(Trouble::Said(
                "No manager of this logbook has a key on this laptop or in an ssh-agent here, and \
                 a manager's signature is what it takes. Do it on the manager's laptop."
                    .to_owned(),
            ));
        }
        Ok(managers)
    }

    /// What the logbook is for.
    pub fn mode(&self) -> Mode {
        self.books().map_or(self.place.mode, |books| books.mode())
    }

    /// The checklist of this id that stands approved, the newest; else the one that comes with the
    /// program.
    pub fn before(&self, id: &str) -> Option<Before> {
        let approved = self.books().ok().and_then(|books| books.newest(id));
        approved.or_else(|| Before::shipped(id))
    }

    /// Signs a checklist put together as approved, and keeps it, each part once and for all.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn approve(
        &self,
        offer: &Offer<Checklist>,
        manager: &Signer,
        consent: &Consent,
    ) -> Result<(Approval, ApprovalFolder), Trouble> {
        let books = self.books()?;
        let (mode, logbook) = (books.mode(), &books.logbook);
        let namespace = Approved::namespace(mode);
        if !manager.namespaces.contains(&namespace) {
            return Err(Trouble::Said(format!(
                "The line of {} in {} does not let their signature approve a checklist. Add \
                 {namespace} to the namespaces of that line, then approve it.",
                manager.name,
                logbook.crew().display()
            )));
        }
        let pen = self.pen(logbook, manager)?;
        let bytes = offer.text.as_bytes();
        let id = checklist_id(&offer.read.id)?;
        let hash = Digest::of(bytes);
        let folder = logbook.approval(&id, &hash);
        let wall = Wall::new(self.world.now().wall).ok_or_else(|| {
            Trouble::Said(
                "The clock of this laptop cannot be right. Set it, then approve.".to_owned(),
            )
        })?;
        let new = Approved {
            checklist: id,
            hash,
            mode,
            name: manager.name.clone(),
            person: manager.id.clone(),
            wall,
        };
        // One that is there was written before a crash on the way; it is never replaced.
        let there = logbook.disk().exists(&folder.approval()).unwrap_or(false);
        let file = if there {
            logbook.read(&folder.approval())?
        } else {
            new.write()?
        };
        let named = Approved::read(&file)?;
        if named.person != manager.id {
            return Err(Trouble::Said(format!(
                "An approval of these bytes is there already and names {}, who signs it.",
                named.name
            )));
        }
        let signature = pen.sign(consent, namespace, &file)?;
        logbook.keep_approval(&folder.checklist(), bytes)?;
        logbook.keep_approval(&folder.approval(), &file)?;
        logbook.keep_approval(&folder.signature(), signature.as_bytes())?;
        match books.approval(&folder, bytes) {
            Ok(approval) => Ok((told(&approval), folder)),
            Err(not) => Err(Trouble::Said(format!(
                "What lies in {} is no approval that counts: {not}. Nothing there is ever \
                 replaced; give the checklist a new revision, and approve that.",
                folder.path.display()
            ))),
        }
    }
}

/// The manager who signs: the one named, or the only one there is.
///
/// # Errors
/// A sentence with who there is.
pub fn one_manager(managers: &[Signer], by: Option<&str>) -> Result<Signer, String> {
    let ids: Vec<&str> = managers.iter().map(|one| one.id.as_str()).collect();
    let which = || format!("The managers with a key here are: {}.", ids.join(", "));
    let chosen = match (by, managers) {
        (Some(id), all) => all.iter().find(|one| one.id.as_str() == id),
        (None, [only]) => Some(only),
        (None, _) => None,
    };
    chosen.cloned().ok_or_else(|| match by {
        Some(id) => format!(
            "“{}” is no manager with a key on this laptop, and it takes a manager's signature. {}",
            id.escape_debug(),
            which()
        ),
        None => format!("Who signs it? Name one with --by. {}", which()),
    })
}

impl<D: Disk> Books<D> {
    /// Who stands behind a checklist of these bytes.
    pub(super) fn standing(&self, id: &str, bytes: &[u8]) -> Approval {
        self.standing_at(id, bytes, None)
    }

    /// Who stood behind it at a time, by the times that were signed.
    pub(super) fn standing_at(
        &self,
        id: &str,
        bytes: &[u8],
        at: Option<DateTime<FixedOffset>>,
    ) -> Approval {
        if is_shipped(id, bytes, self.mode()) {
            return Approval::Shipped;
        }
        let Ok(id) = Id::read(id) else {
            return Approval::Unapproved;
        };
        let folder = self.logbook.approval(&id, &Digest::of(bytes));
        match self.approval(&folder, bytes) {
            Ok(approval) if at.is_none_or(|at| approval.wall.moment() <= at) => told(&approval),
            _ => Approval::Unapproved,
        }
    }

    /// The approval in a folder, if it stands for these bytes.
    fn approval(&self, folder: &ApprovalFolder, bytes: &[u8]) -> Result<Approved, NotApproved> {
        let missing = |_| NotApproved::NotSigned;
        let file = self.logbook.read(&folder.approval()).map_err(missing)?;
        let signature = self.logbook.read(&folder.signature()).map_err(missing)?;
        let armor = String::from_utf8_lossy(&signature);
        approved(&self.crew, self.mode(), bytes, (&file, &armor))
    }

    /// The newest checklist of this id that stands approved.
    fn newest(&self, id: &str) -> Option<Before> {
        let folders = self.logbook.approvals(&Id::read(id).ok()?).ok()?;
        let standing = folders.iter().filter_map(|folder| {
            let bytes = self.logbook.read(&folder.checklist()).ok()?;
            let approval = self.approval(folder, &bytes).ok()?;
            let checklist = Checklist::read(std::str::from_utf8(&bytes).ok()?).ok()?;
            Some((approval, checklist))
        });
        let (approval, checklist) = standing.max_by_key(|(approval, _)| approval.wall.moment())?;
        Some(Before {
            checklist,
            standing: told(&approval),
        })
    }
}

fn told(approval: &Approved) -> Approval {
    Approval::Approved {
        by: approval.name.to_string(),
        on: approval.wall.moment().format("%Y-%m-%d").to_string(),
    }
}

fn checklist_id(id: &str) -> Result<Id, Trouble> {
    Id::read(id).map_err(|fault| {
        Trouble::Said(format!(
            "{fault}. Give the checklist another id, then approve it."
        ))
    })
}
