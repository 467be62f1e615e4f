//! `hames verify`: needs no key, no network, no folder of ours, and writes nothing.

use crate::cli::Status;
use crate::cli::clerk::{Books, Plans, TripRead, mode_of, read_trip};
use crate::cli::supply::text;
use crate::record::{Crew, Finding, Id, SequenceFault, Verified, sequence};
use crate::store::{Disk, Local, TripFolder};
use serde::Serialize;
use std::collections::BTreeMap;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

const SCHEMA: &str = "hames-verify/1";

/// One line of JSON.
#[derive(Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
enum Told {
    Trip {
        schema: &'static str,
        path: String,
        finding: &'static str,
        faults: Vec<String>,
        trip: Option<String>,
        device: Option<String>,
        number: Option<u64>,
        mode: Option<&'static str>,
        outcome: Option<&'static str>,
        signed_by: Option<String>,
        role: Option<&'static str>,
        receipt: Option<String>,
    },
    Order {
        schema: &'static str,
        finding: &'static str,
        what: String,
    },
    Whole {
        schema: &'static str,
        finding: &'static str,
        trips: usize,
        crews: Vec<String>,
    },
}

/// Trips found below a path, and the crew file that stands above them.
struct Found {
    trips: Vec<TripFolder>,
    strays: Vec<String>,
    crew: Option<Crew>,
}

pub(super) fn verify(
    paths: &[PathBuf],
    crews: &[PathBuf],
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let given = match crews
        .iter()
        .map(|path| crew(path))
        .collect::<Result<Vec<_>, _>>()
    {
        Ok(given) => given,
        Err(sentence) => {
            writeln!(err, "{sentence}")?;
            return Ok(Status::Store);
        }
    };
    let mut report = Report::default();
    let mut plans = Plans::default();
    for path in paths {
        let found = match find(path) {
            Ok(found) => found,
            Err((status, sentence)) => {
                writeln!(err, "{sentence}")?;
                return Ok(status);
            }
        };
        let trusted = if given.is_empty() {
            found.crew.into_iter().collect()
        } else {
            given.clone()
        };
        report.strays.extend(found.strays);
        for folder in found.trips {
            let mode = trusted.first().map(mode_of);
            match read_trip(&Local, &folder, mode, &trusted, &mut plans) {
                Ok(read) => report.trips.push(read),
                // One file that cannot be read hides none of the other trips.
                Err(fault) => report.unread.push((folder, fault.to_string())),
            }
        }
        report.trust(&trusted);
    }
    report.tell(json, out)
}

#[derive(Default)]
struct Report {
    trips: Vec<TripRead>,
    /// Trips with a file that cannot be read at all, and why.
    unread: Vec<(TripFolder, String)>,
    crews: Vec<String>,
    strays: Vec<String>,
}

impl Report {
    fn trust(&mut self, crews: &[Crew]) {
        for crew in crews {
            let revision = crew.revision().to_string();
            if !self.crews.contains(&revision) {
                self.crews.push(revision);
            }
        }
    }

    fn looked_at(&self) -> usize {
        self.trips.len() + self.unread.len()
    }

    fn verified(&self) -> impl Iterator<Item = &Verified> {
        self.trips
            .iter()
            .filter_map(|read| read.examined.trip.as_ref())
    }

    fn tell(&self, json: bool, out: &mut dyn Write) -> io::Result<Status> {
        let order = sequence(self.verified());
        let of_trips = self.trips.iter().map(|read| read.examined.finding());
        let of_order = order.iter().map(SequenceFault::finding);
        let of_unread = self.unread.iter().map(|_| Finding::Unreadable);
        let worst = of_trips.chain(of_order).chain(of_unread).max();
        let worst = worst.unwrap_or(Finding::Intact);
        if json {
            self.tell_json(&order, worst, out)?;
        } else {
            self.tell_text(&order, worst, out)?;
        }
        Ok(Status::Verified(worst))
    }

    fn tell_json(
        &self,
        order: &[SequenceFault],
        worst: Finding,
        out: &mut dyn Write,
    ) -> io::Result<()> {
        for read in &self.trips {
            let faults = read.examined.faults.iter().map(ToString::to_string);
            let trip = read.examined.trip.as_ref();
            let finding = read.examined.finding();
            line(
                out,
                &trip_told(&read.folder, finding, faults.collect(), trip),
            )?;
        }
        for (folder, why) in &self.unread {
            let faults = vec![why.clone()];
            line(out, &trip_told(folder, Finding::Unreadable, faults, None))?;
        }
        for fault in order {
            line(
                out,
                &Told::Order {
                    schema: SCHEMA,
                    finding: fault.finding().word(),
                    what: fault.to_string(),
                },
            )?;
        }
        line(
            out,
            &Told::Whole {
                schema: SCHEMA,
                finding: worst.word(),
                trips: self.looked_at(),
                crews: self.crews.clone(),
            },
        )
    }

