//! `hames logbook sketch`: what nearly happened on a trip, as a scenario that is still to be written.

use crate::checklist::StepKey;
use crate::cli::Status;
use crate::cli::clerk::{Books, Plans, Trouble};
use crate::cli::logbook::shelf::Failed;
use crate::document::nearest;
use crate::drill;
use crate::store::Local;
use std::io::Write;
use std::path::Path;

const NEXT: &str = "Keep it in a file. What begins with ____ is still to be written; each is told \
    by: hames lint FILE\nThen it is played by: hames drill FILE";

/// Writes the sketch of the step that is meant.
pub(super) fn sketch(
    (typed, step): (&str, Option<&str>),
    logbook: &Path,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failed> {
    let said = |trouble: Trouble| Failed::Said(trouble.status(), trouble.to_string());
    let books = Books::open(&Local, logbook)?;
    let (device, folder) = books.trip(typed).map_err(said)?;
    let read = books.read(&device, &folder, &mut Plans::default())?;
    let walk = read.walk().map_err(said)?;
    let steps = walk.plan().steps().iter();
    let sketches = steps.filter_map(|one| Some((&one.key, drill::sketch(&walk, &one.key)?)));
    let sketches: Vec<(&StepKey, String)> = sketches.collect();
    let text = chosen(&sketches, step).map_err(|(status, why)| Failed::Said(status, why))?;
    out.write_all(text.as_bytes())?;
    writeln!(err, "{NEXT}")?;
    Ok(Status::Fine)
}

/// The sketch of the step that is named, or the only one.
fn chosen<'s>(
    sketches: &'s [(&StepKey, String)],
    step: Option<&str>,
) -> Result<&'s str, (Status, String)> {
    let keys: Vec<&str> = sketches.iter().map(|(key, _)| key.as_str()).collect();
    let told = keys.join(", ");
    match (sketches, step) {
        ([], _) => Err((
            Status::Findings,
            "No step of this trip was found to be fix or stop, so there is nothing to sketch. \
             Choose another trip: hames logbook"
                .to_owned(),
        )),
        ([(_, only)], None) => Ok(only),
        (_, None) => Err((
            Status::Usage,
            format!("Several steps were found to be fix or stop. Name one behind --step: {told}"),
        )),
        (_, Some(named)) => {
            let mut found = sketches.iter();
            let found = found.find(|(key, _)| key.as_str() == named);
            found.map(|(_, text)| text.as_str()).ok_or_else(|| {
                let meant = nearest(named, keys).map(|meant| format!(" Did you mean {meant}?"));
                let meant = meant.unwrap_or_default();
                let named = named.escape_debug();
                (
                    Status::Usage,
                    format!(
                        "“{named}” is no step of this trip that was found to be fix or stop.{meant} \
                         There is: {told}"
                    ),
                )
            })
        }
    }
}
