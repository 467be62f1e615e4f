//! The whole walk line by line: for screen readers, for pipes, for a terminal too small or too
//! slow for the screens.
//!
//! One prompt at a time, nothing ever moves, and no escape byte is written. It asks the world
//! the same errands as the screens, so the record is the same.

mod act;
mod barn;
mod begin;
mod choose;
mod consent;
mod defects;
mod describe;
mod drill;
mod due;
mod finish;
mod going;
mod last;
mod menu;
mod opened;
mod people;
mod review;
mod rig;
mod step;
mod steps;
mod stop;
mod talk;
mod tell;
mod trend;
#[cfg(feature = "tui")]
mod weigh;
mod weighed;
mod word;

pub use barn::{SettingsFrom, report as barn_report};
pub use defects::report as defects_report;
pub use describe::{Described, describe};
pub use drill::drill;
pub use due::report as due_report;
pub use opened::opened;
pub use people::{Wanted as PeopleWanted, people as people_report};
pub use review::look as look_report;
pub use rig::report as rig_report;
pub use steps::steps as steps_report;
pub(crate) use stop::Stop;
pub(crate) use talk::Talk;
pub use trend::report as trend_report;
#[cfg(feature = "tui")]
pub(crate) use weigh::ask_tickets;
pub use weighed::{refused as refused_report, report as weighed_report};

use crate::desk::{Errand, Reply};
use crate::plain::going::Session;
use std::io::{self, BufRead, Write};
use zeroize::Zeroizing;

/// How the line-by-line mode runs.
#[derive(Clone, Copy, Debug, Default)]
pub struct Options {
    /// Whether only ASCII is written.
    pub ascii: bool,
    /// Whether a walk is begun at once, without the start menu.
    pub begin: bool,
    /// Reads a passphrase without showing it; without one it is read as a line of the input.
    pub secret: Option<fn() -> io::Result<Zeroizing<String>>>,
}

/// How it was left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Left {
    /// The person left.
    ByChoice,
    /// The walk that was to begin at once was refused, and why was said.
    Refused,
    /// The input came to its end; a walk under way is left as it is.
    InputEnded,
    /// The disk failed; the rest is done on paper.
    DiskFailed,
    /// The logbook could not be opened at all.
    NoLogbook,
}

/// Runs line by line until the person leaves, the input ends or the disk fails.
///
/// # Errors
/// What the output or the input refused; a walk under way is left as it is.
pub fn run(
    input: &mut dyn BufRead,
    output: &mut dyn Write,
    perform: &mut dyn FnMut(Errand) -> Reply,
    options: Options,
) -> io::Result<Left> {
    let mut session = Session::new(Talk::new(input, output, options), perform, options);
    let ended = match session.start() {
        Ok(left) => return Ok(left),
        Err(stop) => stop,
    };
    match ended {
        Stop::Left => session.left_as_it_is("").map(|()| Left::ByChoice),
        Stop::InputEnded => session
            .left_as_it_is("The input has ended. ")
            .map(|()| Left::InputEnded),
        Stop::DiskFailed => Ok(Left::DiskFailed),
        Stop::Broken(error) => Err(error),
    }
}
