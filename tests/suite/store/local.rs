//! The same store on the disk of this computer.

use super::{PINNED, name};
use hames::store::{
    Device, Disk, Journal, Kind, Local, Logbook, Mode, StoreFault, replace, write_once,
};
use std::fs;
use std::io::ErrorKind;
use std::path::Path;

#[test]
fn a_trip_is_written_torn_resumed_and_sealed() {
    let folder = tempfile::tempdir().unwrap();
    let logbook = Logbook::make(Local, &folder.path().join("some/barn")).unwrap();
    let device = Device::take(&logbook, &name("laptop")).unwrap();
    let (trip, mut journal) = device.begin(1, &name("9f3c01ab"), PINNED, b"{0}").unwrap();
    journal.append(b"{1}").unwrap();
    drop(journal);
    let mut torn = fs::read(trip.journal()).unwrap();
    torn.extend(b"{2, half");
    fs::write(trip.journal(), torn).unwrap();
    let mut resumed = device.resume(&trip).unwrap();
    assert_eq!(resumed.lines, b"{0}\n{1}\n");
    resumed.journal.append(b"{2}").unwrap();
    assert_eq!(fs::read(trip.journal()).unwrap(), b"{0}\n{1}\n{2}\n");
    assert_eq!(fs::read(resumed.torn.unwrap()).unwrap(), b"{2, half");
    write_once(&Local, &trip.seal(), b"seal", Mode::Shared).unwrap();
    let again = write_once(&Local, &trip.seal(), b"other", Mode::Shared);
    assert!(matches!(again, Err(StoreFault::Taken { .. })));
    assert_eq!(fs::read(trip.seal()).unwrap(), b"seal");
    assert_eq!(logbook.unsealed(&name("laptop")).unwrap(), []);
    let names: Vec<_> = Local
        .list(&trip.path)
        .unwrap()
        .into_iter()
        .map(|entry| entry.name.into_string().unwrap())
        .collect();
    assert_eq!(
        names,
        [
            "checklist.yaml",
            "crew.allowed_signers",
            "rig.yaml",
            "seal.json",
            "trip.jsonl",
            "trip.torn-1",
        ],
        "and no draft is left",
    );
}

#[test]
fn a_name_that_is_taken_is_refused_even_when_it_was_free_a_moment_before() {
    let folder = tempfile::tempdir().unwrap();
    let (from, to) = (folder.path().join("draft"), folder.path().join("seal"));
    fs::write(&from, "new").unwrap();
    fs::write(&to, "old").unwrap();
    let error = Local.rename_new(&from, &to).unwrap_err();
    assert_eq!(error.kind(), ErrorKind::AlreadyExists);
    assert_eq!(fs::read(&to).unwrap(), b"old");
    replace(&Local, &to, b"newest", Mode::Shared).unwrap();
    assert_eq!(fs::read(&to).unwrap(), b"newest");
}

#[test]
fn reading_stops_at_its_limit_and_at_what_is_no_file() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("five");
    fs::write(&path, "12345").unwrap();
    assert_eq!(Local.read(&path, 5).unwrap(), b"12345");
    let error = Local.read(&path, 4).unwrap_err();
    assert_eq!(error.kind(), ErrorKind::FileTooLarge);
    let error = Local.read(folder.path(), 4).unwrap_err();
    assert_eq!(error.kind(), ErrorKind::InvalidInput);
    let error = Local.read(&folder.path().join("none"), 4).unwrap_err();
    assert_eq!(error.kind(), ErrorKind::NotFound);
}

#[test]
fn two_handles_cannot_both_have_a_journal() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("trip.jsonl");
    let first = Journal::create(Local, &path, b"{0}").unwrap();
    let second = Journal::resume(Local, &path);
    assert!(matches!(second, Err(StoreFault::InUse { .. })));
    drop(first);
    Journal::resume(Local, &path).unwrap();
}

#[cfg(unix)]
#[test]
fn modes_are_as_asked_and_links_are_not_followed() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = tempfile::tempdir().unwrap();
    let logbook = Logbook::make(Local, folder.path()).unwrap();
    logbook.keep_key(&name("wren"), b"secret").unwrap();
    let key = logbook.key(&name("wren"));
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode(&key), 0o600);
    assert_eq!(mode(key.parent().unwrap()), 0o700);
    symlink(&key, folder.path().join("link")).unwrap();
    let entries = Local.list(folder.path()).unwrap();
    let link = entries.iter().find(|entry| entry.name == "link").unwrap();
    assert_eq!(link.kind, Kind::Other);
}

#[cfg(unix)]
#[test]
fn a_pipe_in_a_files_place_is_refused_and_not_waited_for() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("trip.jsonl");
    let made = std::process::Command::new("mkfifo").arg(&path).status();
    assert!(made.unwrap().success());
    let fault = Journal::resume(Local, &path).unwrap_err();
    assert!(
        fault.to_string().contains("not a regular file"),
        "{fault:?}"
    );
    let error = Local.read(&path, 10).unwrap_err();
    assert_eq!(error.kind(), ErrorKind::InvalidInput);
}

/// Another process: the `flock` tool takes the same lock that this program takes.
#[cfg(target_os = "linux")]
mod another_process {
    use super::*;
    use std::io::{BufRead, BufReader};
    use std::process::{Command, Stdio};

    #[test]
    fn that_has_the_journal_keeps_us_out_until_it_is_killed() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("trip.jsonl");
        drop(Journal::create(Local, &path, b"{0}").unwrap());
        let mut other = Command::new("flock")
            .args(["--exclusive", "--no-fork"])
            .arg(&path)
            .args(["sh", "-c", "echo locked; exec sleep 60"])
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut said = String::new();
        let out = other.stdout.take().unwrap();
        BufReader::new(out).read_line(&mut said).unwrap();
        assert_eq!(said, "locked\n");
        let refused = Journal::resume(Local, &path);
        assert!(matches!(refused, Err(StoreFault::InUse { .. })));
        other.kill().unwrap();
        other.wait().unwrap();
        Journal::resume(Local, &path).unwrap();
    }

    #[test]
    fn is_kept_out_while_we_have_the_journal() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("trip.jsonl");
        let journal = Journal::create(Local, &path, b"{0}").unwrap();
        let gets_it = || {
            let mut flock = Command::new("flock");
            flock.arg("--nonblock").arg(&path).arg("true");
            flock.status().unwrap().success()
        };
        assert!(!gets_it());
        drop(journal);
        assert!(gets_it());
    }
}
