//! `hames verify`: needs no key, no network, no folder of ours, and writes nothing.

mod copies;
mod json;
mod line;
mod lot;
mod section;
mod text;

use crate::cli::Status;
use crate::cli::clerk::{Plans, Trouble};
use crate::cli::supply::text as text_of;
use crate::cli::verify::lot::{Lot, Shelf};
use crate::cli::verify::section::Section;
use crate::record::{Crew, Finding};
use crate::store::{Disk, Local, StoreFault};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Why nothing could be verified: the status to end with, and a sentence.
struct Stopped(Status, String);

pub(super) fn verify(
    paths: &[PathBuf],
    crews: &[PathBuf],
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let lots = match lots(paths, crews) {
        Ok(lots) => lots,
        Err(stopped) => return stopped.tell(err),
    };
    let mut plans = Plans::default();
    let judged: Result<Vec<Section<'_>>, StoreFault> =
        lots.iter().map(|lot| lot.judge(&mut plans)).collect();
    let sections = match judged {
        Ok(sections) => sections,
        Err(fault) => return Stopped::from(fault).tell(err),
    };
    let worst = sections.iter().map(Section::finding).max();
    let worst = worst.unwrap_or(Finding::Intact);
    if json {
        json::tell(&sections, worst, out)?;
    } else {
        text::tell(&sections, worst, out)?;
    }
    Ok(Status::Verified(worst))
}

/// What is judged together: the logbooks of one mode, or one trip.
fn lots(paths: &[PathBuf], crews: &[PathBuf]) -> Result<Vec<Lot>, Stopped> {
    let given: Vec<Crew> = crews
        .iter()
        .map(|path| crew(path))
        .collect::<Result<_, _>>()?;
    let (mut shelves, mut lots) = (Vec::new(), Vec::new());
    for path in paths {
        let is_there = |below: &str| Local.exists(&path.join(below)).unwrap_or(false);
        if is_there("trip.jsonl") || is_there("seal.json") {
            lots.push(Lot::of_trip(path, &given));
        } else if is_there("dev") {
            shelves.push(Shelf::open(path)?);
        } else {
            let sentence = format!(
                "There is neither a logbook nor a trip in {}. Name the folder of one.",
                path.display()
            );
            return Err(Stopped(Status::Usage, sentence));
        }
    }
    let mut whole: Vec<(_, Vec<Shelf>)> = Vec::new();
    for shelf in shelves {
        let mode = shelf.mode(&given);
        match whole.iter_mut().find(|(other, _)| *other == mode) {
            Some((_, same)) => same.push(shelf),
            None => whole.push((mode, vec![shelf])),
        }
    }
    for (mode, shelves) in whole {
        lots.push(Lot::of_logbooks(mode, shelves, &given));
    }
    Ok(lots)
}

fn crew(path: &Path) -> Result<Crew, Stopped> {
    let text = text_of(path)?;
    Crew::read(text.as_bytes())
        .map_err(|faults| Stopped(Status::Findings, format!("{}: {faults}", path.display())))
}

impl Stopped {
    fn tell(&self, err: &mut dyn Write) -> io::Result<Status> {
        let Self(status, sentence) = self;
        writeln!(err, "{sentence}")?;
        Ok(*status)
    }
}

impl From<StoreFault> for Stopped {
    fn from(fault: StoreFault) -> Self {
        Self(Status::Store, fault.to_string())
    }
}

impl From<Trouble> for Stopped {
    fn from(trouble: Trouble) -> Self {
        Self(Status::Store, trouble.to_string())
    }
}
