//! What verification found, as one JSON object a line.

use crate::cli::lot::{Line, Section};
use crate::cli::verify::text::is_by_its_crew;
use crate::logbook::ClockMark;
use crate::logbook::order::{Countersign, OrderFault, Witness};
use crate::record::{Finding, Opinion};
use crate::walk::unprintable;
use serde::Serialize;
use std::fmt::Write as _;
use std::io::{self, Write};

const SCHEMA: &str = "hames-verify/1";

/// One line of JSON.
#[derive(Serialize)]
struct Told {
    schema: &'static str,
    #[serde(flatten)]
    what: What,
    /// Whether it is of the drills.
    #[serde(skip_serializing_if = "<&bool as std::ops::Not>::not")]
    of_drills: bool,
}

#[derive(Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
enum What {
    Trip(Box<TripTold>),
    Statement {
        finding: &'static str,
        what: String,
    },
    Order(OrderTold),
    Beside(OrderTold),
    Stray {
        finding: &'static str,
        what: String,
    },
    Note {
        what: String,
    },
    Question {
        what: String,
    },
    Newest {
        device: String,
        number: u64,
        witnessed_number: Option<u64>,
        witnessed_by: Option<Stated>,
    },
    Whole {
        finding: &'static str,
        trips: usize,
        #[serde(skip_serializing_if = "Option::is_none")]
        drills: Option<DrillsTold>,
        crews: Vec<String>,
    },
}

/// What the drills come to, where there are any.
#[derive(Serialize)]
struct DrillsTold {
    drills: usize,
    finding: &'static str,
}

/// A fault in the order of trips.
#[derive(Serialize)]
struct OrderTold {
    finding: &'static str,
    what: String,
    device: String,
    from: u64,
    to: u64,
}

#[derive(Serialize)]
struct TripTold {
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
    later_than: Option<Stated>,
    earlier_than: Option<Stated>,
    countersigns: Vec<CountersignTold>,
    clock_marks: Vec<MarkTold>,
}

/// Where a clock does not agree with itself or with everything else known. No finding.
#[derive(Serialize)]
pub(in crate::cli) struct MarkTold {
    about: &'static str,
    doubtful: bool,
    line: usize,
    at: String,
    what: String,
}

/// A statement. Its clock is a claim.
#[derive(Serialize)]
struct Stated {
    manager: String,
    name: String,
    number: u64,
    hash: String,
    clock: String,
}

/// A manager's word on a trip.
#[derive(Serialize)]
pub(in crate::cli) struct CountersignTold {
    by: Stated,
    opinion: &'static str,
    remarks: Option<String>,
}

