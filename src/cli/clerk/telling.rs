//! A trip's record told for people, from its verified bytes.

use crate::cli::clerk::around::trip_name;
use crate::cli::clerk::{Books, Clerk, Plans, TripRead, Trouble};
use crate::desk::DRILL;
use crate::desk::earlier::{self, FROM_PAPER};
use crate::desk::{Approval, Reply, Tale, TaleLine, Weight, told};
use crate::logbook::order::Countersign;
use crate::record::{Mode, Previous, Verified};
use crate::store::Disk;
use crate::text;
use crate::walk::{Moment, Walk};

impl<D: Disk> Clerk<D> {
    /// Reads a trip's record back, verified.
    pub(super) fn show(&mut self, trip: &str) -> Result<Reply, Trouble> {
        let books = self.books()?;
        let (books, what, name) = match trip.strip_prefix(DRILL) {
            Some(name) => (books.drills(), "drill", name),
            None => (books, "trip", trip),
        };
        let found = books
            .trips()?
            .into_iter()
            .find(|(_, folder)| trip_name(folder) == name);
        let Some((device, folder)) = found else {
            return Err(Trouble::Said(format!(
                "There is no {what} “{}” here.",
                trip.escape_debug()
            )));
        };
        let read = books.read(&device, &folder, &mut Plans::default())?;
        Ok(Reply::Record(Box::new(tale(&read, &books))))
    }
}

/// The tale of a trip as read. Where its bytes cannot be relied on only the findings are told.
pub(in crate::cli) fn tale<D: Disk>(read: &TripRead, books: &Books<D>) -> Tale {
    let findings = findings(read);
    let (Some(verified), Ok(walk)) = (read.trip(), read.walk()) else {
        return Tale {
            heading: vec![format!("Record {}", trip_name(&read.folder))],
            findings,
            lines: Vec::new(),
            signatures: Vec::new(),
        };
    };
    Tale {
        heading: heading(
            read,
            (verified, &walk),
            &standing(read, verified, books),
            answers(verified, books),
        ),
        findings,
        lines: lines(verified, &walk),
        signatures: signatures(verified),
    }
}

/// What was answered as this walk began, each with what it answers.
fn answers<D: Disk>(verified: &Verified, books: &Books<D>) -> Vec<String> {
    let answers = &verified.begun().answers;
    if answers.is_empty() {
        return Vec::new();
    }
    let statements = books.statements().unwrap_or_default();
    let told = answers.iter().map(|answer| {
        let asked = statements.find(&answer.question).and_then(Countersign::of);
        let what = asked.map_or_else(
            || "a question that is not known here".to_owned(),
            |asked| {
                let (by, trip) = (&asked.by.name, asked.says);
                format!("what {by} asked about trip {} of {}", trip.seq, trip.device)
            },
        );
        format!("{} answers {what}: “{}”", answer.by, answer.words)
    });
    told.collect()
}

fn heading(
    read: &TripRead,
    (verified, walk): (&Verified, &Walk),
    standing: &Approval,
    answers: Vec<String>,
) -> Vec<String> {
    let begun = verified.begun();
    let counts = match begun.mode {
        Mode::Real => "",
        Mode::Demo => " DEMO: an invented barn, nothing here counts.",
        Mode::Drill => " A training run.",
    };
    let what = text::capital(begun.what());
    let mut heading = vec![
        format!(
            "{what} {}, number {} of {}.{counts}",
            trip_name(&read.folder),
            begun.seq,
            begun.device
        ),
        format!(
            "{}, {}",
            walk.plan().rig().name,
            walk.plan().checklist().title
        ),
        revision(walk, standing),
        when(verified),
        format!(
            "{} reads and types, {} does the work",
            begun.reader, begun.doer
        ),
    ];
    heading.extend(left_behind(verified));
    heading.extend(answers);
    heading.extend(carried_in(verified, walk));
    heading.extend(
        begun
            .odometer
            .as_ref()
            .map(|odometer| format!("Odometer {odometer}")),
    );
    heading
}

