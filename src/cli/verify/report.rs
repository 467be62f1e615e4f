//! What verification found, as text or as JSON.

use crate::cli::Status;
use crate::cli::clerk::TripRead;
use crate::cli::logbook::name;
use crate::desk::earlier::{self, FROM_PAPER};
use crate::logbook::order::{Order, OrderFault};
use crate::record::{Crew, Finding, Id, Mode, Statements, Verified};
use crate::store::{StoreFault, TripFolder};
use serde::Serialize;
use std::collections::BTreeMap;
use std::io::{self, Write};

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
        walked_on_paper: Option<String>,
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

/// Everything that was read, to be told together.
#[derive(Default)]
pub(super) struct Report {
    trips: Vec<TripRead>,
    /// Trips with a file that cannot be read at all, and why.
    unread: Vec<(TripFolder, String)>,
    /// What lies among trips and is none.
    pub(super) strays: Vec<String>,
    /// The crew files judged by, by their hash.
    crews: Vec<String>,
}

impl Report {
    /// Takes in a trip. One file that cannot be read hides none of the other trips.
    pub(super) fn take(&mut self, folder: TripFolder, read: Result<TripRead, StoreFault>) {
        match read {
            Ok(read) => self.trips.push(read.for_report()),
            Err(fault) => self.unread.push((folder, fault.to_string())),
        }
    }

    /// Remembers which crew files were trusted.
    pub(super) fn trust(&mut self, crews: &[Crew]) {
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
        self.trips.iter().filter_map(|read| read.trip())
    }

    /// Tells it, and with which status it ends.
    pub(super) fn tell(&self, json: bool, out: &mut dyn Write) -> io::Result<Status> {
        let statements = Statements::default();
        let mut order = Order::new(&statements);
        self.verified().for_each(|trip| order.take(trip));
        let order = order.judge().faults;
        let of_trips = self.trips.iter().map(TripRead::finding);
        let of_order = order.iter().map(OrderFault::finding);
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
        order: &[OrderFault],
        worst: Finding,
        out: &mut dyn Write,
    ) -> io::Result<()> {
        for read in &self.trips {
            let told = trip_told(&read.folder, read.finding(), read.faults(), read.trip());
            line(out, &told)?;
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
        order: &[OrderFault],
        worst: Finding,
        out: &mut dyn Write,
    ) -> io::Result<()> {
        for read in &self.trips {
            writeln!(out, "{}", trip_line(read))?;
            for fault in read.faults() {
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
        walked_on_paper: begun.and_then(|begun| Some(begun.paper?.to_string())),
        outcome: sealed.map(|sealed| sealed.seal.outcome.word()),
        signed_by: sealed.map(|sealed| sealed.seal.name.to_string()),
        role: sealed.map(|sealed| sealed.seal.role.word()),
        receipt: sealed.map(|sealed| sealed.receipt().to_string()),
    }
}

fn trip_line(read: &TripRead) -> String {
    let name = name(&read.folder);
    let finding = read.finding();
    let Some(trip) = read.trip() else {
        return format!("{name}  {finding}");
    };
    let counts = match trip.begun().mode {
        Mode::Real => String::new(),
        mode => format!("  {}", mode.word().to_uppercase()),
    };
    let paper = trip.begun().paper.map(|walked| {
        let walked = earlier::date(&walked.moment());
        format!("  {FROM_PAPER} of {walked}")
    });
    let counts = counts + &paper.unwrap_or_default();
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
