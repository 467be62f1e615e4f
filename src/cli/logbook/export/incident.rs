//! `hames logbook incident`: what an insurer needs of one trip, told first and then to be checked.

use super::contents::{Content, contents};
use super::explain::Example;
use super::send::{Made, Sent, to_folder};
use crate::cli::Status;
use crate::cli::clerk::{Books, Plans, TripRead};
use crate::cli::logbook::AboutLogbook;
use crate::cli::logbook::report::json::json;
use crate::cli::logbook::report::made::{Reported, rig_of, trip};
use crate::cli::logbook::report::whole;
use crate::cli::logbook::shelf::{Failed, name};
use crate::record::{Finding, Id, counted};
use crate::report::{Report, html, text};
use crate::store::{Local, TripFolder};
use chrono::{Days, NaiveDate};
use std::collections::HashSet;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// How many days before the trip the rig's other trips go along.
const DAYS: u64 = 90;

/// The trips that go along.
struct Taken {
    /// The one that is asked for: its laptop and folder.
    own: (Id, TripFolder),
    /// All of them, by their folders.
    folders: HashSet<PathBuf>,
    /// How many others there are.
    others: usize,
}

/// Writes what there is of the trip that is meant into a folder of its own.
pub(in crate::cli::logbook) fn incident(
    typed: &str,
    to: &Path,
    about: &AboutLogbook,
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    let place = about.place();
    let books = Books::open(&Local, place)?;
    let found = books.trip(typed);
    let own = found.map_err(|trouble| Failed::Said(trouble.status(), trouble.to_string()))?;
    let read = books.read(&own.0, &own.1, &mut Plans::default())?;
    let (reported, status) = match trip(typed, place)? {
        Reported::Made(report, status) => (forms("trip", &report)?, status),
        Reported::Shut(tale, status) => {
            let told = [tale.heading, tale.findings].concat().join("\n") + "\n";
            let file = ("report/trip.txt".to_owned(), told.into_bytes());
            (vec![file], status)
        }
    };
    let mut files = reported;
    let mut folders = HashSet::from([own.1.path.clone()]);
    if let Some((rig, day)) = rig_and_day(&read) {
        let whole = whole::read(place, Some(day))?;
        let since = day.checked_sub_days(Days::new(DAYS)).unwrap_or(day);
        let days = (Some(since), Some(day));
        files.extend(forms("rig", &rig_of(&whole, (&rig, days), place)?)?);
        let own = whole.trips.iter().filter(|(glance, _)| {
            let walked = glance.at.date_naive();
            glance.rig == rig && (since..=day).contains(&walked)
        });
        folders.extend(own.map(|(_, folder)| folder.clone()));
    }
    let all = books.trips()?.len();
    let taken = Taken {
        others: all.saturating_sub(folders.len()),
        own,
        folders,
    };
    let sent = send(&books, (to, &taken), files)?;
    tell(&books, (to, &taken, &sent), status, out)
}

/// Its rig, and the day it was walked; nothing where the record cannot be relied on.
fn rig_and_day(read: &TripRead) -> Option<(String, NaiveDate)> {
    let (trip, walk) = (read.trip()?, read.walk().ok()?);
    let at = walk.paper().copied().unwrap_or(trip.at().wall);
    Some((trip.begun().rig.id.clone(), at.date_naive()))
}

/// A report in its three forms.
fn forms(of: &str, report: &Report) -> Result<Vec<(String, Vec<u8>)>, Failed> {
    let page = report.page();
    let json = json(report).map_err(io::Error::from)?;
    let forms = [
        ("html", html(&page).into_bytes()),
        ("txt", text(&page).into_bytes()),
        ("json", json),
    ];
    let named = |(ending, bytes)| (format!("report/{of}.{ending}"), bytes);
    Ok(forms.map(named).into())
}

fn send(
    books: &Books<Local>,
    (to, taken): (&Path, &Taken),
    files: Vec<(String, Vec<u8>)>,
) -> Result<Sent, Failed> {
    let root = books.logbook.root();
    let at = |folder: &Path| {
        let below = folder.strip_prefix(root).unwrap_or(folder);
        below.to_string_lossy().replace('\\', "/") + "/"
    };
    let own = at(&taken.own.1.path);
    let along: Vec<String> = taken.folders.iter().map(|folder| at(folder)).collect();
    let mut copied: Vec<Content> = contents(&books.logbook)?.contents;
    copied.retain(|one| {
        let of_trip = one.at.starts_with("dev/");
        !of_trip || along.iter().any(|folder| one.at.starts_with(folder))
    });
    // The commands of the page are for the first trip there is.
    copied.sort_by_key(|one| (!one.at.starts_with(&own), one.at.clone()));
    let page = |example: &Example| {
        let left_out = left_out(taken);
        example.text_of_incident(&opening(&own), &left_out)
    };
    let made = Made {
        files,
        lost: Vec::new(),
        page: &page,
    };
    to_folder(to, &copied, made)
}

