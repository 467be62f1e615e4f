//! `hames verify`: needs no key, no network, no folder of ours, and writes nothing.

mod json;
mod text;

pub(in crate::cli) use json::{CountersignTold, MarkTold};
pub(in crate::cli) use text::{said, say};

use crate::cli::Status;
use crate::cli::clerk::Plans;
use crate::cli::lot::{Section, Stopped, lots_and_drills};
use crate::cli::supply::text as text_of;
use crate::record::{Crew, Finding};
use crate::store::StoreFault;
use crate::world::{Machine, World};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Tells what is found at these paths, by the crew files given or else by those that are there.
///
/// # Errors
/// What the output refused.
pub fn verify(
    paths: &[PathBuf],
    crews: &[PathBuf],
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let given: Result<Vec<Crew>, Stopped> = crews.iter().map(|path| crew(path)).collect();
    let lots = match given.and_then(|given| lots_and_drills(paths, &given)) {
        Ok(lots) => lots,
        Err(stopped) => return stopped.tell(err),
    };
    let now = Some(Machine::this().now().wall);
    let mut plans = Plans::default();
    let judged: Result<Vec<Section<'_>>, StoreFault> =
        lots.iter().map(|lot| lot.judge(&mut plans, now)).collect();
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
