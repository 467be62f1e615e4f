//! `hames verify`: needs no key, no network, no folder of ours, and writes nothing.

mod report;

use crate::cli::Status;
use crate::cli::clerk::{Books, Plans, read_trip};
use crate::cli::supply::text;
use crate::cli::verify::report::Report;
use crate::record::Crew;
use crate::store::{Disk, Local, StoreFault, TripFolder};
use std::io::{self, Write};
use std::path::{self, Path, PathBuf};

/// Why nothing could be verified: the status to end with, and a sentence.
struct Stopped(Status, String);

pub(super) fn verify(
    paths: &[PathBuf],
    crews: &[PathBuf],
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    match read(paths, crews) {
        Ok(report) => report.tell(json, out),
        Err(Stopped(status, sentence)) => {
            writeln!(err, "{sentence}")?;
            Ok(status)
        }
    }
}

fn read(paths: &[PathBuf], crews: &[PathBuf]) -> Result<Report, Stopped> {
    let given: Vec<Crew> = crews
        .iter()
        .map(|path| crew(path))
        .collect::<Result<_, _>>()?;
    let (mut report, mut plans) = (Report::default(), Plans::default());
    for path in paths {
        let is_there = |below: &str| Local.exists(&path.join(below)).unwrap_or(false);
        if is_there("trip.jsonl") || is_there("seal.json") {
            read_one(path, &given, &mut report, &mut plans);
        } else if is_there("dev") {
            read_logbook(path, &given, &mut report, &mut plans)?;
        } else {
            let sentence = format!(
                "There is neither a logbook nor a trip in {}. Name the folder of one.",
                path.display()
            );
            return Err(Stopped(Status::Usage, sentence));
        }
    }
    Ok(report)
}

/// One trip, by the crew given, else by the crew of the logbook it lies in.
fn read_one(path: &Path, given: &[Crew], report: &mut Report, plans: &mut Plans) {
    let whole = path::absolute(path).unwrap_or_else(|_| path.to_owned());
    // LOGBOOK/dev/DEVICE/t/TRIP
    let books = whole
        .ancestors()
        .nth(4)
        .and_then(|root| Books::open(&Local, root).ok());
    let above: Vec<Crew> = books.into_iter().map(|books| books.crew).collect();
    let trusted = if given.is_empty() { &above } else { given };
    let folder = TripFolder {
        seq: 0,
        path: path.to_owned(),
    };
    let read = read_trip(&Local, &folder, trusted, plans);
    report.take(folder, read);
    report.trust(trusted);
}

/// Every trip of a logbook.
fn read_logbook(
    path: &Path,
    given: &[Crew],
    report: &mut Report,
    plans: &mut Plans,
) -> Result<(), Stopped> {
    let books =
        Books::open(&Local, path).map_err(|trouble| Stopped(Status::Store, trouble.to_string()))?;
    let own = [books.crew.clone()];
    let trusted = if given.is_empty() { &own } else { given };
    for device in books.logbook.devices()? {
        let strays = books.logbook.trips(&device)?.strays;
        let strays = strays
            .iter()
            .map(|name| format!("{device}/{}", name.to_string_lossy().escape_debug()));
        report.strays.extend(strays);
    }
    for (device, folder) in books.trips()? {
        let read = books.read_as(&device, &folder, trusted, plans);
        report.take(folder, read);
    }
    report.trust(trusted);
    Ok(())
}

fn crew(path: &Path) -> Result<Crew, Stopped> {
    let text = text(path)?;
    Crew::read(text.as_bytes())
        .map_err(|faults| Stopped(Status::Findings, format!("{}: {faults}", path.display())))
}

impl From<StoreFault> for Stopped {
    fn from(fault: StoreFault) -> Self {
        Self(Status::Store, fault.to_string())
    }
}
