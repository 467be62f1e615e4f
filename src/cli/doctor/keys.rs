//! The private keys here: whose they are, who may read them, whether they open as they should.

use crate::cli::clerk::{Books, Clerk};
use crate::cli::command::quoted;
use crate::cli::doctor::check::Check;
use crate::record::{
    DeviceKey, Gone, KeyFault, LockedKey, PublicKey, Role, Signer, StatementFault, Statements,
};
use crate::store::{Disk, Local, MOST_FILE_BYTES, survey};
use std::collections::HashSet;
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use zeroize::Zeroizing;

const OF: &str = "keys";

pub(super) fn keys(books: &Books<Local>, clerk: &Clerk<Local>) -> Vec<Check> {
    let statements = books.statements().unwrap_or_default();
    let mut checks = Vec::new();
    let mut known: HashSet<OsString> = HashSet::new();
    let mut laptops = Vec::new();
    for signer in books.crew.signers() {
        let paths = books.logbook.keys_of(&signer.id).unwrap_or_default();
        let in_use = paths.iter().find(|path| {
            known.extend(path.file_name().map(OsString::from));
            let key = public_of(signer, path);
            checks.extend(private(signer, path, books.logbook.root()));
            if let Err(fault) = &key {
                checks.push(unfit(signer, path, fault));
            }
            key.is_ok_and(|key| key == signer.key)
        });
        if paths.is_empty() {
            continue;
        }
        if let Some(kept) = in_use {
            let others = paths
                .iter()
                .filter(|path| public_of(signer, path).is_ok_and(|key| key != signer.key));
            checks.extend(others.map(|path| leftover(path, books, &statements)));
            if signer.roles.contains(&Role::Device) {
                laptops.push(signer.id.as_str());
            }
            checks.push(Check::ok(
                OF,
                format!(
                    "{} has the key of the crew file here, in {}",
                    signer.id,
                    kept.display()
                ),
            ));
        } else {
            checks.push(Check::wrong(
                OF,
                format!(
                    "no key of {} here is the one in the crew file, so {} cannot sign here. Bring \
                     the right file, or have a manager enrol the new key with hames crew revoke \
                     {} --why … --new-key",
                    signer.id, signer.name, signer.id
                ),
            ));
        }
    }
    checks.push(device(&laptops));
    checks.extend(strangers(books, &statements, &known));
    checks.extend(clerk.nobody_can_sign().map(|told| Check::look(OF, told)));
    checks
}

/// Which laptop this is.
fn device(laptops: &[&str]) -> Check {
    match laptops {
        [only] => Check::ok("device", format!("this laptop is {only}")),
        [] => Check::wrong(
            "device",
            "this laptop has no key of its own in the crew file, so no trip begins here. Have a \
             manager enrol it with hames crew add --device",
        ),
        several => Check::look(
            "device",
            format!(
                "keys of several laptops lie here: {}. Each belongs on its own laptop alone; take \
                 the others away",
                several.join(", ")
            ),
        ),
    }
}

fn public_of(signer: &Signer, path: &Path) -> Result<PublicKey, KeyFault> {
    let text = Local
        .read(path, MOST_FILE_BYTES)
        .map_err(|_| KeyFault::Unreadable)?;
    let text = String::from_utf8_lossy(&text);
    if signer.roles.contains(&Role::Device) {
        DeviceKey::read(&text).map(|key| key.public().clone())
    } else {
        LockedKey::read(&text).map(|key| key.public().clone())
    }
}

fn unfit(signer: &Signer, path: &Path, fault: &KeyFault) -> Check {
    let (name, path) = (&signer.name, path.display());
    Check::wrong(OF, format!("{path}, of {name}: {fault}"))
}

/// A private key is its owner's alone.
fn private(signer: &Signer, path: &Path, root: &Path) -> Vec<Check> {
    let Ok(about) = survey(path) else {
        let path = path.display();
        return vec![Check::wrong(OF, format!("{path} cannot be looked at"))];
    };
    let mut checks = Vec::new();
    let shown = path.display();
    if about.others_read {
        checks.push(Check::wrong(
            OF,
            format!(
                "{shown}, of {}, can be read by others on this laptop. Run: chmod 600 {}",
                signer.name,
                quoted(path)
            ),
        ));
    }
    if survey(root).is_ok_and(|root| root.owner != about.owner) {
        checks.push(Check::look(
            OF,
            format!(
                "{shown} belongs to another account than the logbook's folder. See who can sign \
                 with it"
            ),
        ));
    }
    checks
}

