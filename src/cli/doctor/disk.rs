//! The disk: room, and whether what is written there stays.

use crate::cli::command::quoted;
use crate::cli::doctor::check::Check;
use crate::store::{Disk, Local, Mode, room, survey};
use std::io::{self, ErrorKind};
use std::path::Path;

const OF: &str = "disk";

/// Below this a walk may not find room to its end.
const LEAST: u64 = 64 * MIB;

/// Below this it is time to look.
const LITTLE: u64 = 512 * MIB;

const MIB: u64 = 1024 * 1024;

/// What is written to see whether it stays, and removed again.
const PROBE: &str = ".hames-doctor-probe";

pub(super) fn disk(root: &Path, read_only: bool) -> Vec<Check> {
    let mut checks = vec![free(room(root))];
    if survey(root).is_ok_and(|about| about.all_write) {
        checks.push(Check::wrong(
            OF,
            format!(
                "everybody on this laptop may write in {}. Run: chmod o-w {}",
                root.display(),
                quoted(root)
            ),
        ));
    }
    if !read_only {
        checks.push(written(probe(root)));
    }
    checks
}

/// What that much room comes to.
fn free(room: Option<u64>) -> Check {
    match room {
        None => Check::look(OF, "this system does not say how much room is left"),
        Some(room) if room < LEAST => Check::wrong(
            OF,
            format!(
                "{} MiB are left. Make room before the next walk",
                room / MIB
            ),
        ),
        Some(room) if room < LITTLE => {
            Check::look(OF, format!("{} MiB are left. Make room soon", room / MIB))
        }
        Some(room) => Check::ok(OF, format!("{} MiB are left", room / MIB)),
    }
}

fn written(probed: io::Result<bool>) -> Check {
    match probed {
        Ok(true) => Check::ok(OF, "a file was written, locked, kept and removed again"),
        Ok(false) => Check::wrong(
            OF,
            "this disk gives no locks, so two programs could write one trip. Keep the logbook on a \
             disk of this laptop",
        ),
        Err(error) if error.kind() == ErrorKind::PermissionDenied => Check::look(
            OF,
            "this account may not write here, so it can look and not walk",
        ),
        Err(error) => Check::wrong(
            OF,
            format!("a file could not be written and kept: {error}. Walk on paper until it can"),
        ),
    }
}

/// Whether a file can be written, locked and kept. It is removed again.
fn probe(root: &Path) -> io::Result<bool> {
    let path = root.join(PROBE);
    if Local.exists(&path)? {
        Local.remove(&path)?;
    }
    let mut file = Local.create_new(&path, Mode::Private)?;
    let kept = Local
        .write_at(&mut file, 0, b"probe\n")
        .and_then(|()| Local.sync(&mut file))
        .and_then(|()| Local.sync_folder(root))
        .and_then(|()| Local.try_lock(&file));
    let unsupported = |error: &io::Error| error.kind() == ErrorKind::Unsupported;
    let kept = kept.or_else(|error| {
        if unsupported(&error) {
            Ok(false)
        } else {
            Err(error)
        }
    });
    drop(file);
    Local.remove(&path)?;
    kept
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cli::doctor::check::Stands;

    #[test]
    fn too_little_room_is_wrong_before_a_walk_finds_out() {
        for (room, stands) in [
            (None, Stands::Look),
            (Some(0), Stands::Wrong),
            (Some(LEAST - 1), Stands::Wrong),
            (Some(LEAST), Stands::Look),
            (Some(LITTLE), Stands::Ok),
            (Some(u64::MAX), Stands::Ok),
        ] {
            assert_eq!(free(room).stands, stands, "{room:?}");
        }
    }
}
