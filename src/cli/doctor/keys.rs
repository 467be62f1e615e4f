//! The private keys here: whose they are, who may read them, whether they open as they should.

use crate::cli::clerk::Books;
use crate::cli::doctor::check::Check;
use crate::record::{DeviceKey, KeyFault, LockedKey, PublicKey, Role, Signer};
use crate::store::{Disk, Local, survey};
use std::collections::HashSet;
use std::ffi::OsString;
use std::path::{Path, PathBuf};

const OF: &str = "keys";

pub(super) fn keys(books: &Books<Local>) -> Vec<Check> {
    let mut checks = Vec::new();
    let mut known: HashSet<OsString> = HashSet::new();
    let mut laptops = Vec::new();
    for signer in books.crew.signers() {
        let paths = books.logbook.keys_of(&signer.id).unwrap_or_default();
        let in_use = paths.iter().any(|path| {
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
        if in_use {
            if signer.roles.contains(&Role::Device) {
                laptops.push(signer.id.as_str());
            }
            checks.push(Check::ok(
                OF,
                format!("{} has the key of the crew file here", signer.id),
            ));
        } else {
            checks.push(Check::wrong(
                OF,
                format!(
                    "no key of {} here is the one in the crew file, so {} cannot sign here. Bring \
                     the right file, or have a manager enrol the new key with hames crew revoke \
                     --new-key",
                    signer.id, signer.name
                ),
            ));
        }
    }
    checks.push(device(&laptops));
    checks.extend(strangers(books.logbook.root(), &known));
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
        .read(path, crate::store::MOST_FILE_BYTES)
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
                "{shown}, of {}, can be read by others on this laptop. Run: chmod 600 {shown}",
                signer.name
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
fn strangers(root: &Path, known: &HashSet<OsString>) -> Vec<Check> {
    let folder: PathBuf = root.join("keys");
    let files = Local.list(&folder).unwrap_or_default().into_iter();
    files
        .filter(|file| !known.contains(&file.name))
        .map(|file| {
            let name = file.name.to_string_lossy().escape_debug().to_string();
            Check::look(
                OF,
                format!(
                    "{name} is the key of nobody in the crew file now. Keep it if its owner comes \
                     back; it signs nothing"
                ),
            )
        })
        .collect()
}
