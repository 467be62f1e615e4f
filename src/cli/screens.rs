//! The screens: the clerk on one side of the desk, the terminal on the other.

use crate::cli::Status;
use crate::cli::args::Theme;
use crate::cli::clerk::Clerk;
use crate::cli::plan::Look;
use crate::store::Disk;
use crate::tui::{self, Exit, TerminalTrouble};
use crate::world::Clock;
use std::io::Write;

const STOPPED: &str =
    "Stopped from outside. What was recorded is kept; start Hames again to take a walk up.";

/// Runs the screens until the person leaves. What is said afterwards may have nobody to read it.
pub(super) fn run<D: Disk>(
    clerk: &mut Clerk<D>,
    clock: &Clock,
    look: Look,
    err: &mut dyn Write,
) -> Status {
    let screen = tui::Look {
        theme: match look.theme {
            Theme::Default => tui::Theme::Own,
            Theme::Night => tui::Theme::Night,
            Theme::Glare => tui::Theme::Glare,
        },
        colour: look.colour,
        ascii: look.ascii,
        big: false,
    };
    let mut perform = |errand| clerk.perform(errand);
    let (said, status) = match tui::run(&mut perform, &|| clock.now(), screen) {
        Ok(Exit::Left) => (None, Status::Fine),
        Ok(Exit::Signalled) => (Some(STOPPED.to_owned()), Status::Fine),
        Err(trouble @ (TerminalTrouble::NotTaken(_) | TerminalTrouble::Gone(_))) => {
            (Some(trouble.to_string()), Status::Usage)
        }
    };
    if let Some(said) = said {
        drop(writeln!(err, "{said}"));
    }
    if clerk.failed() {
        Status::Store
    } else {
        status
    }
}