    fn tell_text(
        &self,
        order: &[SequenceFault],
        worst: Finding,
        out: &mut dyn Write,
    ) -> io::Result<()> {
        for read in &self.trips {
            writeln!(out, "{}", trip_line(read))?;
            for fault in &read.examined.faults {
                writeln!(out, "  {fault}")?;
            }
        }
        for (folder, why) in &self.unread {
            writeln!(out, "{}  {}\n  {why}", name(folder), Finding::Unreadable)?;
        }
        for fault in order {
            writeln!(out, "{}: {fault}", fault.finding())?;
        }
        for stray in &self.strays {
            writeln!(out, "not looked at: {stray}, which is no trip's folder")?;
        }
        for crew in &self.crews {
            writeln!(
                out,
                "by the crew file {crew}; compare this with your manager's"
            )?;
        }
        for (device, seq) in self.newest() {
            writeln!(out, "nothing after trip {seq} of {device} is witnessed")?;
        }
        let trips = self.looked_at();
        let word = if trips == 1 { "trip" } else { "trips" };
        writeln!(out, "{trips} {word}: {worst}")
    }

    /// The newest trip of each device. What came after it leaves no gap.
    fn newest(&self) -> BTreeMap<&Id, u64> {
        let mut newest = BTreeMap::new();
        for trip in self.verified() {
            let begun = trip.begun();
            let last = newest.entry(&begun.device).or_insert(begun.seq);
            *last = begun.seq.max(*last);
        }
        newest
    }
}

fn line(out: &mut dyn Write, told: &Told) -> io::Result<()> {
    serde_json::to_writer(&mut *out, told)?;
    writeln!(out)
}

fn trip_told(
    folder: &TripFolder,
    finding: Finding,
    faults: Vec<String>,
    trip: Option<&Verified>,
) -> Told {
    let begun = trip.map(Verified::begun);
    let sealed = trip.and_then(Verified::sealed);
    Told::Trip {
        schema: SCHEMA,
        path: folder.path.display().to_string(),
        finding: finding.word(),
        faults,
        trip: begun.map(|begun| begun.trip.to_string()),
        device: begun.map(|begun| begun.device.to_string()),
        number: begun.map(|begun| begun.seq),
        mode: begun.map(|begun| begun.mode.word()),
        outcome: sealed.map(|sealed| sealed.seal.outcome.word()),
        signed_by: sealed.map(|sealed| sealed.seal.name.to_string()),
        role: sealed.map(|sealed| sealed.seal.role.word()),
        receipt: sealed.map(|sealed| sealed.receipt().to_string()),
    }
}

fn name(folder: &TripFolder) -> String {
    let name = folder.path.file_name().unwrap_or_default();
    name.to_string_lossy().escape_debug().to_string()
}

fn trip_line(read: &TripRead) -> String {
    let name = name(&read.folder);
    let finding = read.examined.finding();
    let Some(trip) = &read.examined.trip else {
        return format!("{name}  {finding}");
    };
    let counts = match trip.begun().mode {
        crate::record::Mode::Real => String::new(),
        mode => format!("  {}", mode.word().to_uppercase()),
    };
    let Some(sealed) = trip.sealed() else {
        return format!("{name}  {finding}{counts}");
    };
    let seal = &sealed.seal;
    format!(
        "{name}  {finding}{counts}  {}, signed by {}, {}, receipt {}",
        seal.outcome.word().replace('-', " "),
        seal.name,
        seal.role,
        sealed.receipt()
    )
}

/// What lies below a path: a logbook, or one trip.
fn find(path: &Path) -> Result<Found, (Status, String)> {
    let is_there = |below: &str| Local.exists(&path.join(below)).unwrap_or(false);
    if is_there("trip.jsonl") || is_there("seal.json") {
        let whole = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        // LOGBOOK/dev/DEVICE/t/TRIP
        let root = whole.ancestors().nth(4);
        let crew = root
            .and_then(|root| Books::open(&Local, root).ok())
            .map(|books| books.crew);
        let path = path.to_owned();
        return Ok(Found {
            trips: vec![TripFolder { seq: 0, path }],
            strays: Vec::new(),
            crew,
        });
    }
    if !is_there("dev") {
        let sentence = format!(
            "There is neither a logbook nor a trip in {}. Name the folder of one.",
            path.display()
        );
        return Err((Status::Usage, sentence));
    }
    let books =
        Books::open(&Local, path).map_err(|trouble| (Status::Store, trouble.to_string()))?;
    let store = |fault: crate::store::StoreFault| (Status::Store, fault.to_string());
    let mut strays = Vec::new();
    for device in books.logbook.devices().map_err(store)? {
        let found = books.logbook.trips(&device).map_err(store)?.strays;
        strays.extend(
            found
                .iter()
                .map(|name| format!("{device}/{}", name.to_string_lossy().escape_debug())),
        );
    }
    let trips = books.trips().map_err(store)?;
    Ok(Found {
        trips: trips.into_iter().map(|(_, folder)| folder).collect(),
        strays,
        crew: Some(books.crew),
    })
}

fn crew(path: &Path) -> Result<Crew, String> {
    let text = text(path).map_err(|fault| fault.to_string())?;
    Crew::read(text.as_bytes()).map_err(|faults| format!("{}: {faults}", path.display()))
}