fn opening(own: &str) -> String {
    format!(
        "\
RECORDS ABOUT ONE TRIP OF A TRUCK AND A HORSE TRAILER

Begin with report/trip.html: any browser shows and prints it, and needs no network for that. It tells
what was looked at and read before this trip and by whom, what was not as it should be, which defects
stood, who signed what and in which meaning, what managers asked and said, what the people were
signed off for, what is known of each instrument, and what verification found. report/trip.txt is the
same as text, report/trip.json the same as data.

report/rig.html tells what stood open and was due for this rig, how its readings moved and what its
trips came to in the {DAYS} days up to that day. The records of those trips are here too.

The reports are made from the records for convenience and prove nothing themselves. The records prove
what they prove by their signatures. This trip lies in

    {own}

with the checklist and the rig file as they stood on that day. They are copies, byte for byte, of what
the program Hames kept. Nothing here needs the program to be read; all of it is text, and any editor
shows it.

"
    )
}

fn left_out(taken: &Taken) -> String {
    format!(
        "\
WHAT IS LEFT OUT, AND WHY

{} of this logbook {} not here: of other rigs, of after that day, or of more than {DAYS} days before
it. Nobody asked after them, and they name people. An export of the whole logbook holds everything;
whoever needs it asks the barn for one. What managers stated is here whole, since each statement leans
on the one before, so statements name trips that are not here.

So a check of this folder as a whole says “gap”: numbers are missing. Here that is as it has to be, and
it says nothing about the trips that are here. What is found of each of those stands behind its name,
and of one trip by itself in the first line of:

    python3 -B second/verify.py {}

",
        counted(taken.others, "trip"),
        if taken.others == 1 { "is" } else { "are" },
        place_of(taken)
    )
}

/// The folder of the trip, below that of the records.
fn place_of(taken: &Taken) -> String {
    let (device, folder) = &taken.own;
    format!("dev/{device}/t/{}", name(folder))
}

/// What was written, once each trip was read back from there and found to be what it is here.
fn tell(
    books: &Books<Local>,
    (to, taken, sent): (&Path, &Taken, &Sent),
    status: Status,
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    for lost in &sent.lost {
        writeln!(out, "not written: {lost}")?;
    }
    if let Some(other) = &sent.other {
        return Err(Failed::Said(
            Status::Store,
            format!(
                "{other} does not hold the bytes that were written. The disk cannot be relied on; \
                 write to another one."
            ),
        ));
    }
    if let Some(other) = found_otherwise(books, to, taken)? {
        return Err(Failed::Said(
            Status::Store,
            format!(
                "{other} is found to be something else in {} than in the logbook. Do not hand that on; \
                 write to another disk.",
                crate::text::harmless(&to.display().to_string())
            ),
        ));
    }
    writeln!(
        out,
        "Written to {}: {}, each read back; {} verified there as in the logbook, {} left out. Whoever \
         gets it begins with READ-THIS.txt.",
        crate::text::harmless(&to.display().to_string()),
        counted(sent.files, "file"),
        counted(taken.folders.len(), "trip"),
        counted(taken.others, "trip"),
    )?;
    Ok(match status {
        _ if !sent.lost.is_empty() => Status::Store,
        Status::Verified(Finding::Intact | Finding::NotCountersigned) => Status::Fine,
        status => status,
    })
}

/// A trip that is found to be something else there than here.
fn found_otherwise(
    books: &Books<Local>,
    to: &Path,
    taken: &Taken,
) -> Result<Option<String>, Failed> {
    let there = Books::open(&Local, to)?;
    let (mut plans, mut seen) = (Plans::default(), 0);
    for (device, folder) in there.trips()? {
        let found = there.read(&device, &folder, &mut plans)?.finding();
        let own = folder.path.strip_prefix(to).unwrap_or(&folder.path);
        let here = TripFolder {
            seq: folder.seq,
            path: books.logbook.root().join(own),
        };
        if found != books.read(&device, &here, &mut plans)?.finding() {
            return Ok(Some(name(&folder)));
        }
        seen += 1;
    }
    let all_there = seen == taken.folders.len();
    Ok((!all_there).then(|| "A trip that is not there".to_owned()))
}
