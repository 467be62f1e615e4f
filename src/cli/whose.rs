//! Which logbook the commands are for that are printed: whoever named one when the program was
//! started is told commands that name it too, so that what is printed can be typed as it stands.
//!
//! `--demo` is the year of an invented barn behind `hames logbook`, and the demo barn's own walks
//! behind every other command; whatever looks at one of the two is told the folder of it behind the
//! commands whose `--demo` is the other.

use crate::cli::Meant;
use crate::cli::args::{Args, LogbookCommand};
use crate::cli::clerk::is_founded;
use crate::cli::command::quoted;
use crate::cli::plan::{self, Barn, Way};
use crate::cli::surroundings::Surroundings;
use crate::desk::Reply;
use crate::store::Local;
use clap::{Command, CommandFactory};
use std::io::{self, Write};
use std::path::Path;

/// How every printed command begins.
const PROGRAM: &str = "hames ";

/// Commands that look at no logbook but the folder or the file behind them.
const OF_FILES: &[&str] = &["verify", "lint", "figure"];

/// The command below which `--demo` is the year.
const OF_THE_YEAR: &str = "logbook";

/// What `--demo` is put behind a command as.
const DEMO: &str = " --demo";

/// What names the logbook, to be put behind a command; nothing where nobody has to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Whose {
    /// Behind `hames logbook` and what is below it.
    logbook: String,
    /// Behind any other.
    others: String,
}

impl Whose {
    /// As the arguments have it. Whoever has no logbook sits down to the demo barn, and its
    /// commands say so.
    pub(super) fn of(args: &Args, meant: &Meant, surroundings: &Surroundings) -> Self {
        if let Some(folder) = &args.logbook {
            return Self::folder(folder);
        }
        if let Meant::Logbook(about) = meant
            && about.year_in.is_some()
        {
            return Self::year(about.place());
        }
        let barn = match meant {
            Meant::Sit(sitting) => Some(&sitting.barn),
            Meant::Drill(about) => about.barn.as_ref(),
            _ => None,
        };
        let demo = match barn {
            Some(Barn::Either(logbook, _)) => !is_founded(&Local, logbook).unwrap_or(true),
            Some(Barn::Demo(_) | Barn::Logbook(_)) | None => false,
        };
        match surroundings.data_home.as_deref().map(plan::demo) {
            Some(folder) if args.demo || demo => Self::demo(&folder),
            _ => Self::default(),
        }
    }

    /// That of the demo barn's own walks, in this folder.
    fn demo(folder: &Path) -> Self {
        Self {
            others: DEMO.to_owned(),
            ..Self::folder(folder)
        }
    }

    /// That of the year of an invented barn, in this folder.
    pub(super) fn year(folder: &Path) -> Self {
        Self {
            logbook: DEMO.to_owned(),
            ..Self::folder(folder)
        }
    }

    /// That of the logbook in this folder.
    pub(super) fn folder(folder: &Path) -> Self {
        let named = format!(" --logbook {}", quoted(folder));
        Self {
            logbook: named.clone(),
            others: named,
        }
    }

    /// The text with every command in it naming the logbook.
    pub(super) fn told(&self, text: &str) -> String {
        if *self == Self::default() || !text.contains(PROGRAM) {
            return text.to_owned();
        }
        let program = Args::command();
        let mut parts = text.split(PROGRAM);
        let mut told = parts.next().unwrap_or_default().to_owned();
        for part in parts {
            told.push_str(PROGRAM);
            let whole = whole(part, &program);
            let (command, rest) = part.split_at(whole.unwrap_or(0));
            told.push_str(command);
            let named = rest.contains("--logbook") || rest.contains("--demo");
            if whole.is_some() && !named {
                let is_of_the_year = command.starts_with(OF_THE_YEAR);
                told.push_str(if is_of_the_year {
                    &self.logbook
                } else {
                    &self.others
                });
            }
            told.push_str(rest);
        }
        told
    }

    /// What the desk answers, with its sentences told so.
    pub(super) fn reply(&self, mut reply: Reply) -> Reply {
        match &mut reply {
            Reply::Cannot(why) | Reply::ReadOnly(why) => *why = self.told(why),
            Reply::MayBegin { notices, .. }
            | Reply::Walking { notices, .. }
            | Reply::Drilling { notices, .. } => self.all(notices),
            Reply::Barn(barn) => {
                self.all(&mut barn.notices);
                barn.no_walk = barn.no_walk.as_deref().map(|why| self.told(why));
            }
            Reply::DrillRoom(room) => {
                room.unrecorded = room.unrecorded.as_deref().map(|why| self.told(why));
                for learner in &mut room.learners {
                    if let Err(why) = &mut learner.examiners {
                        *why = self.told(why);
                    }
                }
            }
            Reply::Opened { trip, next, .. } => {
                *next = self.told(next);
                self.all(&mut trip.tale.findings);
                self.all(&mut trip.asked);
            }
            _ => {}
        }
        reply
    }

    fn all(&self, sentences: &mut [String]) {
        for sentence in sentences {
            *sentence = self.told(sentence);
        }
    }