pub(super) fn tell(
    sections: &[Section<'_>],
    worst: Finding,
    out: &mut dyn Write,
) -> io::Result<()> {
    for section in sections {
        let of_drills = section.lot.drills;
        for what in told(section) {
            line(out, what, of_drills)?;
        }
    }
    let (drills, trips): (Vec<_>, Vec<_>) = sections.iter().partition(|one| one.lot.drills);
    let count = |of: &[&Section<'_>]| of.iter().map(|section| section.lines.len()).sum();
    let found = drills.iter().map(|section| section.finding()).max();
    let crews = sections.iter().filter(|one| is_by_its_crew(one, sections));
    let crews = crews.flat_map(|section| &section.lot.crews);
    let whole = What::Whole {
        finding: worst.word(),
        trips: count(&trips),
        drills: found.map(|finding| DrillsTold {
            drills: count(&drills),
            finding: finding.word(),
        }),
        crews: crews.map(|crew| crew.revision().to_string()).collect(),
    };
    line(out, whole, false)
}

/// Everything of one section, in the order it is told.
fn told(section: &Section<'_>) -> Vec<What> {
    let judged = &section.judged;
    let trips = section.lines.iter();
    let mut all: Vec<What> = trips
        .map(|trip| What::Trip(Box::new(trip_told(trip, section))))
        .collect();
    all.extend(section.stated().into_iter().map(|(finding, what)| {
        let finding = finding.word();
        What::Statement { finding, what }
    }));
    let order = judged.faults.iter().map(OrderTold::of);
    all.extend(order.map(What::Order));
    let beside = section.beside.iter().map(OrderTold::of);
    all.extend(beside.map(What::Beside));
    all.extend(section.strays.iter().map(|stray| What::Stray {
        finding: stray.finding.word(),
        what: stray.what.clone(),
    }));
    all.extend(judged.notes.iter().map(|note| {
        let what = note.to_string();
        if note.is_question() {
            What::Question { what }
        } else {
            What::Note { what }
        }
    }));
    let newest = judged.newest.iter().filter(|_| section.whole);
    all.extend(newest.map(|newest| {
        let witnessed = newest.witnessed.as_ref();
        What::Newest {
            device: newest.device.to_string(),
            number: newest.seq,
            witnessed_number: witnessed.map(|(seq, _)| *seq),
            witnessed_by: witnessed.map(|(_, witness)| Stated::of(witness)),
        }
    }));
    all
}

fn trip_told(line: &Line, section: &Section<'_>) -> TripTold {
    let judged = &section.judged;
    let trip = line.trip.as_ref();
    let seal = trip.and_then(|trip| trip.sealed.as_ref());
    let bracket = trip
        .map(|trip| judged.bracket(&trip.end))
        .unwrap_or_default();
    let countersigns = trip.map(|trip| judged.countersigns(&trip.end));
    let countersigns = countersigns.into_iter().flatten();
    TripTold {
        path: line.folder.path.display().to_string(),
        finding: line.finding(judged).word(),
        faults: line.faults.clone(),
        trip: trip.map(|trip| trip.trip.to_string()),
        device: trip.map(|trip| trip.device.to_string()),
        number: trip.map(|trip| trip.seq),
        mode: trip.map(|trip| trip.mode.word()),
        walked_on_paper: trip.and_then(|trip| Some(trip.paper?.to_string())),
        outcome: seal.map(|seal| seal.outcome.word()),
        signed_by: seal.map(|seal| seal.name.clone()),
        role: seal.map(|seal| seal.role.word()),
        receipt: seal.map(|seal| seal.receipt.to_string()),
        later_than: bracket.later_than.as_ref().map(Stated::of),
        earlier_than: bracket.earlier_than.as_ref().map(Stated::of),
        countersigns: countersigns.map(|one| CountersignTold::of(&one)).collect(),
        clock_marks: section.marks_of(line).map(MarkTold::of).collect(),
    }
}

impl OrderTold {
    fn of(fault: &OrderFault) -> Self {
        let (from, to) = fault.numbers();
        Self {
            finding: fault.finding().word(),
            what: fault.to_string(),
            device: fault.device().to_string(),
            from,
            to,
        }
    }
}

impl CountersignTold {
    pub(in crate::cli) fn of(one: &Countersign<'_>) -> Self {
        Self {
            by: Stated::of(&one.by),
            opinion: match one.says.opinion {
                Opinion::Agreed => "agreed",
                Opinion::Asked => "asked",
            },
            remarks: one.says.remarks.as_ref().map(ToString::to_string),
        }
    }
}

impl MarkTold {
    pub(in crate::cli) fn of(mark: &ClockMark) -> Self {
        Self {
            about: mark.word(),
            doubtful: mark.is_doubtful(),
            line: mark.line,
            at: mark.at.to_rfc3339(),
            what: mark.told(),
        }
    }
}

impl Stated {
    fn of(witness: &Witness) -> Self {
        Self {
            manager: witness.manager.to_string(),
            name: witness.name.to_string(),
            number: witness.number,
            hash: witness.hash.to_string(),
            clock: witness.clock.to_string(),
        }
    }
}

/// One line. What a terminal could take for a control is spelt by its number, which means the same.
fn line(out: &mut dyn Write, what: What, of_drills: bool) -> io::Result<()> {
    let schema = SCHEMA;
    let text = serde_json::to_string(&Told {
        schema,
        what,
        of_drills,
    })?;
    let mut shown = String::with_capacity(text.len());
    for letter in text.chars() {
        if unprintable(letter) {
            for unit in letter.encode_utf16(&mut [0; 2]) {
                write!(shown, "\\u{unit:04x}").map_err(io::Error::other)?;
            }
        } else {
            shown.push(letter);
        }
    }
    writeln!(out, "{shown}")
}
