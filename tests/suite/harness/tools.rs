//! The stock tools of this machine, each by what its name leads to.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

/// Python itself. What its name leads to may be a script that looks for it anew every time, and needs
/// more tools. A machine without it fails the test: what it would show is then not shown.
pub(crate) fn python() -> &'static Path {
    static FOUND: OnceLock<PathBuf> = OnceLock::new();
    let ask = ["-c", "import sys; print(sys.executable)"];
    FOUND.get_or_init(|| found(Command::new("python3").args(ask)))
}

/// A tool the shell finds by its name.
pub(crate) fn named(tool: &str) -> PathBuf {
    found(Command::new("/bin/sh").args(["-c", &format!("command -v {tool}")]))
}

fn found(ask: &mut Command) -> PathBuf {
    let ended = ask.output().expect("these tests need python3 and a shell");
    let told = String::from_utf8(ended.stdout).unwrap();
    assert!(ended.status.success(), "{ask:?}: install it and try again");
    PathBuf::from(told.trim_end())
}
