//! What the environment says of the terminal and the folders, read once.

use std::io::{self, IsTerminal};
use std::path::PathBuf;

/// What the environment says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Surroundings {
    /// The locale that decides how letters are shown: `LC_ALL`, else `LC_CTYPE`, else `LANG`.
    pub locale: Option<String>,
    /// Whether `NO_COLOR` is set to anything.
    pub no_color: bool,
    /// The kind of terminal.
    pub term: Option<String>,
    /// The socket of the ssh-agent.
    pub agent: Option<PathBuf>,
    /// The folder for data of programs.
    pub data_home: Option<PathBuf>,
    /// Whether the input is a terminal.
    pub typed_in: bool,
    /// Whether the output is a terminal.
    pub shown: bool,
}

impl Surroundings {
    /// As they are.
    pub fn found() -> Self {
        let absolute = |path: PathBuf| Some(path).filter(|path| path.is_absolute());
        let xdg = text("XDG_DATA_HOME").map(PathBuf::from).and_then(absolute);
        Self {
            locale: text("LC_ALL")
                .or_else(|| text("LC_CTYPE"))
                .or_else(|| text("LANG")),
            no_color: text("NO_COLOR").is_some(),
            term: text("TERM"),
            agent: text("SSH_AUTH_SOCK").map(PathBuf::from),
            data_home: xdg.or_else(native_data_home),
            typed_in: io::stdin().is_terminal(),
            shown: io::stdout().is_terminal(),
        }
    }

    /// Whether letters beyond ASCII are certain to be shown.
    pub fn utf8(&self) -> bool {
        let utf8 = self.locale.as_ref().is_some_and(|locale| {
            let locale = locale.to_uppercase();
            locale.contains("UTF-8") || locale.contains("UTF8")
        });
        utf8 && self.term.as_deref() != Some("linux") && !self.dumb()
    }

    /// Whether the terminal can do nothing but lines.
    pub fn dumb(&self) -> bool {
        self.term.as_deref() == Some("dumb")
    }
}

/// Where data of programs lies on this kind of system.
fn native_data_home() -> Option<PathBuf> {
    if cfg!(windows) {
        return text("LOCALAPPDATA").map(PathBuf::from);
    }
    let below = if cfg!(target_os = "macos") {
        "Library/Application Support"
    } else {
        ".local/share"
    };
    text("HOME").map(|home| PathBuf::from(home).join(below))
}

/// A variable, where it is set to anything.
#[expect(
    clippy::disallowed_methods,
    reason = "this is the one place that reads the environment: folders, locale, colour and agent"
)]
fn text(name: &str) -> Option<String> {
    std::env::var(name).ok().filter(|value| !value.is_empty())
}