/// Files among the keys that are nobody's in the crew.
fn strangers(
    books: &Books<Local>,
    statements: &Statements,
    known: &HashSet<OsString>,
) -> Vec<Check> {
    let folder: PathBuf = books.logbook.root().join("keys");
    let files = Local.list(&folder).unwrap_or_default().into_iter();
    files
        .filter(|file| !known.contains(&file.name))
        .map(|file| leftover(&folder.join(&file.name), books, statements))
        .collect()
}

/// A file among the keys that is not the key in use of whom it is named for: what it is, and what
/// to do with it. No command that takes a private key away is ever told: what is typed in haste may
/// take the only one.
fn leftover(path: &Path, books: &Books<Local>, statements: &Statements) -> Check {
    let shown = path.display();
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    if name.starts_with('.') && name.contains(".draft-") {
        return Check::look(
            OF,
            format!(
                "{shown} is what a crash left of a key in the making. Nothing signs with it, and it \
                 may be taken away by hand once each of the others here is in use"
            ),
        );
    }
    let Some(key) = public_in(path) else {
        return Check::look(
            OF,
            format!(
                "{shown} holds no key that this program can read, and is none of ours. See what it \
                 is, and take it away"
            ),
        );
    };
    if !is_in_force(books, statements) {
        return Check::look(
            OF,
            format!(
                "{shown} holds a key, and whose it is cannot be told while crew/allowed_signers is \
                 not the crew file in force. Leave it where it is"
            ),
        );
    }
    if let Some(owner) = books.crew.signers().iter().find(|one| one.key == key) {
        return Check::look(OF, copy_of(path, owner, books));
    }
    let roster = statements.roster();
    let mut before = roster.revisions().iter().rev();
    let had = before.find_map(|revision| {
        let mut signers = revision.crew.signers().iter();
        let signer = signers.find(|one| one.key == key)?;
        Some((signer, roster.taken_out(&key, revision)?.1))
    });
    Check::look(
        OF,
        match had {
            Some((signer, Gone::NotAdded)) => format!(
                "{shown} is the key of {}, whom only a change of the crew had added that does not go \
                 on. It signs nothing until a manager lets them in again, with the line that hames \
                 crew request tells",
                signer.name
            ),
            Some((signer, Gone::Revoked | Gone::LeftOut)) => format!(
                "{shown} is the key of {} that was revoked, since it may be in other hands. It \
                 never signs again, and nobody needs it here",
                signer.name
            ),
            Some((signer, _)) => format!(
                "{shown} is the key of {}, who has left the crew. It signs nothing now; keep it if \
                 they may come back",
                signer.name
            ),
            None => format!(
                "{shown} is a key that nobody has been let into the crew with yet, and signs nothing. \
                 Show a manager the line of it again with hames crew request, and keep it as long \
                 as anybody waits for it"
            ),
        },
    )
}

/// Whether the crew file is the one that managers' statements lead to, so that it tells whose a key
/// is. Before the first statement it is.
fn is_in_force(books: &Books<Local>, statements: &Statements) -> bool {
    let fork = |fault: &StatementFault| matches!(fault, StatementFault::RosterFork { .. });
    let force = statements.roster().in_force();
    !books.crew.signers().is_empty()
        && books.statements().is_ok()
        && !statements.faults().iter().any(fork)
        && force.is_none_or(|revision| revision.change.file == books.crew.revision())
}

/// A second file with a key that is in use: the other is looked for before this one is said to be
/// one too many.
fn copy_of(path: &Path, owner: &Signer, books: &Books<Local>) -> String {
    let (shown, name) = (path.display(), &owner.name);
    let paths = books.logbook.keys_of(&owner.id).unwrap_or_default();
    let is_same = |other: &&PathBuf| public_of(owner, other).is_ok_and(|key| key == owner.key);
    match paths.iter().filter(|other| *other != path).find(is_same) {
        Some(other) => format!(
            "the file {shown} is a copy of the key of {name}, which is kept in {}. One is enough: \
             a person may take the copy away by hand, and that file alone",
            other.display()
        ),
        None => format!(
            "{shown} is the only file here with the key of {name}. Keep it, and give it the name {} \
             again, by which it is found",
            owner.id
        ),
    }
}

/// The public half of whatever key a file holds.
fn public_in(path: &Path) -> Option<PublicKey> {
    let bytes = Local.read(path, MOST_FILE_BYTES).ok()?;
    let text = Zeroizing::new(String::from_utf8(bytes).ok()?);
    let locked = LockedKey::read(&text).map(|key| key.public().clone());
    let open = || DeviceKey::read(&text).map(|key| key.public().clone());
    locked.or_else(|_| open()).ok()
}
