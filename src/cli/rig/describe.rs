//! `hames rig FILE --describe`: a rig file written question by question.

use crate::cli::Status;
use crate::cli::command::quoted;
use crate::cli::plan::Look;
use crate::cli::sitting::options;
use crate::plain::{self, Described};
use crate::rig::describe::Interview;
use crate::store::{Disk, Local, MOST_FILE_BYTES, Mode, StoreFault, replace, write_once};
use std::io::{self, Write};
use std::path::Path;

pub(in crate::cli) fn describe(
    file: &Path,
    look: Look,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let there = match text(file) {
        Ok(there) => there,
        Err(sentence) => {
            writeln!(err, "{sentence}")?;
            return Ok(Status::Store);
        }
    };
    let interview = match there.as_deref().map(Interview::take_up).transpose() {
        Ok(taken_up) => taken_up.unwrap_or_default(),
        Err(faults) => {
            for fault in faults {
                writeln!(err, "{}:{fault}", file.display())?;
            }
            writeln!(err, "Mend this first. Nothing was changed.")?;
            return Ok(Status::Findings);
        }
    };
    let mut last = there;
    let mut save = |text: &str| {
        save(file, last.as_deref(), text)?;
        last = Some(text.to_owned());
        Ok(())
    };
    let name = quoted(file);
    let described = plain::describe(
        &mut io::stdin().lock(),
        out,
        options(look, false),
        interview,
        &name,
        &mut save,
    )?;
    Ok(match described {
        Described::Saved => Status::Fine,
        Described::NotSaved => Status::Store,
    })
}

/// What stands in the file, where it is there.
fn text(file: &Path) -> Result<Option<String>, String> {
    if matches!(Local.exists(file), Ok(false)) {
        return Ok(None);
    }
    let bytes = Local
        .read(file, MOST_FILE_BYTES)
        .map_err(StoreFault::of_reading(file, MOST_FILE_BYTES))
        .map_err(|fault| fault.to_string())?;
    let text = String::from_utf8(bytes).map_err(|_| {
        format!(
            "{} is not text in UTF-8, and nothing is written over it. Name another file.",
            file.display()
        )
    })?;
    Ok(Some(text))
}

/// Writes the whole file in place of what was last read or written, and of nothing else: somebody
/// may have opened it in an editor meanwhile.
fn save(file: &Path, last: Option<&str>, new: &str) -> Result<(), String> {
    if text(file)?.as_deref() != last {
        return Err(format!(
            "{} was changed by somebody else, and nothing is written over it. Begin again to take \
             it up as it is now.",
            file.display()
        ));
    }
    let written = match last {
        None => write_once(&Local, file, new.as_bytes(), Mode::Shared),
        Some(_) => replace(&Local, file, new.as_bytes(), Mode::Shared),
    };
    written.map_err(|fault| fault.to_string())
}