/// When it was walked; from paper, both when it was walked and when it was entered.
fn when(verified: &Verified) -> String {
    const SHOWN: &str = "%Y-%m-%d %H:%M %:z";
    let begun = verified.at().wall.format(SHOWN);
    match verified.begun().paper {
        None => format!("Begun {begun}"),
        Some(paper) => format!(
            "{FROM_PAPER}: walked {}, entered from {begun} on",
            paper.moment().format(SHOWN)
        ),
    }
}

/// What this record says of the trip before it, where nobody had signed that one.
fn left_behind(verified: &Verified) -> Option<String> {
    let begun = verified.begun();
    let unsigned = matches!(begun.previous, Some(Previous::Unsealed(_)));
    unsigned.then(|| {
        format!(
            "Trip {} of {} was not signed when this one began; unless it was taken up since, it \
             stands as abandoned",
            begun.seq.saturating_sub(1),
            begun.device
        )
    })
}

/// The haul it belongs to, and what was left open before it.
fn carried_in(verified: &Verified, walk: &Walk) -> Vec<String> {
    let begun = verified.begun();
    let haul = begun.haul.as_ref().map(|haul| {
        if *haul == begun.trip {
            "Begins a haul".to_owned()
        } else {
            format!("Of the haul that trip {haul} began")
        }
    });
    let carried = earlier::carried_in(walk.plan());
    let carried = carried.map(|carried| format!("Left open before: {carried}"));
    haul.into_iter().chain(carried).collect()
}

fn revision(walk: &Walk, standing: &Approval) -> String {
    let revision = walk.plan().checklist().revision;
    match standing {
        Approval::Shipped => format!("Revision {revision} of the checklist"),
        Approval::Approved { .. } => format!("Revision {revision} of the checklist, {standing}"),
        Approval::Unapproved => {
            format!("Revision {revision} of the checklist, UNAPPROVED when the walk began")
        }
    }
}

/// Who stood behind the checklist when the walk began.
fn standing<D: Disk>(read: &TripRead, verified: &Verified, books: &Books<D>) -> Approval {
    let begun = verified.begun();
    books.standing_at(
        &begun.checklist.id,
        &read.checklist,
        Some(verified.at().wall),
    )
}

fn findings(read: &TripRead) -> Vec<String> {
    let mut findings = vec![read.finding().told()];
    findings.extend(read.faults());
    findings
}

fn lines(verified: &Verified, walk: &Walk) -> Vec<TaleLine> {
    let first = TaleLine {
        time: time(verified.at()),
        what: "Walk begun".to_owned(),
        weight: Weight::Plain,
    };
    let rest = verified.entries().iter().map(|entry| {
        let (what, weight) = told::happened(&entry.event, walk.plan());
        TaleLine {
            time: time(&entry.at),
            what,
            weight,
        }
    });
    std::iter::once(first).chain(rest).collect()
}

/// Printed name, time, meaning and role, as every human view of a signature shows them.
fn signatures(verified: &Verified) -> Vec<String> {
    let Some(sealed) = verified.sealed() else {
        return Vec::new();
    };
    let seal = &sealed.seal;
    let when = seal.wall.moment().format("%Y-%m-%d %H:%M %:z");
    vec![
        format!("{}, {}, {when}: {}", seal.name, seal.role, seal.meaning),
        format!(
            "Outcome {}. {} lines. Answers: {} ok, {} note, {} fix, {} stop.",
            seal.outcome.word().replace('-', " "),
            seal.lines,
            seal.counts.ok,
            seal.counts.note,
            seal.counts.fix,
            seal.counts.stop
        ),
        format!(
            "{}, device, holds it as its {} {}",
            sealed.device.name,
            verified.begun().what(),
            seal.seq
        ),
        format!("Receipt {}", sealed.receipt()),
    ]
}

fn time(at: &Moment) -> String {
    at.wall.format("%H:%M").to_string()
}
