//! `hames logbook` by itself: the trips of a barn at a glance, on a screen or as text.

mod reading;
mod screen;
mod signing;

use crate::cli::Status;
use crate::cli::args::LookArgs;
use crate::cli::clerk::{Plans, TripRead, is_founded};
use crate::cli::command::quoted;
use crate::cli::logbook::AboutLogbook;
use crate::cli::logbook::glances::{Glances, Looked};
use crate::cli::logbook::known::Knowing;
use crate::cli::logbook::shelf::Failed;
use crate::cli::logbook::unknown;
use crate::cli::lot::lots;
use crate::cli::whose::Whose;
use crate::plain;
use crate::record::{Id, Mode, Opinion};
use crate::review::Glance;
use crate::store::{Local, TripFolder};
use crate::walk::Ended;
use crate::world::{Machine, World};
use serde::Serialize;
use std::io::Write;
use std::path::PathBuf;

const SCHEMA: &str = "hames-glance/1";

/// Shows the trips that are asked for, or tells of them where there is no terminal.
pub(super) fn look(
    asked: &LookArgs,
    (about, whose): (&AboutLogbook, &Whose),
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failed> {
    unknown::days(asked.since, asked.until)?;
    if about.is_on_screen(asked) {
        let there = about.year_in.is_some() || is_founded(&Local, about.place())?;
        // That there is no logbook is told in a line.
        if there {
            return Ok(screen::show(asked.filter(), about, whose, err));
        }
    }
    let looked = gather(&about.places)?;
    let filter = asked.filter();
    let glances = looked.glances.iter().map(|(glance, _)| glance);
    if let Some(rig) = &filter.rig {
        unknown::rig(rig, glances.clone().map(|one| one.rig.as_str()))?;
    }
    if let Some(person) = &filter.person {
        unknown::person(person, glances.clone().flat_map(Glance::people))?;
    }
    let taken = glances.filter(|one| filter.takes(one));
    let taken: Vec<&Glance> = taken.collect();
    if asked.json {
        for glance in &taken {
            serde_json::to_writer(&mut *out, &Told::of(glance)).map_err(std::io::Error::from)?;
            writeln!(out)?;
        }
    } else {
        if about.year_in.is_some() {
            let year = about.place();
            writeln!(
                out,
                "DEMO. The year of an invented barn: nobody in it lives. It lies in\n{}.\nBehind hames \
                 logbook --demo is this year, whatever is asked of it. Other commands\nlook at it with \
                 --logbook {}\nWalks of the demo barn itself lie beside it, in {}\n",
                year.display(),
                quoted(year),
                quoted(&year.with_file_name("demo"))
            )?;
        }
        let closed = looked.closed.iter();
        let closed: Vec<_> = closed
            .map(|(path, finding)| (quoted(path), *finding))
            .collect();
        write!(
            out,
            "{}",
            plain::look_report(&taken, (&filter, looked.glances.len()), &closed)
        )?;
    }
    Ok(Status::Fine)
}

/// Reads and judges every trip once.
fn gather(places: &[PathBuf]) -> Result<Looked, Failed> {
    let mut plans = Plans::default();
    let mut looked = Looked {
        glances: Vec::new(),
        closed: Vec::new(),
        mode: Mode::Real,
    };
    for lot in lots(places, &[])? {
        let mut glances = Glances::beside(&lot.statements);
        let mut knowing = Knowing::beside(&lot.statements);
        let mut see = |folder: &TripFolder, read: &TripRead| {
            glances.take(folder, read);
            knowing.take(folder, read, &lot.statements);
        };
        let section = lot.judge_seeing(&mut plans, None, &mut see)?;
        let known = knowing.settled(&section, Some(Machine::this().now().wall));
        let more = glances.settled(&section).beside(&known);
        looked.glances.extend(more.glances);
        looked.closed.extend(more.closed);
    }
    Ok(looked)
}

/// A trip as JSON.
#[derive(Serialize)]
struct Told<'g> {
    schema: &'static str,
    trip: &'g Id,
    device: &'g Id,
    number: u64,
    named: String,
    rig: &'g str,
    checklist: &'g str,
    revision: u32,
    who: &'g str,
    others: &'g [String],
    at: String,
    from_paper: bool,
    took_ms: u64,
    ended: Option<&'static str>,
    signed: bool,
    weight: &'static str,
    worst: &'static str,
    finding: &'static str,
    said: Option<Opinion>,
    open: bool,
    questions: usize,
    steps: usize,
    readings: usize,
    out_of_limits: usize,
    deferred: usize,
    corrected: usize,
    flagged: usize,
    left_open: usize,
}

impl<'g> Told<'g> {
    fn of(glance: &'g Glance) -> Self {
        let counts = glance.counts;
        Self {
            schema: SCHEMA,
            trip: &glance.trip,
            device: &glance.device,
            number: glance.seq,
            named: glance.named(),
            rig: &glance.rig,
            checklist: &glance.checklist,
            revision: glance.revision,
            who: &glance.who,
            others: &glance.others,
            at: glance.at.to_rfc3339(),
            from_paper: glance.from_paper,
            took_ms: glance.took_ms,
            ended: glance.ended.map(Ended::word),
            signed: glance.signed,
            weight: glance.weight().key(),
            worst: glance.worst.word(),
            finding: glance.finding.word(),
            said: glance.said,
            open: glance.is_open(),
            questions: glance.questions(),
            steps: counts.steps,
            readings: counts.readings,
            out_of_limits: counts.out_of_limits,
            deferred: counts.deferred,
            corrected: counts.corrected,
            flagged: counts.flagged,
            left_open: glance.left_open,
        }
    }
}
