//! `hames checklist new`: a pattern with comments, to be changed into one's own.

use crate::checklist::PATTERN;
use crate::cli::Status;
use crate::cli::command::quoted;
use crate::record::Id;
use crate::store::{Local, Mode, StoreFault, write_once};
use std::io::{self, Write};
use std::path::Path;

/// The line of the pattern that gives its id.
const ID: &str = "id: my-list\n";

pub(super) fn new(file: &Path, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Status> {
    match write_once(&Local, file, pattern_for(file).as_bytes(), Mode::Shared) {
        Ok(()) => {
            let file = quoted(file);
            writeln!(
                out,
                "{file} is written. Change its lines into yours, and see what is left to mend: \
                 hames lint {file}"
            )?;
            Ok(Status::Fine)
        }
        Err(StoreFault::Taken { path }) => {
            writeln!(
                err,
                "{} is there already and stays as it is. Name a file that is not there.",
                path.display()
            )?;
            Ok(Status::Usage)
        }
        Err(fault) => {
            writeln!(err, "{fault}")?;
            Ok(Status::Store)
        }
    }
}

/// The pattern, under the file's own name where that can be an id.
fn pattern_for(file: &Path) -> String {
    let stem = file.file_stem().and_then(|stem| stem.to_str());
    let letter_first = |name: &&str| name.starts_with(|first: char| first.is_ascii_lowercase());
    // A digit in a name is taken for a letter, and the linter says so.
    let plain =
        |name: &str| !name.contains(|letter: char| letter == '.' || letter.is_ascii_digit());
    let named = stem.filter(|name| plain(name) && Id::read(name).is_ok());
    match named.filter(letter_first) {
        Some(name) => PATTERN.replacen(ID, &format!("id: {name}\n"), 1),
        None => PATTERN.to_owned(),
    }
}