    /// An output whose sentences are told so.
    pub(super) fn through<'o>(&self, out: &'o mut dyn Write) -> Telling<'o> {
        Telling {
            whose: self.clone(),
            line: Vec::new(),
            out,
        }
    }
}

/// How long the command is that a text begins with; nothing where it is none that looks at a
/// logbook.
fn whole(text: &str, program: &Command) -> Option<usize> {
    let (mut at, mut command) = (0, program);
    while command.has_subcommands() {
        let rest = text.get(at..)?;
        let rest = rest.strip_prefix(' ').filter(|_| at > 0).unwrap_or(rest);
        let is_of_it = |letter: char| letter.is_ascii_lowercase() || letter == '-';
        let word = rest.split(|letter| !is_of_it(letter)).next()?;
        command = command.find_subcommand(word)?;
        if OF_FILES.contains(&word) {
            return None;
        }
        at = text.len() - rest.len() + word.len();
    }
    Some(at)
}

/// An output, line by line.
pub(super) struct Telling<'o> {
    whose: Whose,
    line: Vec<u8>,
    out: &'o mut dyn Write,
}

impl Telling<'_> {
    fn tell(&mut self) -> io::Result<()> {
        let line = std::mem::take(&mut self.line);
        match std::str::from_utf8(&line) {
            Ok(text) => self.out.write_all(self.whose.told(text).as_bytes()),
            Err(_) => self.out.write_all(&line),
        }
    }
}

impl Write for Telling<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        for part in bytes.split_inclusive(|byte| *byte == b'\n') {
            self.line.extend_from_slice(part);
            if part.ends_with(b"\n") {
                self.tell()?;
            }
        }
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        self.tell()?;
        self.out.flush()
    }
}

impl Meant {
    /// Whether what is written is sentences. Records, rows, files and JSON are written as they are.
    pub(super) fn is_sentences(&self) -> bool {
        match self {
            Self::Sit(sitting) => sitting.look.way == Way::Lines,
            Self::Drill(about) => !about.asked.json,
            Self::Crew(about) => !about.is_json(),
            Self::Doctor(about) => !about.json,
            Self::Logbook(about) => match &about.what {
                LogbookCommand::Receipt { json, .. }
                | LogbookCommand::Show { json, .. }
                | LogbookCommand::Questions { json }
                | LogbookCommand::Trace { json, .. }
                | LogbookCommand::Merge { json, .. } => !json,
                LogbookCommand::Look(asked) => !asked.json,
                LogbookCommand::Trends(asked) => !asked.json,
                LogbookCommand::Steps(asked) => !asked.json,
                LogbookCommand::People(asked) => !asked.json,
                LogbookCommand::Defects(asked) => !asked.json,
                LogbookCommand::Table { .. }
                | LogbookCommand::Export { .. }
                | LogbookCommand::Incident { .. }
                | LogbookCommand::Sketch { .. }
                | LogbookCommand::Report { .. } => false,
                LogbookCommand::Manager(_) => true,
            },
            _ => false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_printed_command_names_the_logbook_that_was_named() {
        let barn = Whose::folder(Path::new("/my barn"));
        for (sentence, told) in [
            (
                "See who is with hames crew list.",
                "See who is with hames crew list --logbook '/my barn'.",
            ),
            (
                "hames logbook merge FOLDER, then hames doctor",
                "hames logbook merge --logbook '/my barn' FOLDER, then hames doctor --logbook '/my barn'",
            ),
            (
                "hames crew sign-off ID",
                "hames crew sign-off --logbook '/my barn' ID",
            ),
        ] {
            assert_eq!(barn.told(sentence), told);
            assert_eq!(Whose::default().told(sentence), sentence);
        }
        for sentence in [
            "The crew is changed with hames crew.",
            "Check it with: hames verify /b/dev/a/t/000001-9f3c01ab",
            "hames logbook merge /b --logbook /b",
            "hames --demo needs none",
            "hames, hames crewlist, hames crew lists",
        ] {
            assert_eq!(barn.told(sentence), sentence);
        }
    }

    #[test]
    fn of_the_demo_s_two_logbooks_each_command_names_the_one_that_was_looked_at() {
        let sentence = "hames logbook show TRIP, hames crew list, then hames doctor";
        for (whose, told) in [
            (
                Whose::demo(Path::new("/demo")),
                "hames logbook show --logbook /demo TRIP, hames crew list --demo, then hames doctor --demo",
            ),
            (
                Whose::year(Path::new("/year")),
                "hames logbook show --demo TRIP, hames crew list --logbook /year, then hames doctor \
                 --logbook /year",
            ),
        ] {
            assert_eq!(whose.told(sentence), told);
        }
    }

    #[test]
    fn a_line_in_pieces_is_told_as_one_and_a_prompt_at_once() {
        let mut written = Vec::new();
        let whose = Whose::demo(Path::new("/demo"));
        let mut out = whose.through(&mut written);
        out.write_all(b"Say hames cr").unwrap();
        out.write_all(b"ew list\n> ").unwrap();
        out.flush().unwrap();
        assert_eq!(
            String::from_utf8(written).unwrap(),
            "Say hames crew list --demo\n> "
        );
    }
}
