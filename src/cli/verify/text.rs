//! What verification found, as text. Nothing stored reaches the terminal as a control.

use crate::cli::lot::{Line, Section};
use crate::logbook::order::{Bracket, Countersign, Witness};
use crate::record::{Finding, Opinion, counted};
use crate::walk::unprintable;
use std::io::{self, Write};

pub(super) fn tell(
    sections: &[Section<'_>],
    worst: Finding,
    out: &mut dyn Write,
) -> io::Result<()> {
    let mut bracketed = false;
    for section in sections {
        if section.lot.drills {
            let told = format!("Drills: {}, {}", section.count(), section.finding());
            say(out, &told)?;
        }
        for line in &section.lines {
            bracketed |= tell_trip(line, section, out)?;
        }
        tell_whole(section, out)?;
        if is_by_its_crew(section, sections) {
            tell_crews(section, out)?;
        }
        tell_newest(section, out)?;
    }
    if sections.iter().any(|section| !section.marks.is_empty()) {
        say(
            out,
            "what is marked is no finding: work went on, and which times to lean on is for you to say",
        )?;
    }
    if bracketed {
        say(
            out,
            "the order is shown by what names what; the times beside it are what clocks claimed",
        )?;
    }
    say(out, &format!("{}: {worst}", counted_in(sections)))
}

/// How many trips were judged, and how many drills, where there were any.
fn counted_in(sections: &[Section<'_>]) -> String {
    let count = |drills: bool| {
        let of = sections.iter().filter(|one| one.lot.drills == drills);
        of.map(|section| section.lines.len()).sum::<usize>()
    };
    match (count(false), count(true)) {
        (0, 0) => "no trip".to_owned(),
        (trips, 0) => counted(trips, "trip"),
        (0, drills) => counted(drills, "drill"),
        (trips, drills) => format!(
            "{} and {}",
            counted(trips, "trip"),
            counted(drills, "drill")
        ),
    }
}

/// Answers whether the trip stands between any statements.
fn tell_trip(line: &Line, section: &Section<'_>, out: &mut dyn Write) -> io::Result<bool> {
    let judged = &section.judged;
    say(out, &line.text(judged))?;
    for fault in &line.faults {
        say(out, &format!("  {fault}"))?;
    }
    let Some(trip) = &line.trip else {
        return Ok(false);
    };
    for countersign in judged.countersigns(&trip.end) {
        say(out, &format!("  {}", said(&countersign)))?;
    }
    for mark in section.marks_of(line) {
        say(out, &format!("  marked, {}", mark.told()))?;
    }
    let bracket = judged.bracket(&trip.end);
    let told = told(&bracket);
    if let Some(told) = &told {
        say(out, &format!("  {told}"))?;
    }
    Ok(told.is_some())
}

/// What a manager said of a trip.
pub(in crate::cli) fn said(countersign: &Countersign<'_>) -> String {
    let says = match countersign.says.opinion {
        Opinion::Agreed => "agreed to by",
        Opinion::Asked => "asked about by",
    };
    let remarks = countersign.says.remarks.as_ref();
    let remarks = remarks.map_or_else(String::new, |words| format!(": {words}"));
    format!("{says} {}{remarks}", countersign.by)
}

/// Between which statements a trip was made.
fn told(bracket: &Bracket) -> Option<String> {
    let clock = |witness: &Witness| {
        let time = witness.clock.moment();
        format!("{witness} (clock {})", time.format("%Y-%m-%d %H:%M"))
    };
    let later = bracket.later_than.as_ref().map(clock);
    let earlier = bracket.earlier_than.as_ref().map(clock);
    match (later, earlier) {
        (None, None) => None,
        (Some(later), None) => Some(format!(
            "later than {later}, and witnessed by no statement yet"
        )),
        (None, Some(earlier)) => Some(format!("earlier than {earlier}")),
        (Some(later), Some(earlier)) => Some(format!("later than {later}, earlier than {earlier}")),
    }
}

fn tell_whole(section: &Section<'_>, out: &mut dyn Write) -> io::Result<()> {
    for (finding, what) in section.stated() {
        say(out, &format!("{finding}: {what}"))?;
    }
    for fault in &section.judged.faults {
        say(out, &format!("{}: {fault}", fault.finding()))?;
    }
    for fault in &section.beside {
        say(out, &format!("next to it, {}: {fault}", fault.finding()))?;
    }
    for stray in &section.strays {
        match stray.finding {
            Finding::Intact => say(out, &stray.what)?,
            finding => say(out, &format!("{finding}: {}", stray.what))?,
        }
    }
    for note in &section.judged.notes {
        let kind = if note.is_question() { "question: " } else { "" };
        say(out, &format!("{kind}{note}"))?;
    }
    Ok(())
}

/// Whether the crew files it was judged by are told with it: those of drills are told with the trips
/// of the same people.
pub(super) fn is_by_its_crew(section: &Section<'_>, sections: &[Section<'_>]) -> bool {
    !section.lot.drills || sections.iter().all(|one| one.lot.drills)
}

fn tell_crews(section: &Section<'_>, out: &mut dyn Write) -> io::Result<()> {
    for crew in &section.lot.crews {
        let revision = crew.revision();
        say(
            out,
            &format!("by the crew file {revision}; compare this with your manager's"),
        )?;
    }
    Ok(())
}

fn tell_newest(section: &Section<'_>, out: &mut dyn Write) -> io::Result<()> {
    for newest in section.judged.newest.iter().filter(|_| section.whole) {
        let (seq, device) = (newest.seq, &newest.device);
        let told = match &newest.witnessed {
            None if section.lot.drills => format!(
                "no statement names drills; the newest of {device} here is drill {seq}, and later \
                 ones may be missing"
            ),
            None => format!(
                "no trip of {device} is witnessed yet; the newest here is trip {seq}, and later ones \
                 may be missing"
            ),
            Some((last, witness)) => format!(
                "nothing after trip {last} of {device} is witnessed; the newest here is trip {seq}; \
                 the last witness is {witness}"
            ),
        };
        say(out, &told)?;
    }
    for (manager, number) in section.newest_stated() {
        say(
            out,
            &format!(
                "the newest statement of {manager} here is {number}; later ones may be missing"
            ),
        )?;
    }
    Ok(())
}

/// One line, with whatever could move a cursor or turn the writing shown escaped.
pub(in crate::cli) fn say(out: &mut dyn Write, text: &str) -> io::Result<()> {
    let mut shown = String::with_capacity(text.len());
    for letter in text.chars() {
        if unprintable(letter) {
            shown.extend(letter.escape_debug());
        } else {
            shown.push(letter);
        }
    }
    writeln!(out, "{shown}")
}
