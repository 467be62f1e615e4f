//! A change of the crew in words: as it is meant, and as it is done.

use crate::record::{Change, Changed, NextCrew, Role, Signer};

/// Said before somebody leaves or a key is revoked.
pub(super) const MERGE_FIRST: &str = "What they signed on laptops whose logbooks are not merged \
    here will not count after this. Merge every laptop's logbook first.";

/// What a manager is about to sign, a line each.
pub(super) fn before(next: &NextCrew) -> Vec<String> {
    lines(next, |change, signer| match (change.what, signer) {
        (Changed::Added, Some(signer)) => Some(format!(
            "{} ({}) comes into the crew as {}, with the key {}",
            signer.name,
            signer.id,
            roles(signer),
            signer.key.fingerprint()
        )),
        (Changed::Roles, Some(signer)) => Some(format!(
            "{} is to sign as {}, and as nothing else",
            signer.name,
            roles(signer)
        )),
        (Changed::SignedOff, Some(signer)) => Some(format!(
            "{} is to be signed off for: {}",
            signer.name,
            signed_off(next, change)
        )),
        (Changed::Retired, _) => Some(format!(
            "{} leaves the crew. What was signed before this stands, where it is merged here",
            change.who
        )),
        (Changed::Revoked, _) => Some(format!(
            "The key of {} is to be revoked. Only what is merged here before this stands",
            change.who
        )),
        (_, None) => None,
    })
}

/// What has happened, a line each.
pub(super) fn after(next: &NextCrew) -> Vec<String> {
    lines(next, |change, signer| match (change.what, signer) {
        (Changed::Added, Some(signer)) => Some(format!(
            "{} ({}) is in the crew now, as {}.",
            signer.name,
            signer.id,
            roles(signer)
        )),
        (Changed::Roles, Some(signer)) => Some(format!(
            "{} signs as {} from now on.",
            signer.name,
            roles(signer)
        )),
        (Changed::SignedOff, Some(signer)) => Some(format!(
            "{} is signed off for: {}.",
            signer.name,
            signed_off(next, change)
        )),
        (Changed::Retired, _) => Some(format!("{} has left the crew.", change.who)),
        (Changed::Revoked, _) => Some(format!("The key of {} is revoked.", change.who)),
        (_, None) => None,
    })
}

fn lines(
    next: &NextCrew,
    line: impl Fn(&Change, Option<&Signer>) -> Option<String>,
) -> Vec<String> {
    let changes = next.changes.iter();
    let told = changes.filter_map(|change| line(change, next.crew.signer(&change.who)));
    told.collect()
}

fn roles(signer: &Signer) -> String {
    let roles: Vec<&str> = signer.roles.iter().map(|role: &Role| role.word()).collect();
    roles.join(", ")
}

fn signed_off(next: &NextCrew, change: &Change) -> String {
    let mut lines = next.signed_off.iter();
    let line = lines.find(|line| line.person == change.who);
    line.map_or_else(|| "nothing".to_owned(), ToString::to_string)
}
