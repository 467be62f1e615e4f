//! The first manager of a logbook that has none: nobody is there to sign it but who becomes one.

use crate::cli::Status;
use crate::cli::args::PersonRole;
use crate::cli::clerk::{Clerk, Trouble};
use crate::cli::crew::{Stopped, id, roles, stated};
use crate::plain::Talk;
use crate::record::{NotChanged, Role, Signer};
use crate::store::Local;

/// Who becomes the first manager by this, where nobody is one.
pub(super) fn manager(
    clerk: &Clerk<Local>,
    who: &str,
    typed: &[PersonRole],
) -> Result<Option<Signer>, Stopped> {
    let roles = roles(typed);
    let (books, statements) = clerk.crew()?;
    let is_manager = |signer: &Signer| signer.roles.contains(&Role::Manager);
    let has_one = books.crew.signers().iter().any(is_manager);
    if has_one || !statements.roster().revisions().is_empty() || !roles.contains(&Role::Manager) {
        return Ok(None);
    }
    let who = id(who)?;
    let signer = books.crew.signer(&who);
    let signer = signer.ok_or_else(|| Trouble::from(NotChanged::Unknown(who)))?;
    if signer.roles.contains(&Role::Device) {
        return Err(Trouble::from(NotChanged::PersonOrDevice(signer.name.clone())).into());
    }
    let (key, name) = (&signer.key, signer.name.clone());
    let mode = clerk.mode();
    Ok(Some(Signer::enrolled(&signer.id, roles, key, name, mode)))
}

/// Signs the first roster with them as manager.
pub(super) fn put(
    clerk: &Clerk<Local>,
    signer: &Signer,
    talk: &mut Talk<'_>,
) -> Result<Status, Stopped> {
    talk.head(&format!(
        "Nobody in this logbook is a manager. {} becomes the first and signs it.",
        signer.name
    ))?;
    let consent = stated::consent(clerk, signer, talk)?;
    let put = clerk.first_manager(signer, &consent)?;
    stated::told(&put, signer, talk)?;
    Ok(Status::Fine)
}
